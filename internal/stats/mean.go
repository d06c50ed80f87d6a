package stats

import "math"

// Mean estimates an expectation from n independent observations given as their sum
// and the sum of their squares. The interval is Student's with n - 1 degrees of
// freedom: exact for normal observations, good for others once n is in the hundreds.
//
// For a paired comparison, sum the differences. One observation gives a Value without
// StdErr or bounds; none gives no Value either.
// Reference: Student (1908), Biometrika 6, 1-25.
func Mean(sum, sumSq float64, n int64, level float64) Estimate {
	if n < 0 {
		panic("stats: negative number of observations")
	}
	checkLevel(level)
	mean := sum / float64(n) // 0/0 is NaN
	if n < 2 {
		return unbounded(mean, level, n)
	}
	m := float64(n)
	variance := max(sumSq-sum*mean, 0) / (m - 1) // rounding must not go below 0
	return around(mean, math.Sqrt(variance/m), studentQuantile(level, n-1), level, n)
}
