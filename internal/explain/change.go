package explain

import (
	"context"
	"math"
	"slices"

	"playout/internal/scenario"
	"playout/internal/stats"
	"playout/model"
)

// Half is the share of races won that a change is looked for.
const Half = 0.5

// Bisections is how often the range between a value below and one above a half is
// halved: the place is then known to a sixteenth of it.
const Bisections = 4

// Point is the share of races won at one value of a lever.
type Point struct {
	X     float64
	Share stats.Estimate // 95 %
	Races int
}

// Outcome says what a lever does to the share won.
type Outcome uint8

// Outcomes.
const (
	Reaches Outcome = iota // a half is reached within the range
	Never                  // at both ends it is on the same side of a half as now
	TooFew                 // too few races to tell
	NumOutcomes
)

var outcomeNames = [NumOutcomes]string{"reaches_half", "never_half", "too_few_races"}

func (o Outcome) String() string { return outcomeNames[o] }

// Change is what moving one lever by itself does. All points are of the same
// possessions with the same luck.
type Change struct {
	Lever   Lever
	Outcome Outcome
	Points  []Point // in order of X
	At      float64 // where the share is one half, by a straight line between its neighbours
	From    float64 // between these two it is: outside, the share is surely on one side
	To      float64 // of a half, as far as it was looked at
	Best    Point   // of the points, the one with the largest share
}

// fewRaces is how many races a point needs.
const fewRaces = 20

// Cells is the most variants that Changes plays for so many levers.
func Cells(levers int) int { return 1 + levers*(2+Bisections) }

// Changes looks, lever by lever, for the value at which half of the races are won: it
// plays both ends of the range, and halves what lies between the present value and an
// end on the other side of a half. par, where not nil, are the engine's parameters in
// place of the defaults. A Change that was broken off by the context is left out.
func Changes(ctx context.Context, base *scenario.Base, levers []Lever, focus Focus, cfg Config) ([]Change, error) {
	now, err := pointAt(ctx, base.Scenario(), nil, focus, cfg, 0)
	if err != nil {
		return nil, err
	}
	var out []Change
	for _, l := range levers {
		now.X = l.Now
		c, err := change(l, now, func(x float64) (Point, error) {
			sc, par, err := l.make(x)
			if err != nil {
				return Point{}, err
			}
			return pointAt(ctx, sc, par, focus, cfg, x)
		})
		if err != nil {
			return out, err
		}
		out = append(out, c)
	}
	return out, nil
}

func pointAt(ctx context.Context, sc *model.Scenario, par *model.Params, focus Focus, cfg Config, x float64) (Point, error) {
	races, err := Collect(ctx, sc, par, cfg, Runner(focus))
	if err != nil {
		return Point{}, err
	}
	p := Point{X: x, Share: ShareWon(races, 0.95)}
	for _, of := range races {
		p.Races += len(of)
	}
	return p, nil
}

// change looks along one lever; at plays a value.
func change(l Lever, now Point, at func(x float64) (Point, error)) (Change, error) {
	c := Change{Lever: l, Outcome: Never, Points: []Point{now}, Best: now}
	if now.Races < fewRaces {
		c.Outcome = TooFew
		return c, nil
	}
	play := func(x float64) (Point, error) {
		p, err := at(x)
		if err == nil {
			c.Points = append(c.Points, p)
			if p.Races >= fewRaces && p.Share.Value > c.Best.Share.Value {
				c.Best = p
			}
		}
		return p, err
	}
	below := func(p Point) bool { return p.Share.Value < Half }
	var far *Point
	for _, x := range []float64{l.Lo, l.Hi} {
		if x == l.Now {
			continue
		}
		p, err := play(x)
		if err != nil {
			return c, err
		}
		nearer := far == nil || math.Abs(x-l.Now) < math.Abs(far.X-l.Now)
		if p.Races >= fewRaces && below(p) != below(now) && nearer {
			far = &p
		}
	}
	if far != nil {
		c.Outcome = Reaches
		near := now
		for range Bisections {
			x := (near.X + far.X) / 2
			if l.Whole {
				x = math.Round(x)
			}
			if x == near.X || x == far.X {
				break
			}
			p, err := play(x)
			if err != nil {
				return c, err
			}
			if p.Races < fewRaces || below(p) == below(*far) {
				far = &p
			} else {
				near = p
			}
		}
		c.At = near.X + (far.X-near.X)*(Half-near.Share.Value)/(far.Share.Value-near.Share.Value)
		if l.Whole {
			c.At = far.X // the first whole number beyond
		}
	}
	slices.SortFunc(c.Points, func(a, b Point) int {
		if a.X < b.X {
			return -1
		}
		return 1
	})
	if far != nil {
		c.bounds()
	}
	return c, nil
}

// bounds are the nearest values on either side of At whose share is surely not a half:
// one below on one side, one above on the other. Where there is none, the end of what
// was looked at.
func (c *Change) bounds() {
	c.From, c.To = c.Points[0].X, c.Points[len(c.Points)-1].X
	for _, p := range c.Points {
		if p.Share.Lo <= Half && p.Share.Hi >= Half {
			continue
		}
		if p.X < c.At {
			c.From = max(c.From, p.X)
		} else if p.X > c.At {
			c.To = min(c.To, p.X)
		}
	}
}
