package evolution

import (
	"cmp"
	"context"
	"errors"
	"math"
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

// How a search spends its budget. On quadratic hills in 1, 3 and 10 dimensions, with
// noise of 5 and 15 times their height and budgets of 4,000 and 40,000, it climbs 0.5
// to 0.97 of the hill (and next to nothing of the worst of these, ten dimensions under
// the most noise on the least budget); from 6 to 40 generations make little difference.
const (
	leastLooks = 25   // observations of a point at the least
	firstLooks = 4    // a race looks after this part of its longest length
	raceLevel  = 0.95 // of the interval of a pair in a race
	firstSigma = 0.3  // standard deviation of the first points, in sides of the box (the tutorial, section B.1)
	mostSpread = 0.5  // of any generation, in sides of the box
	finalShare = 0.2  // part of the budget for the race of the finalists
	mostFinal  = 8    // points in that race

	// The likeliest finalist stands unless another beats it by the interval of this
	// level: means of means deserve some trust before the last race.
	replaceLevel = 0.8
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
	Mean      []float64      // mean of the distribution after it
	Spread    float64        // standard deviation of a coordinate after it, in sides of the box (the tutorial, section B.1)
}

// Found is the end of a search.
type Found struct {
	Point       []float64      // the winner of the race of the finalists
	Lead        stats.Estimate // its lead over the start in that race, 95 %; picked, and so optimistic
	Looks       int            // observations behind the lead; 0 without a race
	Finalists   int
	Spent       int // observations made
	Used        int // luck used: the indices below it
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
// raced under luck of its own, together with the start. At the end the finalists
// race: the mean of the later generations' means, which the luck of single points
// averages out of (a noisy strategy's mean is a better guess than its best point:
// Hansen et al. 2009, A method for handling uncertainty in evolutionary
// optimization, IEEE Trans. Evolutionary Computation 13, 180-197), the last mean, and
// the points with the safest leads, again under luck of their own (Boesel, Nelson
// and Kim 2003, Using ranking and selection to clean up after simulation
// optimization, Operations Research 51, 814-825). On an error, ctx's included, it
// returns what was found before, nil after no generation; without the race of the
// finalists that is the mean of the means.
func Search(ctx context.Context, p Problem, cfg Config) (*Found, error) {
	lambda := cfg.Lambda
	if lambda == 0 {
		lambda = 2 * DefaultLambda(len(p.Start))
	}
	if p.Valid == nil {
		p.Valid = func([]float64) bool { return true }
	}
	valid := func(u []float64) bool { return p.Valid(p.Box.At(u)) }
	s := New(p.Box.Of(p.Start), firstSigma, lambda, cfg.Seed, intoCube, valid)
	budget := int((1 - finalShare) * float64(cfg.Budget))
	race := Race{Keep: s.Mu(), Level: raceLevel, Most: max(budget/generationsFor(len(p.Start))/(s.Lambda()+1), leastLooks)}
	race.First = max(race.Most/firstLooks, leastLooks)
	if budget < race.First*(s.Lambda()+1) {
		return nil, errors.New("evolution: the budget is too small for one generation")
	}
	f := &Found{}
	var err error
	for err == nil && budget-f.Spent >= race.First*(s.Lambda()+1) {
		race.Most = min(race.Most, (budget-f.Spent)/(s.Lambda()+1))
		if err = ctx.Err(); err == nil {
			err = f.generation(s, p, race)
		}
	}
	if len(f.Generations) == 0 {
		return nil, err
	}
	points := f.finalists(p)
	f.Point, f.Lead = points[0], stats.Estimate{Value: math.NaN()}
	if err == nil {
		err = f.final(p, points, cfg.Budget-f.Spent)
	}
	return f, err
}

// generationsFor is how many generations a budget is meant for in n dimensions.
func generationsFor(n int) int { return min(6+2*n, 25) }

// Least is the smallest budget of a search in n dimensions with points of a
// generation as in Config: one generation.
func Least(n, lambda int) int {
	if lambda == 0 {
		lambda = 2 * DefaultLambda(n)
	}
	return int(math.Ceil(float64(leastLooks*(max(lambda, 4)+1)) / (1 - finalShare)))
}

// generation asks for points, races them and tells the strategy.
func (f *Found) generation(s *Strategy, p Problem, race Race) error {
	var points [][]float64
	for _, u := range s.Ask() {
		points = append(points, p.Box.At(u))
	}
	standing, start, err := f.race(p, points, race)
	if err != nil {
		return err
	}
	s.Tell(standing.Ranking)
	s.Limit(mostSpread)
	best := standing.Ranking[0]
	g := Generation{
		Spent: f.Spent, Looks: len(start), Points: len(points),
		Best: Difference(start, standing.Observed[best], level), BestPoint: points[best],
		Half: Difference(start, standing.mean(standing.Ranking[:race.Keep], len(start)), level),
		Mean: p.Box.At(s.Mean()), Spread: s.Spread(),
	}
	for _, o := range standing.Observed {
		if len(o) < len(start) {
			g.Dropped++
		}
	}
	f.Generations = append(f.Generations, g)
	return nil
}

// race races points under luck that was not used before. The start is looked at
// beside them as long as the race goes on.
func (f *Found) race(p Problem, points [][]float64, race Race) (*Standing, []float64, error) {
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
	f.Spent += spent
	f.Used += len(start)
	return standing, start, err
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

// finalists are the valid points that may be the best, the likeliest first.
func (f *Found) finalists(p Problem) [][]float64 {
	second := f.Generations[len(f.Generations)/2:]
	middle := make([]float64, len(p.Start))
	for _, g := range second {
		floats.AddScaled(middle, 1/float64(len(second)), g.Mean)
	}
	middle = p.Box.At(p.Box.Of(middle)) // rounding must not leave the box
	var out [][]float64
	for _, x := range [][]float64{middle, second[len(second)-1].Mean} {
		if p.Valid(x) {
			out = append(out, x)
		}
	}
	safest := slices.Clone(f.Generations)
	slices.SortStableFunc(safest, func(a, b Generation) int { return cmp.Compare(b.Best.Lo, a.Best.Lo) })
	for _, g := range safest[:min(len(safest), mostFinal-len(out))] {
		out = append(out, g.BestPoint)
	}
	return out
}

// final races the finalists on what is left of the budget. Too little left for that
// leaves the likeliest.
func (f *Found) final(p Problem, points [][]float64, budget int) error {
	race := Race{Keep: 1, Level: raceLevel, Most: budget / (len(points) + 1)}
	if race.Most < leastLooks {
		return nil
	}
	race.First = max(race.Most/firstLooks, leastLooks)
	standing, start, err := f.race(p, points, race)
	if err != nil {
		return err
	}
	best := standing.Ranking[0]
	if stayed := len(standing.Observed[0]) == len(start); stayed && !(Difference(standing.Observed[0], standing.Observed[best], replaceLevel).Lo > 0) {
		best = 0
	}
	f.Point, f.Finalists, f.Looks = points[best], len(points), len(start)
	f.Lead = Difference(start, standing.Observed[best], level)
	return nil
}
