package sim

import (
	"math"
	"testing"
)

// TestLotsAreEven: the mean of n uniforms, and mean and mean square of n normals, lie
// within 5 standard errors of 1/2, 0 and 1: false alarm below 2e-6 for all. Fixed key.
func TestLotsAreEven(t *testing.T) {
	var l lot
	l.cast(1, 2, Perception)
	const n = 200_000
	var u, z, zz float64
	for i := range uint64(n) {
		u += unit(l.of(i))
		x := normal(l.of(i | 1<<40))
		z += x
		zz += x * x
	}
	for _, c := range []struct {
		name          string
		got, want, sd float64
	}{{"uniform", u / n, 0.5, math.Sqrt(1.0 / 12)}, {"normal", z / n, 0, 1}, {"normal squared", zz / n, 1, math.Sqrt2}} {
		if math.Abs(c.got-c.want) > 5*c.sd/math.Sqrt(n) {
			t.Errorf("%s: mean %g, want %g", c.name, c.got, c.want)
		}
	}
}

// TestGumbelChoosesByTheOdds: the largest of log odds plus Gumbel is option i with
// its odds over the sum of all (Luce's axiom; Yellott 1977), here 1:2:5 of 8. Five
// standard errors: false alarm below 2e-6. Fixed keys.
func TestGumbelChoosesByTheOdds(t *testing.T) {
	odds := []float64{1, 2, 5}
	var count [3]float64
	const n = 100_000
	for id := range uint64(n) {
		var l lot
		l.cast(3, id, Movement)
		best, top := 0, math.Inf(-1)
		for i, o := range odds {
			if s := math.Log(o) + gumbel(l.of(uint64(i))); s > top {
				best, top = i, s
			}
		}
		count[best]++
	}
	for i, o := range odds {
		p := o / 8
		if got := count[i] / n; math.Abs(got-p) > 5*math.Sqrt(p*(1-p)/n) {
			t.Errorf("option %d: taken in %g of cases, want %g", i, got, p)
		}
	}
}
