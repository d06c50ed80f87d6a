package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// action is a kind of choice on the ball.
type action uint8

const (
	playPass action = iota
	keepBall
	takeOn
	shoot
)

// option is one thing the carrier may do.
type option struct {
	act    action
	aim    int // receiver or, for a take-on, the opponent
	kind   FlightKind
	cross  bool
	back   bool // cut-back
	inner  bool // in-swinging cross
	space  bool // into space rather than to feet
	target r2.Vec
	launch float64 // ground: speed at launch
	chance float64 // of success
	worth  float64 // goals if it comes off
	score  float64 // log odds of choosing it
}

const maxOptions = 64

type optionList struct {
	n     int
	o     [maxOptions]option
	near  [bodies]runner // the players as the control model takes them
	aimed runner         // the man the ball is meant for
}

func (l *optionList) add() *option {
	if l.n < maxOptions {
		l.n++
	}
	o := &l.o[l.n-1]
	*o = option{aim: nobody}
	return o
}

// contenders takes every player's place and motion for the control model.
func (w *world) contenders() {
	p := &w.par
	for b := range w.opt.near {
		react := w.react[b]
		if b == w.def.presser {
			react = min(react, p.SetReaction) // he is set to block
		}
		if until := float64(w.beaten[b]-w.tick) * TickSeconds; until > 0 {
			react += until
		}
		r := &w.opt.near[b]
		r.prepare(b, &Contender{w.pos[b], w.vel[b], react, w.arrive[b], w.able[b].TopSpeed, p.ControlRate})
		if b%11 == 0 && w.inOwnArea(b) {
			r.rate *= p.KeeperRate
		}
		r.air = r.rate
		r.ours = teamOf(b) == w.onBall
		if !r.ours {
			r.rate *= p.DefenceEdge
			r.air *= p.AerialEdge
		}
	}
}

// expecting is body b as the man a ball is meant for: he reacts sooner.
func (w *world) expecting(b int) runner {
	r := w.opt.near[b]
	if soon := w.par.AimReaction; soon < r.tau0 {
		r.x += w.vel[b].X * (soon - r.tau0)
		r.y += w.vel[b].Y * (soon - r.tau0)
		r.tau0 = soon
	}
	return r
}

// inOwnArea reports whether a body stands in the penalty area it defends.
func (w *world) inOwnArea(b int) bool {
	return w.pitch.InPenaltyArea(own(1-teamOf(b), w.pos[b]))
}

// chanceOf is the chance that the team on the ball controls the given ball: the
// control model with every player but the carrier, to the time at which it
// would long have been decided. Within reach the time margin tells how much
// earlier than the nearest opponent the ball is at the target, s.
func (w *world) chanceOf(f *Flight, aim int, target r2.Vec, length float64) (chance, margin float64) {
	at := f.TimeTo(length)
	if math.IsInf(at, 1) {
		_, at = f.Rest()
	}
	w.opt.aimed = w.expecting(aim)
	c := course{ball: f, until: at + 1.2, enough: 0.985}
	limit := lateLimit * w.ctl.Spread
	margin = 4
	for b := range w.opt.near {
		if b == w.carrier {
			continue
		}
		r := &w.opt.near[b]
		if b == aim {
			r = &w.opt.aimed
		}
		tau := r.timeTo(target.X, target.Y)
		if !r.ours {
			margin = min(margin, tau-at)
		}
		if r.matters(f, length, at, tau, c.until, limit) {
			c.admit(r)
		}
	}
	c.run(&w.glance, math.Inf(1), nil)
	return c.ours + (1-c.sum)/2, margin
}

// lateLimit is how many spreads late a player may be and still count in a
// carrier's judgement: his chance to be there is 1 in 600.
const lateLimit = 3.5

