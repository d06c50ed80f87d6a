package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Contender is a player who may come into control of the ball.
type Contender struct {
	Pos, Vel r2.Vec  // m, m/s, at the moment the ball is played
	Reaction float64 // s, during which he keeps his velocity
	Speed    float64 // m/s, effective running speed after it
	Top      float64 // m/s, his top speed: nobody is credited with being faster
	Rate     float64 // 1/s, lambda: how fast he controls a ball within his reach
}

// ControlModel holds the constants of the control model.
type ControlModel struct {
	Spread     float64 // s, standard deviation of the logistic arrival time
	FootHeight float64 // m, up to here a ball is controlled at full rate
	HeadHeight float64 // m, up to here it can be headed; above it is out of reach
	HeadRate   float64 // share of the rate at which a ball between the two is taken
	Step       float64 // s, step of the integration
}

// reach is how far a player plays the ball from where he stands, m; common
// practice, no source. It bounds who can physically be there, not the model.
const reach = 1.5

// TimeTo is the time after which the contender is expected at r: he keeps his
// velocity for the reaction time, then runs straight at his effective speed.
//
//	tau = Reaction + |r - (Pos + Vel Reaction)| / Speed
//
// Source: Fujimura & Sugihara 2005 in the form of Spearman et al. 2017.
func (c *Contender) TimeTo(r r2.Vec) float64 {
	dx, dy := r.X-c.Pos.X-c.Vel.X*c.Reaction, r.Y-c.Pos.Y-c.Vel.Y*c.Reaction
	return c.Reaction + math.Sqrt(dx*dx+dy*dy)/c.Speed
}

// Control integrates the control model of Spearman et al. (2017) along the
// ball's path from the moment it is played until time until (s):
//
//	dP_j/dt = (1 - sum P) f_j(t) lambda_j,   f_j = 1 / (1 + exp(-pi/sqrt(3) (t - tau_j(r(t))) / s))
//
// with r(t) the ball, tau_j the contender's expected time to it and s the
// spread. Two things are added: a ball above HeadHeight is out of everybody's
// reach, between FootHeight and HeadHeight it is taken at HeadRate of the rate; and
// nobody is where he could not be at his top speed. p receives each
// contender's probability and must be as long as players; the probabilities
// sum to at most 1, and their sum is returned.
//
// Reference: Spearman W., Basye A., Dick G., Hotovy R., Pop P. (2017),
// Physics-Based Modeling of Pass Probabilities in Soccer, MIT Sloan Sports
// Analytics Conference; constants as implemented by Shaw (2020).
func (m *ControlModel) Control(players []Contender, ball *Flight, until float64, p []float64) float64 {
	for i := range p {
		p[i] = 0
	}
	c := course{ball: ball, until: until, enough: decided}
	for i := range players {
		c.admit(i, &players[i], m)
	}
	c.run(m, math.Inf(1), p)
	return c.sum
}

// decided is the sum of probabilities from which a contest counts as over.
const decided = 0.9995

// maxContenders bounds a course: two teams of eleven.
const maxContenders = 22

// course is one integration of the control model.
type course struct {
	ball   *Flight
	until  float64 // s
	enough float64 // sum of probabilities at which the rest does not matter
	n      int
	who    [maxContenders]runner
	sum    float64

	// What run found when the sum crossed its threshold.
	index int
	when  float64
}

// runner is a contender prepared for the integration.
type runner struct {
	index  int
	x, y   float64 // where he is after his reaction, m
	px, py float64 // where he is now, m
	tau0   float64
	speed  float64 // effective, m/s
	inv    float64 // 1 / speed
	top    float64
	rate   float64
	share  float64 // scratch of one step
}

const logisticScale = math.Pi / 1.7320508075688772 // pi / sqrt(3)

// admit adds a contender.
func (c *course) admit(index int, p *Contender, m *ControlModel) {
	r := &c.who[c.n]
	*r = runner{index: index, px: p.Pos.X, py: p.Pos.Y, x: p.Pos.X + p.Vel.X*p.Reaction, y: p.Pos.Y + p.Vel.Y*p.Reaction,
		tau0: p.Reaction, speed: p.Speed, inv: 1 / p.Speed, top: p.Top, rate: p.Rate}
	c.n++
}

