package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// runTime is how long a run lasts at most, s: median 2.2, q90 4.9 for all runs,
// 2.5 in behind (movement tables).
const runTime = 3.0

// callRuns gives every run whose trigger has come up its chance to start: the
// ball has just come under control.
func (w *world) callRuns() {
	team := w.team(w.onBall)
	ball := own(w.onBall, w.ball)
	lane, third := model.LaneOf(ball.Y), w.pitch.ThirdOf(ball.X)
	for k := range team.Runs {
		r := &team.Runs[k]
		u := unit(w.errands.of(errand(team.Runs, k)))
		b := 11*w.onBall + team.ByNumber(r.Player)
		if b == w.carrier || w.runs[b].until > w.tick || u >= r.Chance || !triggered(r, w.number[w.carrier], lane, third) {
			continue
		}
		w.startRun(b, r.Kind, ball)
	}
}

// errand names run k by who makes which run, and by how many of the kind he has
// before it: a plan with one run more shares the luck of all the others.
func errand(runs []model.Run, k int) uint64 {
	r := &runs[k]
	before := 0
	for i := range runs[:k] {
		if runs[i].Player == r.Player && runs[i].Kind == r.Kind {
			before++
		}
	}
	return uint64(before)<<16 | uint64(r.Player)<<8 | uint64(r.Kind)
}

// triggered reports whether the ball is where and with whom the run waits for it.
func triggered(r *model.Run, carrier int, lane model.Lane, third model.Third) bool {
	return (len(r.With) == 0 || contains(r.With, carrier)) &&
		(r.Lane == [model.NumLanes]bool{} || r.Lane[lane]) &&
		(r.Third == [model.NumThirds]bool{} || r.Third[third])
}

func contains(list []int, n int) bool {
	for _, x := range list {
		if x == n {
			return true
		}
	}
	return false
}

// startRun sends body b off if the run makes sense from where he is.
func (w *world) startRun(b int, kind model.RunKind, ball r2.Vec) {
	p := own(w.onBall, w.pos[b])
	side := math.Copysign(1, ball.Y)
	var to r2.Vec
	switch kind {
	case model.Overlap, model.Underlap:
		// Past the carrier, outside or inside him, on his side of the pitch.
		if p.Y*side < 0 || math.Abs(ball.Y) < model.GoalAreaWidth/2 || p.X > ball.X+6 || p.X < ball.X-22 {
			return
		}
		y := min(math.Abs(ball.Y)+7, w.halfW-2)
		if kind == model.Underlap {
			y = max(math.Abs(ball.Y)-9, 6)
		}
		to = r2.Vec{X: min(ball.X+13, w.halfL-4), Y: side * y}
	case model.InBehind:
		if w.att.last-p.X > 14 || p.X > w.att.last+1 || w.att.last-ball.X > 45 || w.face.X*sign(w.onBall) < 0.2 || w.pressure > 0.6 {
			return
		}
		to = r2.Vec{X: min(w.att.last+14, w.halfL-5), Y: p.Y}
	case model.ThirdMan:
		// Beyond the man on the ball, to be found by his lay-off: from behind him
		// or from level, on his side.
		if p.X > ball.X+14 || p.X < ball.X-18 || math.Abs(p.Y-ball.Y) > 25 {
			return
		}
		to = r2.Vec{X: min(max(ball.X, p.X)+10, w.halfL-6), Y: p.Y + 0.4*(ball.Y-p.Y)}
	}
	w.p.Runs[kind]++
	w.runs[b] = run{kind: kind, until: w.tick + ticks(runTime), target: own(w.onBall, to)}
	w.target[b], w.cap[b] = w.runs[b].target, w.par.RunSpeed
	// A run draws the carrier's eye: he looks up soon.
	w.think = min(w.think, w.tick+ticks(1.2))
}

// shiftRuns ends the runs that have arrived or have gone offside without the ball.
func (w *world) shiftRuns() {
	first := 11 * w.onBall
	s := sign(w.onBall)
	for b := first + 1; b < first+11; b++ {
		r := &w.runs[b]
		if r.until <= w.tick {
			continue
		}
		if dist2(w.pos[b], r.target) < 1.5 {
			r.until = w.tick
		}
		x := s * w.pos[b].X
		if w.state == held && x > w.att.last+2.5 && x > s*w.ball.X {
			r.until = w.tick // too early: he comes back
		}
		if r.kind == model.InBehind && w.goingBack() {
			r.until = w.tick // nobody can find him now
		}
	}
}
