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
		flight: f, length: dist(w.ball, o.target), left: w.tick, from: c, aim: o.aim, pass: true, kind: passKind(o),
		through: o.space && sign(w.onBall)*o.target.X > w.att.last-3,
	}
	if w.restart != throwIn && w.restart != goalKick {
		w.markOffside() // Law 11: no offence from either
	}
	w.p.Attempted[w.fly.kind]++
	w.trk.passed(w, o)
	w.emit(Event{Kind: EventPass, Team: w.onBall, Player: c % 11, Other: o.aim % 11, Flight: o.kind, From: w.ball, To: o.target, Chance: o.chance, Near: w.gapTo})
	if stopped, by := w.blocked(f.Dir, o.low(dist(w.ball, o.target))); w.execution.Float64() < stopped {
		w.blockedBy(by)
		return
	}
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
	w.leave()
	w.resolve(by)
}

// leave takes the ball off everybody's feet.
func (w *world) leave() {
	w.state = flying
	w.restart = inPlay
	w.carrier = nobody
}

// struck is the flight of the option as the carrier really plays it.
func (w *world) struck(o *option, header bool) Flight {
	c := w.carrier
	able := &w.able[c]
	length := dist(w.ball, o.target)
	dir := towards(w.ball, o.target, w.face)

	skill := skillFor(o)
	usual := model.Scales[skill].Mean[model.Midfielders]
	if c%11 == 0 {
		skill = model.Distribution
	}
	sd := w.angularError(c, skill, o.kind)
	loss := 1 + w.par.PressureError*w.pressure*able.Value[model.Composure]
	if cos := dir.X*w.face.X + dir.Y*w.face.Y; cos < 0 {
		loss *= 1 - w.par.TurnError*cos
	}
	switch {
	case header:
		loss *= w.par.HeadError
	case w.tick == w.since:
		loss *= w.par.OneTouchError
	}
	if w.weakFoot(o, dir) {
		loss *= w.par.WeakFootError
	}
	spread := w.par.LengthError
	if o.kind != Ground {
		spread = w.par.LoftError
		loss *= w.strain(length, o.kind)
	}
	turn := sd * loss * w.slip()
	if o.kind == Ground {
		turn *= 1 + w.par.FirmPass*max(o.launch/firmFrom-1, 0)
	}
	// A better foot than an average midfielder's also finds the length better.
	stretch := 1 + spread*loss*w.execution.NormFloat64()*able.Value[skill]/usual
	dir = turned(dir, turn)
	if o.kind == Ground {
		return GroundFlight(w.ball, dir, o.launch*max(stretch, 0.3))
	}
	return LoftedFlight(w.ball, dir, length*max(stretch, 0.3), o.kind)
}

// firmFrom is the launch speed from which a pass along the ground strays the more to the side the
// harder it is struck, m/s: 15 m and more to feet. Assumed.
const firmFrom = 14.0

// angularError is the spread of the angle by which body b's unpressed kicks of that kind stray,
// rad, by the attribute they ask for.
func (w *world) angularError(b int, skill model.Attribute, kind FlightKind) float64 {
	level := w.par.GroundAim
	if kind != Ground {
		level = w.par.LoftAim
	}
	return level * w.able[b].Value[skill]
}

// slip draws how far to the side a kick strays, in units of its spread: mostly as a normal
// error, but a foot also mishits the ball, and the tails are longer.
func (w *world) slip() float64 {
	z := w.execution.NormFloat64()
	if w.par.Mishit == 0 {
		return z
	}
	return math.Sinh(w.par.Mishit*z) / w.par.Mishit
}

// easyKick is the launch speed that a passer gives who must also aim, m/s: a clipped ball
// of 50 m, a driven one of 48 m; beyond it he strains. Assumed.
const easyKick = 0.85 * maxKick

// strain is how many times wider a ball through the air strays for the power that its
// length asks for: the harder a kick, the less exact.
func (w *world) strain(length float64, kind FlightKind) float64 {
	air := arcsAt(clamp(length, minRange, MaxRange(kind)), kind)
	return 1 + w.par.FullPower*max((air.launch()-easyKick)/(maxKick-easyKick), 0)
}

// skillFor is the attribute that the option's kind of ball asks for.
func skillFor(o *option) model.Attribute {
	switch {
	case o.cross:
		return model.Crossing
	case o.kind != Ground:
		return model.LongPassing
	}
	return model.ShortPassing
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
		w.expect(a)
	}
	c := w.contest(f, w.fly.length, min(out, rest+8))
	for b := range w.opt.near {
		if b != by {
			c.admit(w.opt.contender(b))
		}
	}
	w.fly.winner = nobody
	for b := range w.opt.near { // by body, so that variants stay in step
		w.opt.contender(b).left = w.execution.ExpFloat64()
	}
	if c.race(&w.ctl) {
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
	if !w.pitch.Contains(f.Origin) {
		return 0
	}
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
