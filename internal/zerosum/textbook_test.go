package zerosum

import (
	"math"
	"slices"
	"testing"
)

const tiny = 1e-9

// textbook games with their published solutions; all from memory. A nil mix is one that
// is not unique.
var textbook = []struct {
	name, source  string
	game          Game
	value         float64
	rows, columns []float64
}{
	{"matching pennies", "von Neumann and Morgenstern (1944), Theory of Games and Economic Behavior, 14.7.2",
		Game{{1, -1}, {-1, 1}}, 0, []float64{.5, .5}, []float64{.5, .5}},
	{"stone, paper, scissors", "the same, 14.7.2",
		Game{{0, -1, 1}, {1, 0, -1}, {-1, 1, 0}}, 0, []float64{1. / 3, 1. / 3, 1. / 3}, []float64{1. / 3, 1. / 3, 1. / 3}},
	{"Moriarty after Holmes", "the same, 18.4.4: Dover 60 and 40 in 100, value 40",
		Game{{100, 0}, {-50, 100}}, 40, []float64{.6, .4}, []float64{.4, .6}},
	{"odd or even, two fingers", "Ferguson, Game Theory, II.1.2: 7/12, 5/12, value 1/12",
		Game{{-2, 3}, {3, -4}}, 1. / 12, []float64{7. / 12, 5. / 12}, []float64{7. / 12, 5. / 12}},
	{"dominance in turn", "Ferguson, II.2.3",
		Game{{2, 0, 4}, {1, 2, 3}, {4, 1, 2}}, 7. / 4, []float64{0, 3. / 4, 1. / 4}, []float64{1. / 4, 3. / 4, 0}},
	{"dominance by a mix", "Ferguson, II.2.3",
		Game{{0, 4, 6}, {5, 7, 4}, {9, 6, 3}}, 9. / 2, []float64{1. / 2, 0, 1. / 2}, []float64{1. / 4, 0, 3. / 4}},
	{"diagonal", "Ferguson, II.3.3: shares as 1/d",
		Game{{1, 0, 0}, {0, 2, 0}, {0, 0, 4}}, 4. / 7, []float64{4. / 7, 2. / 7, 1. / 7}, []float64{4. / 7, 2. / 7, 1. / 7}},
	{"two-finger Morra", "Dantzig (1963), Linear Programming and Extensions, 13.1: value 0, many optimal mixes",
		morra, 0, nil, nil},
	{"Mendelsohn's numbers, 1 to 20", "Mendelsohn (1946), Amer. Math. Monthly 53; Ferguson, II.3.5: 1, 2, 3 as 1:2:1",
		mendelsohn(20), 0, append([]float64{.25, .5, .25}, make([]float64, 17)...), append([]float64{.25, .5, .25}, make([]float64, 17)...)},
	{"Colonel Blotto, 4 regiments against 3", "Ferguson, II.3.6: value 14/9, 4:4:0:0:1",
		blotto(4, 3), 14. / 9, []float64{4. / 9, 0, 1. / 9, 0, 4. / 9}, nil},
}

// morra: strategies show and call (1,1), (1,2), (2,1), (2,2); who alone calls right wins
// the fingers shown.
var morra = Game{{0, 2, -3, 0}, {-2, 0, 0, 3}, {3, 0, 0, -4}, {0, -3, 4, 0}}

// mendelsohn: both name a number from 1 to n. One more than the other's wins 1, two more or
// above loses 2.
func mendelsohn(n int) Game {
	pay := func(d int) float64 {
		switch {
		case d == 0:
			return 0
		case d == 1:
			return 1
		}
		return -2
	}
	g := make(Game, n)
	for i := range g {
		for j := range n {
			if i >= j {
				g[i] = append(g[i], pay(i-j))
			} else {
				g[i] = append(g[i], -pay(j-i))
			}
		}
	}
	return g
}

// blotto: regiments are spread over two posts; the larger force takes a post (1) and the
// regiments it finds there. Rows: a-i at the first post, i at the second.
func blotto(a, b int) Game {
	post := func(x, y int) float64 {
		switch {
		case x > y:
			return float64(y + 1)
		case x < y:
			return -float64(x + 1)
		}
		return 0
	}
	var g Game
	for i := 0; i <= a; i++ {
		var row []float64
		for j := 0; j <= b; j++ {
			row = append(row, post(a-i, b-j)+post(i, j))
		}
		g = append(g, row)
	}
	return g
}

func TestTextbook(t *testing.T) {
	for _, c := range textbook {
		t.Run(c.name, func(t *testing.T) {
			s, err := Solve(c.game)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(s.Value-c.value) > tiny {
				t.Errorf("value %v, want %v (%s)", s.Value, c.value, c.source)
			}
			for what, mix := range map[string][2][]float64{"rows": {s.Rows, c.rows}, "columns": {s.Columns, c.columns}} {
				if mix[1] != nil && !near(mix[0], mix[1]) {
					t.Errorf("%s %v, want %v (%s)", what, mix[0], mix[1], c.source)
				}
			}
			if gap := exploitability(c.game, s); gap > tiny {
				t.Errorf("the mixes leave a gap of %g", gap)
			}
		})
	}
}

