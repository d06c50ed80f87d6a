package stats

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Hours of extra sleep of ten patients under two drugs.
// Source: Student (1908), Biometrika 6, 1-25.
var (
	drug1 = []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0}
	drug2 = []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
)

func meanOf(x []float64, level float64) Estimate {
	sum, sumSq := 0.0, 0.0
	for _, v := range x {
		sum += v
		sumSq += v * v
	}
	return Mean(sum, sumSq, int64(len(x)), level)
}

// Expected values derived from the textbook formulas on Student's data: paired
// t = -4.062 with 9 degrees of freedom, Welch's t = -1.861.
func TestMeanStudentSleep(t *testing.T) {
	diff := make([]float64, len(drug1))
	for i := range diff {
		diff[i] = drug1[i] - drug2[i]
	}
	paired := meanOf(diff, 0.95)
	near(t, "paired mean", paired.Value, -1.58, 1e-12)
	near(t, "paired t", paired.Value/paired.StdErr, -4.062127683382037, 1e-10)
	near(t, "paired lo", paired.Lo, -2.459886, 1e-6)
	near(t, "paired hi", paired.Hi, -0.700114, 1e-6)

	a, b := meanOf(drug1, 0.95), meanOf(drug2, 0.95)
	near(t, "mean 1", a.Value, 0.75, 1e-12)
	near(t, "mean 2", b.Value, 2.33, 1e-12)
	welch := (a.Value - b.Value) / math.Hypot(a.StdErr, b.StdErr)
	near(t, "Welch t", welch, -1.8608134674868526, 1e-10)
}

func TestMeanOfTooFew(t *testing.T) {
	none, one := Mean(0, 0, 0, 0.95), Mean(2.5, 6.25, 1, 0.95)
	if !math.IsNaN(none.Value) || one.Value != 2.5 {
		t.Errorf("values %g, %g; want NaN, 2.5", none.Value, one.Value)
	}
	for _, e := range []Estimate{none, one} {
		if !math.IsNaN(e.StdErr) || !math.IsInf(e.Lo, -1) || !math.IsInf(e.Hi, 1) {
			t.Errorf("n %d: %+v, want no bounds", e.N, e)
		}
	}
	near(t, "spread of equal values", Mean(0.3, 0.1*0.1+0.1*0.1+0.1*0.1, 3, 0.95).StdErr, 0, 1e-8)
	mustPanic(t, "n < 0", func() { Mean(0, 0, -1, 0.95) })
}

func TestRatioOfConstantIsMean(t *testing.T) {
	var s, half RatioSums
	for i, x := range drug2 {
		if i < 5 {
			s.Add(x, 1)
		} else {
			half.Add(x, 1)
		}
	}
	s.Merge(half)
	got, want := Ratio(s, 0.9), meanOf(drug2, 0.9)
	near(t, "value", got.Value, want.Value, 1e-12)
	near(t, "standard error", got.StdErr, want.StdErr, 1e-12)
	near(t, "lo", got.Lo, want.Lo, 1e-12)
	near(t, "hi", got.Hi, want.Hi, 1e-12)
}

// Three pairs by hand: (1, 2), (2, 2), (3, 4). R = 6/8; residuals -0.5, 0.5, 0;
// StdErr² = 3/2 · 0.5 / 64.
func TestRatioByHand(t *testing.T) {
	var s RatioSums
	s.Add(1, 2)
	s.Add(2, 2)
	s.Add(3, 4)
	e := Ratio(s, 0.95)
	near(t, "value", e.Value, 0.75, 1e-15)
	near(t, "standard error", e.StdErr, math.Sqrt(1.5*0.5/64), 1e-15)
	near(t, "lo", e.Lo, 0.75-4.302653*e.StdErr, 1e-6)
}

func TestRatioOfTooFew(t *testing.T) {
	var one RatioSums
	one.Add(1, 4)
	var empty RatioSums
	empty.Add(0, 0)
	empty.Add(0, 0)
	for _, c := range []struct {
		s    RatioSums
		want float64
	}{{RatioSums{}, math.NaN()}, {one, 0.25}, {empty, math.NaN()}} {
		e := Ratio(c.s, 0.95)
		if e.Value != c.want && !(math.IsNaN(e.Value) && math.IsNaN(c.want)) || !math.IsInf(e.Hi, 1) {
			t.Errorf("%+v: %+v, want value %g and no bounds", c.s, e, c.want)
		}
	}
	mustPanic(t, "N < 0", func() { Ratio(RatioSums{N: -1}, 0.95) })
}

// Passes within a possession share its success rate, so completions are clustered.
// The ratio's 95 % interval covers the truth in 95 % of 4,000 runs, within 5 standard
// errors (false alarm 6e-7) and 0.5 points for finite samples; one that takes passes
// for independent falls far short.
func TestRatioCoversClusteredTruth(t *testing.T) {
	const runs, possessions = 4000, 200
	rng := rand.New(rand.NewPCG(7, 7))
	ratio, plain := 0.0, 0.0
	for range runs {
		var s RatioSums
		for range possessions {
			rate := 0.6
			if rng.IntN(2) == 0 {
				rate = 0.9
			}
			n := 1 + rng.IntN(10)
			k := 0
			for range n {
				if rng.Float64() < rate {
					k++
				}
			}
			s.Add(float64(k), float64(n))
		}
		if e := Ratio(s, 0.95); e.Lo <= 0.75 && 0.75 <= e.Hi {
			ratio++
		}
		if e := Proportion(int64(s.Num), int64(s.Den), 0.95); e.Lo <= 0.75 && 0.75 <= e.Hi {
			plain++
		}
	}
	near(t, "coverage of the ratio", ratio/runs, 0.95, 5*math.Sqrt(0.95*0.05/runs)+0.005)
	if plain/runs > 0.9 {
		t.Errorf("independent passes cover %.3f: the clusters are too weak to test with", plain/runs)
	}
}
