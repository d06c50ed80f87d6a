package zerosum

import (
	"fmt"
	"math"
)

// Game is what the row side gets, by row and column. It is rectangular, not empty, and
// every entry is finite.
type Game [][]float64

// Check says what is wrong with a game.
func (g Game) Check() error {
	if len(g) == 0 || len(g[0]) == 0 {
		return fmt.Errorf("zerosum: a game needs a row and a column")
	}
	for i, row := range g {
		if len(row) != len(g[0]) {
			return fmt.Errorf("zerosum: row %d has %d entries, row 0 has %d", i, len(row), len(g[0]))
		}
		for j, a := range row {
			if math.IsNaN(a) || math.IsInf(a, 0) {
				return fmt.Errorf("zerosum: entry (%d, %d) is %v", i, j, a)
			}
		}
	}
	return nil
}

// turned is the same game seen by the column side: it becomes the rows, and gets what
// the other loses.
func (g Game) turned() Game {
	out := make(Game, len(g[0]))
	for j := range out {
		out[j] = make([]float64, len(g))
		for i := range g {
			out[j][i] = -g[i][j]
		}
	}
	return out
}

// bounds are the smallest and the largest entry.
func (g Game) bounds() (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, row := range g {
		for _, a := range row {
			lo, hi = min(lo, a), max(hi, a)
		}
	}
	return lo, hi
}

// RowPayoffs is what each row gets against a mix of columns.
func (g Game) RowPayoffs(columns []float64) []float64 {
	out := make([]float64, len(g))
	for i, row := range g {
		for j, a := range row {
			out[i] += a * columns[j]
		}
	}
	return out
}

// ColumnPayoffs is what the row side gets from a mix of rows against each column.
func (g Game) ColumnPayoffs(rows []float64) []float64 {
	out := make([]float64, len(g[0]))
	for i, row := range g {
		for j, a := range row {
			out[j] += a * rows[i]
		}
	}
	return out
}

// Security is what each side is sure of when it does not mix.
type Security struct {
	Row    int     // the safest row: its worst entry is the best of all (maximin)
	Least  float64 // that entry: the row side gets at least this
	Column int     // the safest column: its worst entry is the smallest of all (minimax)
	Most   float64 // that entry: the column side gives away no more than this
}

// Security finds the safest row and column. Ties go to the first.
func (g Game) Security() Security {
	s := Security{Least: math.Inf(-1), Most: math.Inf(1)}
	for i, row := range g {
		worst := math.Inf(1)
		for _, a := range row {
			worst = min(worst, a)
		}
		if worst > s.Least {
			s.Row, s.Least = i, worst
		}
	}
	for j := range g[0] {
		worst := math.Inf(-1)
		for i := range g {
			worst = max(worst, g[i][j])
		}
		if worst < s.Most {
			s.Column, s.Most = j, worst
		}
	}
	return s
}

// Cell is an entry of a game.
type Cell struct{ Row, Column int }

// Saddles lists the entries that are the smallest of their row and the largest of their
// column: neither side gains by changing alone, so no side needs to mix. There are none
// exactly when maximin is below minimax.
func (g Game) Saddles() []Cell {
	var out []Cell
	s := g.Security()
	if s.Least < s.Most {
		return nil
	}
	for i, row := range g {
		for j, a := range row {
			if a == s.Least && isLeast(row, j) && isMost(g, i, j) {
				out = append(out, Cell{i, j})
			}
		}
	}
	return out
}

func isLeast(row []float64, j int) bool {
	for _, a := range row {
		if a < row[j] {
			return false
		}
	}
	return true
}

func isMost(g Game, i, j int) bool {
	for k := range g {
		if g[k][j] > g[i][j] {
			return false
		}
	}
	return true
}

// BestRows lists the rows that get most against a column.
func (g Game) BestRows(column int) []int {
	var out []int
	for i := range g {
		if isMost(g, i, column) {
			out = append(out, i)
		}
	}
	return out
}

// BestColumns lists the columns that leave least to a row.
func (g Game) BestColumns(row int) []int {
	var out []int
	for j := range g[row] {
		if isLeast(g[row], j) {
			out = append(out, j)
		}
	}
	return out
}

// Prices are what a side gives away, against the value of the game, when it always plays
// one row (or column) and the other side knows: 0 for a row that is optimal alone, never
// less but for rounding.
func (g Game) Prices(value float64) (rows, columns []float64) {
	columns = make([]float64, len(g[0]))
	for j := range columns {
		columns[j] = math.Inf(-1)
	}
	for _, row := range g {
		worst := math.Inf(1)
		for j, a := range row {
			worst = min(worst, a)
			columns[j] = max(columns[j], a-value)
		}
		rows = append(rows, max(value-worst, 0))
	}
	for j := range columns {
		columns[j] = max(columns[j], 0)
	}
	return rows, columns
}
