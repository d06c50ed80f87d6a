package sim

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// overloadWatch follows a surplus of attackers to its success.
type overloadWatch struct {
	on   bool
	held bool // no help has come yet
	lane model.Lane
	x    float64
	tick int
}

// overloadReach is how near to the ball players count for an overload, m.
const overloadReach = 13.0

// overloads counts the players round the ball and ahead of it at a reception.
func (t *tracker) overloads(w *world, at r2.Vec) {
	mates, opponents := 0, 0
	for o := range w.pos {
		p := own(w.onBall, w.pos[o])
		if o%11 == 0 || dist2(p, at) > overloadReach*overloadReach || p.X < at.X-3 {
			continue
		}
		if teamOf(o) == w.onBall {
			mates++
		} else {
			opponents++
		}
	}
	kind := NumOverloads
	switch {
	case mates >= 2 && opponents == 1:
		kind = TwoOnOne
	case mates >= 3 && opponents == 2:
		kind = ThreeOnTwo
	}
	if kind == NumOverloads || t.overload[kind].on {
		return
	}
	lane := model.LaneOf(at.Y)
	w.p.Overloads[kind][lane]++
	t.overload[kind] = overloadWatch{on: true, held: true, lane: lane, x: at.X, tick: w.tick}
}

// helpReach is how near to the ball a defender beyond those outnumbered must be
// to be of help, m; common practice, no source.
const helpReach = 6.0

// helped reports whether more than n opponents are near enough to the ball to
// help, keepers excepted.
func (w *world) helped(n int) bool {
	first := 11 * (1 - w.onBall)
	for o := first + 1; o < first+11; o++ {
		if dist2(w.pos[o], w.ball) < helpReach*helpReach {
			n--
		}
	}
	return n < 0
}

// watchOverloads decides whether a surplus was used: the ball is at least 10 m
// further on under control within the window, or a shot came.
func (t *tracker) watchOverloads(w *world) {
	for k := range t.overload {
		o := &t.overload[k]
		if !o.on {
			continue
		}
		if o.held {
			w.p.OverloadsFor[k][o.lane]++
			o.held = !w.helped(k + 1)
		}
		if w.state == held && own(w.onBall, w.ball).X >= o.x+10 {
			w.p.OverloadsWon[k][o.lane]++
			o.on = false
		} else if w.tick-o.tick > overloadWindow {
			o.on = false
		}
	}
}
