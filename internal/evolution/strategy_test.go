package evolution

import (
	"cmp"
	"math"
	"math/rand/v2"
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
	s := New(start, sigma, lambda, seed, nil, nil)
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

// The number of points it takes is what is published for CMA-ES, and the median of
// eleven seeds lies in a band of a third around it. Sources, from memory:
//   - Rosenbrock in 8 dimensions from 0.1 with step 0.5: the run printed in the
//     documentation of the author's implementation is at 1.3e-11 after 4,000 points;
//   - sphere and ellipsoid (condition 1e6) in 10 dimensions: the results of the
//     COCO/BBOB workshops for f1 and f10, about 1,500 and 6,000 points to 1e-8;
//   - Rastrigin in 5 dimensions is found by a large generation only: Hansen and Kern
//     (2004), Evaluating the CMA evolution strategy on multimodal test functions.
func TestPublishedFunctions(t *testing.T) {
	for _, c := range []struct {
		name      string
		f         func([]float64) float64
		n         int
		at, sigma float64
		lambda    int
		target    float64
		want      int
	}{
		{"sphere", sphere, 10, 1, 1, 0, 1e-8, 1500},
		{"ellipsoid", ellipsoid, 10, 1, 1, 0, 1e-8, 6000},
		{"Rosenbrock", rosenbrock, 8, 0.1, 0.5, 0, 1e-10, 4000},
		{"Rastrigin", rastrigin, 5, 3, 2, 100, 1e-8, 7000}, // the count is ours: only that it is found is published
	} {
		var got []int
		for seed := range uint64(11) {
			got = append(got, evaluations(c.f, filled(c.n, c.at), c.sigma, c.lambda, seed+1, c.target, 4*c.want))
		}
		slices.Sort(got)
		if median := got[5]; median < c.want*2/3 || median > c.want*4/3 {
			t.Errorf("%s: %d points, published about %d; all seeds: %v", c.name, median, c.want, got)
		}
	}
}

// A small generation finds Rastrigin's optimum hardly ever (Hansen and Kern 2004).
func TestSmallGenerationsMissRastrigin(t *testing.T) {
	found := 0
	for seed := range uint64(11) {
		if evaluations(rastrigin, filled(5, 3), 2, 0, seed+1, 1e-8, 8000) <= 8000 {
			found++
		}
	}
	if found > 3 {
		t.Errorf("%d of 11 runs with 8 points a generation found it", found)
	}
}

// With 10 points in 8 dimensions the documentation of the author's implementation
// (from memory) prints mu = 5, mu_w = 3.2 and w_1 = 45 %.
func TestWeights(t *testing.T) {
	s := New(filled(8, 0), 1, 0, 1, nil, nil)
	if s.Lambda() != 10 || s.Mu() != 5 || math.Abs(s.muEff-3.2) > 0.05 || math.Abs(s.w[0]-0.455) > 0.01 {
		t.Errorf("lambda %d, mu %d, mu_w %.3f, w_1 %.3f", s.Lambda(), s.Mu(), s.muEff, s.w[0])
	}
}

// Under rankings that say nothing the step size has no drift on the logarithmic
// scale (the tutorial, section 4, and Hansen and Ostermeier 2001 ask for it): the mean
// of ln sigma over 60 runs of 200 generations is within 4 standard errors of 0, which
// fails by chance once in 16,000 seeds.
func TestStepSizeIsUnbiased(t *testing.T) {
	const runs = 60
	sum, squares := 0.0, 0.0
	for seed := range uint64(runs) {
		s := New(filled(5, 0), 1, 0, seed+1, nil, nil)
		order := ranked(filled(s.Lambda(), 0)) // independent of the points
		for range 200 {
			s.Ask()
			s.Tell(order)
		}
		sum += math.Log(s.sigma)
		squares += math.Log(s.sigma) * math.Log(s.sigma)
	}
	mean := sum / runs
	if se := math.Sqrt((squares/runs - mean*mean) / (runs - 1)); math.Abs(mean) > 4*se {
		t.Errorf("mean of ln sigma %.3f, standard error %.3f", mean, se)
	}
}

// The noisy sphere of the design notes: ten dimensions, noise of standard deviation
// 0.05, 4,000 points. The mean settles where a textbook strategy was measured to:
// at 0.025 in the median; the bound leaves room for seeds.
func TestNoisySphere(t *testing.T) {
	var got []float64
	for seed := range uint64(7) {
		s := New(filled(10, 1), 0.5, 0, seed+1, nil, nil)
		noise := rand.New(rand.NewPCG(seed, 99))
		for n := 0; n < 4000; n += s.Lambda() {
			var values []float64
			for _, x := range s.Ask() {
				values = append(values, sphere(x)+0.05*noise.NormFloat64())
			}
			s.Tell(ranked(values))
		}
		got = append(got, sphere(s.Mean()))
	}
	slices.Sort(got)
	if got[3] > 0.05 {
		t.Errorf("median %.3f; all: %.3f", got[3], got)
	}
}

func TestSameSeedSamePoints(t *testing.T) {
	a, b, c := New(filled(4, 0), 1, 0, 7, nil, nil), New(filled(4, 0), 1, 0, 7, nil, nil), New(filled(4, 0), 1, 0, 8, nil, nil)
	for range 5 {
		x, y, z := a.Ask(), b.Ask(), c.Ask()
		if !slices.EqualFunc(x, y, slices.Equal) {
			t.Fatal("one seed, other points")
		}
		if slices.EqualFunc(x, z, slices.Equal) {
			t.Fatal("another seed, the same points")
		}
		order := ranked([]float64{3, 1, 2, 0, 5, 4, 7, 6})
		a.Tell(order)
		b.Tell(order)
		c.Tell(order)
	}
}

// Every point asked for is accepted, and an optimum at the edge of what is accepted
// is found.
func TestAccept(t *testing.T) {
	accept := func(x []float64) bool { return x[0] >= 1 }
	s := New(filled(4, 2), 0.5, 0, 1, nil, accept)
	for range 150 {
		var values []float64
		for _, x := range s.Ask() {
			if !accept(x) {
				t.Fatalf("asked for %v", x)
			}
			values = append(values, sphere(x))
		}
		s.Tell(ranked(values))
	}
	if got := sphere(s.Mean()); math.Abs(got-1) > 0.05 {
		t.Errorf("settled at %.3f, the edge is at 1", got)
	}
}
