package stats

import "math"

// Jackknife estimates a value computed from g groups of independent observations,
// each about as large as the next: value comes from all groups, without[i] from all
// but group i. By the delete-one-group jackknife
//
//	StdErr² = (g-1)/g · Σ (without[i] - their mean)²
//
// and the interval is value ± t StdErr with g - 1 degrees of freedom. It serves any
// smooth function of the sample, and, groups being large, quantiles too; for a mean
// it is the textbook s/√g of the group means. Fewer than two groups, or a value that
// is missing (NaN) from one of them, give no bounds.
// Reference: Shao and Tu (1995), The Jackknife and Bootstrap, Springer.
func Jackknife(value float64, without []float64, level float64) Estimate {
	checkLevel(level)
	n := int64(len(without))
	mean := 0.0
	for _, x := range without {
		mean += x / float64(n)
	}
	if n < 2 || math.IsNaN(mean) || math.IsInf(mean, 0) {
		return unbounded(value, level, n)
	}
	sum := 0.0
	for _, x := range without {
		sum += (x - mean) * (x - mean)
	}
	g := float64(n)
	return around(value, math.Sqrt((g-1)/g*sum), studentQuantile(level, n-1), level, n)
}
