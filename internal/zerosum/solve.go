package zerosum

import (
	"fmt"
	"math"
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
// Games whose rows or columns are nearly the same are ill-conditioned; their entries are
// then kept to coarse only, as a share of the range, which makes ties of what nearly ties.
const (
	gapTolerance = 1e-7
	coarse       = 1.0 / (1 << 20)
)

// Solve finds optimal mixes of both sides (von Neumann's minimax theorem says that they
// exist and agree on the value). With the entries moved into 1 to 2, so that the value is
// positive, the columns' mix is the linear programme
//
//	maximise sum w  subject to  A w <= 1, w >= 0;   value = 1 / sum w,  mix = w value
//
// and the rows' mix its dual. The pair is checked: what the rows' mix is sure of and what
// the columns' mix gives away at most must be the same.
// Reference: Dantzig (1951), from memory.
func Solve(g Game) (Solution, error) {
	if err := g.Check(); err != nil {
		return Solution{}, err
	}
	s, span, err := g.nearly()
	if err == nil && !(s.Gap <= 4*coarse*span) { // also catches NaN
		err = fmt.Errorf("zerosum: the mixes of a game of %d by %d leave a gap of %g", len(g), len(g[0]), s.Gap)
	}
	return s, err
}

// nearly is the solution as well as it can be had, and the range of the entries.
func (g Game) nearly() (s Solution, span float64, err error) {
	lo, hi := g.bounds()
	span = max(hi-lo, 1e-12*max(math.Abs(lo), math.Abs(hi))) // below that all are the same
	if span == 0 {
		span = 1
	}
	s, err = g.solve(lo, span, 0)
	if err == nil && s.Gap <= gapTolerance*span {
		return s, span, nil
	}
	s, err = g.solve(lo, span, coarse)
	return s, span, err
}

// solve solves the programme with the entries less lo, over span, in whole numbers of
// unit; 0: as they are.
func (g Game) solve(lo, span, unit float64) (Solution, error) {
	a := make([][]float64, len(g))
	b, c := make([]float64, len(g)), make([]float64, len(g[0]))
	for i, row := range g {
		a[i], b[i] = make([]float64, len(row)), 1
		for j, x := range row {
			x = (x - lo) / span
			if unit > 0 {
				x = math.Round(x/unit) * unit
			}
			a[i][j], c[j] = 1+x, 1
		}
	}
	w, u, err := maximise(a, b, c)
	if err != nil {
		return Solution{}, err
	}
	s := Solution{Rows: normalised(u), Columns: normalised(w)}
	least, most := math.Inf(1), math.Inf(-1)
	for _, v := range g.ColumnPayoffs(s.Rows) {
		least = min(least, v)
	}
	for _, v := range g.RowPayoffs(s.Columns) {
		most = max(most, v)
	}
	s.Value, s.Gap = (least+most)/2, most-least
	return s, nil
}

// normalised makes a mix of weights: not negative, adding to 1.
func normalised(w []float64) []float64 {
	out := make([]float64, len(w))
	sum := 0.0
	for i, x := range w {
		if x > 1e-10 { // less is rounding
			out[i] = x
			sum += x
		}
	}
	for i := range out {
		out[i] /= sum
	}
	return out
}
