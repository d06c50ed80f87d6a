package main

import (
	"fmt"
	"math"
	"os"
	"sort"
	"strings"

	"playout/internal/reference"
)

// target is a figure to be met.
type target struct {
	reference.Figure
	weight    float64
	spread    float64 // of its logarithm in the data
	tolerance float64 // the same with the engine's own noise where a step is judged
}

// weights of figures that matter more than others.
var weights = map[string]float64{
	"possession_outcomes/build_up/final_third":     4,
	"possession_outcomes/build_up/exit_own_third":  3,
	"possession_outcomes/build_up/halfway":         3,
	"possession_outcomes/build_up/box":             3,
	"possession_outcomes/build_up/shot":            3,
	"possession_outcomes/build_up/goal":            2,
	"possession_outcomes/build_up/lost_in_own":     3,
	"possession_outcomes/build_up/lost_in_middle":  2,
	"possession_outcomes/build_up/lost_in_final":   2,
	"possession_outcomes/build_up/duration_s":      2,
	"possession_outcomes/own_third_start/halfway":  2,
	"turnover_cost/-52.5/opponent_goal_within_20s": 3,
	"turnover_cost/-35/opponent_goal_within_20s":   3,
	"turnover_cost/-17.5/opponent_goal_within_20s": 3,
	"turnover_cost/0/opponent_goal_within_20s":     3,
	"turnover_cost/17.5/opponent_goal_within_20s":  3,
}

// tables whose figures are many cells of one distribution, or rest on one match,
// count for less each.
var tableWeights = map[string]float64{
	"pass_completion": 0.4, "pass_chain_length": 0.7, "pass_mix_build_up": 0.6, "press_intensity": 0.9,
	"final_third_entries": 0.8, "crosses": 0.5, "switches": 0.6, "shot_conversion": 0.5, "threat_grid": 0.8,
	"pass_to_next_action_s": 0.7, "turnover_cost": 1.5,
}

// leastTolerance keeps figures with a narrow spread from ruling the fit.
const leastTolerance = 0.03

func targets() []target {
	var out []target
	for _, fig := range reference.Figures() {
		if fig.Value <= 0 || fig.Low <= 0 {
			continue // a share of nothing has no logarithm
		}
		w, ok := weights[fig.Name]
		if !ok {
			if w, ok = tableWeights[fig.Table()]; !ok {
				w = 1
			}
		}
		spread := max(math.Log(fig.High/fig.Low)/2, leastTolerance)
		out = append(out, target{fig, w, spread, spread})
	}
	return out
}

// Seeds: the designs and the judgement of a step do not share their luck.
const (
	designSeed = 11
	judgeSeed  = 12
)

// allowForNoise widens the tolerances by the noise of n possessions at x, and lets a figure count
// for the less the more of its tolerance is noise, so that neither the fit nor its judge is ruled
// by figures with few cases; those with hardly any are left out.
func (f *fitter) allowForNoise(x []float64, n int) error {
	got, err := f.measure(x, n, judgeSeed)
	if err != nil {
		return err
	}
	for i := range f.figures {
		t := &f.figures[i]
		v := got[t.Name]
		if v.N < reference.FewestCases || math.IsNaN(v.Value) {
			t.weight = 0
			continue
		}
		variance := 1.0 // of one case over its squared mean
		if t.Value < 1 {
			variance = (1 - t.Value) / t.Value
		}
		t.tolerance = math.Hypot(t.spread, math.Sqrt(variance/float64(v.N)))
		t.weight *= t.spread * t.spread / (t.tolerance * t.tolerance)
	}
	return nil
}

// residuals are the log ratios of engine to data over their tolerance.
func (f *fitter) residuals(x []float64, n int, seed uint64) ([]float64, error) {
	got, err := f.measure(x, n, seed)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(f.figures))
	for i, t := range f.figures {
		v, ok := got[t.Name]
		if !ok || math.IsNaN(v.Value) || v.N == 0 || f.stopAtLoss && strings.HasPrefix(t.Name, "turnover_cost") {
			continue
		}
		z := math.Log(max(v.Value, 1e-5)/t.Value) / t.tolerance
		out[i] = min(max(z, -60), 60)
	}
	return out, nil
}

func (f *fitter) measure(x []float64, n int, seed uint64) (map[string]reference.Value, error) {
	par := f.params(x)
	return reference.Measure(f.ctx, reference.Config{
		Possessions: n, Seed: seed, Params: &par, Adjust: f.blocks(x), StopAtLoss: f.stopAtLoss,
	})
}

// inside counts the figures within the spread of the reference.
func (f *fitter) inside(r []float64) int {
	n := 0
	for i, t := range f.figures {
		x := t.Value * math.Exp(r[i]*t.tolerance)
		if x >= t.Low && x <= t.High {
			n++
		}
	}
	return n
}

// print shows the parameters and the figures that are furthest off.
func (f *fitter) print(x, r []float64) {
	for k, p := range f.free {
		fmt.Printf("%s %.4g\n", p.name, x[k])
	}
	order := make([]int, len(r))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return math.Abs(r[order[a]]) > math.Abs(r[order[b]]) })
	for _, i := range order[:min(f.worst, len(order))] {
		t := f.figures[i]
		fmt.Printf("    %-60s %+5.1f  %.4g for %.4g\n", t.Name, r[i], t.Value*math.Exp(r[i]*t.tolerance), t.Value)
	}
}

// progress tells a person how far a design has got.
func (f *fitter) progress(done, of int) {
	fmt.Fprintf(os.Stderr, "\r%d of %d runs", done, of)
	if done == of {
		fmt.Fprint(os.Stderr, "\r                    \r")
	}
}
