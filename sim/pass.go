package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// pass plays the ball: the carrier's error turns the option into what really
// leaves his foot, and the control model decides who will have it.
func (w *world) pass(o *option, header bool) {
	c := w.carrier
	f := w.struck(o, header)
	w.fly = delivery{
		flight: f, left: w.tick, from: c, aim: o.aim, pass: true, kind: passKind(o), chance: o.chance,
		cutBack: o.back, inswing: o.inner, through: o.space && sign(w.onBall)*o.target.X > w.att.last-3,
	}
	w.markOffside()
	w.p.Attempted[w.fly.kind]++
	w.trk.passed(w, o)
	w.emit(Event{Kind: EventPass, Team: w.onBall, Player: c % 11, Other: o.aim % 11, Flight: o.kind, From: w.ball, To: o.target, Chance: o.chance, Near: w.gapTo})
	w.release(c)
}

func passKind(o *option) PassKind {
	switch {
	case o.cross && !o.back:
		return Cross
	case o.kind == Ground:
		return GroundPass
	}
	return HighPass
}

// release lets the ball go: nobody has it until the delivery ends.
func (w *world) release(by int) {
	w.state = flying
	w.carrier = nobody
	w.resolve(by)
}

// struck is the flight of the option as the carrier really plays it.
func (w *world) struck(o *option, header bool) Flight {
	c := w.carrier
	able := &w.able[c]
	length := dist(w.ball, o.target)
	dir := towards(w.ball, o.target, w.face)

	sd := able.Value[model.ShortPassing]
	switch {
	case c%11 == 0:
		sd = able.Value[model.Distribution]
	case o.cross:
		sd = able.Value[model.Crossing]
	case o.kind != Ground:
		sd = able.Value[model.LongPassing]
	}
	loss := 1 + w.par.PressureError*w.pressure*able.Value[model.Composure]
	if cos := dir.X*w.face.X + dir.Y*w.face.Y; cos < 0 {
		loss *= 1 - w.par.TurnError*cos
	}
	if w.tick == w.since || header {
		loss *= w.par.OneTouchError
	}
	if w.weakFoot(o, dir) {
		loss *= w.par.WeakFootError
	}
	turn := sd * loss * w.execution.NormFloat64()
	spread := w.par.LengthError
	if o.kind != Ground {
		spread = w.par.LoftError
	}
	stretch := 1 + spread*loss*w.execution.NormFloat64()*sd/usualError(o)
	cos, sin := math.Cos(turn), math.Sin(turn)
	dir = r2.Vec{X: dir.X*cos - dir.Y*sin, Y: dir.X*sin + dir.Y*cos}
	if o.kind == Ground {
		return GroundFlight(w.ball, dir, o.launch*max(stretch, 0.3))
	}
	return LoftedFlight(w.ball, dir, length*max(stretch, 0.3), o.kind)
}

// usualError is the angular error of an average midfielder for the option's
// kind of ball, so that a better foot also finds the length better.
func usualError(o *option) float64 {
	a := model.ShortPassing
	switch {
	case o.cross:
		a = model.Crossing
	case o.kind != Ground:
		a = model.LongPassing
	}
	return model.Scales[a].Mean[model.Midfielders]
}

// weakFoot reports whether the ball has to be played with the weaker foot: a
// cross with the far foot of the wing, or under pressure a ball across the
// body to the side of the weak foot.
func (w *world) weakFoot(o *option, dir r2.Vec) bool {
	foot := w.able[w.carrier].Foot
	if foot == model.BothFeet {
		return false
	}
	if o.cross {
		// From the byline the outside foot is the only one that reaches.
		return o.inner && sign(w.onBall)*w.ball.X > w.halfL-10
	}
	if w.pressure < 0.3 {
		return false
	}
	left := w.face.X*dir.Y - w.face.Y*dir.X // > 0: to his left
	return (foot == model.RightFoot && left > 0.5) || (foot == model.LeftFoot && left < -0.5)
}

