package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// A ball through the air strays the wider the nearer to full power it is struck, and its
// passer knows it; up to easyKick there is no strain.
func TestStrain(t *testing.T) {
	sc := model.AverageScenario()
	stray := func(full, length float64) float64 {
		par := model.DefaultParams()
		par.FullPower = full
		w := newWorld(&sc, par)
		w.situation = situation{onBall: int(model.Attack)}
		_, down, _ := w.errant(r2.Vec{X: length}, length, Clipped, 0.05, 1)
		return math.Hypot(down.X-length, down.Y)
	}
	if easy, as := stray(2, 30), stray(0, 30); easy != as {
		t.Errorf("30 m: strays by %.2f m, want %.2f", easy, as)
	}
	last := 1.0
	for _, length := range []float64{52, 56, 60} {
		ratio := stray(2, length) / stray(0, length)
		if ratio <= last || ratio > 3 {
			t.Errorf("%v m: strays %.2f times as far, want more than %.2f and at most 3", length, ratio, last)
		}
		last = ratio
	}
}

// No pass is driven harder than a passer strikes who must also aim.
func TestAirKind(t *testing.T) {
	for length := shortestAir; length <= MaxRange(Clipped); length++ {
		if kind := airKind(length); kind == Driven {
			if f := LoftedFlight(r2.Vec{}, r2.Vec{X: 1}, length, kind); f.Launch > easyKick {
				t.Errorf("%v m: driven at %.1f m/s, want at most %.1f", length, f.Launch, easyKick)
			}
		}
	}
	if airKind(46) != Driven || airKind(48) != Clipped {
		t.Errorf("46 m is %v, 48 m %v; want driven and clipped", airKind(46), airKind(48))
	}
}
