package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Worked by hand: at arm's length a man in the way lets the carrier walk, each metre
// further gives him 0.8 m/s; who stands beside him, behind him or is beaten does not
// count.
func TestRoomAhead(t *testing.T) {
	for _, c := range []struct {
		name string
		at   r2.Vec
		out  int
		want float64
	}{
		{"nobody near", r2.Vec{X: -30}, 0, math.Inf(1)},
		{"at arm's length", r2.Vec{X: 1.5}, 0, 2},
		{"nearer still", r2.Vec{X: 0.5}, 0, 2},
		{"five metres ahead", r2.Vec{X: 4.8, Y: 1.4}, 0, 4.8},
		{"beside him", r2.Vec{X: 3, Y: 4}, 0, math.Inf(1)},
		{"beaten", r2.Vec{X: 2}, 9, math.Inf(1)},
	} {
		w := &world{}
		for b := 11; b < bodies; b++ {
			w.pos[b] = r2.Vec{X: -40, Y: float64(b)}
		}
		w.carrier, w.pos[15], w.beaten[15] = 5, c.at, c.out
		if got := w.roomAhead(r2.Vec{X: 1}); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %.3f m/s, want %.3f", c.name, got, c.want)
		}
	}
}

// A ball kept is worth the less the earlier an opponent is there, and nothing less while
// nobody is.
func TestKeepTight(t *testing.T) {
	worth := func(tight float64, opponent r2.Vec) float64 {
		w := worldWith(func(p *model.Params) { p.KeepTight = tight })
		w.carrier = 5
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: -45 + float64(b), Y: 33}
		}
		w.pos[5], w.pos[15] = r2.Vec{}, opponent
		w.opt.scale = 0.003
		w.contenders()
		w.keep(w.pos[5], 0, 0)
		return w.opt.o[0].worth
	}
	if got, want := worth(0.7, r2.Vec{X: 30})/worth(0, r2.Vec{X: 30}), 1.0; got != want {
		t.Errorf("free: worth %v of itself, want all", got)
	}
	for _, gap := range []float64{0.5, 3} { // there after gap / 5 s, the carrier looks up again after Look and 0.2 s
		w := worldWith(func(*model.Params) {})
		late := gap/w.arrive[15] - w.par.Look - 0.2
		got, want := worth(0.7, r2.Vec{X: gap})/worth(0, r2.Vec{X: gap}), math.Exp(0.7*max(late, -1))
		if math.Abs(got-want) > 0.001 {
			t.Errorf("an opponent %v m away: worth %.4f of itself, want %.4f", gap, got, want)
		}
	}
}
