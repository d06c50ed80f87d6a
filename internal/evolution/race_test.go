package evolution

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"
)

// Four points under the same luck, two of which are clearly better. Worked by hand:
// the luck 0, 1, 0, 1 ... moves all alike, the differences are 0 but for point 1,
// whose own luck alternates between +1 and -1 around a lead of 0.
func TestRaceWorkedByHand(t *testing.T) {
	own := []func(i int) float64{
		func(i int) float64 { return 0 },
		func(i int) float64 { return 1 - 2*float64(i/2%2) },
		func(i int) float64 { return 5 },
		func(i int) float64 { return 5 + 0.1*float64(i%2) },
	}
	var asked [][]int
	r := Race{Keep: 2, First: 8, Most: 64, Level: 0.95}
	s, err := r.Run(4, func(points []int, first, n int) ([][]float64, error) {
		asked = append(asked, slices.Clone(points))
		out := make([][]float64, len(points))
		for k, p := range points {
			for i := first; i < first+n; i++ {
				out[k] = append(out[k], own[p](i)+float64(i%2))
			}
		}
		return out, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	// 2 and 3 beat 0 by 5 in every pair, and 1 by 4 at the least.
	if len(asked) != 1 || s.Spent != 32 || !s.Separated || !slices.Equal(s.Ranking[:2], []int{3, 2}) {
		t.Errorf("%d rounds, %d observations, separated %v, ranking %v", len(asked), s.Spent, s.Separated, s.Ranking)
	}
}

// Points that cannot be told apart run the whole length; a hopeless one among them
// drops out on the way and comes last, though its mean is all it has to show.
func TestRaceDrops(t *testing.T) {
	src := rand.New(rand.NewPCG(1, 2))
	r := Race{Keep: 2, First: 50, Most: 800, Level: 0.95}
	s, err := r.Run(5, func(points []int, first, n int) ([][]float64, error) {
		out := make([][]float64, len(points))
		for k, p := range points {
			for range n {
				x := src.NormFloat64()
				if p == 3 {
					x -= 3
				}
				out[k] = append(out[k], x)
			}
		}
		return out, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	all := slices.Sorted(slices.Values(s.Ranking))
	if !slices.Equal(all, []int{0, 1, 2, 3, 4}) || s.Ranking[4] != 3 || len(s.Observed[3]) != 50 || s.Spent >= 5*800 {
		t.Errorf("ranking %v, %d observations of the hopeless, %d in all", s.Ranking, len(s.Observed[3]), s.Spent)
	}
	broken := errors.New("no more")
	if _, err := r.Run(3, func([]int, int, int) ([][]float64, error) { return nil, broken }); !errors.Is(err, broken) {
		t.Errorf("error %v", err)
	}
}
