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
	Accel    float64 // m/s², his acceleration: nobody leaves his course sooner; 0: at once
	Rate     float64 // 1/s, lambda: how fast he controls a ball within his reach
}

// ControlModel holds the constants of the control model.
type ControlModel struct {
	Spread     float64 // s, standard deviation of the logistic arrival time
	FootHeight float64 // m, up to here a ball is controlled at full rate
	HeadHeight float64 // m, up to here it can be headed; above it is out of reach
	HeadRate   float64 // share of the rate at which a ball between the two is taken
	Step       float64 // s, step of the integration
	Edge       float64 // logits below which an arrival counts as impossible; 0: 9, which is a chance of 0.0001
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
// nobody is where he could not be at his top speed and acceleration. p receives each
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
	var ready [maxContenders]runner
	for i := range players {
		ready[i].prepare(i, &players[i])
		c.admit(&ready[i])
	}
	c.run(m, p)
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
	who    [maxContenders]*runner
	aim    *runner // the man the ball is meant for; nil: nobody
	meet   meeting // how he meets it
	sum    float64
	ours   float64 // part of sum that belongs to runners marked ours
	where  float64 // how far from the start they have it on average, times ours, m

	// What race found.
	index int
	when  float64
}

// meeting is how the man a ball is meant for meets it.
type meeting struct {
	shield float64 // what his body takes from an opponent's rate, 0 to 1
	feet   float64 // how many times as readily as another he takes a ball that has come to him
	at     float64 // m after which it is where it is meant, or at rest short of that
	within float64 // m before that, from where he takes it at all; 0: he goes to meet it
}

// runner is a contender prepared for the integration.
type runner struct {
	x, y   float64 // where he is after his reaction, m
	px, py float64 // where he is now, m
	tau0   float64 // reaction, s
	speed  float64 // effective, m/s
	inv    float64 // 1 / speed
	top    float64
	vx, vy float64 // m/s, now
	accel  float64 // m/s²
	rate   float64 // 1/s
	share  float64 // scratch of one step
	left   float64 // in a race: hazard to go until he has the ball
	index  int
	ours   bool
}

const logisticScale = math.Pi / 1.7320508075688772 // pi / sqrt(3)

func (r *runner) prepare(index int, p *Contender) {
	*r = runner{
		x: p.Pos.X + p.Vel.X*p.Reaction, y: p.Pos.Y + p.Vel.Y*p.Reaction, px: p.Pos.X, py: p.Pos.Y,
		tau0: p.Reaction, speed: p.Speed, inv: 1 / p.Speed, top: p.Top, vx: p.Vel.X, vy: p.Vel.Y, accel: p.Accel,
		rate: p.Rate, index: index,
	}
}

// timeTo is Contender.TimeTo.
func (r *runner) timeTo(x, y float64) float64 {
	dx, dy := x-r.x, y-r.y
	return r.tau0 + math.Sqrt(dx*dx+dy*dy)*r.inv
}

// admit adds a contender.
func (c *course) admit(r *runner) {
	c.who[c.n] = r
	c.n++
}

// matters tells whether a runner can matter to the ball before it has been out
// for until: whether he is at most limit late at the end of the path (tau is
// his time to it, length its distance, at the ball's time to it), at the point
// nearest to him, or half-way between. The ball slows down, so it is at a point
// on the way no later than at its mean speed.
func (r *runner) matters(f *Flight, length, at, tau, until, limit float64) bool {
	if tau-until <= limit {
		return true
	}
	x, y := r.x-f.Origin.X, r.y-f.Origin.Y
	along := x*f.Dir.X + y*f.Dir.Y
	if along <= 0 || along >= length {
		return false
	}
	across := math.Abs(x*f.Dir.Y - y*f.Dir.X)
	pace := at / length
	if r.tau0+across*r.inv-along*pace <= limit {
		return true
	}
	d := (length - along) / 2
	return r.tau0+math.Sqrt(d*d+across*across)*r.inv-(along+d)*pace <= limit
}

