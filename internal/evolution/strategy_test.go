package evolution

import (
	"cmp"
	"math"
	"slices"
	"testing"
)

func ranked(values []float64) []int {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	return order
}

// evaluations runs a strategy until a point is better than target and counts the
// points looked at; limit+1 when that never happened.
func evaluations(f func([]float64) float64, start []float64, sigma float64, lambda int, seed uint64, target float64, limit int) int {
	s := New(start, sigma, lambda, seed, nil)
	for n := 0; n < limit; {
		points := s.Ask()
		values := make([]float64, len(points))
		for i, x := range points {
			n++
			if values[i] = f(x); values[i] < target {
				return n
			}
		}
		s.Tell(ranked(values))
	}
	return limit + 1
}

func sphere(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v * v
	}
	return sum
}

func ellipsoid(x []float64) float64 {
	sum := 0.0
	for i, v := range x {
		sum += math.Pow(1e6, float64(i)/float64(len(x)-1)) * v * v
	}
	return sum
}

func rosenbrock(x []float64) float64 {
	sum := 0.0
	for i := range len(x) - 1 {
		a, b := x[i]*x[i]-x[i+1], x[i]-1
		sum += 100*a*a + b*b
	}
	return sum
}

func rastrigin(x []float64) float64 {
	sum := 10 * float64(len(x))
	for _, v := range x {
		sum += v*v - 10*math.Cos(2*math.Pi*v)
	}
	return sum
}

func filled(n int, v float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = v
	}
	return x
}

func TestEvals(t *testing.T) {
	for _, c := range []struct {
		name      string
		f         func([]float64) float64
		n         int
		at, sigma float64
		lambda    int
		target    float64
	}{
		{"sphere10", sphere, 10, 1, 1, 0, 1e-9},
		{"elli10", ellipsoid, 10, 1, 1, 0, 1e-9},
		{"rosen8", rosenbrock, 8, 0.1, .5, 0, 1e-10},
		{"rosen10", rosenbrock, 10, 0, .5, 0, 1e-9},
		{"rastr5", rastrigin, 5, 3, 2, 100, 1e-9},
	} {
		var got []int
		for seed := range uint64(11) {
			got = append(got, evaluations(c.f, filled(c.n, c.at), c.sigma, c.lambda, seed+1, c.target, 50000))
		}
		slices.Sort(got)
		t.Log(c.name, got)
	}
}