// passOptions lists passes to every team-mate, to feet and into space, along
// the ground and through the air.
func (w *world) passOptions() {
	first := 11 * w.onBall
	s := sign(w.onBall)
	from := w.ball
	ballX := s * from.X
	for b := first; b < first+11; b++ {
		if b == w.carrier {
			continue
		}
		x := s * w.pos[b].X
		if x > 0 && x > ballX && x > w.att.last {
			// He looks offside, unless the passer misses a close call.
			if x-w.att.last > 0.25*math.Abs(w.perception.NormFloat64()) {
				continue
			}
		}
		d := dist(from, w.pos[b])
		if d < 2.5 {
			continue
		}
		meet := min(0.3+d/14, 1.6)
		feet := w.inside(r2.Vec{X: w.pos[b].X + w.vel[b].X*meet, Y: w.pos[b].Y + w.vel[b].Y*meet}, 0.8)
		ground := 1.0
		if d < 48 {
			ground = w.ground(b, feet, false)
		}
		if b != first && d > 18 && (d > 30 || ground < 0.8) {
			w.lofted(b, feet, false)
		}
		if b == first || x < ballX-8 {
			continue
		}
		w.intoSpace(b, d)
	}
	w.crossOptions()
}

// intoSpace adds balls ahead of a player who can run on to them: along his run,
// or towards the goal when there is room beyond him.
func (w *world) intoSpace(b int, d float64) {
	s := sign(w.onBall)
	running := w.runs[b].until > w.tick
	speed2 := w.vel[b].X*w.vel[b].X + w.vel[b].Y*w.vel[b].Y
	var dir r2.Vec
	if running {
		dir = towards(w.pos[b], w.runs[b].target, r2.Vec{X: s})
	} else {
		if speed2 < 4 && s*w.pos[b].X < w.att.last-14 {
			return
		}
		dir = towards(w.pos[b], r2.Vec{X: s * w.halfL, Y: 0.7 * w.pos[b].Y}, r2.Vec{X: s})
	}
	lead := 6.0
	if running {
		lead = 9
	}
	at := w.inside(r2.Vec{X: w.pos[b].X + lead*dir.X, Y: w.pos[b].Y + lead*dir.Y}, 1.5)
	w.ground(b, at, true)
	if running {
		far := w.inside(r2.Vec{X: w.pos[b].X + 16*dir.X, Y: w.pos[b].Y + 16*dir.Y}, 2)
		if d < 30 {
			w.ground(b, far, true)
		}
		if d > 14 {
			w.lofted(b, far, true)
		}
	}
}

// ground adds a ground pass and returns its chance.
func (w *world) ground(b int, at r2.Vec, space bool) float64 {
	length := dist(w.ball, at)
	arrival := w.par.ArrivalSpeed
	if space {
		arrival = 4.5
	}
	launch := GroundLaunch(length, arrival)
	f := GroundFlight(w.ball, towards(w.ball, at, w.face), launch)
	chance, margin := w.chanceOf(&f, b, at, length)
	o := w.opt.add()
	o.act, o.aim, o.kind, o.target, o.space, o.launch = playPass, b, Ground, at, space, launch
	w.judge(o, chance, margin, length)
	return chance
}

// lofted adds a pass through the air.
func (w *world) lofted(b int, at r2.Vec, space bool) {
	length := dist(w.ball, at)
	kind := Clipped
	if length > 32 {
		kind = Driven
	}
	sd := w.able[w.carrier].Value[model.LongPassing]
	chance, margin := w.chanceInAir(b, at, length, kind, sd)
	o := w.opt.add()
	o.act, o.aim, o.kind, o.target, o.space = playPass, b, kind, at, space
	w.judge(o, chance, margin, length)
}

