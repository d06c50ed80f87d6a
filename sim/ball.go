package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// FlightKind is the way the ball is played.
type FlightKind uint8

// A ground ball never leaves the turf; the other kinds differ in launch angle,
// from the flattest to the steepest (see launchAngle).
const (
	Ground FlightKind = iota
	Driven
	Clipped
	Floated
)

func (k FlightKind) String() string {
	switch k {
	case Ground:
		return "ground"
	case Driven:
		return "driven"
	case Clipped:
		return "clipped"
	case Floated:
		return "floated"
	}
	return "unknown"
}

// The ball, Law 2: mass 0.41-0.45 kg, circumference 0.68-0.70 m.
const (
	ballMass   = 0.43 // kg
	ballRadius = 0.11 // m
	airDensity = 1.2  // kg/m³
	gravity    = 9.81 // m/s²

	// dragPerCd times the drag coefficient is k in the drag law a = k v², 1/m:
	//
	//	k = ρ Cd A / 2m, A = π r²
	dragPerCd = airDensity * math.Pi * ballRadius * ballRadius / (2 * ballMass)
)

const (
	// MaxPassSpeed caps the launch of a ground pass, m/s. Maximal inside-foot
	// passes average 22.6 m/s with a spread of 3.5 (Qualls et al. 2019).
	MaxPassSpeed = 24.0

	// maxKick caps every launch, m/s: the hardest instep kicks of a still ball
	// reach 28.6-34.5 m/s (Andersen & Dorge 2011).
	maxKick = 35.0

	// slideDeceleration holds while a struck ball slides, m/s², air drag included.
	// Medians are 5.2 at 7-10 m/s (anonymised 25 Hz optical sample)
	// and 6.7 at 10-14 m/s (50 Hz ball clips), 4 spells each.
	slideDeceleration = 6.0

	// rollingShare is what the slide leaves of the launch speed: a thin shell
	// struck without spin rolls once v = v0/(1+β), β = I/mr² = 2/3, whatever
	// the friction. Rigid-body mechanics.
	rollingShare = 0.6

	// backSpin is how fast the surface of a lofted ball turns against its way when it
	// comes down, m/s: about six turns a second for a ball struck under its middle
	// (from memory of measured kicks). It slips the more and rolls on the slower.
	backSpin = 4.0

	// rollDeceleration is the turf's share of the deceleration in true roll,
	// m/s². The measured figure, median 1.05 at 1.5-4 m/s (the optical sample), is a
	// total: the air takes 0.14 of it at 2.5 m/s, which leaves the turf 0.9.
	rollDeceleration = 0.9

	// rollDrag is k of the drag law, 1/m. No ball within MaxPassSpeed rolls
	// faster than 14.4 m/s, so the drag crisis is never reached.
	rollDrag = dragPerCd * subcriticalCd
)

// Flight is the course of one ball along a straight line: a first phase (the
// slide of a ground ball, or the air up to the first bounce) and then a roll to
// rest. It is a plain value and is not changed by use. Times are seconds after
// launch, distances metres along Dir; times before the launch count as 0.
type Flight struct {
	Origin r2.Vec
	Dir    r2.Vec // unit vector
	Kind   FlightKind
	Launch float64 // speed at launch, m/s

	t1, s1 float64 // end of the first phase
	air    arcPair // first phase of a lofted ball
	roll   roll    // second phase
}

// GroundFlight is a ball struck along the ground without spin. Speed is in m/s,
// held within [0, 35]; NaN counts as 0.
func GroundFlight(origin, dir r2.Vec, speed float64) Flight {
	speed = clamp(speed, 0, maxKick)
	v := rollingShare * speed
	return Flight{
		Origin: origin, Dir: dir, Kind: Ground, Launch: speed,
		t1:   (speed - v) / slideDeceleration,
		s1:   (speed*speed - v*v) / (2 * slideDeceleration),
		roll: rollFrom(v),
	}
}

// At gives the distance travelled and the height of the ball above the turf.
func (f *Flight) At(t float64) (s, height float64) {
	switch {
	case !(t > 0):
		return 0, 0
	case t >= f.t1:
		return f.s1 + f.roll.distance(t-f.t1), 0
	case f.Kind == Ground:
		return (f.Launch - slideDeceleration/2*t) * t, 0
	}
	return f.air.at(t / f.t1)
}

