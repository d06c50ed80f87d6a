package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Drag coefficients either side of the drag crisis, and the speeds between which
// it happens: critical Reynolds number 2.2e5-3.0e5 is 15-20 m/s for a 0.22 m ball
// (Asai et al. 2007). The two levels are quoted from memory of that paper and of
// Goff & Carre (2009); both allow ±0.05.
const (
	subcriticalCd   = 0.43
	supercriticalCd = 0.20
	crisisStart     = 15.0 // m/s
	crisisEnd       = 20.0 // m/s
)

// minRange is the shortest lofted ball in the tables, m.
const minRange = 2

// launchAngle is the angle above the turf by kind, rad. The model has no lift from
// spin, which holds a backspun ball up; the angles are those that give the measured
// time in the air without it. Clipped is the usual lofted pass of any length: 35 m in
// 2.5 s and 40 m or more at 15-18 m/s in 2.9-3.3 s (SkillCorner open data, Metrica
// sample data), 22 m to the next header in 1.8 s and 57 m in 3.1 s (Pappalardo et al.
// 2019, pass speeds). Driven is the fast half of those data, at every length within their
// quartiles, about 19 m/s over 45 m. Crosses are struck flat too, though measured ones reach the
// next header faster still, 27 m at 20 m/s (same table). Floated is assumed, near the angle of
// least effort.
var launchAngle = [...]float64{
	Driven:  27 * math.Pi / 180,
	Clipped: 34 * math.Pi / 180,
	Floated: 48 * math.Pi / 180,
}

// arcNodes is the number of equal time steps a tabulated arc is cut into. Straight
// lines between the nodes miss the height by g (T/64)²/8, 6 mm for a 4.5 s flight.
const arcNodes = 64

// arc is one lofted ball from launch to first bounce.
type arc struct {
	launch float64 // speed, m/s
	time   float64 // s in the air
	node   [arcNodes + 1]struct{ s, h, v float64 }
}

// lofted holds the arcs of each kind that land minRange, minRange+1, ... metres
// away, up to the range a launch at maxKick reaches. Built once at start-up.
var lofted = [...][]arc{
	Driven:  tabulate(launchAngle[Driven]),
	Clipped: tabulate(launchAngle[Clipped]),
	Floated: tabulate(launchAngle[Floated]),
}

// MaxRange is the longest first landing of a lofted kind, m; 0 for Ground.
func MaxRange(kind FlightKind) float64 {
	if kind == Ground {
		return 0
	}
	return float64(minRange + len(lofted[kind]) - 1)
}

// LoftedFlight is a ball through the air that first lands rng metres away. The
// range is held within 2 m and MaxRange(kind); NaN counts as 2 m. It panics when
// kind is not a lofted one.
//
// At the first bounce the turf turns the ball's slip into roll (see bounced); from
// there it runs on as a rolling ball at height 0. Later bounces are ignored: the real
// ball hops, is playable a little later and runs somewhat further.
func LoftedFlight(origin, dir r2.Vec, rng float64, kind FlightKind) Flight {
	if kind == Ground || int(kind) >= len(lofted) {
		panic("sim: LoftedFlight needs a lofted kind")
	}
	rng = clamp(rng, minRange, MaxRange(kind))
	air := arcsAt(rng, kind)
	return Flight{
		Origin: origin, Dir: dir, Kind: kind,
		Launch: air.launch(),
		t1:     mix2(air.lo.time, air.hi.time, air.w),
		s1:     rng,
		air:    air,
		roll:   rollFrom(bounced(air.speed(1))),
	}
}

// bounced is the speed at which a ball that comes down with speed v along the turf
// rolls on: friction at the turf does not change v + β r ω, so a thin shell, β = 2/3,
// rolls with 0.6 v - 0.4 r ω when it spins back. Rigid-body mechanics.
func bounced(v float64) float64 { return max(rollingShare*v-(1-rollingShare)*backSpin, 0) }

// arcPair blends two neighbouring arcs, w of the way from lo to hi, at equal
// fractions of their time in the air.
type arcPair struct {
	lo, hi *arc
	w      float64
}

// arcsAt is the pair of arcs about a range within the table, m.
func arcsAt(rng float64, kind FlightKind) arcPair {
	rows := lofted[kind]
	i := min(int(rng)-minRange, len(rows)-2)
	return arcPair{lo: &rows[i], hi: &rows[i+1], w: rng - float64(i+minRange)}
}

func (p *arcPair) launch() float64 { return mix2(p.lo.launch, p.hi.launch, p.w) }

// split turns a fraction u of the time in the air into a node and the way past it.
func split(u float64) (j int, x float64) {
	j = min(int(u*arcNodes), arcNodes-1)
	return j, u*arcNodes - float64(j)
}

func (p *arcPair) at(u float64) (s, h float64) {
	j, x := split(u)
	a, b := &p.lo.node[j], &p.hi.node[j]
	c, d := &p.lo.node[j+1], &p.hi.node[j+1]
	return mix2(mix2(a.s, b.s, p.w), mix2(c.s, d.s, p.w), x),
		mix2(mix2(a.h, b.h, p.w), mix2(c.h, d.h, p.w), x)
}

