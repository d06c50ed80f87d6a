package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// contenders takes every player's place and motion for the control model.
func (w *world) contenders() {
	p := &w.par
	for b := range w.opt.near {
		react := w.react[b]
		if b == w.def.presser {
			// He is set to block, the more the nearer he is.
			react = min(react, p.SetReaction+(react-p.SetReaction)*min(dist(w.pos[b], w.ball)/pressFront, 1))
		}
		if until := float64(w.beaten[b]-w.tick) * TickSeconds; until > 0 {
			react += until
		}
		r := &w.opt.near[b]
		r.prepare(b, &Contender{w.pos[b], w.vel[b], react, w.arrive[b], w.able[b].TopSpeed, w.able[b].Accel, p.ControlRate})
		if b%11 == 0 && w.inOwnArea(b) {
			r.rate *= p.KeeperRate
		}
		r.ours = teamOf(b) == w.onBall
		if !r.ours {
			edge := p.DefenceEdge
			if w.inOwnArea(b) {
				edge = p.AreaEdge // to get it away is enough
			}
			r.rate *= edge
		}
	}
	w.watch()
}

// alert is body b as a man who expects the ball: he reacts within soon, s.
func (w *world) alert(b int, soon float64) runner {
	r := w.opt.near[b]
	if soon < r.tau0 {
		r.x += w.vel[b].X * (soon - r.tau0)
		r.y += w.vel[b].Y * (soon - r.tau0)
		r.tau0 = soon
	}
	return r
}

// watch notes who watches whom: the nearest opponent of each player of the team on the
// ball, when he is near and nobody has beaten him. No ball is looked at yet.
func (w *world) watch() {
	w.opt.aim, w.opt.watcher = nobody, nobody
	first, other := 11*w.onBall, 11*(1-w.onBall)
	for a := range w.opt.watchers {
		w.opt.watchers[a] = nobody
		near, p := watchWithin*watchWithin, w.pos[first+a]
		for b := other + 1; b < other+11; b++ {
			if d := dist2(w.pos[b], p); d < near && w.beaten[b] <= w.tick {
				near, w.opt.watchers[a] = d, b
			}
		}
	}
}

// watchWithin is how near an opponent watches a man for the ball, m; common practice,
// no source.
const watchWithin = 5.0

// expect takes the man a ball is meant for, who reacts sooner than the others but to a ball that
// has just been won, and the opponent who watches him.
func (w *world) expect(aim int) {
	o := &w.opt
	o.aim, o.watcher = aim, o.watchers[aim%11]
	if w.firstLook() {
		o.aimed = o.near[aim]
	} else {
		o.aimed = w.alert(aim, w.par.AimReaction)
	}
	if o.watcher != nobody {
		o.watching = w.alert(o.watcher, w.watchReaction(o.watcher))
	}
}

// watchReaction is how soon body b, who watches his man, reacts to a ball meant for him, s.
func (w *world) watchReaction(b int) float64 {
	if w.inOwnArea(b) {
		return min(w.par.WatchReaction, boxReaction)
	}
	return w.par.WatchReaction
}

// boxReaction is how soon at the latest a defender in his own penalty area reacts to a
// ball for the man he watches, s: there everybody waits for it. Set by crosses completed
// (Pappalardo et al. 2019).
const boxReaction = 0.5

// contest is the course of a ball that is meant to go length metres, followed until then, for
// the man that expect has named.
func (w *world) contest(f *Flight, length, until float64) course {
	c := course{ball: f, until: until, enough: judgeEnough}
	if w.opt.aim != nobody {
		rest, _ := f.Rest()
		c.aim, c.meet = &w.opt.aimed, w.meeting(w.opt.aim, min(length, rest))
	}
	return c
}

// meeting is how body b meets a ball that is meant for him and is where it is meant after at
// metres: like anybody in front of goal, where to get it away is enough.
func (w *world) meeting(b int, at float64) meeting {
	if w.pitch.InPenaltyArea(own(teamOf(b), w.pos[b])) {
		return meeting{feet: 1}
	}
	p := &w.par
	return meeting{shield: p.Shield, feet: p.FeetRate, at: at, within: p.MeetWithin}
}

