package sim

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// A ball above the foot is contested by an opponent near the man who gets to it, and then kept
// only if the header finds somebody; from further off, or at his feet, his touch decides. Common
// practice, no source.
func TestHeadedOn(t *testing.T) {
	sc := model.AverageScenario()
	par := model.DefaultParams()
	par.HeaderHold = 1e-9 // no header finds anybody
	w := newWorld(&sc, par)
	for _, c := range []struct {
		height, gap float64 // m
		held        bool
	}{{1.8, headedWithin - 0.1, false}, {1.8, headedWithin + 0.1, true}, {0, headedWithin - 0.1, true}} {
		w.reset(0)
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: -40, Y: -30}
		}
		const man, opponent = 9, 13
		w.able[man].Value[model.FirstTouch] = -50 // his touch never fails
		w.pos[man], w.pos[opponent] = r2.Vec{}, r2.Vec{X: c.gap}
		w.ball = w.pos[man]
		w.state, w.carrier = flying, nobody
		w.fly = delivery{flight: LoftedFlight(r2.Vec{X: -30}, r2.Vec{X: 1}, 30, Clipped), from: 2, aim: man, pass: true,
			winner: man, when: 2, where: w.ball, height: c.height}
		w.receive(man)
		if held := w.state == held; held != c.held {
			t.Errorf("%.1f m high, opponent %.1f m off: held %v, want %v", c.height, c.gap, held, c.held)
		}
	}
}
