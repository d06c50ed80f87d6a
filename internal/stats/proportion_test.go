package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// As tabulated in Newcombe (1998), Statist. Med. 17, 857-872, method 3, which prints
// four decimals; the others follow from the formula with z = 1.959964.
func TestProportionNewcombe(t *testing.T) {
	for _, c := range []struct {
		k, n   int64
		lo, hi float64
	}{
		{81, 263, 0.255289, 0.366210},
		{15, 148, 0.062386, 0.160487},
		{0, 20, 0, 0.161125},
		{1, 29, 0.006113, 0.171755},
	} {
		e := Proportion(c.k, c.n, 0.95)
		near(t, "value", e.Value, float64(c.k)/float64(c.n), 1e-15)
		near(t, "lo", e.Lo, c.lo, 1e-6)
		near(t, "hi", e.Hi, c.hi, 1e-6)
		mirror := Proportion(c.n-c.k, c.n, 0.95)
		near(t, "mirrored lo", mirror.Lo, 1-e.Hi, 1e-12)
		near(t, "mirrored hi", mirror.Hi, 1-e.Lo, 1e-12)
	}
}

// As tabulated in Newcombe (1998), Statist. Med. 17, 873-890, which prints four
// decimals; the others follow from the formula.
func TestDifferenceNewcombe(t *testing.T) {
	for _, c := range []struct {
		k1, n1, k2, n2 int64
		lo, hi         float64
	}{
		{56, 70, 48, 80, 0.052431, 0.333873},
		{9, 10, 3, 10, 0.170523, 0.809018},
		{6, 7, 2, 7, 0.058228, 0.806250},
		{5, 56, 0, 29, -0.038137, 0.192560},
		{0, 10, 0, 20, -0.161125, 0.277533},
		{0, 10, 0, 10, -0.277533, 0.277533},
		{10, 10, 0, 20, 0.679086, 1},
		{10, 10, 0, 10, 0.607509, 1},
	} {
		e := DifferenceProportions(c.k1, c.n1, c.k2, c.n2, 0.95)
		near(t, "lo", e.Lo, c.lo, 1e-6)
		near(t, "hi", e.Hi, c.hi, 1e-6)
		back := DifferenceProportions(c.k2, c.n2, c.k1, c.n1, 0.95)
		near(t, "swapped lo", back.Lo, -e.Hi, 1e-12)
		near(t, "swapped hi", back.Hi, -e.Lo, 1e-12)
	}
}

func TestNoTrials(t *testing.T) {
	e := Proportion(0, 0, 0.95)
	if !math.IsNaN(e.Value) || e.Lo != 0 || e.Hi != 1 || e.N != 0 {
		t.Errorf("no trials: %+v", e)
	}
	d := DifferenceProportions(3, 4, 0, 0, 0.95)
	if !math.IsNaN(d.Value) || d.Lo != -1 || d.Hi != 1 {
		t.Errorf("difference with an empty group: %+v", d)
	}
	mustPanic(t, "k > n", func() { Proportion(3, 2, 0.95) })
	mustPanic(t, "k < 0", func() { Proportion(-1, 2, 0.95) })
	mustPanic(t, "n < 0", func() { Proportion(0, -1, 0.95) })
}

// Exact coverage, summed over the binomial distribution: on average over p it is
// nominal to half a point at n = 50, unlike p ± z StdErr, which is short by three.
func TestProportionCoverage(t *testing.T) {
	const n = 50
	wilsonMean, plainMean, count := 0.0, 0.0, 0.0
	for p := 0.02; p < 0.99; p += 0.005 {
		for k := range int64(n + 1) {
			e := Proportion(k, n, 0.95)
			mass := distuv.Binomial{N: n, P: p}.Prob(float64(k))
			if e.Lo <= p && p <= e.Hi {
				wilsonMean += mass
			}
			if math.Abs(p-e.Value) <= normalQuantile(0.95)*e.StdErr {
				plainMean += mass
			}
		}
		count++
	}
	near(t, "mean coverage", wilsonMean/count, 0.95, 0.005)
	near(t, "mean coverage of the plain interval", plainMean/count, 0.92, 0.015)
}

// The interval found by the stopping rule is narrow enough, and that of one trial
// fewer is not.
func TestNeededIsSmallest(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20_000 {
		p, half, level := rng.Float64(), 0.001+0.498*rng.Float64(), 0.5+0.499*rng.Float64()
		if rng.IntN(10) == 0 {
			p = math.Round(p)
		}
		n, z := NeededForHalfWidth(p, half, level), normalQuantile(level)
		if !within(p, float64(n), z, half) || n > 1 && within(p, float64(n-1), z, half) {
			t.Fatalf("p %g, half %g, level %g: %d is not the smallest", p, half, level, n)
		}
	}
	// By hand at p = 0.5: h = z/2√(n+z²), so n = z²(1/4h² - 1).
	n := NeededForHalfWidth(0.5, 0.025, 0.95)
	near(t, "n for ±2.5 points", float64(n), math.Ceil(3.841459*(1/(4*0.025*0.025)-1)), 0)
	e := Proportion((n+1)/2, n, 0.95)
	near(t, "half width", (e.Hi-e.Lo)/2, 0.025, 1e-5)
}

func TestNeededAtTheEnds(t *testing.T) {
	for _, c := range []struct {
		p, half float64
		want    int64
	}{
		{0.5, 0.5, 0}, {0.5, 3, 0}, {0.5, 1e-30, math.MaxInt64}, {0, 1e-30, math.MaxInt64},
		{0.5, math.SmallestNonzeroFloat64, math.MaxInt64}, {0, math.SmallestNonzeroFloat64, math.MaxInt64},
	} {
		if got := NeededForHalfWidth(c.p, c.half, 0.95); got != c.want {
			t.Errorf("p %g, half %g: %d, want %d", c.p, c.half, got, c.want)
		}
	}
	near(t, "tiny half", float64(NeededForHalfWidth(0.5, 1e-8, 0.95)), 3.841459/4e-16, 1e10)
	for _, bad := range []float64{0, -1, math.NaN()} {
		mustPanic(t, "half", func() { NeededForHalfWidth(0.5, bad, 0.95) })
	}
	mustPanic(t, "p", func() { NeededForHalfWidth(math.NaN(), 0.1, 0.95) })
}
