package stats

import (
	"math"
	"testing"
)

// TestJackknifeOfMean holds the jackknife to its closed form: for a mean of n
// observations, left out one by one, the standard error is s/√n, and the interval
// Student's (Tukey 1958; any textbook).
func TestJackknifeOfMean(t *testing.T) {
	x := []float64{3, 1, 4, 1, 5, 9, 2, 6, 5, 3, 5, 8, 9, 7, 9, 3, 2, 3, 8, 4}
	sum, sumSq := 0.0, 0.0
	for _, v := range x {
		sum += v
		sumSq += v * v
	}
	n := float64(len(x))
	var without []float64
	for _, v := range x {
		without = append(without, (sum-v)/(n-1))
	}
	got, want := Jackknife(sum/n, without, 0.95), Mean(sum, sumSq, int64(len(x)), 0.95)
	for name, pair := range map[string][2]float64{
		"value": {got.Value, want.Value}, "standard error": {got.StdErr, want.StdErr}, "low": {got.Lo, want.Lo}, "high": {got.Hi, want.Hi},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-12 {
			t.Errorf("%s is %v, want %v", name, pair[0], pair[1])
		}
	}
}

// TestJackknifeOfRatio works the ratio of sums 1/2, 2/2, 3/2 by hand: leaving one
// out gives 5/4, 4/4, 3/4, mean 1, squared deviations 1/16 + 0 + 1/16, times 2/3.
func TestJackknifeOfRatio(t *testing.T) {
	e := Jackknife(1, []float64{1.25, 1, 0.75}, 0.95)
	if want := math.Sqrt(2.0 / 3 / 8); math.Abs(e.StdErr-want) > 1e-15 {
		t.Errorf("standard error %v, want %v", e.StdErr, want)
	}
}

func TestJackknifeWithoutNews(t *testing.T) {
	for _, without := range [][]float64{nil, {1}, {1, math.NaN()}} {
		if e := Jackknife(1, without, 0.95); !math.IsInf(e.Lo, -1) || !math.IsInf(e.Hi, 1) || e.Value != 1 {
			t.Errorf("%v: %+v, want no bounds", without, e)
		}
	}
}
