package zerosum

import (
	"slices"
	"testing"
)

func TestDominanceByHand(t *testing.T) {
	for _, c := range []struct {
		name    string
		game    Game
		rows    []Dominance
		columns []Dominance
	}{
		{"none", Game{{1, -1}, {-1, 1}}, nil, nil},
		{"a row alone, strictly", Game{{2, 3}, {1, 2}}, []Dominance{{1, []float64{1, 0}, true}}, []Dominance{{1, []float64{1, 0}, true}}},
		{"a row alone, weakly", Game{{2, 3}, {2, 2}}, []Dominance{{1, []float64{1, 0}, false}}, []Dominance{{1, []float64{1, 0}, false}}},
		{"equal rows", Game{{2, 3, 1}, {2, 3, 1}}, nil, []Dominance{{0, []float64{0, 0, 1}, true}, {1, []float64{0, 0, 1}, true}}},
		// Ferguson, Game Theory, II.2.3, from memory: the middle column falls to half and half of the outer ones.
		{"a mix, strictly", Game{{0, 4, 6}, {5, 7, 4}, {9, 6, 3}}, nil, []Dominance{{1, nil, true}}},
		// By hand: half and half of the first two gives 2, 2, 1: never worse than the third, once better.
		{"a mix, weakly", Game{{4, 0, 1}, {0, 4, 1}, {2, 2, 0}}, []Dominance{{2, nil, false}}, nil},
		{"one entry", Game{{1}}, nil, nil},
		{"nothing at all", Game{{0, 0}, {0, 0}}, nil, nil},
	} {
		rows, err := c.game.DominatedRows()
		if err != nil {
			t.Fatal(err)
		}
		same(t, c.name+", rows", rows, c.rows)
		if c.columns != nil {
			columns, err := c.game.DominatedColumns()
			if err != nil {
				t.Fatal(err)
			}
			same(t, c.name+", columns", columns, c.columns)
		}
	}
}

func same(t *testing.T, name string, got, want []Dominance) {
	t.Helper()
	ok := len(got) == len(want)
	for i := 0; ok && i < len(got); i++ {
		ok = got[i].Index == want[i].Index && got[i].Strict == want[i].Strict && (want[i].By == nil || slices.Equal(got[i].By, want[i].By))
	}
	if !ok {
		t.Errorf("%s: %v, want %v", name, got, want)
	}
}

// Every claim is checked by adding up, and what a grid over all mixes of three rows finds
// must be claimed.
func TestDominanceOfRandomGames(t *testing.T) {
	r := source(5)
	claims := [2]int{}
	for range 300 {
		g := random(r, 3, 1+r.IntN(4), true)
		for i := range g[2] {
			g[2][i] = float64(r.IntN(4)) // no duplicate here
		}
		found, err := g.DominatedRows()
		if err != nil {
			t.Fatalf("%v: %v", g, err)
		}
		byIndex := map[int]Dominance{}
		for _, d := range found {
			byIndex[d.Index] = d
			never, always, better := compare(g, d.By, d.Index)
			if d.By[d.Index] != 0 || !never || !better || d.Strict && !always {
				t.Errorf("%v: %+v does not hold", g, d)
			}
			if d.Strict {
				claims[0]++
			} else {
				claims[1]++
			}
		}
		for i := range g {
			const steps = 60
			for k := 0; k <= steps; k++ {
				mix := make([]float64, 3)
				mix[(i+1)%3], mix[(i+2)%3] = float64(k)/steps, float64(steps-k)/steps
				never, always, better := compare(g, mix, i)
				d, claimed := byIndex[i]
				if never && better && !claimed || always && !d.Strict {
					t.Errorf("%v: %v dominates row %d, found %+v", g, mix, i, found)
				}
			}
		}
	}
	if claims[0] < 20 || claims[1] < 20 {
		t.Errorf("claims %v are too few to test", claims)
	}
}

// compare says whether a mix is never worse than row i, always better, anywhere better.
func compare(g Game, mix []float64, i int) (never, always, better bool) {
	never, always = true, true
	for j, v := range g.ColumnPayoffs(mix) {
		d := v - g[i][j]
		never = never && d >= -1e-8
		always = always && d > 1e-8
		better = better || d > 1e-8
	}
	return never, always, better
}

// A dominated row needs no share: taking it away leaves the value.
func TestDominatedRowsAreNotMissed(t *testing.T) {
	for _, c := range textbook {
		before, err := Solve(c.game)
		if err != nil {
			t.Fatal(err)
		}
		dominated, err := c.game.DominatedRows()
		if err != nil {
			t.Fatal(err)
		}
		if len(dominated) == 0 {
			continue
		}
		after, err := Solve(slices.Delete(slices.Clone(c.game), dominated[0].Index, dominated[0].Index+1))
		if err != nil {
			t.Fatal(err)
		}
		if d := after.Value - before.Value; d > tiny || d < -tiny {
			t.Errorf("%s: value moves by %v without row %d", c.name, d, dominated[0].Index)
		}
	}
}
