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
	back   bool  // cut-back
	inner  bool  // in-swinging cross
	space  bool  // into space rather than to feet
	slot   uint8 // tells options alike in all of that
	target r2.Vec
	launch float64 // ground: speed at launch
	chance float64 // of success
	worth  float64 // goals if it comes off
	lost   r2.Vec  // where a failure loses the ball
	score  float64 // log odds of choosing it
}

const maxOptions = 64

type optionList struct {
	n     int
	o     [maxOptions]option
	scale float64        // goals that multiply the odds of a choice by e
	near  [bodies]runner // the players as the control model takes them

	// The ball looked at: the man it is meant for and the opponent who watches him.
	aim, watcher    int
	watchers        [11]int // by team-mate
	aimed, watching runner
}

func (l *optionList) add() *option {
	if l.n < maxOptions {
		l.n++
	}
	o := &l.o[l.n-1]
	*o = option{aim: nobody}
	return o
}

// shares is how often each option is taken, of all choices between them.
func (l *optionList) shares() []float64 {
	top, total := math.Inf(-1), 0.0
	for i := range l.n {
		top = max(top, l.o[i].score)
	}
	out := make([]float64, l.n)
	for i := range out {
		out[i] = math.Exp(l.o[i].score - top)
		total += out[i]
	}
	for i := range out {
		out[i] /= total
	}
	return out
}

// A carrier's passes by their distance, m: nearer than shortest nothing is passed, up to
// longestFeet it goes along the ground, from shortestAir on it may go through the air.
// Common practice, no source.
const (
	shortest    = 2.5
	longestFeet = 48.0
	shortestAir = 18.0
)

// passOptions lists passes to every team-mate, to feet and into space, along
// the ground and through the air.
func (w *world) passOptions() {
	first := 11 * w.onBall
	s := sign(w.onBall)
	from := w.ball
	ballX := s * from.X
	crossing := w.canCross()
	for b := first; b < first+11; b++ {
		if b == w.carrier {
			continue
		}
		x := s * w.pos[b].X
		if x > 0 && x > ballX && x > w.att.last {
			// He looks offside, unless the passer misses a close call.
			if x-w.att.last > 0.25*math.Abs(normal(w.sights.of(uint64(b)|uint64(w.looks)<<32|1<<31))) {
				continue
			}
		}
		d := dist(from, w.pos[b])
		if d < shortest || w.restart == throwIn && d > throwReach {
			continue
		}
		meet := min(0.3+d/14, 1.6)
		feet := w.inside(r2.Vec{X: w.pos[b].X + w.vel[b].X*meet, Y: w.pos[b].Y + w.vel[b].Y*meet}, 0.8)
		ground := 1.0
		if d < longestFeet {
			ground = w.ground(b, feet, false, 0)
		}
		byAir := !crossing || !w.awaitsCross(own(w.onBall, w.pos[b])) // else it is a cross
		if b != first && byAir && d > shortestAir && (d > 30 || ground < 0.8) {
			w.lofted(b, feet, false)
		}
		if b == first || x < ballX-8 {
			continue
		}
		w.intoSpace(b, d, byAir)
	}
	w.crossOptions()
}

// spaceWithin is how far away a man who is on no run is still played to ahead of
// him rather than to his feet, m; common practice, no source.
const spaceWithin = 32.0

// intoSpace adds balls ahead of a player who can run on to them: along his run,
// or towards the goal when there is room beyond him; byAir says whether through the
// air too.
func (w *world) intoSpace(b int, d float64, byAir bool) {
	s := sign(w.onBall)
	running := w.runs[b].until > w.tick
	speed2 := w.vel[b].X*w.vel[b].X + w.vel[b].Y*w.vel[b].Y
	var dir r2.Vec
	if running {
		dir = towards(w.pos[b], w.runs[b].target, r2.Vec{X: s})
	} else {
		if d > spaceWithin || speed2 < 4 && s*w.pos[b].X < w.att.last-14 {
			return
		}
		dir = towards(w.pos[b], r2.Vec{X: s * w.halfL, Y: 0.7 * w.pos[b].Y}, r2.Vec{X: s})
	}
	lead := 6.0
	if running {
		lead = 9
	}
	at := w.inside(r2.Vec{X: w.pos[b].X + lead*dir.X, Y: w.pos[b].Y + lead*dir.Y}, 1.5)
	w.ground(b, at, true, 0)
	if running {
		far := w.inside(r2.Vec{X: w.pos[b].X + 16*dir.X, Y: w.pos[b].Y + 16*dir.Y}, 2)
		if d < 30 {
			w.ground(b, far, true, 1)
		}
		if byAir && d > 14 {
			w.lofted(b, far, true)
		}
	}
}

