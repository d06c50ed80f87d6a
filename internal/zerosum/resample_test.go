package zerosum

import (
	"math"
	"reflect"
	"testing"
)

// repetitions of a game with normal noise, a part of which is common to all cells.
func repetitions(g Game, n int, seed uint64) [][][]float64 {
	r := source(seed)
	common := make([]float64, n)
	for k := range common {
		common[k] = r.NormFloat64()
	}
	out := make([][][]float64, len(g))
	for i, row := range g {
		out[i] = make([][]float64, len(row))
		for j, a := range row {
			for k := range n {
				out[i][j] = append(out[i][j], a+common[k]+r.NormFloat64())
			}
		}
	}
	return out
}

func TestResampleIsPairedAndRepeats(t *testing.T) {
	x := repetitions(Game{{1, 0}, {0, 1}}, 50, 11)
	x[1][1] = x[0][0] // the same luck and the same payoff: equal in every game
	a, b := Resample(x, 20, 3), Resample(x, 20, 3)
	if !reflect.DeepEqual(a, b) {
		t.Error("the same seed gives other games")
	}
	if reflect.DeepEqual(a, Resample(x, 20, 4)) {
		t.Error("another seed gives the same games")
	}
	for _, g := range a {
		if g[0][0] != g[1][1] {
			t.Errorf("cells with the same luck differ: %v", g)
		}
	}
	if reflect.DeepEqual(a[0], a[1]) {
		t.Error("two draws are the same")
	}
}

// The spread of the resampled means is the standard error of the mean, within its
// sampling error: 2000 draws know it to 1.6 %, so 8 % is five of those.
func TestResampledMeansHaveTheStandardError(t *testing.T) {
	x := repetitions(Game{{2}}, 400, 12)
	mean := Means(x)[0][0]
	squares := 0.0
	for _, v := range x[0][0] {
		squares += (v - mean) * (v - mean)
	}
	want := math.Sqrt(squares) / 400
	got := 0.0
	games := Resample(x, 2000, 5)
	for _, g := range games {
		got += (g[0][0] - mean) * (g[0][0] - mean) / float64(len(games))
	}
	if r := math.Sqrt(got) / want; r < 0.92 || r > 1.08 {
		t.Errorf("spread over standard error: %v", r)
	}
}

// The 95 % intervals of the value and of the mixes hold the true ones in about 95 of 100
// repetitions. With 150 repetitions fewer than 132 has a chance of 2 in 10,000 at 95 %
// (binomial); the payoffs lie several standard errors from having a saddle.
func TestIntervalsCover(t *testing.T) {
	truth := Game{{1, 0.2}, {0.4, 0.8}} // value 0.6, rows 1:2, columns 1:1 by the closed formula
	const repeats = 150
	var value, rows, columns int
	for k := range repeats {
		d, err := Spread(Resample(repetitions(truth, 400, 100+uint64(k)), 200, 9), 0.95)
		if err != nil {
			t.Fatal(err)
		}
		if d.Value.Low <= 0.6 && 0.6 <= d.Value.High {
			value++
		}
		if d.Rows[0].Low <= 1./3 && 1./3 <= d.Rows[0].High {
			rows++
		}
		if d.Columns[0].Low <= 0.5 && 0.5 <= d.Columns[0].High {
			columns++
		}
	}
	t.Logf("of %d: value %d, rows %d, columns %d", repeats, value, rows, columns)
	if value < 132 || rows < 132 || columns < 132 {
		t.Errorf("of %d intervals cover: value %d, rows %d, columns %d", repeats, value, rows, columns)
	}
}

func TestSpreadCounts(t *testing.T) {
	games := []Game{{{2, 3}, {1, 2}}, {{2, 3}, {1, 2}}, {{1, -1}, {-1, 1}}, {{0, 0}, {1, 1}}}
	d, err := Spread(games, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if d.Safest[0] != 0.75 || d.Safest[1] != 0.25 { // ties go to the first
		t.Errorf("safest %v", d.Safest)
	}
	if d.Dominated[1] != 0.5 || d.Dominated[0] != 0.25 || d.Beaten[1] != 0.5 || d.Beaten[0] != 0 {
		t.Errorf("dominated %v, %v", d.Dominated, d.Beaten)
	}
	if d.Saddle != 0.75 {
		t.Errorf("saddle %v", d.Saddle)
	}
	if d.Value != (Interval{0, 2}) {
		t.Errorf("value %v", d.Value)
	}
}
