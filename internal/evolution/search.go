package evolution

import (
	"context"
	"errors"
	"slices"

	"gonum.org/v1/gonum/floats"

	"playout/internal/stats"
)

// Problem is what is searched: the point of the box whose mean observation is
// largest.
type Problem struct {
	Box   Box
	Start []float64 // a valid point: what the points are compared with
	Valid func(x []float64) bool
	// Observe makes observations [first, first+n) of each point. Equal indices
	// share their luck. An error ends the search.
	Observe func(points [][]float64, first, n int) ([][]float64, error)
}

// Config sizes a search.
type Config struct {
	Budget int    // observations of all points together
	Lambda int    // points of a generation; 0: twice the tutorial's, which blurred looks repay
	Seed   uint64 // of the points that are tried
}

// How a search spends its budget. On quadratic hills in ten dimensions under noise
// of the size met here (a difference of two points in one observation spreads over
// 5 to 20 times the height of the hill, 180,000 observations) these climbed 0.8 to
// 0.95 of the hill; a third or three times as many observations of a point or points
// of a generation climbed less.
const (
	generations = 25   // a generation has this part of the budget at most
	firstLooks  = 4    // a race looks after this part of its longest length
	leastLooks  = 25   // observations of a point at the least
	firstSigma  = 0.2  // standard deviation of the first points, in sides of the box
	raceLevel   = 0.95 // of the interval of a pair in a race
)

// Generation is one step of a search.
type Generation struct {
	Spent     int            // observations up to its end
	Looks     int            // observations of the points that stayed to the end
	Points    int            // points of the race, the start not counted
	Dropped   int            // of them dropped out early
	Best      stats.Estimate // the best point's lead over the start, 95 %; picked for being best, so optimistic
	BestPoint []float64
	Half      stats.Estimate // lead of the mean of the better half over the start; also picked
	Mean      []float64      // mean of the distribution after it, folded into the box
	Spread    float64        // standard deviation of a coordinate after it, in sides of the box
}

// Found is the end of a search.
type Found struct {
	Point       []float64 // the mean of the second half of the generations' means
	Spent       int       // observations made
	Used        int       // luck used: the indices below it
	Generations []Generation
}

// Boldest is the largest lead that any point showed while the search went on. Many
// were tried and this is the luckiest, so it promises too much.
func (f *Found) Boldest() Generation {
	return slices.MaxFunc(f.Generations, func(a, b Generation) int {
		switch {
		case a.Best.Value < b.Best.Value:
			return -1
		case a.Best.Value > b.Best.Value:
			return 1
		}
		return 0
	})
}

// Search tries points until the budget is spent or ctx is over. Every generation is
// raced under luck of its own, together with the start. What it returns is no single
// point that did well but the middle of where the later generations settled, which
// the luck of single points averages out of (the mean of a noisy strategy is a
// better guess than its best point: Hansen et al. 2009, A method for handling
// uncertainty in evolutionary optimization, IEEE Trans. Evolutionary Computation
// 13, 180-197). On an error, ctx's included, it returns what was found before,
// nil after no generation.
func Search(ctx context.Context, p Problem, cfg Config) (*Found, error) {
	lambda := cfg.Lambda
	if lambda == 0 {
		lambda = 2 * DefaultLambda(len(p.Start))
	}
	valid := func(u []float64) bool { return p.Valid == nil || p.Valid(p.Box.Fold(u)) }
	s := New(p.Box.Unfold(p.Start), firstSigma, lambda, cfg.Seed, valid)
	race := Race{Keep: s.Mu(), Level: raceLevel, Most: max(cfg.Budget/generations/(s.Lambda()+1), leastLooks)}
	race.First = max(race.Most/firstLooks, leastLooks)
	if cfg.Budget < race.First*(s.Lambda()+1) {
		return nil, errors.New("evolution: the budget is too small for one generation")
	}
	f := &Found{}
	for cfg.Budget-f.Spent >= race.First*(s.Lambda()+1) {
		race.Most = min(race.Most, (cfg.Budget-f.Spent)/(s.Lambda()+1))
		err := ctx.Err()
		if err == nil {
			err = f.generation(s, p, race)
		}
		if err != nil {
			if len(f.Generations) == 0 {
				return nil, err
			}
			f.settle(p)
			return f, err
		}
	}
	f.settle(p)
	return f, nil
}

// Least is the smallest budget of a search in n dimensions with points of a
// generation as in Config: one generation.
func Least(n, lambda int) int {
	if lambda == 0 {
		lambda = 2 * DefaultLambda(n)
	}
	return leastLooks * (max(lambda, 4) + 1)
}

// generation asks for points, races them and tells the strategy. The start is
// looked at beside them as long as the race goes on.
func (f *Found) generation(s *Strategy, p Problem, race Race) error {
	var points [][]float64
	for _, u := range s.Ask() {
		points = append(points, p.Box.Fold(u))
	}
	var start []float64
	spent := 0
	standing, err := race.Run(len(points), func(left []int, first, n int) ([][]float64, error) {
		at := [][]float64{p.Start}
		for _, i := range left {
			at = append(at, points[i])
		}
		got, err := p.Observe(at, f.Used+first, n)
		if err != nil {
			return nil, err
		}
		start = append(start, got[0]...)
		spent += len(at) * n
		return got[1:], nil
	})
	if err != nil {
		return err
	}
	s.Tell(standing.Ranking)
	f.Spent += spent
	f.Used += len(start)
	g := Generation{Spent: f.Spent, Looks: len(start), Points: len(points), Spread: s.Spread(), Mean: p.Box.Fold(s.Mean())}
	best := standing.Ranking[0]
	g.BestPoint = points[best]
	g.Best = Difference(start, standing.Observed[best], level)
	g.Half = Difference(start, standing.mean(standing.Ranking[:race.Keep], len(start)), level)
	for _, o := range standing.Observed {
		if len(o) < len(start) {
			g.Dropped++
		}
	}
	f.Generations = append(f.Generations, g)
	return nil
}

// level is that of the intervals reported.
const level = 0.95

// mean averages the first n observations of some points index by index.
func (s *Standing) mean(points []int, n int) []float64 {
	out := make([]float64, n)
	for _, p := range points {
		floats.AddScaled(out, 1/float64(len(points)), s.Observed[p][:n])
	}
	return out
}

// settle averages the means of the second half of the generations. Where that
// point is not valid, it takes the last mean that is, or else the best point of the
// last generation, which was tried.
func (f *Found) settle(p Problem) {
	second := f.Generations[len(f.Generations)/2:]
	f.Point = make([]float64, len(p.Start))
	for _, g := range second {
		floats.AddScaled(f.Point, 1/float64(len(second)), g.Mean)
	}
	for i := range f.Point { // rounding must not leave the box
		f.Point[i] = min(max(f.Point[i], p.Box.Lo[i]), p.Box.Hi[i])
	}
	if p.Valid == nil || p.Valid(f.Point) {
		return
	}
	for _, g := range slices.Backward(second) {
		if p.Valid(g.Mean) {
			f.Point = g.Mean
			return
		}
	}
	f.Point = f.Generations[len(f.Generations)-1].BestPoint
}
