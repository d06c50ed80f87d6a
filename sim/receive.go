package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// landed ends a delivery whose time has come.
func (w *world) landed() {
	if w.state != flying || w.over || float64(w.tick-w.fly.left)*TickSeconds < w.fly.when-1e-9 {
		return
	}
	w.ball = w.fly.where
	if w.fly.winner == nobody {
		w.outOfPlay()
		return
	}
	w.receive(w.fly.winner)
}

// outOfPlay ends the possession: the restart goes against whoever touched the
// ball last.
func (w *world) outOfPlay() {
	if teamOf(w.fly.from) == w.onBall {
		w.end(EndOutTheirs, w.fly.from)
		return
	}
	w.end(EndOutOurs, w.trk.lastOn)
}

// receive gives the ball to body b, if his touch is good enough.
func (w *world) receive(b int) {
	w.rekey()
	if teamOf(b) != w.onBall {
		w.taken(b)
		return
	}
	f := &w.fly
	if f.pass && f.offside[b] {
		w.end(EndOffside, b)
		return
	}
	if f.pass && w.runsOut(b) {
		w.outOfPlay()
		return
	}
	pressure, opponent, gap := w.pressureAt(b, w.pos[b])
	if f.pass {
		w.trk.completed(w, b)
	}
	if f.height > w.par.FootHeight && gap < headedWithin {
		if w.execution.Float64() > w.headerHold(b, opponent) {
			// A header that finds nobody is a ball given away, not a duel lost.
			w.trk.slipped(b, pressure)
			w.nod(b)
			return
		}
	} else if w.execution.Float64() < w.touchFails(b, pressure) {
		w.trk.cause = EndMiscontrol
		w.trk.poorTouch(w)
		w.trk.slipped(b, pressure)
		w.knock(b, 2, 5)
		return
	}
	w.control(b, received)
}

// headedWithin is how near an opponent makes a ball above the foot a contested one for the man
// who gets to it, m: whether he keeps it is a matter of heading, not of his first touch. Common
// practice, no source.
const headedWithin = 2.0

// runsOut reports whether a man gets to the ball so fast and so near a line that he
// cannot stop it inside.
func (w *world) runsOut(b int) bool {
	p, v := w.pos[b], w.vel[b]
	stop := func(v float64) float64 {
		v = max(v, 0) // towards the line
		return v * v / (2 * braking)
	}
	return stop(v.Y*math.Copysign(1, p.Y)) > w.halfW-math.Abs(p.Y)+dragBack ||
		stop(v.X*math.Copysign(1, p.X)) > w.halfL-math.Abs(p.X)+dragBack
}

// dragBack is how far a foot drags back a ball that its man has caught up with, m;
// common practice, no source.
const dragBack = 0.5

// headerHold is the chance that a contested header finds its man or stays.
func (w *world) headerHold(b, opponent int) float64 {
	edge := w.able[b].Value[model.Aerial] - w.able[opponent].Value[model.Aerial] + 0.25
	return logistic(logit(w.par.HeaderHold) + edge)
}

// touchFails is the chance that a first touch gets away: harder for a fast
// ball, under pressure and out of the air.
func (w *world) touchFails(b int, pressure float64) float64 {
	f := &w.fly
	z := w.able[b].Value[model.FirstTouch] + w.par.TouchPressure*pressure*w.able[b].Value[model.Composure]
	if f.pass {
		z += w.par.TouchSpeed * (f.flight.Speed(f.when) - 8)
	}
	if f.height > w.par.FootHeight || f.flight.Hopping(f.when) {
		z += w.par.TouchHigh
	}
	return logistic(z)
}

// closeQuarters is how soon after it left a ball is blocked rather than won, s;
// common practice, no source.
const closeQuarters = 0.5

// taken is the ball in the path of an opponent: he controls it, or only gets a
// foot or a head to it.
func (w *world) taken(b int) {
	f := &w.fly
	w.p.DefActions++
	if b%11 == 0 && w.inOwnArea(b) {
		w.lose(w.trk.lossCause(), w.trk.lastOn, b)
		return
	}
	pressure, opponent, gap := w.pressureAt(b, w.pos[b])
	if w.trk.cause != causeNone && gap < reach {
		w.trk.cause = EndTackled // they have fought for a loose ball
	}
	if f.when >= closeQuarters && w.execution.Float64() < w.clears(b, pressure) {
		w.clear(b)
		return
	}
	header := f.height > w.par.FootHeight
	hold := w.par.StealHold
	switch {
	case header && gap < w.par.AerialGap:
		if f.pass {
			w.trk.cause = EndAerial
		}
		hold = w.headerHold(b, opponent)
	case header:
		hold = freeHeader
	case f.pass && f.when < closeQuarters:
		hold *= 0.4 // a block at close quarters is seldom controlled
	case f.flight.Kind != Ground:
		hold = 1 - w.touchFails(b, pressure) // he has seen it come down, as he whom it was meant for
	}
	if w.execution.Float64() < hold {
		w.lose(w.trk.lossCause(), w.trk.lastOn, b)
		return
	}
	if w.trk.cause == causeNone {
		w.trk.cause = EndIntercepted
	}
	if header {
		w.nod(b)
		return
	}
	w.knock(b, 6, 18)
}

