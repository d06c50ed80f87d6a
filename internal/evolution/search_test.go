package evolution

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// hill is a quadratic hill over the start, seen
// through luck that is some times as large: some of it common to all points of an
// index, some their own.
func hill(height float64, at []float64) (Problem, func(x []float64) float64) {
	box := Box{Lo: filled(len(at), -6), Hi: filled(len(at), 6)}
	f := func(x []float64) float64 {
		far := 0.0
		for i := range x {
			far += (x[i] - at[i]) * (x[i] - at[i])
		}
		return height * (1 - far/sphere(at))
	}
	return Problem{Box: box, Start: filled(len(at), 0), Observe: func(points [][]float64, first, n int) ([][]float64, error) {
		out := make([][]float64, len(points))
		for k, x := range points {
			own := rand.New(rand.NewPCG(math.Float64bits(x[0]), uint64(first)))
			common := rand.New(rand.NewPCG(3, uint64(first)))
			for range n {
				out[k] = append(out[k], f(x)+0.06*common.NormFloat64()+0.07*own.NormFloat64())
			}
		}
		return out, nil
	}}, f
}

// On 40,000 observations most of the hill is climbed, whatever the seed.
func TestSearchClimbs(t *testing.T) {
	problem, f := hill(0.02, []float64{3, -2, 4, 1, -3, 2, 0, -1, 2, -4})
	for seed := range uint64(3) {
		found, err := Search(context.Background(), problem, Config{Budget: 40000, Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		if got := f(found.Point) / 0.02; got < 0.6 {
			t.Errorf("seed %d: %.0f %% of the hill", seed, 100*got)
		}
		if found.Spent > 40000 || found.Spent < 32000 {
			t.Errorf("seed %d: %d of 40000 observations", seed, found.Spent)
		}
	}
}

// On flat ground every lead is luck, and the boldest is large all the same: why the
// point must be looked at anew.
func TestWinnersCurse(t *testing.T) {
	problem, _ := hill(0, filled(4, 3))
	found, err := Search(context.Background(), problem, Config{Budget: 20000, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if best := found.Boldest().Best; !(best.Lo > 0) {
		t.Errorf("the boldest lead on flat ground is %.3f to %.3f: no curse", best.Lo, best.Hi)
	}
}

// No generation sees the luck of another, and the same seed searches alike.
func TestSearchLuck(t *testing.T) {
	problem, _ := hill(0.02, filled(3, 2))
	used := map[int]bool{}
	observe := problem.Observe
	from := 0
	problem.Observe = func(points [][]float64, first, n int) ([][]float64, error) {
		for i := first; i < first+n; i++ {
			if used[i] || i != from {
				t.Fatalf("index %d comes twice or out of turn", i)
			}
			used[i] = true
			from++
		}
		return observe(points, first, n)
	}
	a, err := Search(context.Background(), problem, Config{Budget: 5000, Seed: 4})
	if err != nil {
		t.Fatal(err)
	}
	if a.Used != len(used) {
		t.Errorf("%d indices used, %d told", len(used), a.Used)
	}
	problem.Observe = observe
	if b, _ := Search(context.Background(), problem, Config{Budget: 5000, Seed: 4}); !reflect.DeepEqual(a, b) {
		t.Error("one seed, two searches")
	}
}

func TestSearchEnds(t *testing.T) {
	problem, _ := hill(0.02, filled(3, 2))
	if _, err := Search(context.Background(), problem, Config{Budget: Least(3, 0) - 1}); err == nil {
		t.Error("a budget below one generation")
	}
	if found, err := Search(context.Background(), problem, Config{Budget: Least(3, 0)}); err != nil || len(found.Generations) != 1 {
		t.Errorf("the least budget: %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	observe, calls := problem.Observe, 0
	problem.Observe = func(points [][]float64, first, n int) ([][]float64, error) {
		if calls++; calls == 5 {
			cancel()
			return nil, ctx.Err()
		}
		return observe(points, first, n)
	}
	found, err := Search(ctx, problem, Config{Budget: 50000})
	if !errors.Is(err, context.Canceled) || found == nil || len(found.Point) != 3 {
		t.Errorf("cut short: %v, %v", found, err)
	}
	if found, err := Search(ctx, problem, Config{Budget: 50000}); !errors.Is(err, context.Canceled) || found != nil {
		t.Errorf("cut short at once: %v, %v", found, err)
	}
}

// Points that are not valid are never looked at, the one settled on included.
func TestSearchIsValid(t *testing.T) {
	problem, _ := hill(0.02, filled(3, 2))
	problem.Valid = func(x []float64) bool { return math.Abs(x[0]-x[1]) < 1 }
	observe := problem.Observe
	problem.Observe = func(points [][]float64, first, n int) ([][]float64, error) {
		for _, x := range points {
			if !problem.Valid(x) {
				t.Fatalf("%v was looked at", x)
			}
		}
		return observe(points, first, n)
	}
	found, err := Search(context.Background(), problem, Config{Budget: 10000, Seed: 1})
	if err != nil || !problem.Valid(found.Point) {
		t.Errorf("settled on %v, %v", found, err)
	}
}
