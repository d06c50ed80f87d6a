package explain

import (
	"cmp"
	"context"
	"math"
	"slices"

	"playout/internal/scenario"
	"playout/internal/stats"
	"playout/model"
)

// Half is the share of races won that a change is looked for when nothing else is asked.
const Half = 0.5

// Bisections is how often the range between a value on one side of the share asked for
// and one on the other is halved: the place is then known to a sixteenth of it.
const Bisections = 4

// Point is the share of races won at one value of a lever.
type Point struct {
	X     float64
	Share stats.Estimate // 95 %
	Gain  stats.Estimate // over the share as it stands, paired by possession, 95 %
	Won   int
	Races int
}

// side is where the share surely lies: -1 below, +1 above the target, 0 cannot tell.
func (p *Point) side(target float64) int {
	switch {
	case p.Races < fewRaces:
		return 0
	case p.Share.Hi < target:
		return -1
	case p.Share.Lo > target:
		return +1
	}
	return 0
}

// Outcome says what a lever does to the share won.
type Outcome uint8

// Outcomes.
const (
	Reaches Outcome = iota // the share asked for is surely passed within the range
	There                  // it is about that share as it stands
	May                    // an end of the range may reach it; chance cannot be ruled out
	Never                  // both ends are surely on the same side of it as now
	TooFew                 // too few races to tell
	NumOutcomes
)

var outcomeNames = [NumOutcomes]string{"reaches", "as_it_stands", "cannot_tell", "never", "too_few_races"}

func (o Outcome) String() string { return outcomeNames[o] }

// Change is what moving one lever by itself does. All points are of the same
// possessions with the same luck.
type Change struct {
	Lever    Lever
	Outcome  Outcome
	Points   []Point // in order of X
	At       float64 // where the share is as asked, by a straight line between its neighbours; Whole: the first value beyond
	From, To float64 // outside these the share is surely on one side of it, as far as was tried
	Best     Point   // of the points, the one with the largest share
}

// fewRaces is how many races a point needs.
const fewRaces = 20

// Cells is the most variants that Changes plays for so many levers.
func Cells(levers int) int { return 1 + levers*(2+Bisections) }

// Changes looks, lever by lever, for the value at which the share target of the races is
// won: it plays both ends of the range and, when one is surely on the other side of the
// target than the present value, halves what lies between. A lever that was broken off
// by the context is left out.
func Changes(ctx context.Context, base *scenario.Base, levers []Lever, focus Focus, target float64, cfg Config) ([]Change, error) {
	play := func(sc *model.Scenario, par *model.Params) ([][]Race, error) {
		return Collect(ctx, sc, par, cfg, Runner(focus, sc.Pitch))
	}
	now, err := play(base.Scenario(), nil)
	if err != nil {
		return nil, err
	}
	var out []Change
	for _, l := range levers {
		c, err := change(l, target, pointOf(l.Now, now, now), func(x float64) (Point, error) {
			sc, par, err := l.make(x)
			if err != nil {
				return Point{}, err
			}
			races, err := play(sc, par)
			return pointOf(x, races, now), err
		})
		if err != nil {
			return out, err
		}
		out = append(out, c)
	}
	return out, nil
}

// pointOf sums up the races at a value; now are those as it stands.
func pointOf(x float64, races, now [][]Race) Point {
	p := Point{X: x, Share: ShareWon(races, 0.95)}
	var s stats.PairedRatioSums
	for i, of := range races {
		won := count(of)
		p.Won += won
		p.Races += len(of)
		s.Add(float64(count(now[i])), float64(len(now[i])), float64(won), float64(len(of)))
	}
	p.Gain = stats.RatioDifference(s, 0.95)
	return p
}

func count(races []Race) int {
	n := 0
	for i := range races {
		n += yes(races[i].Won)
	}
	return n
}

// change looks along one lever; at plays a value.
func change(l Lever, target float64, now Point, at func(x float64) (Point, error)) (Change, error) {
	c := Change{Lever: l, Points: []Point{now}, Best: now}
	if now.Races < fewRaces {
		c.Outcome = TooFew
		return c, nil
	}
	play := func(x float64) (Point, error) {
		p, err := at(x)
		c.Points = append(c.Points, p)
		if p.Races >= fewRaces && p.Share.Value > c.Best.Share.Value {
			c.Best = p
		}
		return p, err
	}
	here := now.side(target)
	c.Outcome = Never
	if here == 0 {
		c.Outcome = There
	}
	var far *Point
	for _, x := range []float64{l.Lo, l.Hi} {
		if x == l.Now {
			continue
		}
		p, err := play(x)
		if err != nil {
			return c, err
		}
		switch side := p.side(target); {
		case here == 0:
		case side == -here:
			if far == nil || math.Abs(x-l.Now) < math.Abs(far.X-l.Now) {
				c.Outcome, far = Reaches, &p
			}
		case side == 0 && c.Outcome == Never:
			c.Outcome = May
		}
	}
	var err error
	if far != nil {
		err = c.bisect(target, now, *far, play)
	}
	slices.SortFunc(c.Points, func(a, b Point) int { return cmp.Compare(a.X, b.X) })
	if far != nil {
		c.bounds(target)
	}
	return c, err
}

// bisect closes in on the target between two values on either side of it.
func (c *Change) bisect(target float64, near, far Point, play func(x float64) (Point, error)) error {
	beyond := far.side(target)
	for range Bisections {
		x := (near.X + far.X) / 2
		if c.Lever.Whole {
			x = math.Round(x)
		}
		if x == near.X || x == far.X {
			break
		}
		p, err := play(x)
		if err != nil {
			return err
		}
		if p.Races >= fewRaces && (p.Share.Value > target) == (beyond > 0) {
			far = p
		} else {
			near = p
		}
	}
	c.At = far.X
	if !c.Lever.Whole && near.Races >= fewRaces {
		c.At = near.X + (far.X-near.X)*(target-near.Share.Value)/(far.Share.Value-near.Share.Value)
	}
	return nil
}

// bounds are the values nearest to At, on either side of it, at which the share is surely
// not the target; the ends of what was tried where there is none.
func (c *Change) bounds(target float64) {
	c.From, c.To = c.Points[0].X, c.Points[len(c.Points)-1].X
	for i := range c.Points {
		p := &c.Points[i]
		switch {
		case p.side(target) == 0:
		case p.X < c.At:
			c.From = max(c.From, p.X)
		case p.X > c.At:
			c.To = min(c.To, p.X)
		}
	}
}