func (p *arcPair) speed(u float64) float64 {
	j, x := split(u)
	return mix2(mix2(p.lo.node[j].v, p.hi.node[j].v, p.w),
		mix2(p.lo.node[j+1].v, p.hi.node[j+1].v, p.w), x)
}

// fraction is the inverse of at for a distance inside the arc. The ball loses speed,
// so it is never later at s than a ball of even speed: start there and step back.
func (p *arcPair) fraction(s float64) float64 {
	end := mix2(p.lo.node[arcNodes].s, p.hi.node[arcNodes].s, p.w)
	j, _ := split(s / end)
	left := mix2(p.lo.node[j].s, p.hi.node[j].s, p.w)
	for j > 0 && left > s {
		j--
		left = mix2(p.lo.node[j].s, p.hi.node[j].s, p.w)
	}
	right := mix2(p.lo.node[j+1].s, p.hi.node[j+1].s, p.w)
	return (float64(j) + (s-left)/(right-left)) / arcNodes
}

// mix2 is a at w = 0 and b at w = 1.
func mix2(a, b, w float64) float64 { return a + w*(b-a) }

// airDrag is k of the drag law a = k v² at a speed, 1/m.
func airDrag(speed float64) float64 {
	w := clamp((speed-crisisStart)/(crisisEnd-crisisStart), 0, 1)
	return dragPerCd * mix2(subcriticalCd, supercriticalCd, w)
}

// airborne is a point mass in the air: distance and height (m) and their rates (m/s).
type airborne struct{ s, h, vs, vh float64 }

func launched(speed, angle float64) airborne {
	return airborne{vs: speed * math.Cos(angle), vh: speed * math.Sin(angle)}
}

func (a airborne) rate(drag func(float64) float64) airborne {
	v := math.Sqrt(a.vs*a.vs + a.vh*a.vh)
	k := drag(v) * v
	return airborne{s: a.vs, h: a.vh, vs: -k * a.vs, vh: -k*a.vh - gravity}
}

func (a airborne) plus(b airborne, x float64) airborne {
	return airborne{a.s + x*b.s, a.h + x*b.h, a.vs + x*b.vs, a.vh + x*b.vh}
}

// step is one step of the classical fourth-order Runge-Kutta method.
func (a airborne) step(dt float64, drag func(float64) float64) airborne {
	k1 := a.rate(drag)
	k2 := a.plus(k1, dt/2).rate(drag)
	k3 := a.plus(k2, dt/2).rate(drag)
	k4 := a.plus(k3, dt).rate(drag)
	return a.plus(k1, dt/6).plus(k2, dt/3).plus(k3, dt/3).plus(k4, dt/6)
}

// landing flies a ball to the turf in steps of 40 ms, the last one shortened to
// end there, and gives where and when.
func landing(speed, angle float64, drag func(float64) float64) (s, t float64) {
	const dt = 0.04
	a := launched(speed, angle)
	for {
		b := a.step(dt, drag)
		if b.h < 0 {
			break
		}
		a, t = b, t+dt
	}
	h, b := 0.0, a
	for range 6 { // Newton on the length of the last step
		h -= b.h / b.vh
		b = a.step(h, drag)
	}
	return b.s, t + h
}

// tabulate builds the arcs of one launch angle, shortest first.
func tabulate(angle float64) []arc {
	longest, _ := landing(maxKick, angle, airDrag)
	rows := make([]arc, int(longest)-minRange+1)
	speed := math.Sqrt(minRange * gravity / math.Sin(2*angle)) // the parabola's
	for i := range rows {
		speed = launchFor(float64(minRange+i), angle, speed)
		rows[i].fly(speed, angle)
	}
	return rows
}

// launchFor finds the launch speed that lands at rng, by secants from a guess.
func launchFor(rng, angle, guess float64) float64 {
	a, b := guess, 1.01*guess
	fa, _ := landing(a, angle, airDrag)
	for range 20 {
		fb, _ := landing(b, angle, airDrag)
		if math.Abs(fb-rng) < 1e-9 {
			return b
		}
		a, b, fa = b, b+(rng-fb)*(b-a)/(fb-fa), fb
	}
	panic("sim: no launch speed found for a lofted ball")
}

// fly fills the arc with the flight of one launch, one integration step per node.
func (a *arc) fly(speed, angle float64) {
	end, time := landing(speed, angle, airDrag)
	a.launch, a.time = speed, time
	ball := launched(speed, angle)
	a.node[0].v = ball.vs
	for j := 1; j <= arcNodes; j++ {
		ball = ball.step(time/arcNodes, airDrag)
		a.node[j].s, a.node[j].h, a.node[j].v = ball.s, max(ball.h, 0), ball.vs
	}
	a.node[arcNodes].s, a.node[arcNodes].h = end, 0 // these steps end within 2 mm of it
}
