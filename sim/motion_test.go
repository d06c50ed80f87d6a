package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// TestNobodyOutrunsHimself follows every player through whole possessions: none
// is ever faster than his top speed, turns up elsewhere, or strays far from the
// pitch; and play never goes on with the ball in somebody's possession out of
// play.
func TestNobodyOutrunsHimself(t *testing.T) {
	sc := model.AverageScenario()
	w := newWorld(&sc, model.DefaultParams())
	const rounding = 1e-9
	for id := range 800 {
		w.reset(id)
		for !w.over {
			before := w.pos
			w.perceive()
			w.decide()
			w.moveAttack()
			w.moveBlock()
			w.step()
			for b := range w.pos {
				if d, most := dist(before[b], w.pos[b]), w.able[b].TopSpeed*TickSeconds; d > most+rounding {
					t.Fatalf("possession %d, tick %d: body %d moves %.3f m in a tick, his top speed allows %.3f", id, w.tick, b, d, most)
				}
				if p := w.pos[b]; p != w.inside(p, -runOff) {
					t.Fatalf("possession %d, tick %d: body %d is at %v", id, w.tick, b, p)
				}
			}
			if w.state == held && !w.over && !w.pitch.Contains(w.ball) {
				t.Fatalf("possession %d, tick %d: play goes on with the ball out of play at %v", id, w.tick, w.ball)
			}
			w.challenge()
			w.landed()
			w.track()
		}
	}
}

// TestSprint runs a player from rest: with an acceleration that falls in
// proportion to his speed he follows v = top (1 - exp(-t a / top)), the
// mono-exponential sprint (Furusawa et al. 1927).
func TestSprint(t *testing.T) {
	w := scene()
	b := 9
	w.state, w.carrier = held, 2
	w.vel[b] = r2.Vec{}
	w.target[b] = w.pos[b]
	w.target[b].X += 500
	w.cap[b] = 99
	top, a := w.able[b].TopSpeed, w.able[b].Accel
	for i := range 20 {
		w.moveBody(b)
		elapsed := float64(i+1) * TickSeconds
		if got, want := w.vel[b].X, top*(1-math.Exp(-elapsed*a/top)); math.Abs(got-want) > 0.25 {
			t.Errorf("after %.1f s he runs %.2f m/s, want %.2f", elapsed, got, want)
		}
	}
}
