package evolution

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/floats"

	"playout/internal/stats"
)

// Race finds the best Keep of some points by their mean observation, the larger the
// better, and looks no longer than it must at those that are clearly not among them:
// after First observations of each, and whenever their number has doubled, a point
// drops out that at least Keep of the others beat by the paired interval of Level.
// It ends when Keep are left or after Most observations.
// Reference: Heidrich-Meisner and Igel (2009), Hoeffding and Bernstein races for
// selecting policies in evolutionary direct policy search, ICML; with paired t
// intervals in the place of their bounds, because the points share their luck.
type Race struct {
	Keep        int
	First, Most int     // observations of a point
	Level       float64 // of the interval of one pair
}

// Observe makes observations [first, first+n) of each of the points named; those of
// one index are made under one luck.
type Observe func(points []int, first, n int) ([][]float64, error)

// Standing is how a race ended.
type Standing struct {
	Ranking   []int       // all points; those that dropped out follow those that stayed, the last to drop first
	Observed  [][]float64 // of each point
	Spent     int         // observations in all
	Separated bool        // no more than Keep were left at the end
}

// Mean is the mean observation of a point.
func (s *Standing) Mean(point int) float64 {
	return floats.Sum(s.Observed[point]) / float64(len(s.Observed[point]))
}

// Run races n points. Its only errors are those of observe.
func (r Race) Run(n int, observe Observe) (*Standing, error) {
	s := &Standing{Observed: make([][]float64, n)}
	left := make([]int, n)
	for i := range left {
		left[i] = i
	}
	for have, want := 0, min(r.First, r.Most); ; want = min(2*want, r.Most) {
		got, err := observe(left, have, want-have)
		if err != nil {
			return nil, err
		}
		for i, p := range left {
			s.Observed[p] = append(s.Observed[p], got[i]...)
			s.Spent += len(got[i])
		}
		have = want
		slices.SortStableFunc(left, func(a, b int) int { return cmp.Compare(s.Mean(b), s.Mean(a)) })
		stay := left
		if have < r.Most { // a drop at the end would change nothing
			stay = r.stay(left, s.Observed)
		}
		s.Separated = len(stay) <= r.Keep
		if s.Separated || have >= r.Most {
			s.Ranking = append(left, s.Ranking...)
			return s, nil
		}
		var dropped []int
		for _, p := range left {
			if !slices.Contains(stay, p) {
				dropped = append(dropped, p)
			}
		}
		s.Ranking = append(dropped, s.Ranking...)
		left = stay
	}
}

// stay lists the points of left, the best first, that fewer than Keep others
// clearly beat. The best Keep always stay.
func (r Race) stay(left []int, observed [][]float64) []int {
	var stay []int
	for i, p := range left {
		beaten := 0
		for _, better := range left[:i] {
			if Difference(observed[p], observed[better], r.Level).Lo > 0 {
				beaten++
			}
		}
		if beaten < r.Keep {
			stay = append(stay, p)
		}
	}
	return stay
}

// Difference estimates how much larger the mean of b is than that of a, observed
// under the same luck.
func Difference(a, b []float64, level float64) stats.Estimate {
	var sums stats.PairedRatioSums
	for i := range a {
		sums.Add(a[i], 1, b[i], 1)
	}
	return stats.RatioDifference(sums, level)
}
