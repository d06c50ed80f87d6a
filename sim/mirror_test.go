package sim

import (
	"context"
	"testing"

	"playout/internal/stats"
	"playout/model"
)

// TestLeftAndRight plays two teams whose sides are alike: no lane may be entered
// more often than its mirror image. Fixed seed; the difference of two shares of
// the same entries is normal with variance (a + b) / n^2, and a false alarm at
// 4.9 standard deviations has probability 1e-6.
func TestLeftAndRight(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	sc := model.AverageScenario()
	sc.Possessions = 6000
	for side := range sc.Teams {
		for i := range sc.Teams[side].Players {
			sc.Teams[side].Players[i].Foot = model.BothFeet
		}
	}
	res, err := Run(context.Background(), &sc, Config{})
	if err != nil {
		t.Fatal(err)
	}
	for l := model.LeftWing; l < model.Centre; l++ {
		a, b := float64(res.Tally.ReachLane[l]), float64(res.Tally.ReachLane[l.Mirror()])
		if d := a - b; d*d > 4.9*4.9*(a+b) {
			t.Errorf("%v %v entries, %v %v", l, a, l.Mirror(), b)
		}
	}
}

// TestBetterPlayersGetFurther gives the attack every attribute at the 90th and at
// the 10th percentile: the better team must enter the final third more often.
// Fixed seed; false alarm 1e-6.
func TestBetterPlayersGetFurther(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	var k, n [2]int64
	for i, percentile := range []float64{90, 10} {
		sc := model.AverageScenario()
		sc.Possessions = 2500
		for j := range sc.Teams[model.Attack].Players {
			p := &sc.Teams[model.Attack].Players[j]
			for a := range p.Percentile {
				p.Percentile[a] = percentile
			}
		}
		res, err := Run(context.Background(), &sc, Config{})
		if err != nil {
			t.Fatal(err)
		}
		k[i], n[i] = res.Tally.FinalThird, res.Tally.Possessions
	}
	if d := stats.DifferenceProportions(k[0], n[0], k[1], n[1], 1-1e-6); d.Lo <= 0 {
		t.Errorf("90th against 10th percentile: %d and %d of %d enter", k[0], k[1], n[0])
	}
}