// intent is what a ground pass is meant to do; it decides how fast it arrives.
type intent uint8

const (
	toFeet  intent = iota
	intoRun        // into space, to be run on to
	across         // a low cross or cut-back, to be struck first time
	numIntents
)

// Speeds at which a ball into space and a low cross are meant to arrive, m/s;
// common practice, no source. That of a pass to feet is a parameter.
const (
	aheadArrival  = 4.5
	acrossArrival = 10.0
)

// longestGround is the range of the tables of launch speeds, m; beyond it a pass
// along the ground is struck no harder.
const longestGround = 70.0

// strikes tabulates GroundLaunch by distance for every intent: the two logarithms
// of the closed form cost as much as the rest of an option's geometry.
func strikes(arrival float64) [numIntents]*table {
	return [numIntents]*table{toFeet: strikeTable(arrival), intoRun: intoRunTable, across: acrossTable}
}

func strikeTable(arrival float64) *table {
	return newTable(0, longestGround, func(d float64) float64 { return GroundLaunch(d, arrival) })
}

var intoRunTable, acrossTable = strikeTable(aheadArrival), strikeTable(acrossArrival)

// ground adds a ground pass and returns its chance.
func (w *world) ground(b int, at r2.Vec, space bool, slot uint8) float64 {
	length := dist(w.ball, at)
	intent := toFeet
	if space {
		intent = intoRun
	}
	launch := w.strike[intent].at(length)
	f := GroundFlight(w.ball, towards(w.ball, at, w.face), launch)
	chance, margin, had := w.chanceOf(&f, b, at, length, nil)
	o := w.opt.add()
	o.act, o.aim, o.kind, o.target, o.space, o.launch, o.slot = playPass, b, Ground, at, space, launch, slot
	w.judge(o, chance, margin, length, had)
	return chance
}

// lofted adds a pass through the air.
func (w *world) lofted(b int, at r2.Vec, space bool) {
	length := dist(w.ball, at)
	kind := airKind(length)
	chance, margin := w.chanceInAir(b, at, length, kind, model.LongPassing)
	o := w.opt.add()
	o.act, o.aim, o.kind, o.target, o.space = playPass, b, kind, at, space
	w.judge(o, chance, margin, length, length)
}

// airKind is how a pass of that length is played through the air: over a short way up and
// down, further off flat, until that would ask for more than easyKick.
func airKind(length float64) FlightKind {
	if length > 32 && length < farthestDriven {
		return Driven
	}
	return Clipped
}

// farthestDriven is how far a driven ball gets at easyKick, m.
var farthestDriven = func() float64 {
	for i := range lofted[Driven] {
		if lofted[Driven][i].launch > easyKick {
			return float64(i + minRange)
		}
	}
	return MaxRange(Driven)
}()

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
	o.lost = own(w.onBall, r2.Vec{X: w.halfL, Y: y})
	hope := usualShot * math.Pow(xg/usualShot, w.par.ShotShape)
	miss := (1 - xg) * w.fear() * w.lossAt(w.halfL, y) // the ball is theirs
	o.score = w.par.ShotTaste*(hope-miss)/w.opt.scale + w.par.ShotUrge
}

// usualShot is the mean xG of a shot in open play. Source: Pappalardo et al. (2019),
// CC BY 4.0, table of shots.
const usualShot = 0.11