// contender is body b as the control model takes him for the ball looked at.
func (l *optionList) contender(b int) *runner {
	switch b {
	case l.aim:
		return &l.aimed
	case l.watcher:
		return &l.watching
	}
	return &l.near[b]
}

// inOwnArea reports whether a body stands in the penalty area it defends.
func (w *world) inOwnArea(b int) bool {
	return w.pitch.InPenaltyArea(own(1-teamOf(b), w.pos[b]))
}

// chanceOf is the chance that the team on the ball controls the given ball: the
// control model with every player but the carrier, to the time at which it
// would long have been decided. The margin is how much earlier than the nearest
// opponent the ball is at the target, s; had is how far along the way they have
// it on average, m. With p, by body, it also gives every player's probability.
func (w *world) chanceOf(f *Flight, aim int, target r2.Vec, length float64, p []float64) (chance, margin, had float64) {
	at := arrives(f, length)
	w.expect(aim)
	c := w.contest(f, length, at+judgeWait)
	limit := lateLimit * w.ctl.Spread
	margin = 4
	for b := range w.opt.near {
		if b == w.carrier {
			continue
		}
		r := w.opt.contender(b)
		tau := r.timeTo(target.X, target.Y)
		if !r.ours {
			margin = min(margin, tau-at)
		}
		if r.matters(f, length, at, tau, c.until, limit) {
			c.admit(r)
		}
	}
	c.run(&w.glance, p)
	had = length
	if c.ours > 1e-6 {
		had = min(length, c.where/c.ours)
	}
	return c.ours + (1-c.sum)/2, margin, had
}

// arrives is when a ball is length metres away, or has come to rest short of it, s.
func arrives(f *Flight, length float64) float64 {
	at := f.TimeTo(length)
	if math.IsInf(at, 1) {
		_, at = f.Rest()
	}
	return at
}

// A carrier follows a ball until so long after it arrives, s, or until it is so
// surely somebody's.
const (
	judgeWait   = 1.2
	judgeEnough = 0.985
)

// lateLimit is how many spreads late a player may be and still count in a
// carrier's judgement: his chance to be there is 1 in 600.
const lateLimit = 3.5

// chanceInAir is the chance of a ball through the air as its passer judges it,
// who knows that it will not come down just where he means it: the mean over
// one error either way (long and towards the touchline, short and inside), and
// the touch it leaves the receiver.
func (w *world) chanceInAir(aim int, at r2.Vec, length float64, kind FlightKind, skill model.Attribute) (chance, margin float64) {
	sd := w.angularError(w.carrier, skill, kind)
	margin = 4
	for _, side := range airErrors {
		f, down, l := w.errant(at, length, kind, sd, side)
		if !w.pitch.Contains(down) {
			continue // it comes down out of play
		}
		c, m, _ := w.chanceOf(&f, aim, down, l, nil)
		chance += c / 2
		margin = min(margin, m)
	}
	return chance * w.airTouch(margin), margin
}

// airErrors are the sides to which a ball through the air is thought to stray.
var airErrors = [2]float64{1, -1}

// errant is a ball through the air that strays by one error to a side (1: long and
// towards the touchline, -1: short and inside), where it comes down and how far away.
func (w *world) errant(at r2.Vec, length float64, kind FlightKind, sd, side float64) (f Flight, down r2.Vec, l float64) {
	dir := towards(w.ball, at, w.face)
	loss := (1 + w.par.PressureError*w.pressure) * w.strain(length, kind)
	outside := math.Copysign(1, dir.X*at.Y)
	turn := side * outside * sd * loss
	d := r2.Vec{X: dir.X - turn*dir.Y, Y: dir.Y + turn*dir.X}
	l = length * (1 + side*w.par.LoftError*loss)
	f = LoftedFlight(w.ball, d, l, kind)
	return f, r2.Vec{X: w.ball.X + l*d.X, Y: w.ball.Y + l*d.Y}, l
}

// airTouch is the chance that a ball out of the air stays with the team of the man who gets to
// it so much earlier than the nearest opponent, s: with time his touch has to be good enough,
// without it is a header that has to find somebody.
func (w *world) airTouch(margin float64) float64 {
	close := min(max(1-margin, 0), 1)
	free := 1 - logistic(w.par.TouchHigh-5)
	return free + (w.par.HeaderHold-free)*close
}

