package reference

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// TestEveryFigure: every row of the shipped tables is measured or has a reason why it
// is not, no name comes twice, no reason is idle, and nothing is measured for which
// the tables have no row.
func TestEveryFigure(t *testing.T) {
	v := values{}
	v.league(&sums{})
	for p := range NumPresses {
		v.pressed(p, &sums{})
	}
	seen := map[string]bool{}
	for _, f := range Figures() {
		if seen[f.Name] {
			t.Errorf("%s comes twice", f.Name)
		}
		seen[f.Name] = true
		if _, ok := v[f.Name]; !ok {
			t.Errorf("%s is not measured", f.Name)
		}
		if math.IsNaN(f.Value) || f.Low > f.Value || f.Value > f.High || f.Low == f.High || f.Source == "" {
			t.Errorf("%+v: want a value within a spread, and a source", f)
		}
	}
	if len(seen) < 350 {
		t.Errorf("only %d figures", len(seen))
	}
	left := Unmeasured()
	for name := range v {
		if _, ok := left[name]; !ok && !seen[name] {
			t.Logf("measured without a figure in the tables: %s", name)
		}
	}
	idle := make([]bool, len(reasons))
	for i := range reasons {
		idle[i] = true
	}
	for _, f := range shipped() {
		for i, r := range reasons {
			if r.match(&f) {
				idle[i] = false
				break
			}
		}
	}
	for i, r := range reasons {
		if idle[i] {
			t.Errorf("no figure is left out because: %s", r.why)
		}
	}
}

// TestNames: the names that others rely on.
func TestNames(t *testing.T) {
	have := map[string]float64{}
	for _, f := range Figures() {
		have[f.Name] = f.Value
	}
	for name, want := range map[string]float64{ // from the tables
		"possession_outcomes/build_up/final_third":           0.38016,
		"pass_completion/ground/15-20":                       0.9317,
		"final_third_entries/share_of_entries/left_wing":     0.29321,
		"press_intensity/high/final_third":                   0.29137,
		"turnover_cost/17.5/opponent_goal_within_20s":        0.00314,
		"turnover_cost/0/middle/opponent_shot_within_20s":    0.04986,
		"block_shift/gain":                                   0.441,
		"switches/completed/own/high":                        0.67963,
		"crosses/shot_within_5s/wing_byline/low":             0.09836,
		"crosses/completed/any/inverted":                     0.30124,
		"crosses/share/wing_byline/low":                      8042.0 / 37298,
		"final_third_entries/cross_given_entry/left_wing":    0.32745,
		"pass_chain_length/build_up/15+":                     0.05472,
		"pass_to_next_action_s/own/p50":                      2.4804,
		"pass_mix_build_up/own/ground/forward/share":         0.3966,
		"pass_completion/high_kept/40-50":                    0.41643,
		"pass_completion/high_kept/own/any":                  0.34694,
		"possession_outcomes/own_third_start/halfway":        0.45795,
		"pass_chain_length/own_third_start/1":                0.21425,
		"shot_conversion/1/6-11":                             0.14746,
		"threat_grid/shot_share/42.7/2.8":                    0.83287,
		"nearest_defender/release/own":                       4.745,
		"final_third_entries/shot_given_entry/any":           0.1805,
		"final_third_entries/share_of_lane/centre/high_pass": 0.21047,
	} {
		if have[name] != want {
			t.Errorf("%s is %v, want %v", name, have[name], want)
		}
	}
}

func TestCheck(t *testing.T) {
	f := Figure{Name: "table/part/figure", Value: 2, Low: 1.5, High: 2.5}
	for _, c := range []struct {
		engine                  Value
		inside, reaches, judged bool
		beyond                  float64
	}{
		{Value{2.4, 2.2, 2.6, 100}, true, true, true, 0},
		{Value{1.3, 1.0, 1.6, 100}, false, true, true, -0.1},
		{Value{3.5, 3.0, 4.0, 100}, false, false, true, 0.5},
		{Value{3.5, 1.0, 6.0, 100}, false, true, false, 0.5},
		{Value{2, 1.9, 2.1, FewestCases - 1}, true, true, false, 0},
		{Value{2, math.Inf(-1), math.Inf(1), 100}, true, true, true, 0},
	} {
		x := Check{f, c.engine}
		if x.Inside() != c.inside || x.Reaches() != c.reaches || x.Enough() != c.judged || math.Abs(x.Beyond()-c.beyond) > 1e-12 {
			t.Errorf("%+v: inside %v, reaches %v, judged %v, beyond %v", c.engine, x.Inside(), x.Reaches(), x.Enough(), x.Beyond())
		}
	}
	if f.Table() != "table" {
		t.Errorf("table %q", f.Table())
	}
}

// TestSourcesNamed: the answer of a comparison names the data behind every figure, all of them.
func TestSourcesNamed(t *testing.T) {
	short := regexp.MustCompile(`\b[A-Z]{2,}[0-9]+\b`) // as in BT10
	for _, f := range Figures() {
		names := short.FindAllString(f.Source, -1)
		if len(names) == 0 {
			names = []string{f.Source}
		}
		for _, name := range names {
			if !slices.ContainsFunc(Sources, func(s struct{ Tag, Text string }) bool { return strings.HasPrefix(name, s.Tag) }) {
				t.Errorf("%s: %q of its source is none of Sources", f.Name, name)
			}
		}
	}
}
