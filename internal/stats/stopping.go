package stats

import "math"

// NeededForHalfWidth is the smallest number of trials whose Wilson interval around
// an observed proportion p is no wider than ± half; p = 0.5 is the worst case. With
// x = z²/n the condition is the quadratic
//
//	(1/4 - half²) x² + (p(1-p) - 2 half²) x - half² ≤ 0
//
// which has one positive root. It is 0 for half ≥ 0.5, which no interval exceeds,
// and math.MaxInt64 when no int64 is large enough.
func NeededForHalfWidth(p, half, level float64) int64 {
	if !(p >= 0 && p <= 1) {
		panic("stats: proportion outside 0 to 1")
	}
	if !(half > 0) {
		panic("stats: half width must be positive")
	}
	z := normalQuantile(level)
	if half >= 0.5 {
		return 0
	}
	a, b, c := 0.25-half*half, p*(1-p)-2*half*half, half*half
	// 1/x rather than x: the form that adds numbers of one sign when b > 0.
	root := math.Sqrt(b*b + 4*a*c)
	inverse := (root + b) / (2 * c)
	if b < 0 {
		inverse = 2 * a / (root - b)
	}
	n := math.Ceil(z * z * inverse)
	if !(n < math.MaxInt64) { // half² may have vanished and left NaN
		return math.MaxInt64
	}
	switch { // the root is exact but for rounding
	case n > 1 && within(p, n-1, z, half):
		n--
	case !within(p, n, z, half):
		n++
	}
	return int64(n)
}

// within reports whether the Wilson interval is no wider than ± half.
func within(p, n, z, half float64) bool {
	_, h := wilson(p, n, z)
	return h <= half
}
