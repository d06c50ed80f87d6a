package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// PValue is the two-sided p-value of the hypothesis that the true value behind an
// estimate of a mean or of a difference of means is 0: Student's t with N - 1
// degrees of freedom, the normal above a million. It is 1 for an estimate without
// a standard error, and where value and standard error are both 0.
func PValue(e Estimate) float64 {
	switch {
	case math.IsNaN(e.StdErr) || math.IsNaN(e.Value) || e.N < 2 || e.Value == 0:
		return 1
	case e.StdErr == 0:
		return 0
	}
	t := math.Abs(e.Value / e.StdErr)
	if e.N > 1_000_000 {
		return 2 * distuv.UnitNormal.Survival(t)
	}
	return 2 * distuv.StudentsT{Sigma: 1, Nu: float64(e.N - 1)}.Survival(t)
}

// Holm adjusts the p-values of several hypotheses that are judged together: those
// with an adjusted value of at most alpha may be rejected, and the chance that even
// one of them is true is then at most alpha, however the p-values hang together.
// The k-th smallest of m is multiplied by m - k + 1; none is adjusted to less than
// a smaller one, nor above 1. It keeps the order of p.
// Reference: Holm (1979), A simple sequentially rejective multiple test procedure,
// Scand. J. Statist. 6, 65-70.
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		if p[a] < p[b] {
			return -1
		} else if p[a] > p[b] {
			return 1
		}
		return 0
	})
	adjusted := make([]float64, len(p))
	least := 0.0
	for k, i := range order {
		least = max(least, min(float64(len(p)-k)*p[i], 1))
		adjusted[i] = least
	}
	return adjusted
}

// NeededToTell is how many observations of a mean it would take to tell it from 0
// four times out of five at a level, if it and its spread are what n observations
// have shown: n ((z + 0.84) StdErr/Value)², z being the two-sided normal quantile
// of the level and 0.84 the one-sided one of 0.8. It is math.MaxInt64 when no int64 is large enough.
// The formula is the textbook's for the size of a paired sample (from memory).
func NeededToTell(e Estimate, level float64) int64 {
	x := (normalQuantile(level) + distuv.UnitNormal.Quantile(0.8)) * e.StdErr / e.Value
	n := math.Ceil(float64(e.N) * x * x)
	if !(n < math.MaxInt64) {
		return math.MaxInt64
	}
	return int64(n)
}
