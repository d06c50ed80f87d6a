package zerosum

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

func source(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 7)) }

// random makes a game of normal or, with ties and duplicates, of small whole payoffs.
func random(r *rand.Rand, m, n int, whole bool) Game {
	g := make(Game, m)
	for i := range g {
		for range n {
			x := r.NormFloat64()
			if whole {
				x = float64(r.IntN(4))
			}
			g[i] = append(g[i], x)
		}
	}
	if whole && m > 2 {
		g[m-1] = append([]float64(nil), g[0]...)
	}
	return g
}

// The two mixes prove each other optimal in every game: the minimax property.
func TestRandomGames(t *testing.T) {
	r := source(2)
	for k := range 400 {
		m, n := 1+r.IntN(12), 1+r.IntN(12)
		g := random(r, m, n, k%2 == 1)
		s, err := Solve(g)
		if err != nil {
			t.Fatalf("%v: %v", g, err)
		}
		for _, mix := range [][]float64{s.Rows, s.Columns} {
			if math.Abs(floats.Sum(mix)-1) > tiny || floats.Min(mix) < 0 {
				t.Errorf("mix %v", mix)
			}
		}
		if gap := exploitability(g, s); gap > 1e-8 || gap < -1e-8 {
			t.Errorf("%v: gap %g", g, gap)
		}
		sec := g.Security()
		if s.Value < sec.Least-1e-8 || s.Value > sec.Most+1e-8 {
			t.Errorf("value %v outside %v to %v", s.Value, sec.Least, sec.Most)
		}
		if (sec.Least == sec.Most) != (len(g.Saddles()) > 0) {
			t.Errorf("%v: maximin %v, minimax %v, saddles %v", g, sec.Least, sec.Most, g.Saddles())
		}
	}
}

// An independent computation: regret matching, whose average play approaches the value.
// Reference: Tammelin (2014), Solving large imperfect information games using CFR+,
// from memory.
func TestAgainstRegretMatching(t *testing.T) {
	r := source(3)
	for range 10 {
		g := random(r, 6, 8, false)
		s, err := Solve(g)
		if err != nil {
			t.Fatal(err)
		}
		if v := regretMatching(g, 20000); math.Abs(v-s.Value) > 0.005 {
			t.Errorf("value %v, by regret matching %v", s.Value, v)
		}
	}
}

func regretMatching(g Game, rounds int) float64 {
	x, y := make([]float64, len(g)), make([]float64, len(g[0]))
	total := make([]float64, len(y))
	strategy := func(regret []float64) []float64 {
		p, sum := make([]float64, len(regret)), 0.0
		for _, v := range regret {
			sum += v
		}
		for i, v := range regret {
			p[i] = 1 / float64(len(p))
			if sum > 0 {
				p[i] = v / sum
			}
		}
		return p
	}
	for round := range rounds {
		p, q := strategy(x), strategy(y)
		rows, columns := g.RowPayoffs(q), g.ColumnPayoffs(p)
		v := floats.Dot(rows, p)
		for i := range x {
			x[i] = max(x[i]+rows[i]-v, 0)
		}
		for j := range y {
			y[j] = max(y[j]+v-columns[j], 0)
			total[j] += float64(round) * q[j]
		}
	}
	floats.Scale(1/floats.Sum(total), total)
	return floats.Max(g.RowPayoffs(total))
}

// The revised simplex method of gonum gives the same value. Solved with its slacks as the
// first basis, as in its own documentation.
func TestAgainstRevisedSimplex(t *testing.T) {
	r := source(6)
	for range 50 {
		m, n := 1+r.IntN(8), 1+r.IntN(8)
		g := random(r, m, n, false)
		s, err := Solve(g)
		if err != nil {
			t.Fatal(err)
		}
		lo, _ := g.bounds()
		a, b, c := mat.NewDense(m, n+m, nil), make([]float64, m), make([]float64, n+m)
		basis := make([]int, m)
		for i, row := range g {
			for j, x := range row {
				a.Set(i, j, 1+x-lo)
				c[j] = -1
			}
			a.Set(i, n+i, 1)
			b[i], basis[i] = 1, n+i
		}
		f, _, err := lp.Simplex(c, a, b, 1e-12, basis)
		if err != nil {
			t.Fatal(err)
		}
		if v := -1/f - 1 + lo; math.Abs(v-s.Value) > 1e-8 {
			t.Errorf("value %v, by gonum %v", s.Value, v)
		}
	}
}

// Rows that nearly tie and entries of very different size are solved to what the coarse
// entries allow, and searched for dominance without a fault.
func TestIllConditioned(t *testing.T) {
	r := source(99)
	for k := range 1500 {
		g := random(r, 1+r.IntN(10), 1+r.IntN(10), k%2 == 0)
		for i := range g {
			for j := range g[i] {
				if k%3 == 0 && r.IntN(3) == 0 {
					g[i][j] = 0
				} else if k%3 == 0 {
					g[i][j] *= math.Pow(10, float64(r.IntN(9)-4))
				}
			}
		}
		if last := len(g) - 1; k%5 == 0 && last > 0 {
			for j := range g[0] {
				g[last][j] = g[0][j] + 1e-10*r.NormFloat64()
			}
		}
		s, err := Solve(g)
		if err != nil {
			t.Errorf("%v: %v", g, err)
			continue
		}
		lo, hi := g.bounds()
		if gap := exploitability(g, s); gap > 4*coarse*max(hi-lo, 1e-9) {
			t.Errorf("%v: gap %g", g, gap)
		}
		if _, err := g.DominatedRows(); err != nil {
			t.Error(err)
		}
		if _, err := g.DominatedColumns(); err != nil {
			t.Error(err)
		}
	}
}

func TestDegenerate(t *testing.T) {
	for _, c := range []struct {
		name  string
		game  Game
		value float64
	}{
		{"one entry", Game{{3}}, 3},
		{"one row", Game{{3, 1, 2}}, 1},
		{"one column", Game{{3}, {1}, {5}}, 5},
		{"all the same", Game{{2, 2, 2}, {2, 2, 2}}, 2},
		{"nothing at all", Game{{0, 0}, {0, 0}}, 0},
		{"doubled rows and columns", Game{{1, -1, 1}, {-1, 1, -1}, {1, -1, 1}}, 0},
		{"tiny payoffs", Game{{1e-9, -1e-9}, {-1e-9, 1e-9}}, 0},
		{"far from 0", Game{{1e6 + 1, 1e6 - 1}, {1e6 - 1, 1e6 + 1}}, 1e6},
		{"a column better everywhere", Game{{5, 1}, {6, 2}}, 2},
	} {
		s, err := Solve(c.game)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if math.Abs(s.Value-c.value) > 1e-8 {
			t.Errorf("%s: value %v, want %v", c.name, s.Value, c.value)
		}
	}
}

func TestImpossibleGames(t *testing.T) {
	for _, g := range []Game{nil, {}, {{}}, {{1, 2}, {3}}, {{math.NaN()}}, {{math.Inf(1), 0}}} {
		if _, err := Solve(g); err == nil {
			t.Errorf("%v was solved", g)
		}
		if _, err := g.DominatedRows(); err == nil {
			t.Errorf("%v was searched for dominance", g)
		}
	}
}

func BenchmarkSolve5x5(b *testing.B) {
	g := random(source(4), 5, 5, false)
	for b.Loop() {
		if _, err := Solve(g); err != nil {
			b.Fatal(err)
		}
	}
}