// matters tells whether a contender can matter to a ball that reaches distance end
// at time until: whether he is at most four spreads late at the point of the
// path nearest to him, at its end, or half-way between.
func matters(p *Contender, f *Flight, end, until float64, spread float64) bool {
	x, y := p.Pos.X+p.Vel.X*p.Reaction-f.Origin.X, p.Pos.Y+p.Vel.Y*p.Reaction-f.Origin.Y
	along := x*f.Dir.X + y*f.Dir.Y
	across := x*f.Dir.Y - y*f.Dir.X
	limit := 3.5 * spread
	// At the end of the path he has all the time there is.
	d := along - end
	if p.Reaction+math.Sqrt(d*d+across*across)/p.Speed-until <= limit {
		return true
	}
	if along <= 0 || along >= end {
		return false
	}
	// Nearest point: a bound on when the ball is there, without solving for it.
	if math.Abs(across) > (limit+until-p.Reaction)*p.Speed {
		return false
	}
	at := f.TimeTo(along)
	if p.Reaction+math.Abs(across)/p.Speed-at <= limit {
		return true
	}
	half := (along + end) / 2
	d = along - half
	return p.Reaction+math.Sqrt(d*d+across*across)/p.Speed-f.TimeTo(half) <= limit
}

// run integrates until the sum of the probabilities crosses threshold, or to
// the end. With p it adds up each contender's probability there. It reports
// whether the threshold was crossed; index and when then tell by whom (by the
// shares of that step, the part of the threshold inside the step deciding) and
// when.
func (c *course) run(m *ControlModel, threshold float64, p []float64) bool {
	k := logisticScale / m.Spread
	late := logisticEdge / k
	dt := m.Step
	c.sum = 0
	for t := dt / 2; t < c.until && c.sum < c.enough; t += dt {
		s, h := c.ball.At(t)
		if h > m.HeadHeight {
			continue
		}
		height := 1.0
		if h > m.FootHeight {
			height = m.HeadRate
		}
		bx, by := c.ball.Origin.X+s*c.ball.Dir.X, c.ball.Origin.Y+s*c.ball.Dir.Y
		total := 0.0
		for i := range c.who[:c.n] {
			r := &c.who[i]
			r.share = 0
			// Too far even at the model's edge: saves the square root.
			edge := (t - r.tau0 + late) * r.speed
			dx, dy := bx-r.x, by-r.y
			d2 := dx*dx + dy*dy
			if edge <= 0 || d2 > edge*edge {
				continue
			}
			far := r.top*t + reach
			px, py := bx-r.px, by-r.py
			if px*px+py*py > far*far {
				continue
			}
			r.share = r.rate * height * logisticTable.at(k*(t-r.tau0-math.Sqrt(d2)*r.inv))
			total += r.share
		}
		if total == 0 {
			continue
		}
		gain := (1 - c.sum) * absorbTable.at(total*dt)
		if c.sum+gain >= threshold {
			inside := (threshold - c.sum) / gain // 0 to 1, uniform when the threshold is
			c.when = t - dt/2 + inside*dt
			pick := inside * total
			for i := range c.who[:c.n] {
				r := &c.who[i]
				if r.share == 0 {
					continue
				}
				c.index = r.index
				if pick -= r.share; pick < 0 {
					break
				}
			}
			return true
		}
		c.sum += gain
		if p != nil {
			for i := range c.who[:c.n] {
				p[c.who[i].index] += gain * c.who[i].share / total
			}
		}
	}
	return false
}

// table is a function sampled at even steps over [lo, lo + steps/per] and
// joined linearly: an exponential costs several times as much.
type table struct {
	lo, per float64
	y       [tableSize + 2]float64
}

const tableSize = 4096

func newTable(lo, hi float64, f func(float64) float64) *table {
	t := &table{lo: lo, per: tableSize / (hi - lo)}
	for i := range t.y {
		t.y[i] = f(lo + float64(i)/t.per)
	}
	return t
}

// at is the function at x; beyond its range the value at the end.
func (t *table) at(x float64) float64 {
	u := (x - t.lo) * t.per
	if u <= 0 {
		return t.y[0]
	}
	if u >= tableSize {
		return t.y[tableSize]
	}
	i := int(u)
	return t.y[i] + (u-float64(i))*(t.y[i+1]-t.y[i])
}

// logisticEdge is where the logistic is taken as 0: it is 0.0001 there.
const logisticEdge = 9

var (
	logisticTable = newTable(-logisticEdge, 12, logistic)
	absorbTable   = newTable(0, 20, func(x float64) float64 { return -math.Expm1(-x) }) // 1 - exp(-x)
)

func logistic(z float64) float64 { return 1 / (1 + math.Exp(-z)) }

func logit(p float64) float64 { return math.Log(p / (1 - p)) }