// chanceInAir is the chance of a ball through the air as its passer judges it,
// who knows that it will not come down just where he means it: the mean over
// one error either way (long and towards the touchline, short and inside), and
// the touch it leaves the receiver.
func (w *world) chanceInAir(aim int, at r2.Vec, length float64, kind FlightKind, sd float64) (chance, margin float64) {
	dir := towards(w.ball, at, w.face)
	loss := 1 + w.par.PressureError*w.pressure
	margin = 4
	outside := math.Copysign(1, dir.X*at.Y)
	for _, side := range [2]float64{1, -1} {
		turn := side * outside * sd * loss
		d := r2.Vec{X: dir.X - turn*dir.Y, Y: dir.Y + turn*dir.X}
		l := length * (1 + side*w.par.LoftError*loss)
		f := LoftedFlight(w.ball, d, l, kind)
		down := r2.Vec{X: w.ball.X + l*d.X, Y: w.ball.Y + l*d.Y}
		if !w.pitch.Contains(down) {
			continue // it comes down out of play
		}
		c, m := w.chanceOf(&f, aim, down, l)
		chance += c / 2
		margin = min(margin, m)
	}
	close := min(max(1-margin, 0), 1)
	return chance * (1 - logistic(w.par.TouchHigh-5+w.par.TouchPressure*close)), margin
}

// usualGoalSide is how many outfield opponents are usually goal-side of a ball
// at x: all but a first line of two at the start of the own half, about six at
// the edge of the penalty area; common practice, no source.
func usualGoalSide(x, halfL float64) float64 {
	return min(max(8.5-4.5*(x+0.3*halfL)/(1.1*halfL), 3), 10)
}

// worthAt is the worth, in goals, of a team-mate having the ball at p, given
// the time margin he has over the nearest opponent and how it comes.
func (w *world) worthAt(p r2.Vec, margin float64, aerial bool) float64 {
	s := sign(w.onBall)
	x, y := s*p.X, s*p.Y
	v := threat(x, y, w.pitch)
	if aerial && x > w.halfL-20 {
		// A ball in the air near goal is worth the header it allows.
		v = min(v, logistic(shotLogit(x, y, true, w.pitch))+0.01)
	}
	free := min(max(margin-0.8, -1.2), 1.2)
	fewer := usualGoalSide(x, w.halfL) - float64(w.goalSide(x))
	return v * math.Exp(w.par.FreeWorth*free+w.par.GoalSide*fewer)
}

// judge fills in what the carrier makes of a pass.
func (w *world) judge(o *option, chance, margin, length float64) {
	s := sign(w.onBall)
	o.chance = chance
	aerial := o.kind != Ground
	o.worth = w.worthAt(o.target, margin, aerial)
	o.score = w.value(chance, o.worth, o.target) + w.tilt(o.target, length)
	o.score += w.par.ForwardTaste * s * (o.target.X - w.ball.X)
	switch {
	case o.cross:
		o.score += w.par.CrossTaste
	case aerial:
		o.score += w.par.HighTaste + w.par.HighForward*s*(o.target.X-w.ball.X)
		if math.Abs(o.target.Y-w.ball.Y) >= switchWidth {
			o.score += w.par.SwitchTaste
		}
	default:
		o.score -= w.par.NearTaste * length
	}
	o.score += w.findOdds[o.aim]
	// What lies behind his back he sees late or, under pressure, not at all.
	dir := towards(w.ball, o.target, w.face)
	cos := dir.X*w.face.X + dir.Y*w.face.Y
	if cos < -0.2 {
		blind := 1.0
		if length > 22 {
			blind = 2.5
		}
		o.score -= blind * (0.3 + 2*w.pressure) * (-cos)
	}
}

// value is the log odds that success and failure of an action are worth: its
// expected goals on the scale of the carrier's sharpness. A failure costs the
// price of a loss where the ball is lost.
func (w *world) value(chance, worth float64, lost r2.Vec) float64 {
	s := sign(w.onBall)
	mis := w.par.Misjudge * w.perception.NormFloat64()
	p := min(max(chance, 0.005), 0.995)
	if mis != 0 {
		p = logistic(logit(p) + mis)
	}
	fear := w.par.LossFear * 2 * (1 - w.team(w.onBall).Plan.Risk)
	u := p*worth - (1-p)*fear*lossCost(s*lost.X, s*lost.Y, w.pitch)
	return u / w.scale()
}

