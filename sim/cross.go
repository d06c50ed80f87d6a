package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Where crosses are played from: within this of the goal line and outside this
// of the middle, m. Common practice, no source.
const (
	crossDepth = 30.0
	crossSide  = 13.0
)

// crossOptions adds crosses, low crosses and cut-backs to team-mates in the penalty
// area.
func (w *world) crossOptions() {
	if !w.canCross() {
		return
	}
	s := sign(w.onBall)
	bx, by := s*w.ball.X, s*w.ball.Y
	first := 11 * w.onBall
	inner := w.crossesInside(by)
	for b := first + 1; b < first+11; b++ {
		p := own(w.onBall, w.pos[b])
		if b == w.carrier || !w.awaitsCross(p) || (p.X > bx && p.X > w.att.last) {
			continue
		}
		d := dist(w.ball, w.pos[b])
		at := w.inside(r2.Vec{X: w.pos[b].X + s*1.5 + w.vel[b].X*0.6, Y: w.pos[b].Y + w.vel[b].Y*0.6}, 1)
		if d > 8 {
			length := dist(w.ball, at)
			chance, margin := w.chanceInAir(b, at, length, Driven, model.Crossing)
			o := w.opt.add()
			o.act, o.aim, o.kind, o.target, o.cross, o.inner = playPass, b, Driven, at, true, inner
			w.judge(o, chance, margin, length, length)
		}
		if math.Abs(by) < model.PenaltyAreaWidth/2 && bx < w.halfL-model.PenaltyAreaDepth {
			continue // along the ground from there it is a pass like any other
		}
		low := at
		back := p.X < bx-2 && bx > w.halfL-12
		length := dist(w.ball, low)
		launch := w.strike[across].at(length)
		f := GroundFlight(w.ball, towards(w.ball, low, w.face), launch)
		chance, margin, had := w.chanceOf(&f, b, low, length, nil)
		o := w.opt.add()
		o.act, o.aim, o.kind, o.target, o.cross, o.back, o.inner, o.launch = playPass, b, Ground, low, true, back, inner, launch
		w.judge(o, chance, margin, length, had)
	}
}

// canCross reports whether the ball is where crosses are played from.
func (w *world) canCross() bool {
	p := own(w.onBall, w.ball)
	return p.X >= w.halfL-crossDepth && math.Abs(p.Y) >= crossSide
}

// awaitsCross reports whether a team-mate at p, own frame, is in the penalty area: a
// ball through the air to him from out wide is a cross.
func (w *world) awaitsCross(p r2.Vec) bool { return w.pitch.InPenaltyArea(p) }

// low is how far the option's ball is struck hard along the ground in front of goal, m:
// its length for a low cross, 0 for any other. A cut-back is played into the gap that a
// man waits in.
func (o *option) low(length float64) float64 {
	if o.cross && !o.back && o.kind == Ground {
		return length
	}
	return 0
}

// crossesInside reports whether the carrier's strong foot is the one nearer to
// the goal on this wing (y > 0 is his left), so that his cross swings in.
func (w *world) crossesInside(y float64) bool {
	switch w.able[w.carrier].Foot {
	case model.LeftFoot:
		return y < 0
	case model.RightFoot:
		return y > 0
	}
	return false
}
