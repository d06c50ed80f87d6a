package reference

import (
	"context"
	"math"
	"testing"

	"playout/model"
	"playout/sim"
)

// TestMeterStopsAtTheLoss measures the same possessions with and without what the
// opponent makes of the loss: no figure may move.
func TestMeterStopsAtTheLoss(t *testing.T) {
	var figures [2]map[string]float64
	for i, after := range []float64{0, 12} {
		sc := model.AverageScenario()
		sc.Possessions, sc.AfterLoss = 400, after
		meter := NewMeter(sc.Pitch)
		res, err := sim.Run(context.Background(), &sc, sim.Config{Observer: meter})
		if err != nil {
			t.Fatal(err)
		}
		figures[i] = meter.Figures(res)
	}
	for name, want := range figures[0] {
		if got := figures[1][name]; got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Errorf("%s: %v with what follows a loss, %v without", name, got, want)
		}
	}
}
