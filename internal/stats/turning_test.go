package stats

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// curveData draws n observations of a curve: yes or no with the chance of each
// place, with common luck as the cells of a sweep have it: share of the
// observations keep their uniform number from place to place.
func curveData(rng *rand.Rand, n int, chance []float64, share float64) Joint {
	values := make([][]float64, len(chance))
	for i := range values {
		values[i] = make([]float64, n)
	}
	for t := range n {
		u := rng.Float64()
		for i, p := range chance {
			if rng.Float64() > share {
				u = rng.Float64()
			}
			if u < p {
				values[i][t] = 1
			}
		}
	}
	return JointMeans(values)
}

func along(k int, f func(x float64) float64) (x, y []float64) {
	for i := range k {
		x = append(x, float64(i))
		y = append(y, f(float64(i)))
	}
	return x, y
}

func constant(c float64) func(float64) float64 { return func(float64) float64 { return c } }

// TestJointMeans against means and covariances worked out by hand.
func TestJointMeans(t *testing.T) {
	j := JointMeans([][]float64{{1, 2, 3}, {2, 2, 5}})
	// Means 2 and 3; sums of squares 2 and 6, of products 3; over n(n-1) = 6.
	if j.Mean[0] != 2 || j.Mean[1] != 3 || math.Abs(j.Cov.At(0, 0)-2.0/6) > 1e-12 || math.Abs(j.Cov.At(1, 1)-1) > 1e-12 || math.Abs(j.Cov.At(0, 1)-0.5) > 1e-12 {
		t.Errorf("%+v %v", j.Mean, j.Cov)
	}
	// The paired difference has mean 1 and values 1, 0, 2: standard error sqrt(1/3).
	if math.Abs(j.stdErr(0, 1)-math.Sqrt(1.0/3)) > 1e-12 {
		t.Errorf("standard error %v", j.stdErr(0, 1))
	}
}

// TestCritical against published values: with independent means of equal variance
// the largest |t| over all pairs is the studentised range over the square root of
// 2; its upper 5% points for infinite degrees of freedom are 3.314, 3.633 and
// 4.474 for 3, 4 and 10 means (Pearson and Hartley 1970, Biometrika Tables for
// Statisticians I, table 29). With 4,000 draws the standard error of the quantile
// is about 0.025; the bound is four of them.
func TestCritical(t *testing.T) {
	for _, c := range []struct {
		k int
		q float64
	}{{3, 3.314}, {4, 3.633}, {10, 4.474}} {
		values := make([][]float64, c.k)
		for i := range values { // orthogonal by construction
			values[i] = make([]float64, 2*c.k)
			values[i][2*i], values[i][2*i+1] = 1, -1
		}
		j := JointMeans(values)
		if got := j.Critical(0.95); math.Abs(got-c.q/math.Sqrt2) > 0.1 {
			t.Errorf("%d means: %.3f, want %.3f", c.k, got, c.q/math.Sqrt2)
		}
	}
}

// TestTurn on curves whose turning point is known. With the given size and luck
// the statements have a power above 99.9%; the seeds are fixed.
func TestTurn(t *testing.T) {
	for _, c := range []struct {
		name   string
		f      func(x float64) float64
		want   Shape
		within [2]float64 // where the turn has to be
	}{
		{"peak at 6", func(x float64) float64 { return 0.5 - 0.006*(x-6)*(x-6) }, Peak, [2]float64{4, 8}},
		{"peak at 3", func(x float64) float64 { return 0.8 - 0.009*(x-3)*(x-3) }, Peak, [2]float64{1, 5}},
		{"valley at 5", func(x float64) float64 { return 0.3 + 0.008*math.Abs(x-5)*math.Abs(x-5) }, Valley, [2]float64{3, 7}},
		{"wave", func(x float64) float64 { return 0.5 + 0.1*math.Sin(x*2*math.Pi/12) }, Both, [2]float64{1, 5}},
		{"levels off at 5", func(x float64) float64 { return 0.3 + 0.04*min(x, 5) }, Bent, [2]float64{3.5, 6.5}},
		{"gets steeper at 8", func(x float64) float64 { return 0.5 - 0.004*x - 0.04*max(x-8, 0) }, Bent, [2]float64{6.5, 9.5}},
		{"straight up", func(x float64) float64 { return 0.4 + 0.01*x }, Rising, [2]float64{}},
		{"straight down", func(x float64) float64 { return 0.6 - 0.01*x }, Falling, [2]float64{}},
		{"flat", constant(0.5), Flat, [2]float64{}},
		{"nothing ever happens", constant(0), Flat, [2]float64{}},
		{"no chance about it", constant(1), Flat, [2]float64{}},
	} {
		x, p := along(13, c.f)
		got := Turn(x, curveData(rand.New(rand.NewPCG(7, 7)), 5000, p, 0.5))
		if got.Shape != c.want {
			t.Errorf("%s: shape %d, want %d (%+v)", c.name, got.Shape, c.want, got)
			continue
		}
		at, lo, hi := got.Top.At, got.Top.From, got.Top.To
		switch got.Shape {
		case Valley:
			at, lo, hi = got.Bottom.At, got.Bottom.From, got.Bottom.To
		case Bent:
			at, lo, hi = got.Bend.Value, got.Bend.Lo, got.Bend.Hi
		}
		if at < c.within[0] || at > c.within[1] || lo > at || hi < at {
			t.Errorf("%s: turns at %v (%v to %v), want within %v", c.name, at, lo, hi, c.within)
		}
	}
}

