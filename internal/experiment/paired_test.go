package experiment

import (
	"math"
	"strings"
	"testing"

	"playout/internal/stats"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9*max(1, math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

// xgs are outcomes with these xG.
func xgs(goals ...float64) []Outcome {
	out := make([]Outcome, len(goals))
	for i, x := range goals {
		out[i] = Outcome{XG: xgUnits(x)}
	}
	return out
}

// TestDifferenceByHand: a = 0.1 0.2 0.3 0.6, b = 0.2 0.2 0.5 0.7. The differences
// 0.1 0 0.2 0.1 have mean 0.1 and variance 0.02/3; a has the sum of squared
// deviations 0.14, b 0.18, their products 0.15. So the correlation is
// 0.15/sqrt(0.14 x 0.18) and the gain (0.14 + 0.18)/0.02 = 16. Student's quantile
// for 3 degrees of freedom is 3.182446 (Fisher and Yates 1963, table III).
func TestDifferenceByHand(t *testing.T) {
	a, b := xgs(0.1, 0.2, 0.3, 0.6), xgs(0.2, 0.2, 0.5, 0.7, 0.9)
	f, err := FigureNamed("xg")
	if err != nil {
		t.Fatal(err)
	}
	d := Difference(a, b, f)
	se := math.Sqrt(0.02 / 3 / 4)
	near(t, "difference", d.Value, 0.1)
	near(t, "standard error", d.StdErr, se)
	if half := d.Hi - d.Value; math.Abs(half-3.182446*se) > 1e-6 {
		t.Errorf("half-width %g", half)
	}
	near(t, "correlation", d.Correlation, 0.15/math.Sqrt(0.14*0.18))
	near(t, "gain", d.Gain, 16)
	if d.N != 4 {
		t.Errorf("%d pairs", d.N)
	}
	near(t, "mean", Mean(a, f).Value, 0.3)

	same := Difference(a, a, f)
	if same.Value != 0 || same.StdErr != 0 || same.Correlation != 1 || !math.IsInf(same.Gain, 1) {
		t.Errorf("a variant against itself: %+v", same)
	}
	if none := Difference(nil, nil, f); !math.IsNaN(none.Value) || !math.IsNaN(none.Gain) || !math.IsInf(none.Hi, 1) {
		t.Errorf("no possessions: %+v", none)
	}
}

// TestRateHasWilsonInterval: 81 of 263 is the worked example of Newcombe (1998),
// Statist. Med. 17, 857-872: 0.2553 to 0.3662 by method 3.
func TestRateHasWilsonInterval(t *testing.T) {
	o := make([]Outcome, 263)
	for i := range 81 {
		o[i].Flags = Shot
	}
	f, _ := FigureNamed("shot")
	e := Mean(o, f)
	if math.Abs(e.Lo-0.2553) > 5e-5 || math.Abs(e.Hi-0.3662) > 5e-5 {
		t.Errorf("%g to %g", e.Lo, e.Hi)
	}
}

// TestShareDifference: with every possession an entry, the share of one lane is a
// mean and its difference the paired difference.
func TestShareDifference(t *testing.T) {
	lanes := func(l ...uint8) []Outcome {
		var out []Outcome
		for _, l := range l {
			out = append(out, Outcome{Flags: FinalThird, EntryLane: l})
		}
		return out
	}
	a, b := lanes(0, 0, 1, 4, 2, 0), lanes(0, 1, 1, 4, 0, 0)
	whole, _ := FigureNamed("final_third")
	got, want := ShareDifference(a, b, Entries[0], whole), Difference(a, b, Entries[0])
	near(t, "value", got.Value, want.Value)
	near(t, "standard error", got.StdErr, want.StdErr)
	near(t, "correlation", got.Correlation, want.Correlation)
	near(t, "gain", got.Gain, want.Gain)
	near(t, "share", Share(a, Entries[0], whole).Value, 0.5)
	var _ stats.Estimate = got.Estimate
}

func TestFigureNames(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range Figures {
		if seen[f.Name] || f.Label == "" || f.Unit == "" {
			t.Errorf("figure %q: doubled or unnamed", f.Name)
		}
		seen[f.Name] = true
	}
	if Figures[0].Name != "final_third" {
		t.Error("final_third is not the first")
	}
	_, err := FigureNamed("netxg")
	if err == nil || !strings.Contains(err.Error(), "net_xg") {
		t.Errorf("err = %v", err)
	}
}
