package sim

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// What is at stake for a carrier is the ball's worth and, as far as Stake says, the price of
// losing it: on the edge of the own penalty area, where the ball is worth little and its loss
// is dear, the second counts for much; in front of the other goal for little. LossShape is
// set in full, so that the price differs from place to place as the table has it.
func TestStake(t *testing.T) {
	sc := model.AverageScenario()
	grows := func(x float64) float64 {
		var s [2]float64
		for i, stake := range []float64{0, 1} {
			par := model.DefaultParams()
			par.Stake, par.LossShape = stake, 1
			w := newWorld(&sc, par)
			w.reset(0)
			w.ball = r2.Vec{X: x}
			s[i] = w.scale()
		}
		return s[1] / s[0]
	}
	if deep, high := grows(-36), grows(40); !(deep > 5 && high < 1.5 && high > 1) {
		t.Errorf("the scale of a choice grows %.2f times on the own edge and %.2f times in front of goal", deep, high)
	}
}
