package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Worked by hand: at arm's length a man in the way all but stops the carrier, each metre
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
		{"at arm's length", r2.Vec{X: 1.5}, 0, 0.5},
		{"nearer still", r2.Vec{X: 0.5}, 0, 0.5},
		{"five metres ahead", r2.Vec{X: 4.8, Y: 1.4}, 0, 3.3},
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

// A carry is offered as far as the carrier gets in 0.9 s at the speed that a man in the way
// leaves him, and not at all where that is next to nothing.
func TestCarriesAsFarAsTheyCan(t *testing.T) {
	w := worldWith(func(*model.Params) {})
	w.carrier = 5
	ahead := func(gap float64) float64 { // how far straight on, m; 0 where it is not offered
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: -45 + float64(b), Y: 33}
		}
		w.pos[5], w.pos[15] = r2.Vec{}, r2.Vec{X: gap}
		w.opt.n, w.opt.scale = 0, 0.003
		w.contenders()
		w.keepOptions()
		for _, o := range w.opt.o[:w.opt.n] {
			if o.slot == 1 {
				return o.target.X
			}
		}
		return 0
	}
	for gap, want := range map[float64]float64{30: 0.9 * w.able[5].Value[model.Carrying], 4.5: 0.9 * (stopAt + 3*slowBy), 1.5: 0} {
		if got := ahead(gap); math.Abs(got-want) > 1e-9 {
			t.Errorf("a man %v m ahead: a carry of %.3f m, want %.3f", gap, got, want)
		}
	}
}

// A man who gets a square ball goes on with it and forward while he looks up when nobody is near,
// away from an opponent who is, whatever side he is on, and slower where the two do not agree;
// beyond roomy metres an opponent makes no difference, unless nobody else is ahead: with nothing
// but room in front of him he makes for it. The mean way of a spell on the ball is 0.8 m forward,
// standard error 0.65, and 2.9 across (movement tables, optical sample).
func TestComeOut(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.DriveOn, p.TouchOn, p.ShyOff = 0.5, 0.5, 1 })
	const man, opponent, other = 2, 13, 14
	come := func(opp, ahead r2.Vec) (r2.Vec, float64) { // both from the man
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: 50, Y: 30}
		}
		for b := 1; b < 11; b++ {
			w.pos[11+b] = r2.Vec{X: 45, Y: float64(3 * b)} // goal-side: the block is not beaten
		}
		w.pos[man], w.ball, w.vel[man] = r2.Vec{X: -30}, r2.Vec{X: -30}, r2.Vec{}
		w.pos[opponent], w.pos[other] = r2.Add(w.pos[man], opp), r2.Add(w.pos[man], ahead)
		w.tick = (w.tick/viewEvery + 1) * viewEvery
		w.state = flying
		w.perceive()
		w.fly = delivery{flight: GroundFlight(r2.Vec{X: -30, Y: -15}, r2.Vec{Y: 1}, 12), from: 3, aim: man, pass: true, winner: man}
		w.control(man, received)
		return w.dribble, w.stride
	}
	far, near := r2.Vec{X: 2 * openGrass}, r2.Vec{X: roomy}
	free, pace := come(far, near)
	if math.Abs(free.X-free.Y) > 1e-9 || free.X <= 0 || pace <= 1 {
		t.Errorf("nobody near: he goes %v at %.1f m/s, want on and forward alike", free, pace)
	}
	alone, fast := come(far, far)
	if way, p := come(r2.Vec{Y: -roomy - 1}, far); way != alone || p != fast {
		t.Errorf("beyond %.0f m: %v at %.1f m/s, want %v at %.1f", roomy, way, p, alone, fast)
	}
	if way, _ := come(r2.Vec{Y: -roomy + 2}, far); way == alone {
		t.Errorf("within %.0f m: he goes %v as if nobody were there", roomy, way)
	}
	if alone.X <= free.X || fast <= pace {
		t.Errorf("room ahead: %v at %.1f m/s, want more forward than %v and faster than %.1f", alone, fast, free, pace)
	}
	for _, at := range []r2.Vec{{X: 2}, {Y: 2}, {X: 1.5, Y: -1.5}, {X: -2}} {
		way, _ := come(at, near)
		if r2.Dot(way, at) >= 0 {
			t.Errorf("an opponent at %v: he goes %v, want away from him", at, way)
		}
	}
	if _, slow := come(r2.Vec{Y: 4}, near); slow >= pace { // where his touch takes the ball
		t.Errorf("an opponent on the ball's way: %.1f m/s, want less than %.1f", slow, pace)
	}
}
