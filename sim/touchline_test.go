package sim

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// By the textbook a man who brakes at a stops from v within v^2/2a: from 5 m/s, at
// 5 m/s^2, within 2.5 m.
func TestRunsOut(t *testing.T) {
	w := &world{pitch: model.DefaultPitch, halfL: 52.5, halfW: 34}
	for _, c := range []struct {
		pos, vel r2.Vec
		want     bool
	}{
		{r2.Vec{Y: 31.9}, r2.Vec{Y: 5}, false}, // 2.1 m and a foot's reach of 0.5 m
		{r2.Vec{Y: 32.1}, r2.Vec{Y: 5}, true},
		{r2.Vec{Y: 33.9}, r2.Vec{Y: -5}, false}, // away from the line
		{r2.Vec{Y: -32.1}, r2.Vec{Y: -5}, true},
		{r2.Vec{X: 51}, r2.Vec{X: 8}, true},
		{r2.Vec{X: 20, Y: 33.9}, r2.Vec{X: 8}, false}, // along the line
	} {
		w.pos[5], w.vel[5] = c.pos, c.vel
		if got := w.runsOut(5); got != c.want {
			t.Errorf("at %v with %v: %v, want %v", c.pos, c.vel, got, c.want)
		}
	}
}

// A man with the ball at his feet stops at the line: by common practice, no source,
// hardly a ball is run out of play.
func TestCarrierStaysIn(t *testing.T) {
	sc := model.AverageScenario()
	w := newWorld(&sc, model.DefaultParams())
	w.reset(0)
	w.state, w.carrier = held, 5
	w.pos[5], w.vel[5] = r2.Vec{X: 10, Y: 33.7}, r2.Vec{Y: 4}
	w.dribble, w.stride = r2.Vec{Y: 1}, 4
	for range 10 {
		w.step()
		if !w.pitch.Contains(w.pos[5]) || !w.pitch.Contains(w.ball) || w.over {
			t.Fatalf("tick %d: man %v, ball %v", w.tick, w.pos[5], w.ball)
		}
	}
}
