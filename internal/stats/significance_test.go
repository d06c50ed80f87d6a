package stats

import (
	"math"
	"testing"
)

// Worked by hand from Holm (1979), Scand. J. Statist. 6, 65-70: sorted 0.005 0.01
// 0.03 0.04 times 4 3 2 1 is 0.02 0.03 0.06 0.04, and the last may not be less than
// the one before. At 0.05 the first two are rejected; Bonferroni's 0.0125 for each
// rejects the same two here, and only one of 0.005 0.016 0.03 0.04.
func TestHolmByHand(t *testing.T) {
	for _, c := range []struct{ p, want []float64 }{
		{[]float64{0.01, 0.04, 0.03, 0.005}, []float64{0.03, 0.06, 0.06, 0.02}},
		{[]float64{0.005, 0.016, 0.03, 0.04}, []float64{0.02, 0.048, 0.06, 0.06}},
		{[]float64{0.6, 0.4, 0.7}, []float64{1, 1, 1}},
		{[]float64{0.03}, []float64{0.03}},
		{nil, nil},
	} {
		got := Holm(c.p)
		for i, want := range c.want {
			if math.Abs(got[i]-want) > 1e-12 {
				t.Errorf("Holm(%v) = %v, want %v", c.p, got, c.want)
				break
			}
		}
	}
}

// TestHolmIsSequentiallyRejective plays Holm's procedure as his paper words it:
// reject the smallest p while it is at most alpha/(hypotheses left), then stop.
func TestHolmIsSequentiallyRejective(t *testing.T) {
	p := []float64{0.001, 0.2, 0.004, 0.0126, 0.03, 0.009, 0.8, 0.0001}
	for _, alpha := range []float64{0.01, 0.05, 0.1, 0.3} {
		rejected := make([]bool, len(p))
		for left := len(p); left > 0; left-- {
			smallest := -1
			for i := range p {
				if !rejected[i] && (smallest < 0 || p[i] < p[smallest]) {
					smallest = i
				}
			}
			if p[smallest] > alpha/float64(left) {
				break
			}
			rejected[smallest] = true
		}
		for i, adjusted := range Holm(p) {
			if (adjusted <= alpha) != rejected[i] {
				t.Errorf("alpha %g: p = %g adjusted to %g, rejected by the procedure: %v", alpha, p[i], adjusted, rejected[i])
			}
		}
	}
}

// Quantiles of Student's t for 0.05 and 0.01, two-sided: 2.262 and 3.250 with 9
// degrees of freedom (Fisher and Yates 1963, table III); of the normal, 1.960.
func TestPValue(t *testing.T) {
	for _, c := range []struct {
		value float64
		n     int64
		want  float64
	}{{2.262157, 10, 0.05}, {-3.249836, 10, 0.01}, {1.959964, 2_000_000, 0.05}, {0, 10, 1}, {5, 1, 1}} {
		if got := PValue(Estimate{Value: c.value, StdErr: 1, N: c.n}); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("t = %g, n = %d: p = %g, want %g", c.value, c.n, got, c.want)
		}
	}
	if PValue(Estimate{Value: 1, N: 5}) != 0 || PValue(Estimate{N: 5}) != 1 || PValue(Estimate{Value: math.NaN(), StdErr: math.NaN()}) != 1 {
		t.Error("an estimate without spread")
	}
}

// (1.95996 + 0.84162)² = 7.8489: the textbook's 7.85 (standard deviation/difference)².
func TestNeededToTell(t *testing.T) {
	e := Estimate{Value: 0.5, StdErr: 1, N: 100} // standard deviation 10, a twentieth of it
	if got, want := NeededToTell(e, 0.95), int64(math.Ceil(7.848879734349*400)); got != want {
		t.Errorf("%d, want %d", got, want)
	}
	if NeededToTell(Estimate{Value: 0, StdErr: 1, N: 10}, 0.95) != math.MaxInt64 {
		t.Error("no difference can be told")
	}
}