// usualGoalSide is how many outfield opponents are usually goal-side of a ball at
// x, usualBehind how many team-mates: straight lines up to a man below the means of
// league-average build-ups in this engine, so that one man fewer does not yet count as
// a block beaten; from nearly all opponents and hardly a team-mate at the start to
// three and eight of them in the final third.
func usualGoalSide(x, halfL float64) float64 { return min(max(6.7-5.6*x/halfL, 1.5), 10) }

func usualBehind(x, halfL float64) float64 { return min(max(4.1+6.4*x/halfL, 0.5), 9) }

// worthAt is the worth, in goals, of a team-mate having the ball at p, given
// the time margin he has over the nearest opponent and how it comes. A cross is struck
// first time, at goal if it can be.
func (w *world) worthAt(p r2.Vec, margin float64, aerial, cross bool) float64 {
	s := sign(w.onBall)
	x, y := s*p.X, s*p.Y
	v := threat(x, y, w.pitch)
	if aerial && x > w.halfL-20 {
		// A ball in the air near goal is worth the header it may allow, which takes no time.
		v = min(v, headedAtGoal*logistic(shotLogit(x, y, true, w.pitch))+0.01)
	} else if third := w.pitch.Length / 6; x > third && !cross {
		// What the final third adds is worth that much to him who has time to act.
		if edge := threat(third, y, w.pitch); v > edge {
			v = edge + (v-edge)*min(logistic(actSlope*(margin-w.par.ActTime))*w.atEase, 1)
		}
	}
	free := min(max(margin-0.8, -1.2), 1.2)
	fewer := usualGoalSide(x, w.halfL) - float64(w.goalSide(x))
	return v * expTable.at(w.par.FreeWorth*free+w.par.GoalSide*fewer)
}

// What the ball is worth in the final third beyond what it is worth where that begins is what
// a man makes of it, which he needs time for: the chance to act rises by actSlope, log odds a
// second, with his margin. It is counted as a share of that of a man who is atEase s
// earlier than anybody, to whom the place is worth what the grid says. Assumed.
const (
	actSlope = 2.0
	atEase   = 1.2
)

// judge fills in what the carrier makes of a pass. Its worth is that of the place
// where the team is to have it, had metres away, which for a ball into space may
// be well short of where it is aimed.
func (w *world) judge(o *option, chance, margin, length, had float64) {
	s := sign(w.onBall)
	dir := towards(w.ball, o.target, w.face)
	stopped, _ := w.blocked(dir, o.low(length))
	chance *= 1 - stopped
	o.chance = chance
	aerial := o.kind != Ground
	at := o.target
	if had < length {
		at.X += (had/length - 1) * (o.target.X - w.ball.X)
		at.Y += (had/length - 1) * (o.target.Y - w.ball.Y)
	}
	o.worth = w.worthAt(at, margin, aerial, o.cross)
	doubt := w.par.Misjudge
	if aerial && !o.cross {
		doubt = w.par.HighDoubt
	}
	o.score = w.value(o, w.seenChance(o, chance), o.worth, o.target, doubt) + w.tilt(o.target)
	o.score += w.par.ForwardTaste * s * (o.target.X - w.ball.X)
	switch {
	case o.cross && !o.back:
		o.score += w.par.CrossTaste
		if !aerial {
			o.score += w.par.LowCross
		}
	case aerial:
		o.score += w.par.HighTaste + w.par.HighPressed*w.pressure
		if math.Abs(o.target.Y-w.ball.Y) >= model.SwitchWidth {
			o.score += w.par.SwitchTaste // it is played to the far side, not to gain ground
		} else {
			o.score += w.par.HighForward * min(s*(o.target.X-w.ball.X), w.par.HighGain)
		}
	default:
		o.score -= w.par.NearTaste * length
	}
	o.score += w.findOdds[o.aim]
	// What lies behind his back he sees late or, under pressure, not at all.
	cos := dir.X*w.face.X + dir.Y*w.face.Y
	if cos < -0.2 && o.aim%11 != 0 { // where his keeper is, everybody knows
		blind := 1.0
		if length > 22 {
			blind = 2.5
		}
		o.score -= blind * (0.3 + 2*w.pressure) * (-cos)
	}
}

