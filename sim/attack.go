package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// replan is how often a player reconsiders where to go, in ticks; players take
// turns, so that each tick costs the same.
const replan = 5

// moveAttack sets where the team on the ball wants to stand.
func (w *world) moveAttack() {
	first := 11 * w.onBall
	focus := w.focus()
	for b := first; b < first+11; b++ {
		if b == w.carrier || (w.tick+b)%replan != 0 {
			continue
		}
		if w.runs[b].until > w.tick {
			w.target[b] = w.runs[b].target
			w.cap[b] = w.par.RunSpeed
			continue
		}
		w.target[b] = w.inside(own(w.onBall, w.attackPlace(b, own(w.onBall, focus))), 0.5)
		w.cap[b] = w.effort(b)
	}
	if w.state == flying && w.fly.aim != nobody && w.fly.aim != w.fly.winner {
		// The man it was meant for goes to meet it.
		w.target[w.fly.aim] = w.inside(w.fly.where, 0.5)
		w.cap[w.fly.aim] = w.par.RunSpeed
	}
	w.shiftRuns()
}

// focus is where the play is: the ball, or where a ball in flight will come down.
func (w *world) focus() r2.Vec {
	if w.state == flying && w.tick-w.fly.left >= 2 {
		return w.fly.where
	}
	return w.ball
}

// effort is the speed at which a player moves to his place: the further he is
// from it, the harder he goes.
func (w *world) effort(b int) float64 {
	d := dist(w.pos[b], w.target[b])
	return min(1.2+0.42*d, w.par.JogSpeed+max(0, d-12)*0.15)
}

// attackPlace is where body b wants to be, in the own frame of the team on the
// ball, with the ball at ball (own frame).
func (w *world) attackPlace(b int, ball r2.Vec) r2.Vec {
	team := w.team(w.onBall)
	i := b % 11
	anchor := team.Structure.At(i, ball, w.pitch)
	anchor.X += w.stray[b].X
	anchor.Y += w.stray[b].Y
	if i == 0 {
		return anchor
	}
	if p, ok := w.boxPlace(b, ball); ok {
		return p
	}
	behaviour := &team.Players[i].Behaviour
	switch behaviour.Kind {
	case model.HoldAnchor, model.RestDefence:
	case model.Pin:
		return w.pinPlace(b, behaviour, anchor, ball)
	default:
		anchor = w.offer(b, behaviour.Kind, anchor, ball)
	}
	return w.onside(anchor, ball)
}

// onside keeps a waiting player level with the last line.
func (w *world) onside(p, ball r2.Vec) r2.Vec {
	if line := max(w.att.last-0.4, ball.X, 0); p.X > line {
		p.X = line
	}
	return p
}

// pinPlace stands on the shoulder of the line or opponent to be held.
func (w *world) pinPlace(b int, bh *model.Behaviour, anchor, ball r2.Vec) r2.Vec {
	if o := w.pins[b]; o != nobody {
		p := own(w.onBall, w.pos[o])
		side := 1.8
		if anchor.Y < p.Y {
			side = -1.8
		}
		return w.onside(r2.Vec{X: p.X - 0.5, Y: p.Y + side}, ball)
	}
	line := w.att.last - 0.6
	if bh.Line == model.MidfieldLine && w.att.lines > 1 {
		line = w.att.line[1] + 2
	}
	if anchor.X < line {
		anchor.X += min(line-anchor.X, 15)
	}
	return w.onside(anchor, ball)
}

// offers are the places around an anchor that a player compares, as shares of
// his reach: stay, up, back, either side, and between.
var offers = [...]r2.Vec{
	{}, {X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 0.7, Y: 0.7}, {X: 0.7, Y: -0.7}, {X: -0.7, Y: 0.7}, {X: -0.7, Y: -0.7},
}

