package zerosum

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// Solution is a game's value and one pair of optimal mixes; there may be others.
type Solution struct {
	Value   float64
	Rows    []float64 // how often each row is played; they add to 1
	Columns []float64
	// Gap is how far the two mixes are from proving each other optimal: what the row
	// side could still gain against Columns, less what its mix is sure of. 0 but for
	// rounding.
	Gap float64
}

// gapTolerance is the largest gap of a solution, as a share of the range of the entries.
const gapTolerance = 1e-7

// Solve finds optimal mixes of both sides (von Neumann's minimax theorem says that they
// exist and agree on the value). Each side's mix is a linear programme of its own, and
// the pair is checked: what the rows' mix is sure of and what the columns' mix gives away
// at most must be the same.
func Solve(g Game) (Solution, error) {
	if err := g.Check(); err != nil {
		return Solution{}, err
	}
	columns, err := minimise(g)
	if err != nil {
		return Solution{}, err
	}
	rows, err := minimise(g.turned())
	if err != nil {
		return Solution{}, err
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, v := range g.ColumnPayoffs(rows) {
		least = min(least, v)
	}
	for _, v := range g.RowPayoffs(columns) {
		most = max(most, v)
	}
	s := Solution{Value: (least + most) / 2, Rows: rows, Columns: columns, Gap: most - least}
	lo, hi := g.bounds()
	if s.Gap > gapTolerance*max(hi-lo, math.SmallestNonzeroFloat64) && s.Gap > 1e-12*max(math.Abs(lo), math.Abs(hi)) {
		return s, fmt.Errorf("zerosum: the linear programmes of the two sides disagree by %g", s.Gap)
	}
	return s, nil
}

// minimise is the optimal mix of the columns. With the entries moved into 1 to 2, so that
// the value is positive,
//
//	maximise sum w  subject to  A w <= 1, w >= 0;   value = 1 / sum w,  mix = w value
//
// The slacks of the rows are a first solution, so nothing has to be found feasible.
// Reference: Dantzig (1951), from memory.
func minimise(g Game) ([]float64, error) {
	m, n := len(g), len(g[0])
	lo, hi := g.bounds()
	span := hi - lo
	if span == 0 {
		span = 1
	}
	a := mat.NewDense(m, n+m, nil)
	b, c := make([]float64, m), make([]float64, n+m)
	slacks := make([]int, m)
	for i, row := range g {
		for j, x := range row {
			a.Set(i, j, 1+(x-lo)/span)
		}
		a.Set(i, n+i, 1)
		b[i], slacks[i] = 1, n+i
	}
	for j := range n {
		c[j] = -1
	}
	_, w, err := lp.Simplex(c, a, b, 1e-12, slacks)
	if err != nil {
		return nil, fmt.Errorf("zerosum: solving a game of %d by %d: %w", m, n, err)
	}
	return normalised(w[:n]), nil
}

// normalised makes a mix of weights: not negative, adding to 1.
func normalised(w []float64) []float64 {
	out := make([]float64, len(w))
	sum := 0.0
	for i, x := range w {
		if x > 1e-12 { // less is rounding
			out[i] = x
			sum += x
		}
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}