// markOffside notes who is in an offside position at the moment of the pass
// (Law 11).
func (w *world) markOffside() {
	s := sign(w.onBall)
	w.viewLines()
	ballX := s * w.ball.X
	first := 11 * w.onBall
	for b := first; b < first+11; b++ {
		w.fly.offside[b] = model.OffsidePosition(s*w.pos[b].X, ballX, w.att.ahead[:])
	}
}

// resolve draws from the control model who gets to the ball that has just left,
// when and where. Player by, who played it, is out of the contest.
func (w *world) resolve(by int) {
	f := &w.fly.flight
	out := w.timeOut(f)
	_, rest := f.Rest()
	w.contenders()
	if a := w.fly.aim; a != nobody {
		w.opt.near[a] = w.expecting(a)
	}
	c := course{ball: f, until: min(out, rest+8), enough: decided}
	for b := range w.opt.near {
		if b != by {
			c.admit(&w.opt.near[b])
		}
	}
	w.fly.winner = nobody
	if c.run(&w.ctl, w.execution.Float64(), nil) {
		w.fly.winner, w.fly.when = c.index, c.when
	} else if !math.IsInf(out, 1) {
		w.fly.when = out
	} else {
		// Nobody within reach in all that time: the nearest player fetches it.
		w.fly.when = c.until
		w.fly.winner = w.nearestTo(f.Pos(c.until), by)
	}
	s, h := f.At(w.fly.when)
	w.fly.where = r2.Vec{X: f.Origin.X + s*f.Dir.X, Y: f.Origin.Y + s*f.Dir.Y}
	w.fly.height = h
}

// nearestTo is the body nearest to p, other than by.
func (w *world) nearestTo(p r2.Vec, by int) int {
	best, who := math.Inf(1), 0
	for b := range w.pos {
		if d := dist2(w.pos[b], p); b != by && d < best {
			best, who = d, b
		}
	}
	return who
}

// timeOut is when a ball crosses a line of the pitch; +Inf if it never does.
func (w *world) timeOut(f *Flight) float64 {
	s := math.Inf(1)
	if f.Dir.X > 1e-9 {
		s = min(s, (w.halfL-f.Origin.X)/f.Dir.X)
	} else if f.Dir.X < -1e-9 {
		s = min(s, (-w.halfL-f.Origin.X)/f.Dir.X)
	}
	if f.Dir.Y > 1e-9 {
		s = min(s, (w.halfW-f.Origin.Y)/f.Dir.Y)
	} else if f.Dir.Y < -1e-9 {
		s = min(s, (-w.halfW-f.Origin.Y)/f.Dir.Y)
	}
	return f.TimeTo(max(s, 0))
}

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
	pressure, opponent, gap := w.pressureAt(b, w.pos[b])
	if f.pass {
		w.trk.completed(w, b)
	}
	if f.height > w.par.FootHeight && gap < aerialGap {
		if w.execution.Float64() > w.headerHold(b, opponent) {
			w.trk.cause = EndAerial
			w.knock(b, 4, 9)
			return
		}
	} else if w.execution.Float64() < w.touchFails(b, pressure) {
		w.trk.cause = EndMiscontrol
		w.trk.poorTouch(w)
		w.knock(b, 2, 5)
		return
	}
	w.control(b, false)
}

// aerialGap is how near an opponent must be to contest a ball in the air, m;
// common practice, no source.
const aerialGap = 4.0

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
	if f.height > w.par.FootHeight || f.when < f.flight.LandingTime()+0.4 && f.flight.Kind != Ground {
		z += w.par.TouchHigh
	}
	return logistic(z)
}