// TestMorra: every mix of the second and third strategy with between 4/7 and 3/5 on the
// second is optimal. Source: Dantzig (1963), 13.1, from memory; by hand, 3 - 5p and
// 7p - 4 must not be negative.
func TestMorra(t *testing.T) {
	s, err := Solve(morra)
	if err != nil {
		t.Fatal(err)
	}
	for _, mix := range [][]float64{s.Rows, s.Columns} {
		if p := mix[1]; p < 4./7-tiny || p > 3./5+tiny || math.Abs(mix[1]+mix[2]-1) > tiny {
			t.Errorf("mix %v", mix)
		}
	}
}

// TestTwoByTwo: without a saddle the value is (ad - bc)/(a + d - b - c) and the first row's
// share (d - c)/(a + d - b - c). Source: von Neumann and Morgenstern (1944), 18.2, from memory.
func TestTwoByTwo(t *testing.T) {
	r := source(1)
	tried := 0
	for range 500 {
		a, b, c, d := r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64()
		g := Game{{a, b}, {c, d}}
		s, err := Solve(g)
		if err != nil {
			t.Fatal(err)
		}
		if saddles := g.Saddles(); len(saddles) > 0 {
			if at := saddles[0]; math.Abs(s.Value-g[at.Row][at.Column]) > tiny {
				t.Errorf("%v: value %v is not that of the saddle %v", g, s.Value, at)
			}
			continue
		}
		tried++
		k := a + d - b - c
		if math.Abs(s.Value-(a*d-b*c)/k) > tiny || !near(s.Rows, []float64{(d - c) / k, (a - b) / k}) || !near(s.Columns, []float64{(d - b) / k, (a - c) / k}) {
			t.Errorf("%v: %+v", g, s)
		}
	}
	if tried < 50 {
		t.Errorf("only %d games without a saddle", tried)
	}
}

func TestSecurityAndSaddles(t *testing.T) {
	// Worked by hand: row minima 1, 2, 0; column maxima 5, 2, 4.
	g := Game{{1, 2, 4}, {5, 2, 3}, {0, 1, 1}}
	if s := g.Security(); s != (Security{Row: 1, Least: 2, Column: 1, Most: 2}) {
		t.Errorf("%+v", s)
	}
	if got := g.Saddles(); !slices.Equal(got, []Cell{{1, 1}}) {
		t.Errorf("saddles %v", got)
	}
	if got := g.BestRows(1); !slices.Equal(got, []int{0, 1}) {
		t.Errorf("best rows %v", got)
	}
	if got := g.BestColumns(0); !slices.Equal(got, []int{0}) {
		t.Errorf("best columns %v", got)
	}
	// All saddles of a game have the same value and form a rectangle. Source: von Neumann
	// and Morgenstern (1944), 13.5, from memory.
	if got := (Game{{1, 2, 1}, {1, 3, 1}, {0, 9, 1}}).Saddles(); !slices.Equal(got, []Cell{{0, 0}, {1, 0}, {0, 2}, {1, 2}}) && len(got) != 4 {
		t.Errorf("saddles %v", got)
	}
	if s := (Game{{1, -1}, {-1, 1}}).Security(); s.Least != -1 || s.Most != 1 {
		t.Errorf("%+v", s)
	}
	if got := (Game{{1, -1}, {-1, 1}}).Saddles(); got != nil {
		t.Errorf("matching pennies has saddles %v", got)
	}
}

// TestPrices: Moriarty's game is worth 40. Always Dover is worth 0 to him against Holmes in
// Canterbury; always Dover gives Holmes away at 100. By hand.
func TestPrices(t *testing.T) {
	rows, columns := (Game{{100, 0}, {-50, 100}}).Prices(40)
	if !near(rows, []float64{40, 90}) || !near(columns, []float64{60, 60}) {
		t.Errorf("rows %v, columns %v", rows, columns)
	}
	rows, columns = (Game{{1, 2, 4}, {5, 2, 3}, {0, 1, 1}}).Prices(2)
	if !near(rows, []float64{1, 0, 2}) || !near(columns, []float64{3, 0, 2}) {
		t.Errorf("rows %v, columns %v", rows, columns)
	}
}

func near(a, b []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > tiny {
			return false
		}
	}
	return len(a) == len(b)
}

// exploitability is what both sides together could gain against a pair of mixes, written
// out anew: 0 exactly for a solution.
func exploitability(g Game, s Solution) float64 {
	most, least := math.Inf(-1), math.Inf(1)
	for i := range g {
		v := 0.0
		for j := range g[i] {
			v += g[i][j] * s.Columns[j]
		}
		most = max(most, v)
	}
	for j := range g[0] {
		v := 0.0
		for i := range g {
			v += g[i][j] * s.Rows[i]
		}
		least = min(least, v)
	}
	return most - least
}