// Pos is the point of the pitch under the ball.
func (f *Flight) Pos(t float64) r2.Vec {
	s, _ := f.At(t)
	return r2.Vec{X: f.Origin.X + s*f.Dir.X, Y: f.Origin.Y + s*f.Dir.Y}
}

// Speed is the horizontal speed. That of a lofted ball drops at the bounce.
func (f *Flight) Speed(t float64) float64 {
	t = clamp(t, 0, math.Inf(1))
	switch {
	case t >= f.t1:
		return f.roll.speed(t - f.t1)
	case f.Kind == Ground:
		return f.Launch - slideDeceleration*t
	}
	return f.air.speed(t / f.t1)
}

// TimeTo is when the ball has travelled s: 0 for s at or behind the origin, +Inf
// when it stops short.
func (f *Flight) TimeTo(s float64) float64 {
	switch {
	case !(s > 0):
		return 0
	case s >= f.s1:
		return f.t1 + f.roll.time(s-f.s1)
	case f.Kind == Ground:
		// The root of s = v0 t - a t²/2 in the form that keeps its digits for short s.
		return 2 * s / (f.Launch + math.Sqrt(f.Launch*f.Launch-2*slideDeceleration*s))
	}
	return f.t1 * f.air.fraction(s)
}

// Rest is where and when the ball comes to rest.
func (f *Flight) Rest() (s, t float64) {
	return f.s1 + f.roll.length, f.t1 + f.roll.span
}

// Phase is where (m) and when (s) the first phase ends: the slide of a ground ball, the
// way through the air of a lofted one.
func (f *Flight) Phase() (s, t float64) { return f.s1, f.t1 }

// Angle is the launch angle above the turf, rad; 0 for a ground ball.
func (f *Flight) Angle() float64 { return launchAngle[f.Kind] }

// BallConstants are what a Flight is computed from, for those who compute it again. A
// ground ball slides with the constant deceleration Slide until it has RollShare of its
// speed; then dv/dt = -(Roll + RollDrag v²). In the air the drag is AirDrag(v) v²;
// at the bounce the ball keeps RollShare of its horizontal speed, less the other share of
// its BackSpin, and rolls on.
type BallConstants struct {
	Slide     float64 // m/s²
	RollShare float64
	BackSpin  float64 // m/s, of the surface of a lofted ball
	Roll      float64 // m/s²
	RollDrag  float64 // 1/m
	Gravity   float64 // m/s²
	LowDrag   float64 // 1/m, k of a = k v² up to LowSpeed
	HighDrag  float64 // 1/m, from HighSpeed on; linear in between
	LowSpeed  float64 // m/s
	HighSpeed float64 // m/s
}

// Constants are those of every ball.
func Constants() BallConstants {
	return BallConstants{
		Slide: slideDeceleration, RollShare: rollingShare, BackSpin: backSpin, Roll: rollDeceleration, RollDrag: rollDrag, Gravity: gravity,
		LowDrag: dragPerCd * subcriticalCd, HighDrag: dragPerCd * supercriticalCd, LowSpeed: crisisStart, HighSpeed: crisisEnd,
	}
}

// LandingTime is the time of the first bounce; 0 for a ground ball.
func (f *Flight) LandingTime() float64 {
	if f.Kind == Ground {
		return 0
	}
	return f.t1
}

// rebound is the share of its vertical speed that a ball keeps at a bounce: FIFA's
// quality tests of turf let a ball dropped from 2 m rebound to 0.6-1.0 m, of which this
// is the middle.
const rebound = 0.63

// Hopping reports whether a lofted ball is in its first hop after it has come down:
// the time in the air shrinks at the bounce like the vertical speed.
func (f *Flight) Hopping(t float64) bool {
	return f.Kind != Ground && t >= f.t1 && t < f.t1*(1+rebound)
}