// offer finds the place near the anchor where the player is most open to a
// pass: far from opponents, with a clear line to the ball, and, for a player
// between the lines, in the space behind the midfield.
func (w *world) offer(b int, kind model.BehaviourKind, anchor, ball r2.Vec) r2.Vec {
	reach := w.par.OfferReach
	if kind == model.Support {
		anchor.X += 0.25 * (ball.X + 4 - anchor.X)
		anchor.Y += 0.3 * (ball.Y - anchor.Y)
	}
	if kind == model.BetweenLines && w.att.lines > 1 {
		mid, last := w.att.line[1], w.att.line[0]
		if last-mid > 4 {
			anchor.X = min(max(anchor.X, mid+2), last-2)
		}
	}
	now := own(w.onBall, w.target[b])
	best, score := anchor, math.Inf(-1)
	for k, o := range offers {
		p := r2.Vec{X: anchor.X + reach*o.X, Y: anchor.Y + reach*o.Y}
		if math.Abs(p.Y) > w.halfW-1 || math.Abs(p.X) > w.halfL-1 {
			continue
		}
		z := w.openness(p, ball) - 0.06*dist(p, now)
		if k > 0 {
			z -= 0.35
		}
		if z > score {
			best, score = p, z
		}
	}
	return best
}

// openness of a place (own frame) for a pass from ball: room around it and
// room beside the line to it, each worth up to 1.
func (w *world) openness(p, ball r2.Vec) float64 {
	s := sign(w.onBall)
	x, y := s*p.X, s*p.Y
	bx, by := s*ball.X, s*ball.Y
	dx, dy := x-bx, y-by
	length2 := dx*dx + dy*dy
	room, lane := 64.0, 9.0
	first := 11 * (1 - w.onBall)
	for o := first; o < first+11; o++ {
		ex, ey := w.pos[o].X-x, w.pos[o].Y-y
		room = min(room, ex*ex+ey*ey)
		fx, fy := w.pos[o].X-bx, w.pos[o].Y-by
		if along := fx*dx + fy*dy; along > 0 && along < length2 {
			across := fx*dy - fy*dx
			lane = min(lane, across*across/length2)
		}
	}
	return math.Sqrt(room/64) + math.Sqrt(lane/9)
}

// Places in the box for a ball out wide in the final third, relative to the
// goal line and the side of the ball (y > 0 is the ball's side): near post,
// penalty spot, far post, edge. Common practice, no source.
var boxPlaces = [...]r2.Vec{{X: -5.5, Y: 3.5}, {X: -10.5, Y: -1}, {X: -6.5, Y: -6}, {X: -18, Y: 2}}

// boxPlace sends forwards, the far wide man and the foremost midfielder into
// the box when the ball is wide in the final third.
func (w *world) boxPlace(b int, ball r2.Vec) (r2.Vec, bool) {
	if ball.X < w.halfL-crossDepth+3 || math.Abs(ball.Y) < crossSide {
		return r2.Vec{}, false
	}
	side := math.Copysign(1, ball.Y)
	rank := w.boxRank(b, side)
	if rank < 0 {
		return r2.Vec{}, false
	}
	at := boxPlaces[rank]
	p := r2.Vec{X: w.halfL + at.X, Y: side * at.Y}
	return w.onside(p, ball), true
}

// boxRank orders the players who attack the box by how far up the final-third
// structure puts them, wide men on the ball's side left out; -1 for the rest.
func (w *world) boxRank(b int, side float64) int {
	anchor := &w.team(w.onBall).Structure.Anchor[model.FinalThirdAttack]
	i := b % 11
	if side*anchor[i].Y > model.PenaltyAreaWidth/2-4 {
		return -1
	}
	rank := 0
	for j := 1; j < 11; j++ {
		if j == i || 11*w.onBall+j == w.carrier || side*anchor[j].Y > model.PenaltyAreaWidth/2-4 {
			continue
		}
		if anchor[j].X > anchor[i].X+0.01 || (anchor[j].X > anchor[i].X-0.01 && math.Abs(anchor[j].Y) < math.Abs(anchor[i].Y)-0.01) {
			rank++
		}
	}
	order := [...]int{1, 2, 0, 3} // spot first, then far post, near post, edge
	if rank >= len(order) {
		return -1
	}
	return order[rank]
}