// usualHigh and usualLow are the shares of high and low crosses that find a team-mate,
// headedAtGoal the shots within 5 s of a high cross for each that does, taken to hold for any ball
// in the air near goal. Source: Pappalardo et al. (2019), CC BY 4.0, table of crosses; all origins.
const (
	usualHigh    = 0.40
	usualLow     = 0.20
	headedAtGoal = 0.42
)

// seenChance is the chance as the carrier sees it. A ball into the box is meant for a
// place as much as for a man, and how good this one is, he tells only in part. On the
// ground he allows for the error of his own foot, which matters the more the tighter
// the ball is. Of a ball through the air he is merely less sure (HighDoubt).
func (w *world) seenChance(o *option, chance float64) float64 {
	switch {
	case o.cross && !o.back: // a cut-back is played to a man
		usual := usualHigh
		if o.kind == Ground {
			usual = usualLow
		}
		return usual + w.par.CrossSight*(chance-usual)
	case o.kind != Ground:
		return chance
	}
	return chance * (1 - w.par.OwnDoubt*(1-chance))
}

// value is the log odds that success and failure of an action are worth: its
// expected goals on the scale of the carrier's sharpness. A failure costs the
// price of a loss where the ball is lost.
func (w *world) value(o *option, chance, worth float64, lost r2.Vec, doubt float64) float64 {
	s := sign(w.onBall)
	o.lost = lost
	if w.firstLook() {
		doubt *= 1 + w.par.Unready
	}
	mis := doubt * normal(w.sights.of(w.thing(o)))
	p := min(max(chance, 0.005), 0.995)
	odds := p * expTable.at(mis) // logistic(logit(p) + mis) without a logarithm
	p = odds / (odds + 1 - p)
	u := p*worth - (1-p)*w.fear()*w.lossAt(s*lost.X, s*lost.Y)
	return u / w.opt.scale
}

// firstLook reports whether the man on the ball has just won it or picked it up and looks up
// for the first time: he has not looked for a pass before, nor does anybody expect one.
func (w *world) firstLook() bool { return w.unready && w.looks <= 1 }

// fear is the weight of the price of a loss: the plan's risk scales it.
func (w *world) fear() float64 {
	return w.par.LossFear * 2 * (1 - w.team(w.onBall).Plan.Risk)
}

// lossAt is the price of losing the ball at (x, y), own frame, as it is felt: that of
// the place, the dearer the fewer team-mates are goal-side of it to make good the loss.
func (w *world) lossAt(x, y float64) float64 {
	return w.price.at(x, y, w.pitch) * w.bare(x)
}

// bare is how much dearer a loss at x, own frame, is for want of team-mates goal-side
// of it.
func (w *world) bare(x float64) float64 {
	behind := 0
	for _, m := range w.att.mates[1:] {
		if m < x-1 {
			behind++
		}
	}
	return expTable.at(w.par.RestWorth * (usualBehind(x, w.halfL) - float64(behind)))
}

// scale is the difference in goals that multiplies the odds of a choice by e: a share of what
// is at stake, the ball's worth where it is and Stake of the price of losing it there, since
// people weigh options against what they stand to win and lose; a sharper mind has a smaller
// one. The plan's risk changes what he fears, not how sharply he chooses.
func (w *world) scale() float64 {
	p := own(w.onBall, w.ball)
	stake := threat(p.X, p.Y, w.pitch) + w.par.Stake*w.par.LossFear*w.price.at(p.X, p.Y, w.pitch)
	return w.par.Sharpness * stake * math.Exp(-w.able[w.carrier].Value[model.Decisions])
}

// tilt is what the plan adds to the log odds of taking the ball to a place.
func (w *world) tilt(to r2.Vec) float64 {
	s := sign(w.onBall)
	z := w.laneOdds[w.onBall][model.LaneOf(s*to.Y)] + w.goOdds[w.onBall]*s*(to.X-w.ball.X)/20
	if math.Abs(to.Y-w.ball.Y) >= model.SwitchWidth {
		z += w.switchOdds[w.onBall]
	}
	return z
}
