package zerosum

import (
	"fmt"
	"slices"
)

// Dominance is a row (or column) that its side need never play.
type Dominance struct {
	Index  int
	By     []float64 // the mix of the others that does as well against everything
	Strict bool      // better against everything; otherwise never worse, and somewhere better
}

// Alone is the index of the one row that dominates, or -1 when it takes a mix.
func (d Dominance) Alone() int {
	for i, p := range d.By {
		if p == 1 {
			return i
		}
	}
	return -1
}

// margin is the share of the range of the entries below which a difference counts as
// rounding.
const margin = 1e-9

// DominatedRows lists the rows that are dominated by another row or by a mix of others. A
// row that dominates alone is preferred to a mix. Of rows that are equal everywhere none
// dominates the other.
func (g Game) DominatedRows() ([]Dominance, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	lo, hi := g.bounds()
	if hi == lo {
		return nil, nil
	}
	var out []Dominance
	for i := range g {
		d, found, err := g.dominated(i, margin*(hi-lo))
		if err != nil {
			return nil, err
		}
		if found {
			out = append(out, d)
		}
	}
	return out, nil
}

// DominatedColumns is DominatedRows for the other side: a column is dominated when the
// others never leave the row side more.
func (g Game) DominatedColumns() ([]Dominance, error) {
	if err := g.Check(); err != nil {
		return nil, err
	}
	return g.turned().DominatedRows()
}

func (g Game) dominated(i int, tolerance float64) (Dominance, bool, error) {
	if g.leads(i, tolerance) { // then nothing does as well everywhere; and no programme has to be solved
		return Dominance{}, false, nil
	}
	if d, found := g.dominatedAlone(i, tolerance); found && d.Strict || len(g) < 3 { // no others to mix
		return d, found, nil
	} else if mixed, strict, err := g.dominatedStrictly(i, tolerance); err != nil || strict {
		return mixed, strict, err
	} else if found {
		return d, true, nil
	}
	return g.dominatedWeakly(i, tolerance)
}

// leads reports whether a row is better than every other against some column.
func (g Game) leads(i int, tolerance float64) bool {
	for j, a := range g[i] {
		best := true
		for k := range g {
			best = best && (k == i || a > g[k][j]+tolerance)
		}
		if best {
			return true
		}
	}
	return false
}

// dominatedAlone looks for a single row, a strictly better one first; of several for the
// one that gains most in all, which no other row dominates.
func (g Game) dominatedAlone(i int, tolerance float64) (best Dominance, found bool) {
	most := 0.0
	for k, row := range g {
		never, always, gain := true, true, 0.0 // worse; better
		for j, a := range row {
			d := a - g[i][j]
			never = never && d >= -tolerance
			always = always && d > tolerance
			gain += d
		}
		if k == i || !never || gain <= tolerance || best.Strict && !always {
			continue
		}
		if !found || always && !best.Strict || gain > most {
			best, found, most = Dominance{i, alone(k, len(g)), always}, true, gain
		}
	}
	return best, found
}

func alone(k, n int) []float64 {
	mix := make([]float64, n)
	mix[k] = 1
	return mix
}

// dominatedStrictly: the others beat row i against every column exactly when the game of
// their advantages over it has a positive value.
func (g Game) dominatedStrictly(i int, tolerance float64) (Dominance, bool, error) {
	var advantage Game
	var of []int
	for k, row := range g {
		if k == i {
			continue
		}
		d := make([]float64, len(row))
		for j := range row {
			d[j] = row[j] - g[i][j]
		}
		advantage, of = append(advantage, d), append(of, k)
	}
	s, _, err := advantage.nearly()
	if err != nil || slices.Min(advantage.ColumnPayoffs(s.Rows)) <= tolerance { // what the mix is sure of
		return Dominance{}, false, err
	}
	mix := make([]float64, len(g))
	for k, p := range s.Rows {
		mix[of[k]] = p
	}
	return Dominance{i, mix, true}, true, nil
}

// dominatedWeakly asks a linear programme for the mix p of the others that gains most over
// row i in all and loses nowhere. With the advantages D_k = A_k - A_i:
//
//	maximise sum p D  subject to  -p D <= 0, sum p <= 1, p >= 0
func (g Game) dominatedWeakly(i int, tolerance float64) (Dominance, bool, error) {
	m, n := len(g), len(g[0])
	lo, hi := g.bounds()
	a := make([][]float64, n+1)
	b, c := make([]float64, n+1), make([]float64, m)
	for j := range a {
		a[j] = make([]float64, m)
	}
	for k, row := range g {
		for j, x := range row {
			d := (x - g[i][j]) / (hi - lo)
			a[j][k] = -d
			c[k] += d
		}
		a[n][k] = 1
	}
	b[n] = 1
	p, _, err := maximise(a, b, c)
	if err != nil {
		return Dominance{}, false, fmt.Errorf("zerosum: looking for a mix that dominates row %d: %w", i, err)
	}
	p[i] = 0 // it gains nothing over itself
	gain := 0.0
	for k, v := range p {
		gain += v * c[k]
	}
	if gain*(hi-lo) <= tolerance {
		return Dominance{}, false, nil
	}
	mix := normalised(p)
	for j, v := range g.ColumnPayoffs(mix) {
		if v < g[i][j]-2*tolerance { // the rounding of an ill-conditioned programme
			return Dominance{}, false, nil
		}
	}
	return Dominance{i, mix, false}, true, nil
}
