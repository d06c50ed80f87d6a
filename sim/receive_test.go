package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// A ball above the foot is contested by an opponent near the man who gets to it, and then kept
// only if the header finds somebody; from further off, or at his feet, his touch decides. A header
// that finds nobody flies and comes down within reach of a head. Common practice, no source.
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
		if f := &w.fly.flight; w.state == flying && (f.Kind == Ground || f.s1 < nodShort || f.s1 > nodLong) {
			t.Errorf("headed on: comes down %.1f m away, kind %v", f.s1, f.Kind)
		}
	}
}

// An opponent whom a ball through the air reaches at the foot brings it down as any receiver
// would; one in the way of a pass along the ground gets hold of it in StealHold of the cases. A
// header that nobody hinders is his in freeHeader of them: five standard errors of 2,000, false
// alarm below 1e-6. Fixed seed.
func TestTaken(t *testing.T) {
	const n = 2000
	won := func(f Flight, height, steal float64) float64 {
		w := worldWith(func(p *model.Params) { p.StealHold, p.ClearDeep = steal, 0 })
		count := 0.0
		for id := range n {
			w.reset(id)
			for b := range w.pos {
				w.pos[b] = r2.Vec{X: -40, Y: -30}
			}
			const man = 13
			w.able[man].Value[model.FirstTouch] = -50 // his touch never fails
			w.pos[man], w.ball = r2.Vec{}, r2.Vec{}
			w.state, w.carrier = flying, nobody
			w.fly = delivery{flight: f, from: 2, aim: 9, pass: true, winner: man, when: 2, height: height}
			if w.receive(man); w.over {
				count++
			}
		}
		return count / n
	}
	air, ground := LoftedFlight(r2.Vec{X: -30}, r2.Vec{X: 1}, 30, Clipped), GroundFlight(r2.Vec{X: -30}, r2.Vec{X: 1}, 15)
	if got := won(air, 0.3, 0); got != 1 {
		t.Errorf("out of the air at the foot: won in %v of the cases, want always", got)
	}
	if got := won(ground, 0, 0); got != 0 {
		t.Errorf("along the ground: won in %v of the cases, want never", got)
	}
	if got := won(air, 1.8, 0); math.Abs(got-freeHeader) > 5*math.Sqrt(freeHeader*(1-freeHeader)/n) {
		t.Errorf("header: won in %v of the cases, want %v", got, freeHeader)
	}
}

// TestWonBall: who has just won the ball with an opponent 1 m away plays it first time as
// often as who receives it so, exp(-1/4.6) of those who mean to; for who takes a free kick it
// has waited. Five standard errors of 400: false alarm below 1e-6. Fixed seed.
func TestWonBall(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.OneTouch = 1 })
	for b := range w.pos {
		w.pos[b] = r2.Vec{X: 40}
	}
	w.pos[2], w.pos[13] = r2.Vec{X: -30}, r2.Vec{X: -29}
	w.ball = w.pos[2]
	const n = 400
	firstTime := func(how gaining) float64 {
		count := 0.0
		for id := range n {
			w.p.ID = id
			if w.control(2, how); w.think == w.tick {
				count++
			}
		}
		return count / n
	}
	p := math.Exp(-1 / firstTimeFade)
	if got := firstTime(won); math.Abs(got-p) > 5*math.Sqrt(p*(1-p)/n) {
		t.Errorf("a ball just won is played first time in %v of cases, want %v", got, p)
	}
	if got := firstTime(given); got > 0.02 { // a hold drawn shorter than half a tick
		t.Errorf("a ball that has waited is played first time in %v of cases", got)
	}
}