// run integrates until the contest is decided, or to the end. With p it adds up each
// contender's probability there.
func (c *course) run(m *ControlModel, p []float64) {
	k := logisticScale / m.Spread
	late := m.edge() / k
	dt := m.Step
	c.sum = 0
	for t := dt / 2; t < c.until && c.sum < c.enough; t += dt {
		s, height := c.reachable(m, t)
		if height == 0 {
			continue
		}
		bx, by := c.ball.Origin.X+s*c.ball.Dir.X, c.ball.Origin.Y+s*c.ball.Dir.Y
		var cover shade // worked out when an opponent needs it
		total, ours := 0.0, 0.0
		if c.aim != nil {
			c.aim.share = 0 // he may be too far away to have been admitted
		}
		for _, r := range c.who[:c.n] {
			r.share = 0
			// As in pull, written out: the call would cost an eighth of a judgement.
			edge := (t - r.tau0 + late) * r.speed
			dx, dy := bx-r.x, by-r.y
			d2 := dx*dx + dy*dy
			if edge <= 0 || d2 > edge*edge {
				continue
			}
			far := r.top*t + reach
			px, py := bx-r.px, by-r.py
			if px*px+py*py > far*far || t < swift && r.tooSoon(px, py, t) {
				continue
			}
			d := math.Sqrt(d2)
			r.share = r.rate * height * logisticTable.at(k*(t-r.tau0-d*r.inv))
			if r == c.aim {
				continue // once it is known who else is there
			}
			if c.shields(r, height) {
				r.share *= c.leaves(&cover, d, bx, by, t, late, k)
			}
			total += r.share
			if r.ours {
				ours += r.share
			}
		}
		if a := c.aim; a != nil && a.share > 0 {
			if height == 1 {
				a.share *= c.meets(s, total-ours)
			}
			total += a.share
			ours += a.share
		}
		if total == 0 {
			continue
		}
		gain := (1 - c.sum) * absorbTable.at(total*dt)
		c.sum += gain
		c.ours += gain * ours / total
		c.where += gain * ours / total * s
		if p != nil {
			for _, r := range c.who[:c.n] {
				p[r.index] += gain * r.share / total
			}
		}
	}
}

// shields tells whether the ball is shielded from a runner at that height: from opponents of
// the man it is meant for. In the air bodies hide nothing.
func (c *course) shields(r *runner, height float64) bool {
	return c.aim != nil && height == 1 && teamOf(r.index) != teamOf(c.aim.index)
}

// meets is how many times as readily as another the man whom the ball is meant for takes it
// when it is s metres on its way and opponents take it at rate theirs, 1/s: he lets it come
// as far as it is meant to, unless one of them may have it first. In the air he is like
// anybody. Source: optical sample of the movement tables, 30 ground passes to men 4 to 22 m
// away: they come 0.0 m towards the ball on average (standard error 0.2), whatever its length.
func (c *course) meets(s, theirs float64) float64 {
	m := &c.meet
	if m.within == 0 {
		return m.feet
	}
	togo := max(m.at-s, 0) / m.within
	return m.feet * max(1-togo*togo, min(theirs/c.aim.rate, 1))
}

// shade is what the man the ball is meant for takes from the rates of his opponents in one
// step: he keeps his body between as far as he is there himself.
type shade struct {
	known bool
	body  float64 // share of the rate taken from an opponent far behind him
	off   float64 // his own distance from the ball, m
}

// leaves is the share of his rate that the shade leaves an opponent d metres from a ball that
// is at (bx, by) at t.
func (c *course) leaves(s *shade, d, bx, by, t, late, k float64) float64 {
	if !s.known {
		dx, dy := bx-c.aim.x, by-c.aim.y
		*s = shade{true, c.meet.shield * c.aim.pull(bx, by, t, late, k) / c.aim.rate, math.Sqrt(dx*dx+dy*dy) + 0.01}
	}
	return 1 - s.body*d/(d+s.off)
}

// reachable is how far the ball is on its way at t, m, and how readily it is
// controlled at its height: 0 out of reach.
func (c *course) reachable(m *ControlModel, t float64) (s, height float64) {
	s, h := c.ball.At(t)
	switch {
	case h > m.HeadHeight:
		return s, 0
	case h > m.FootHeight:
		return s, m.HeadRate
	}
	return s, 1
}

