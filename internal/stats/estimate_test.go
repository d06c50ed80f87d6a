package stats

import (
	"encoding/json"
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g ± %g", what, got, want, tol)
	}
}

func mustPanic(t *testing.T, what string, call func()) {
	t.Helper()
	defer func() {
		if recover() == nil {
			t.Errorf("%s did not panic", what)
		}
	}()
	call()
}

// Normal 0.975 quantile and t quantiles as printed in the usual tables.
func TestQuantiles(t *testing.T) {
	near(t, "normal 95 %", normalQuantile(0.95), 1.959963984540054, 1e-12)
	near(t, "normal 99 %", normalQuantile(0.99), 2.575829, 1e-6)
	for df, want := range map[int64]float64{1: 12.7062, 2: 4.30265, 9: 2.26216, 30: 2.04227} {
		near(t, "t 95 %", studentQuantile(0.95, df), want, 1e-4)
	}
	last := math.Inf(1)
	for _, df := range []int64{10, 1000, 100_000, 1_000_000, 1_000_001, 1 << 40} {
		q := studentQuantile(0.95, df)
		if q > last {
			t.Errorf("t quantile rises to %.12g at %d degrees of freedom", q, df)
		}
		last = q
	}
	near(t, "t at infinity", last, normalQuantile(0.95), 0)
}

func TestLevelOutsideRangePanics(t *testing.T) {
	for _, level := range []float64{0, 1, -0.5, 95, math.NaN()} {
		mustPanic(t, "Proportion", func() { Proportion(1, 2, level) })
		mustPanic(t, "Mean", func() { Mean(1, 1, 1, level) })
		mustPanic(t, "Ratio", func() { Ratio(RatioSums{}, level) })
		mustPanic(t, "NeededForHalfWidth", func() { NeededForHalfWidth(0.5, 0.1, level) })
	}
}

func TestEstimateAsJSON(t *testing.T) {
	for _, c := range []struct {
		e    Estimate
		want string
	}{
		{Estimate{0.5, 0.25, 0.1, 0.9, 0.95, 4}, `{"value":0.5,"stdErr":0.25,"lo":0.1,"hi":0.9,"level":0.95,"n":4}`},
		{Mean(3, 9, 1, 0.95), `{"value":3,"stdErr":null,"lo":null,"hi":null,"level":0.95,"n":1}`},
	} {
		got, err := json.Marshal(c.e)
		if err != nil || string(got) != c.want {
			t.Errorf("got %s (%v), want %s", got, err, c.want)
		}
	}
}