// TestTurnSlopes: the slopes either side of a bend.
func TestTurnSlopes(t *testing.T) {
	x, p := along(13, func(x float64) float64 { return 0.3 + 0.04*min(x, 6) - 0.003*max(x-6, 0) })
	got := Turn(x, curveData(rand.New(rand.NewPCG(3, 3)), 40000, p, 0.5))
	if got.Shape != Bent && got.Shape != Peak {
		t.Fatalf("%+v", got)
	}
	if got.Shape == Bent && (math.Abs(got.Before-0.04) > 0.004 || math.Abs(got.After+0.003) > 0.004) {
		t.Errorf("slopes %v and %v, want 0.04 and -0.003", got.Before, got.After)
	}
}

// TestFalseTurns: on flat and on straight curves any turn, and on flat ones any
// statement, is false. The stated chance is 0.05 at most; among 150 curves more
// than 18 false ones would then come with a probability of 0.0002 (binomial),
// which is this test's false alarm for each of its rows. The seeds are fixed.
func TestFalseTurns(t *testing.T) {
	const curves, most = 150, 18
	for _, c := range []struct {
		name  string
		f     func(x float64) float64
		share float64
		fine  []Shape
	}{
		{"flat, common luck", constant(0.4), 0.8, []Shape{Flat}},
		{"flat, luck apart", constant(0.4), 0, []Shape{Flat}},
		{"flat, rare", constant(0.03), 0.5, []Shape{Flat}},
		{"straight", func(x float64) float64 { return 0.3 + 0.02*x }, 0.5, []Shape{Rising}},
		{"hardly rising", func(x float64) float64 { return 0.3 + 0.002*x }, 0.5, []Shape{Rising, Flat, Uneven}},
		{"rising in steps: no peak", func(x float64) float64 { return 0.3 + 0.05*math.Floor(x/3) }, 0.5, []Shape{Rising, Bent, Flat, Uneven}},
	} {
		rng := rand.New(rand.NewPCG(11, 5))
		wrong := 0
		for range curves {
			x, p := along(9, c.f)
			if got := Turn(x, curveData(rng, 600, p, c.share)); !slices.Contains(c.fine, got.Shape) {
				wrong++
			}
		}
		t.Logf("%s: %d of %d false", c.name, wrong, curves)
		if wrong > most {
			t.Errorf("%s: %d of %d false statements, %d at most", c.name, wrong, curves, most)
		}
	}
}

// TestBendCovers: the interval of a bend holds its place in nine of ten cases or
// more (nominally 95 of 100; the bootstrap is optimistic with few places). With a
// coverage of 0.93, fewer than 86 of 100 come with a probability below 0.01.
func TestBendCovers(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 9))
	inside, found := 0, 0
	for range 100 {
		x, p := along(11, func(x float64) float64 { return 0.3 + 0.03*min(x, 5.5) })
		got := Turn(x, curveData(rng, 3000, p, 0.5))
		if got.Shape == Bent {
			found++
			if got.Bend.Lo <= 5.5 && 5.5 <= got.Bend.Hi {
				inside++
			}
		}
	}
	t.Logf("%d of %d intervals hold the place", inside, found)
	if found < 90 || inside*100 < 86*found {
		t.Errorf("%d found, %d of them hold the place", found, inside)
	}
}

func TestTurnLimits(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 1))
	for _, c := range []struct{ k, n int }{{2, 5000}, {13, 50}} {
		x, p := along(c.k, func(x float64) float64 { return 0.1 + 0.05*x })
		if got := Turn(x, curveData(rng, c.n, p, 0.5)); got.Shape != TooFew {
			t.Errorf("%d places, %d observations: %+v", c.k, c.n, got)
		}
	}
	// Four places are too few for a bend, enough for the rest.
	x, p := along(4, func(x float64) float64 { return 0.3 + 0.1*min(x, 1) })
	if got := Turn(x, curveData(rng, 5000, p, 0.5)); got.Shape == Bent || got.Shape == TooFew {
		t.Errorf("four places: %+v", got)
	}
}

func TestBest(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	j := curveData(rng, 5000, []float64{0.3, 0.5, 0.499, 0.2}, 0.5)
	critical := j.Critical(0.95)
	if got := j.Best(+1, critical); !slices.Equal(got, []int{1, 2}) {
		t.Errorf("highest %v, want 1 and 2", got)
	}
	if got := j.Best(-1, critical); !slices.Equal(got, []int{3}) {
		t.Errorf("lowest %v, want 3", got)
	}
}