// taken is the ball in the path of an opponent: he controls it, or only gets a
// foot or a head to it.
func (w *world) taken(b int) {
	f := &w.fly
	w.p.DefActions++
	if b%11 == 0 && w.inOwnArea(b) {
		w.end(w.trk.lossCause(), w.trk.lastOn)
		return
	}
	_, opponent, gap := w.pressureAt(b, w.pos[b])
	hold := w.par.StealHold
	if f.pass && f.when < 0.5 {
		hold *= 0.4 // a block at close quarters is seldom controlled
	}
	if f.height > w.par.FootHeight {
		hold = 0.5
		if gap < aerialGap {
			if f.pass {
				w.trk.cause = EndAerial
			}
			hold = w.headerHold(b, opponent)
		}
	}
	if w.execution.Float64() < hold {
		w.end(w.trk.lossCause(), w.trk.lastOn)
		return
	}
	if w.trk.cause == causeNone {
		w.trk.cause = EndIntercepted
	}
	w.knock(b, 6, 18)
}

// knock sends the ball off body b, loose: roughly back where it came from when
// an opponent blocks it, onwards when a team-mate's touch lets it run, at a
// speed drawn between lo and hi m/s.
func (w *world) knock(b int, lo, hi float64) {
	d := w.fly.flight.Dir
	if teamOf(b) != w.onBall && w.fly.pass {
		d = r2.Vec{X: -d.X, Y: -d.Y}
	}
	turn := 1.4 * w.execution.NormFloat64()
	cos, sin := math.Cos(turn), math.Sin(turn)
	dir := r2.Vec{X: d.X*cos - d.Y*sin, Y: d.X*sin + d.Y*cos}
	w.loose(b, dir, lo+(hi-lo)*w.execution.Float64())
}

// loose sends the ball off body b along the ground.
func (w *world) loose(b int, dir r2.Vec, speed float64) {
	w.emit(Event{Kind: EventLoose, Team: teamOf(b), Player: b % 11, Other: nobody, From: w.ball, To: w.ball})
	w.fly = delivery{flight: GroundFlight(w.ball, dir, speed), left: w.tick, from: b, aim: nobody}
	w.release(b)
}

// control gives the ball to body b of the team on the ball, under control.
func (w *world) control(b int, start bool) {
	if start {
		w.rekey()
	}
	w.state = held
	w.carrier = b
	w.since = w.tick
	w.trk.spellStarts(w, b)
	pressure, _, gap := w.pressureAt(b, w.pos[b])
	w.pressure = pressure
	w.turnBody(b, gap, start)
	w.comeOut(b, gap)
	first, wait := w.choice.Float64(), w.choice.NormFloat64()
	plan := &w.team(w.onBall).Plan
	hold := w.par.HoldShare * plan.Tempo * math.Exp(w.par.HoldSpread*wait)
	header := w.fly.height > w.par.FootHeight
	switch {
	case start:
		w.think = w.tick + ticks(hold)
	case header || first < w.par.OneTouch*model.AverageTempo/plan.Tempo:
		w.think = w.tick
	default:
		w.think = w.tick + max(ticks(hold), 3)
	}
	w.trk.received(w, b)
	if !start {
		w.emit(Event{Kind: EventReceive, Team: w.onBall, Player: b % 11, Other: nobody, From: w.ball, To: w.ball, Chance: pressure, Near: gap})
	}
	w.callRuns()
}

// turnBody sets where the receiver's body points: to the ball when he is
// pressed from behind, half open when there is room, forward at a start.
func (w *world) turnBody(b int, gap float64, start bool) {
	s := sign(w.onBall)
	forward := r2.Vec{X: s}
	if start || w.fly.from == nobody {
		w.face = forward
		return
	}
	back := r2.Vec{X: -w.fly.flight.Dir.X, Y: -w.fly.flight.Dir.Y}
	open := min(max((gap-1.5)/5, 0), 1) // room to turn on the ball
	x, y := back.X*(1-open)+forward.X*open, back.Y*(1-open)+forward.Y*open
	w.face = towards(r2.Vec{}, r2.Vec{X: x, Y: y}, forward)
}