// scale is the difference in goals that multiplies the odds of a choice by e: a
// share of what the ball is worth where it is, since people weigh options
// against what they have; a sharper mind has a smaller one.
func (w *world) scale() float64 {
	p := own(w.onBall, w.ball)
	return w.par.Sharpness * threat(p.X, p.Y, w.pitch) * math.Exp(-w.able[w.carrier].Value[model.Decisions])
}

// tilt is what the plan adds to the log odds of taking the ball to a place.
func (w *world) tilt(to r2.Vec, length float64) float64 {
	s := sign(w.onBall)
	plan := &w.team(w.onBall).Plan
	z := w.laneOdds[w.onBall][model.LaneOf(s*to.Y)]
	if plan.Directness != 1 {
		z += math.Log(plan.Directness) * s * (to.X - w.ball.X) / 20
	}
	if plan.Switching != 1 && math.Abs(to.Y-w.ball.Y) >= switchWidth {
		z += math.Log(max(plan.Switching, 1e-3))
	}
	return z
}

// switchWidth is how far across the ball must go for a switch of play, m.
const switchWidth = 30.0

// Where crosses are played from: within this of the goal line and outside this
// of the middle, m. Common practice, no source.
const (
	crossDepth = 30.0
	crossSide  = 13.0
)

// crossOptions adds crosses, low crosses and cut-backs to team-mates in and
// about the penalty area.
func (w *world) crossOptions() {
	s := sign(w.onBall)
	bx, by := s*w.ball.X, s*w.ball.Y
	if bx < w.halfL-crossDepth || math.Abs(by) < crossSide {
		return
	}
	first := 11 * w.onBall
	inner := w.crossesInside(by)
	for b := first + 1; b < first+11; b++ {
		p := own(w.onBall, w.pos[b])
		if b == w.carrier || p.X < w.halfL-22 || math.Abs(p.Y) > 22 || (p.X > bx && p.X > w.att.last) {
			continue
		}
		d := dist(w.ball, w.pos[b])
		at := w.inside(r2.Vec{X: w.pos[b].X + s*1.5 + w.vel[b].X*0.6, Y: w.pos[b].Y + w.vel[b].Y*0.6}, 1)
		if d > 8 {
			kind := Clipped
			if d > 24 {
				kind = Driven
			}
			length := dist(w.ball, at)
			chance, margin := w.chanceInAir(b, at, length, kind, w.able[w.carrier].Value[model.Crossing])
			o := w.opt.add()
			o.act, o.aim, o.kind, o.target, o.cross, o.inner = playPass, b, kind, at, true, inner
			w.judge(o, chance, margin, length)
		}
		low := at
		back := p.X < bx-2 && bx > w.halfL-12
		length := dist(w.ball, low)
		launch := GroundLaunch(length, 10)
		f := GroundFlight(w.ball, towards(w.ball, low, w.face), launch)
		chance, margin := w.chanceOf(&f, b, low, length)
		o := w.opt.add()
		o.act, o.aim, o.kind, o.target, o.cross, o.back, o.inner, o.launch = playPass, b, Ground, low, true, back, inner, launch
		w.judge(o, chance, margin, length)
	}
}

// crossesInside reports whether the carrier's strong foot is the one nearer to
// the goal on this wing (y > 0 is his left), so that his cross swings in.
func (w *world) crossesInside(y float64) bool {
	switch w.able[w.carrier].Foot {
	case model.LeftFoot:
		return y < 0
	case model.RightFoot:
		return y > 0
	}
	return false
}

// shotOption adds a shot from where the ball is.
func (w *world) shotOption(header bool) {
	s := sign(w.onBall)
	x, y := s*w.ball.X, s*w.ball.Y
	if x < w.halfL-36 || math.Abs(y) > 28 {
		return
	}
	xg := logistic(shotLogit(x, y, header, w.pitch))
	o := w.opt.add()
	o.act, o.target, o.chance, o.worth = shoot, own(w.onBall, w.pitch.Goal()), xg, xg
	o.score = w.par.ShotTaste * xg / w.scale()
}
