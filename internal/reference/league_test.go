package reference

import (
	"context"
	"math"
	"testing"

	"playout/internal/scenario"
	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// misses are the figures that the engine does not yet bring within a third of
// the reference, with the best explanation. A figure that fits again must be
// taken off the list.
var misses = map[string]string{
	"closing_speed/held_1s": "receivers in the own third stand 10 m from the nearest opponent instead of 8.5, so who closes them down covers more ground",
}

// TestLeagueAverage plays two league-average teams and holds the build-up
// possessions against the tables of Pappalardo et al. (2019) and of the open
// tracking data: no figure may be off by more than a third of its value.
func TestLeagueAverage(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	sc := model.AverageScenario()
	sc.Possessions, sc.AfterLoss = 16000, 0
	meter := NewMeter(sc.Pitch)
	res, err := sim.Run(context.Background(), &sc, sim.Config{Observer: meter})
	if err != nil {
		t.Fatal(err)
	}
	got := meter.Figures(res)
	for _, f := range Figures() {
		x, ok := got[f.Name]
		if !ok {
			t.Errorf("%s is not measured", f.Name)
			continue
		}
		off := math.Abs(x/f.Value - 1)
		why, known := misses[f.Name]
		switch {
		case off > 1.0/3 && !known:
			t.Errorf("%s: %.4g, reference %.4g: off by %.0f %%", f.Name, x, f.Value, 100*off)
		case off > 1.0/3:
			t.Logf("known miss: %s: %.4g, reference %.4g (%s)", f.Name, x, f.Value, why)
		case known && off < 0.3:
			t.Errorf("%s: %.4g fits the reference %.4g: take it off the list of misses", f.Name, x, f.Value)
		}
	}
}

// TestPressing checks the answer to pressing: of build-up possessions 0.29 enter
// the final third against high, 0.37 against middle and 0.46 against low pressing
// (Pappalardo et al. 2019, press_intensity). The blocks are those of the library.
// The order must hold beyond the noise (fixed seed, false alarm 1e-6 for each
// pair of rates) and each rate lie within a third of its reference.
func TestPressing(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	var entered, of []int64
	for i, want := range []struct {
		block string
		rate  float64
	}{{"4-4-2-high", 0.29137}, {"4-4-2-mid", 0.36736}, {"4-4-2-low", 0.4583}} {
		sc, err := scenario.LoadBytes("test", []byte("possessions: 4000\ndefence: {block: "+want.block+"}"))
		if err != nil {
			t.Fatal(err)
		}
		res, err := sim.Run(context.Background(), sc, sim.Config{})
		if err != nil {
			t.Fatal(err)
		}
		entered, of = append(entered, res.BuildUp.FinalReached), append(of, res.BuildUp.Possessions)
		rate := float64(entered[i]) / float64(of[i])
		t.Logf("%s: %.3f of %d enter, reference %.3f", want.block, rate, of[i], want.rate)
		if math.Abs(rate/want.rate-1) > 1.0/3 {
			t.Errorf("%s: %.3f enter, reference %.3f", want.block, rate, want.rate)
		}
		if i > 0 {
			if d := stats.DifferenceProportions(entered[i], of[i], entered[i-1], of[i-1], 1-1e-6); d.Lo <= 0 {
				t.Errorf("%s: %.4f to %.4f more enter than against the higher block, want more than 0", want.block, d.Lo, d.Hi)
			}
		}
	}
}
