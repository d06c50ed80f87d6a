package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// braking is the hardest a player slows down, m/s^2: very hard decelerations
// are above 3.5 (Harper et al. 2019), match peaks 5-6 (from memory).
const braking = 5.0

// BallAhead is how far in front of him a man has the ball at his feet, m; common practice, no
// source.
const BallAhead = 0.5

// step moves every player and the ball by one tick.
func (w *world) step() {
	w.tick++
	for b := range w.pos {
		w.moveBody(b)
	}
	w.seen[w.tick&7] = w.ball
	if w.state == held {
		f := w.face
		c := w.pos[w.carrier]
		w.ball = r2.Vec{X: c.X + BallAhead*f.X, Y: c.Y + BallAhead*f.Y}
		w.ball = w.inside(w.ball, 0.05) // he keeps it in
		return
	}
	w.ball = w.fly.flight.Pos(float64(w.tick-w.fly.left) * TickSeconds)
}

// moveBody turns a player's velocity towards the wanted one under his limit of
// acceleration, and moves him.
func (w *world) moveBody(b int) {
	const dt = TickSeconds
	p, v := w.pos[b], w.vel[b]
	var want r2.Vec
	switch {
	case w.beaten[b] > w.tick:
	case w.state == held && b == w.carrier:
		want = r2.Vec{X: w.dribble.X * w.stride, Y: w.dribble.Y * w.stride}
	case w.state == flying && b == w.fly.winner:
		w.meet(b)
		return
	default:
		want = w.seek(b)
	}
	dx, dy := want.X-v.X, want.Y-v.Y
	n := math.Sqrt(dx*dx + dy*dy)
	if n > 1e-9 {
		a := braking
		if dx*v.X+dy*v.Y >= 0 {
			// Mono-exponential sprint: acceleration falls to nothing at top speed.
			able := &w.able[b]
			a = able.Accel * max(1-math.Sqrt(v.X*v.X+v.Y*v.Y)/able.TopSpeed, 0.05)
		}
		if most := a * dt; n > most {
			dx, dy = dx*most/n, dy*most/n
		}
		v.X += dx
		v.Y += dy
	}
	off := -runOff
	if w.state == held && b == w.carrier {
		off = 0 // he stops at the line: the ball goes out by a touch or a pass
	}
	w.vel[b] = v
	w.pos[b] = w.inside(r2.Vec{X: p.X + v.X*dt, Y: p.Y + v.Y*dt}, off)
}

// runOff is how far beyond a line a running player may get, m: the boards.
const runOff = 3.0

// seek is the velocity that takes a player to his target and stops him there.
func (w *world) seek(b int) r2.Vec {
	dx, dy := w.target[b].X-w.pos[b].X, w.target[b].Y-w.pos[b].Y
	d := math.Sqrt(dx*dx + dy*dy)
	if d < 0.25 {
		return r2.Vec{}
	}
	s := min(w.cap[b], w.able[b].TopSpeed, 1.6*d) // slows over the last metres
	return r2.Vec{X: dx / d * s, Y: dy / d * s}
}

// meet moves the player who will have the ball towards where he will have it, at
// the speed that takes him there in time. The control model lets nobody have a
// ball further off than his top speed and reach allow, so what his legs do not
// cover he stretches for.
func (w *world) meet(b int) {
	left := max(w.fly.when-float64(w.tick-1-w.fly.left)*TickSeconds, TickSeconds)
	v := r2.Vec{X: (w.fly.where.X - w.pos[b].X) / left, Y: (w.fly.where.Y - w.pos[b].Y) / left}
	if s := math.Sqrt(v.X*v.X + v.Y*v.Y); s > w.able[b].TopSpeed {
		v.X *= w.able[b].TopSpeed / s
		v.Y *= w.able[b].TopSpeed / s
	}
	w.vel[b] = v
	w.pos[b].X += v.X * TickSeconds
	w.pos[b].Y += v.Y * TickSeconds
}
