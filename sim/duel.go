package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// challenge lets the nearest opponent go for the ball while he is within
// range. Challenges come as a hazard with one draw for each: the hazard adds up
// until it passes an exponential threshold, so that variants of a scenario
// share their luck.
func (w *world) challenge() {
	if w.state != held || w.over || w.restart != inPlay {
		return
	}
	w.turnOn()
	if w.keeperClaims() {
		return
	}
	o, gap := w.nearest, w.gapTo
	if o == nobody || gap > w.par.ChallengeRange || w.beaten[o] > w.tick || w.tick-w.since < 2 {
		return
	}
	near := gap / w.par.ChallengeRange
	rate := w.par.ChallengeRate * math.Exp(w.able[o].Value[model.Pressing]) * (1 - near*near*0.6)
	if w.def.stance == pressing {
		rate *= 1.25
	}
	if w.inTheirArea() {
		rate *= w.par.AreaHaste // he may shoot at any moment
	}
	// Who runs at an opponent runs into him.
	at := towards(w.pos[w.carrier], w.pos[o], w.face)
	if v := w.vel[w.carrier]; v.X*at.X+v.Y*at.Y > 0 {
		rate *= 1 + w.par.RunInto*(v.X*at.X+v.Y*at.Y)
	}
	w.trk.hazard += rate * TickSeconds
	if w.trk.hazard < w.trk.threshold {
		return
	}
	w.trk.hazard, w.trk.threshold = 0, w.duel.ExpFloat64()
	w.fight(o)
}

// claimRange and claimRate: a keeper who has come off his line goes down at a
// carrier's feet within this, m, at this rate, 1/s. Common practice, no source.
const (
	claimRange = 2.8
	claimRate  = 2.5
)

// keeperClaims lets the keeper go for the ball at the feet of a carrier in his
// penalty area.
func (w *world) keeperClaims() bool {
	k := 11 * (1 - w.onBall)
	if w.tick-w.since < 2 || !w.inOwnArea(k) || dist2(w.pos[k], w.ball) > claimRange*claimRange {
		return false
	}
	w.trk.claim += claimRate * TickSeconds
	if w.trk.claim < w.trk.claimAt {
		return false
	}
	w.p.DefActions++
	w.emit(Event{Kind: EventDuel, Team: w.onBall, Player: w.carrier % 11, Other: 0, From: w.ball, To: w.ball})
	w.lose(EndTackled, w.carrier, k)
	return true
}

// turnOn turns the carrier's body towards the attack, on the move half towards where he goes,
// as fast as the pressure lets him.
func (w *world) turnOn() {
	want := r2.Vec{X: sign(w.onBall)}
	if w.stride > 1 {
		want = towards(r2.Vec{}, r2.Vec{X: want.X + w.dribble.X, Y: w.dribble.Y}, want)
	}
	share := (0.9 - 0.75*w.pressure) * TickSeconds * 4
	x, y := w.face.X+share*(want.X-w.face.X), w.face.Y+share*(want.Y-w.face.Y)
	w.face = towards(r2.Vec{}, r2.Vec{X: x, Y: y}, want)
}

// edge is how much a challenger has over the carrier, in log odds.
func (w *world) edge(carrier, opponent int) float64 {
	return w.able[opponent].Value[model.Tackling] - w.able[carrier].Value[model.TakeOn]
}

// fight is one challenge: won clean, a foul either way, knocked loose, or
// ridden by the carrier, who leaves the opponent behind.
func (w *world) fight(o int) {
	c := w.carrier
	p := &w.par
	w.p.DefActions++
	e := w.edge(c, o)
	won := logistic(logit(p.DuelWon) + e)
	loose := logistic(logit(p.DuelLoose) + e/2)
	u := w.duel.Float64()
	w.emit(Event{Kind: EventDuel, Team: w.onBall, Player: c % 11, Other: o % 11, From: w.ball, To: w.ball})
	foul := w.foulOdds()
	if w.inTheirArea() {
		foul /= w.par.AreaHaste // as many as just outside it in the same time
	}
	switch {
	case u < foul:
		w.end(EndFoulWon, c)
	case u < foul+p.FoulByAttack:
		w.end(EndFoulCommitted, c)
	case u < foul+p.FoulByAttack+won:
		w.lose(EndTackled, c, o)
	case u < foul+p.FoulByAttack+won+loose:
		w.spill(c, o)
	default:
		w.beaten[o] = w.tick + ticks(p.BeatenFor/2)
	}
}

// Defenders foul the less the nearer they are to their own goal, where a free kick costs more:
// from halfway the share falls to carefulShare over carefulOver m. Set by the fouls won that end
// build-ups in the own, middle and final third, 0.020, 0.058 and 0.019, against ground duels lost
// of 0.027, 0.087 and 0.066 (Pappalardo et al. 2019, CC BY 4.0).
const (
	carefulShare = 0.4
	carefulOver  = 30.0
)

// foulOdds is the chance that a challenge ends in a foul by the defender.
func (w *world) foulOdds() float64 {
	deep := clamp(own(w.onBall, w.ball).X/carefulOver, 0, 1)
	return w.par.FoulByDefence * (1 - (1-carefulShare)*deep)
}

// inTheirArea reports whether the ball is in the penalty area that the team on the
// ball attacks.
func (w *world) inTheirArea() bool { return w.pitch.InPenaltyArea(own(w.onBall, w.ball)) }

// touchNear is how near a touchline a duel drives the ball out, m: the defender puts
// it there rather than leave it loose, off himself or off his man; common practice, no
// source.
const touchNear = 12.0

// spill knocks the ball away from a duel, off either man: anywhere, but near the
// touchline rather out, and there rather off the carrier, who has the line at his back.
func (w *world) spill(c, o int) {
	w.trk.cause = EndTackled
	line := max(1-(w.halfW-math.Abs(w.ball.Y))/touchNear, 0)
	last := o
	if w.duel.Float64() < 0.5+0.5*line*w.par.SeeOut {
		last = c
	}
	away := line * w.par.PutOut
	angle := 2 * math.Pi * w.duel.Float64()
	dir := r2.Vec{X: math.Cos(angle), Y: math.Sin(angle) + math.Copysign(away, w.ball.Y)}
	w.carrier = nobody
	w.loose(last, GroundFlight(w.ball, towards(r2.Vec{}, dir, r2.Vec{X: 1}), 3+6*w.duel.Float64()))
}

// takeOnChance is the chance that carrier c beats opponent o.
func (w *world) takeOnChance(c, o int) float64 {
	return logistic(logit(w.par.TakeOnWin) - w.edge(c, o))
}

// tryTakeOn plays a take-on: past his man with the ball, or a duel lost.
func (w *world) tryTakeOn(opt *option) {
	c, o := w.carrier, opt.aim
	w.emit(Event{Kind: EventTakeOn, Team: w.onBall, Player: c % 11, Other: o % 11, From: w.ball, To: opt.target, Chance: opt.chance})
	if w.duel.Float64() < opt.chance {
		w.beaten[o] = w.tick + ticks(w.par.BeatenFor)
		w.setDribble(opt.target)
		w.stride = w.able[c].Value[model.Carrying]
		w.think = w.tick + ticks(0.6)
		return
	}
	w.p.DefActions++
	u := w.duel.Float64()
	foul := w.foulOdds()
	switch {
	case u < foul:
		w.end(EndFoulWon, c)
	case u < 0.6:
		w.lose(EndTackled, c, o)
	default:
		w.spill(c, o)
	}
}