// pull is the rate at which a contender takes a ball that is at (bx, by) at t, 1/s;
// late is how much later than the ball he may be to count, k the scale of the
// logistic, 1/s.
func (r *runner) pull(bx, by, t, late, k float64) float64 {
	// Too far even at the model's edge: saves the square root.
	edge := (t - r.tau0 + late) * r.speed
	dx, dy := bx-r.x, by-r.y
	d2 := dx*dx + dy*dy
	if edge <= 0 || d2 > edge*edge {
		return 0
	}
	far := r.top*t + reach
	px, py := bx-r.px, by-r.py
	if px*px+py*py > far*far || t < swift && r.tooSoon(px, py, t) {
		return 0
	}
	return r.rate * logisticTable.at(k*(t-r.tau0-math.Sqrt(d2)*r.inv))
}

// swift is the time after which nobody's acceleration matters any more, s: in it a player
// of 5.6 m/s² leaves his course by 4.3 m. twitch is what passes before anybody answers a
// kick at all, s: simple reactions to what is seen take 0.18 to 0.2 s (Woodworth &
// Schlosberg 1954, from memory).
const (
	swift  = 1.2
	twitch = 0.2
)

// tooSoon reports whether the player cannot have left his course by t for a ball at (px, py)
// from where he is now.
func (r *runner) tooSoon(px, py, t float64) bool {
	if r.accel == 0 {
		return false
	}
	x, y := px-r.vx*t, py-r.vy*t
	run := max(t-twitch, 0)
	far := reach + r.accel/2*run*run
	return x*x+y*y > far*far
}

// race integrates until one of the contenders has the ball, or to the end: each has
// it when his own rate has added up to an exponential threshold (left). The least of
// competing exponentials is distributed as the model says; and a small change of
// where the contenders are seldom changes who is first, so variants of a scenario go
// on sharing their luck. It reports whether somebody has the ball; index and when
// tell who.
func (c *course) race(m *ControlModel) bool {
	k := logisticScale / m.Spread
	late := m.edge() / k
	dt := m.Step
	sum := 0.0
	for t := dt / 2; t < c.until && sum < raceOver; t += dt {
		s, height := c.reachable(m, t)
		if height == 0 {
			continue
		}
		bx, by := c.ball.Origin.X+s*c.ball.Dir.X, c.ball.Origin.Y+s*c.ball.Dir.Y
		var cover shade
		theirs := 0.0
		for _, r := range c.who[:c.n] {
			r.share = r.pull(bx, by, t, late, k) * height
			if r.share > 0 && c.shields(r, height) {
				dx, dy := bx-r.x, by-r.y
				r.share *= c.leaves(&cover, math.Sqrt(dx*dx+dy*dy), bx, by, t, late, k)
			}
			if !r.ours {
				theirs += r.share
			}
		}
		if a := c.aim; a != nil && a.share > 0 && height == 1 {
			a.share *= c.meets(s, theirs)
		}
		first := math.Inf(1) // part of the step that passes until somebody has it
		for _, r := range c.who[:c.n] {
			hazard := r.share * dt
			sum += hazard
			if hazard > 0 && r.left/hazard <= min(first, 1) {
				first, c.index = r.left/hazard, r.index
			}
			r.left -= hazard
		}
		if first <= 1 {
			c.when = t - dt/2 + first*dt
			return true
		}
	}
	return false
}

// raceOver is the sum of all rates over time from which a race counts as over:
// somebody has had the ball by then with the probability decided.
var raceOver = -math.Log(1 - decided)

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

// edge is how many units of the logistic's scale late a player may be and still
// count.
func (m *ControlModel) edge() float64 {
	if m.Edge > 0 {
		return m.Edge
	}
	return logisticEdge
}

// logisticEdge is where the logistic is taken as 0: it is 0.0001 there.
const logisticEdge = 9

var (
	logisticTable = newTable(-logisticEdge, 12, logistic)
	expTable      = newTable(-6, 6, math.Exp)
	absorbTable   = newTable(0, 20, func(x float64) float64 { return -math.Expm1(-x) }) // 1 - exp(-x)
)

func logistic(z float64) float64 { return 1 / (1 + math.Exp(-z)) }

func logit(p float64) float64 { return math.Log(p / (1 - p)) }
