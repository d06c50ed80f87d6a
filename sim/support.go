package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// helpAt is the distance at which a team-mate helps the man on the ball, m;
// helpWithin how far away one still comes. Common practice, no source.
const (
	helpAt     = 12.0
	helpWithin = 32.0
)

// comeNear brings the nearest players ahead of the ball and behind it closer to
// it: all the way for those whose job it is, less for those who guard a place.
// The others keep theirs, so that help does not become a crowd.
func (w *world) comeNear(b int, kind model.BehaviourKind, anchor, ball r2.Vec) r2.Vec {
	share := w.par.ComeNear
	switch kind {
	case model.HoldAnchor, model.Pin:
		return anchor
	case model.RestDefence, model.BetweenLines:
		share *= 0.5
	}
	d := dist(anchor, ball)
	if d <= helpAt || d >= helpWithin {
		return anchor
	}
	switch w.nearer(b, ball) {
	case 0, 1:
	case 2:
		share *= 0.5
	default:
		return anchor
	}
	// Most at half range, nothing at its end, so that nobody jumps.
	give := share * (d - helpAt) * (helpWithin - d) / (helpWithin - helpAt) / d
	return r2.Vec{X: anchor.X + give*(ball.X-anchor.X), Y: anchor.Y + give*(ball.Y-anchor.Y)}
}

// nearer counts the team-mates nearer to the ball than body b among those on his
// side of it, ahead or behind.
func (w *world) nearer(b int, ball r2.Vec) int {
	first := 11 * w.onBall
	at := own(w.onBall, ball)
	ahead := own(w.onBall, w.pos[b]).X > ball.X
	mine := dist2(w.pos[b], at)
	n := 0
	for m := first + 1; m < first+11; m++ {
		if m != b && m != w.carrier && dist2(w.pos[m], at) < mine && (own(w.onBall, w.pos[m]).X > ball.X) == ahead {
			n++
		}
	}
	return n
}

// staggerWithin is how far away a team-mate still minds his angle to the ball, m;
// common practice, no source.
const staggerWithin = 32.0

// stagger takes a player who would be square to the man on the ball out of that
// line: ahead of it or behind it, whichever side his place in the structure is of
// the carrier's. A square pass gains nothing and, cut out, beats two.
func (w *world) stagger(i int, kind model.BehaviourKind, anchor, ball r2.Vec) r2.Vec {
	if kind == model.HoldAnchor || kind == model.Pin {
		return anchor
	}
	dx, dy := anchor.X-ball.X, math.Abs(anchor.Y-ball.Y)
	far := math.Sqrt(dx*dx + dy*dy)
	short := min(dy, staggerWithin-dy) - math.Abs(dx) // metres of depth that a diagonal lacks
	if far > staggerWithin || short <= 0 {
		return anchor
	}
	ahead := dx > 0
	if w.carrier != nobody {
		st := &w.team(w.onBall).Structure
		ahead = st.At(i, ball, w.pitch).X > st.At(w.carrier%11, ball, w.pitch).X+1
	}
	give := w.par.Stagger * short
	if !ahead {
		give = -give
	}
	return r2.Vec{X: anchor.X + give, Y: anchor.Y}
}

// spacing is how far apart team-mates keep, m; crowdCost what standing on one
// another's feet costs in openness. Common practice, no source.
const (
	spacing   = 9.0
	crowdCost = 0.8
)

// company is where team-mates are going, own frame.
type company struct {
	n  int
	at [10]r2.Vec
}

// neighbours are the team-mates of body b who are going within reach of p.
func (w *world) neighbours(b int, p r2.Vec, reach float64) (c company) {
	at := own(w.onBall, p)
	for m := 11*w.onBall + 1; m < 11*w.onBall+11; m++ {
		if m != b && dist2(w.target[m], at) < reach*reach {
			c.at[c.n] = own(w.onBall, w.target[m])
			c.n++
		}
	}
	return c
}

// crowd is the cost of a place that is too near to where a team-mate is going.
func (c *company) crowd(p r2.Vec) float64 {
	near := spacing * spacing
	for i := range c.n {
		near = min(near, dist2(c.at[i], p))
	}
	if near == spacing*spacing {
		return 0
	}
	return crowdCost * (1 - math.Sqrt(near)/spacing)
}
