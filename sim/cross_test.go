package sim

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// A ball along the ground to a man in the box is a cross from the wing and from the byline; from
// the half-space short of it, it is a pass like any other. Of the crosses of matches one in a
// hundred is a low one from there (Pappalardo et al. 2019, table of crosses).
func TestLowCrosses(t *testing.T) {
	for _, c := range []struct {
		from r2.Vec
		want bool
	}{{r2.Vec{X: 30, Y: 16}, false}, {r2.Vec{X: 30, Y: 24}, true}, {r2.Vec{X: 40, Y: 16}, true}} {
		w := worldWith(func(*model.Params) {})
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: -45, Y: float64(b)}
		}
		w.att.last = 50
		w.carrier, w.pos[5], w.ball, w.pos[9] = 5, c.from, c.from, r2.Vec{X: 44, Y: 1}
		w.opt.scale = 0.003
		w.contenders()
		w.crossOptions()
		low, high := false, false
		for _, o := range w.opt.o[:w.opt.n] {
			low, high = low || o.kind == Ground, high || o.kind != Ground
		}
		if low != c.want || !high {
			t.Errorf("from %v: low crosses %v, high ones %v; want %v and true", c.from, low, high, c.want)
		}
	}
}
