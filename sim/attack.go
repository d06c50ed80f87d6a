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
		place, keepUp := w.attackPlace(b, own(w.onBall, focus))
		w.target[b] = w.inside(own(w.onBall, place), 0.5)
		w.cap[b] = w.effort(b)
		if keepUp {
			w.hurry(b) // as those who defend against him
		}
		if w.att.open > 0 && b%11 != 0 {
			// The block is beaten: they run with the attack before it is back.
			w.cap[b] = max(w.cap[b], w.att.open*w.par.RunSpeed)
		}
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
	return min(1+0.6*d, w.par.JogSpeed+max(0, d-8)*0.2)
}

// attackPlace is where body b wants to be, in the own frame of the team on the
// ball, with the ball at ball (own frame), and whether he keeps up with it: who runs into
// the box or pins an opponent or the last line does.
func (w *world) attackPlace(b int, ball r2.Vec) (place r2.Vec, keepUp bool) {
	team := w.team(w.onBall)
	i := b % 11
	anchor := team.Structure.At(i, ball, w.pitch)
	anchor.X += w.stray[b].X
	anchor.Y += w.stray[b].Y
	if i == 0 {
		return anchor, false
	}
	if p, ok := w.boxPlace(b, ball); ok {
		return p, true
	}
	behaviour := &team.Players[i].Behaviour
	anchor = w.comeNear(b, behaviour.Kind, anchor, ball)
	anchor = w.stagger(i, behaviour.Kind, anchor, ball)
	switch behaviour.Kind {
	case model.HoldAnchor:
	case model.Pin:
		return w.pinPlace(b, behaviour, anchor, ball), w.pins[b] != nobody || behaviour.Line == model.LastLine
	default:
		anchor = w.offer(b, behaviour.Kind, anchor, ball)
	}
	return w.onside(anchor, ball), false
}

// onside keeps a waiting player level with the last line.
func (w *world) onside(p, ball r2.Vec) r2.Vec {
	if line := max(w.att.last-0.4, ball.X, 0); p.X > line {
		p.X = line
	}
	return p
}

// pinStray is how far across from his anchor a man who pins an opponent follows
// him, m; common practice, no source.
const pinStray = 5.0

// pinPlace stands on the shoulder of the line or opponent to be held.
func (w *world) pinPlace(b int, bh *model.Behaviour, anchor, ball r2.Vec) r2.Vec {
	if o := w.pins[b]; o != nobody {
		p := own(w.onBall, w.pos[o])
		side := 1.8
		if anchor.Y < p.Y {
			side = -1.8
		}
		// He waits where he is dangerous: the opponent leaves at his peril.
		y := min(max(p.Y+side, anchor.Y-pinStray), anchor.Y+pinStray)
		return w.onside(r2.Vec{X: p.X - 0.5, Y: y}, ball)
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
// his reach: along the pitch and across it, and between. He looks at one kind at
// a time, near and far in turn, so that a look costs little.
var offers = [2][4]r2.Vec{
	{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}},
	{{X: 0.7, Y: 0.7}, {X: 0.7, Y: -0.7}, {X: -0.7, Y: 0.7}, {X: -0.7, Y: -0.7}},
}

// offer finds the place near the anchor where the player is most open to a
// pass: far from opponents, with a clear line to the ball, and, for a player
// between the lines, in the space behind the midfield.
func (w *world) offer(b int, kind model.BehaviourKind, anchor, ball r2.Vec) r2.Vec {
	look := w.tick / replan
	reach := w.par.OfferReach
	if look%4 < 2 {
		reach *= 0.5
	}
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
	// Where he is going already counts too: he does not turn back for little.
	now := own(w.onBall, w.target[b])
	mates := w.neighbours(b, anchor, reach+spacing)
	best, score := anchor, w.openness(anchor, ball, -10)-walkCost*dist(anchor, now)-mates.crowd(anchor)
	for _, o := range offers[look%2] {
		p := r2.Vec{X: anchor.X + reach*o.X, Y: anchor.Y + reach*o.Y}
		if math.Abs(p.Y) > w.halfW-1 || math.Abs(p.X) > w.halfL-1 {
			continue
		}
		cost := walkCost*dist(p, now) + anchorPull + mates.crowd(p)
		if z := w.openness(p, ball, score+cost) - cost; z > score {
			best, score = p, z
		}
	}
	return best
}

// What a player gives up in openness for not having to walk, per metre, and for
// keeping to his anchor; assumed.
const (
	walkCost   = 0.03
	anchorPull = 0.1
)

// openness of a place (own frame) for a pass from ball: by how many metres the
// nearest opponent misses the ball on its way or at the place, given the time he
// has, and the room around it. 1 is a clear pass to a man on his own. A place
// that cannot reach least is given up early.
func (w *world) openness(p, ball r2.Vec, least float64) float64 {
	s := sign(w.onBall)
	x, y := s*p.X, s*p.Y
	bx, by := s*ball.X, s*ball.Y
	dx, dy := x-bx, y-by
	length := math.Sqrt(dx*dx+dy*dy) + 1e-9
	dx, dy = dx/length, dy/length
	room, miss := 64.0, 3.0
	if least > 1 {
		return 0
	}
	enough := (least - 0.4) * 5 // the miss below which the place is out
	first := 11 * (1 - w.onBall)
	for o := first + 1; o < first+11; o++ {
		fx, fy := w.pos[o].X-bx, w.pos[o].Y-by
		along := fx*dx + fy*dy
		if along < 0 {
			continue
		}
		ex, ey := w.pos[o].X-x, w.pos[o].Y-y
		d2 := ex*ex + ey*ey
		room = min(room, d2)
		gap := math.Abs(fx*dy - fy*dx)
		if along > length {
			along, gap = length, math.Sqrt(d2)
		}
		// He has the ball's time less his reaction, at his effective speed.
		if miss = min(miss, gap-max(along/passPace-0.5, 0)*w.par.ArriveSpeed); miss < enough && miss > -5 {
			return least - 1
		}
	}
	return 0.6*max(miss, -5)/3 + 0.4*math.Sqrt(room/64)
}

// passPace is the mean speed of a ground pass, m/s: 11.8 at 15-20 m (movement
// tables).
const passPace = 12.0