// freeHeader is the chance that an opponent whom nobody hinders heads the ball to a team-mate or
// keeps it. Source: Pappalardo et al. (2019), CC BY 4.0: of headed passes 0.68 are completed in
// the own and 0.63 in the middle third.
const freeHeader = 0.66

// gaining is how a player comes to have the ball.
type gaining uint8

const (
	received gaining = iota // it came to him
	won                     // the possession starts with a ball he has just won
	given                   // it starts with a ball that has waited for him
)

// control gives the ball to body b of the team on the ball, under control.
func (w *world) control(b int, how gaining) {
	if how != received {
		w.rekey()
	}
	w.state = held
	w.carrier = b
	w.since = w.tick
	w.trk.spellStarts(w, b)
	w.unready = how == won || how == received && !w.fly.pass
	w.pressure, w.nearest, w.gapTo = w.pressureAt(b, w.pos[b])
	gap := w.gapTo
	w.turnBody(gap)
	w.comeOut(b, how)
	first, wait := w.choice.Float64(), w.choice.NormFloat64()
	plan := &w.team(w.onBall).Plan
	hold := w.par.HoldShare * plan.Tempo * math.Exp(w.par.HoldSpread*wait)
	header := w.fly.height > w.par.FootHeight
	switch {
	case w.restart != inPlay && w.restart != fromHands:
		w.think, w.stride = w.tick, 0 // he has had the time, and may not take it along
	case how == given:
		w.think = w.tick + ticks(hold)
	case header || first < w.par.OneTouch*math.Exp(-gap/firstTimeFade)*model.AverageTempo/plan.Tempo:
		w.think = w.tick
	default:
		w.think = w.tick + max(ticks(hold*(1+unhurried*max(gap-roomy, 0))), ticks(touchTime))
	}
	if w.breaking(b) || w.inRange(w.ball) {
		w.think = min(w.think, w.tick+w.nextLook()) // no time to dally
	}
	w.trk.received(w, b, gap)
	if how == received {
		w.emit(Event{Kind: EventReceive, Team: w.onBall, Player: b % 11, Other: nobody, From: w.ball, To: w.ball, Chance: w.pressure, Near: gap})
	}
	w.callRuns()
}

// firstTimeFade is how far away the nearest opponent makes a man play the ball first time
// e times less often, m. Source: movement tables, 5,245 receptions of passes: 0.54 of them are
// played first time with an opponent at 1.6 m, 0.37 at 3.5, 0.23 at 5.5, 0.09 at 9 and 0.04 at
// 11 m; likeliest is 0.74 exp(-gap / 4.6 m). Loose balls are taken to be played likewise.
const firstTimeFade = 4.6

// Who does not play the ball first time needs touchTime at the least, s, and takes the longer
// the more room he has beyond roomy, m: unhurried of the usual time for each metre. Source:
// movement tables, 4,000 receptions of passes not played first time: q10 of the time on the
// ball 0.5-0.6 s at 2-8 m; median 1.3 s up to 8 m, 1.6 at 11.5, 1.9 at 15, 2.5 at 20 m.
const (
	touchTime = 0.5
	roomy     = 8.0
	unhurried = 0.07
)

// turnBody sets where the receiver's body points: to the ball when he is
// pressed from behind, half open when there is room, forward at a start.
func (w *world) turnBody(gap float64) {
	s := sign(w.onBall)
	forward := r2.Vec{X: s}
	if w.fly.from == nobody {
		w.face = forward
		return
	}
	back := r2.Vec{X: -w.fly.flight.Dir.X, Y: -w.fly.flight.Dir.Y}
	open := min(max((gap-1.5)/5, 0), 1) // room to turn on the ball
	x, y := back.X*(1-open)+forward.X*open, back.Y*(1-open)+forward.Y*open
	w.face = towards(r2.Vec{}, r2.Vec{X: x, Y: y}, forward)
}