// GroundLaunch is the launch speed of a ground pass that has speed arrival after
// d metres, at most MaxPassSpeed: a pass so capped arrives slower, or stops short.
// NaN counts as 0.
//
// If the ball is still sliding at d, v0² = arrival² + 2 a d. Otherwise u = v0² solves
//
//	(0.36 u + A) exp(2k · 0.32 u / a_slide) = (arrival² + A) exp(2k d), A = a_roll/k
//
// whose logarithm is increasing and concave in u. Two steps of Halley's method from
// a start that lowers the sliding value in proportion to the speed it has to spare
// come within 1e-9 m/s of the root.
func GroundLaunch(d, arrival float64) float64 {
	const (
		share = rollingShare * rollingShare
		slope = rollDrag * (1 - share) / slideDeceleration
	)
	d = clamp(d, 0, 1000)
	arrival = clamp(arrival, 0, MaxPassSpeed)
	u := arrival*arrival + 2*slideDeceleration*d
	if spare := share*u - arrival*arrival; spare > 0 {
		u -= 1.2 * spare
		scale := 1 / (arrival*arrival + rollSpeed2)
		for range 2 {
			x := share*u + rollSpeed2
			g := math.Log(x*scale) + slope*u - 2*rollDrag*d
			p := share + slope*x // x dg/du
			u -= g * x * p / (p*p + g*share*share/2)
		}
	}
	return min(math.Sqrt(u), MaxPassSpeed)
}

// rollSpeed2 is A = a_roll/k, the squared speed at which air and turf brake alike.
const rollSpeed2 = rollDeceleration / rollDrag

// rollRate is ω = √(a_roll k), and rollSpeed is √A.
var rollRate, rollSpeed = math.Sqrt(rollDeceleration * rollDrag), math.Sqrt(rollSpeed2)

// roll is the course of a ball in true roll, dv/dt = -(a + k v²), from speed v:
//
//	v(t) = √A tan(φ - ω t), φ = atan(v/√A)
//	s(t) = ln(cos(φ - ω t)/cos φ) / k
//	v(s)² = (v² + A) exp(-2ks) - A
type roll struct {
	phi    float64 // φ
	sec    float64 // 1/cos φ
	span   float64 // time to rest, s
	length float64 // distance to rest, m
}

func rollFrom(v float64) roll {
	phi, sec := math.Atan(v/rollSpeed), math.Sqrt(1+v*v/rollSpeed2)
	return roll{phi: phi, sec: sec, span: phi / rollRate, length: math.Log(sec) / rollDrag}
}

func (r *roll) distance(t float64) float64 {
	if t >= r.span {
		return r.length
	}
	return r.length + logCos(r.phi-rollRate*t)*(1/rollDrag)
}

func (r *roll) speed(t float64) float64 {
	if t >= r.span {
		return 0
	}
	return rollSpeed * math.Tan(r.phi-rollRate*t)
}

func (r *roll) time(s float64) float64 {
	const rounding = 1e-9 // m: a ball sent to stop at s reaches s
	if s > r.length+rounding {
		return math.Inf(1)
	}
	x := r.sec * math.Exp(-rollDrag*s) // √(1 + v²/A) at s
	return (r.phi - math.Atan(math.Sqrt(max(x*x-1, 0)))) / rollRate
}

// logCosTable serves the roll of every ball that can be kicked: the phases up to
// that of maxKick after the slide. logCosBend is what the chord between two of
// its entries misses in the middle, times 4.
var (
	logCosTable = newTable(0, math.Atan(rollingShare*maxKick/rollSpeed), func(phi float64) float64 { return math.Log(math.Cos(phi)) })
	logCosBend  = bendOf(logCosTable)
)

func bendOf(t *table) (bend [tableSize + 1]float64) {
	for i := range bend {
		cos := math.Cos((float64(i) + 0.5) / t.per)
		bend[i] = 1 / (2 * t.per * t.per * cos * cos)
	}
	return bend
}

// logCos is ln cos phi, to 1e-9.
func logCos(phi float64) float64 {
	u := phi * logCosTable.per
	i := min(int(u), tableSize)
	u -= float64(i)
	y := &logCosTable.y
	return y[i] + u*(y[i+1]-y[i]+(1-u)*logCosBend[i])
}

// clamp holds x within [lo, hi]; NaN becomes lo.
func clamp(x, lo, hi float64) float64 {
	if !(x > lo) {
		return lo
	}
	return min(x, hi)
}
