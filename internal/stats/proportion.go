package stats

import "math"

// Proportion estimates a probability from k successes in n independent trials. Lo
// and Hi bound the Wilson score interval,
//
//	(p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n)
//
// which stays within [0, 1] and has width even at k = 0 and k = n. StdErr is
// √(p(1-p)/n). Without trials the interval is 0 to 1 and Value is NaN.
// Reference: Newcombe (1998), Statist. Med. 17, 857-872, method 3.
func Proportion(k, n int64, level float64) Estimate {
	if k < 0 || k > n {
		panic("stats: successes outside 0 to n")
	}
	z := normalQuantile(level)
	if n == 0 {
		return Estimate{Value: math.NaN(), StdErr: math.NaN(), Lo: 0, Hi: 1, Level: level}
	}
	m := float64(n)
	p := float64(k) / m
	centre, half := wilson(p, m, z)
	e := Estimate{
		Value: p, StdErr: math.Sqrt(p * (1 - p) / m),
		Lo: centre - half, Hi: centre + half,
		Level: level, N: n,
	}
	// The formula gives exactly 0 and 1 here; its rounding does not.
	if k == 0 {
		e.Lo = 0
	}
	if k == n {
		e.Hi = 1
	}
	return e
}

// wilson is the centre and the half width of the Wilson interval.
func wilson(p, n, z float64) (centre, half float64) {
	x := z * z / n
	half = z / (1 + x) * math.Sqrt(p*(1-p)/n+x/(4*n))
	return (p + x/2) / (1 + x), half
}

// DifferenceProportions estimates p1 - p2 from two independent groups of k1 in n1
// and k2 in n2. The interval squares and adds the distances from each proportion to
// its Wilson bounds l and u:
//
//	Lo = d - √((p1-l1)² + (u2-p2)²), Hi = d + √((u1-p1)² + (p2-l2)²)
//
// N is n1 + n2. If a group is empty, the interval is -1 to 1 and Value is NaN.
// Groups paired by possession do better with Mean of the differences.
// Reference: Newcombe (1998), Statist. Med. 17, 873-890, method 10.
func DifferenceProportions(k1, n1, k2, n2 int64, level float64) Estimate {
	a, b := Proportion(k1, n1, level), Proportion(k2, n2, level)
	d := a.Value - b.Value
	e := Estimate{
		Value: d, StdErr: math.Hypot(a.StdErr, b.StdErr),
		Lo:    d - math.Hypot(a.Value-a.Lo, b.Hi-b.Value),
		Hi:    d + math.Hypot(a.Hi-a.Value, b.Value-b.Lo),
		Level: level, N: n1 + n2,
	}
	if n1 == 0 || n2 == 0 {
		e.Lo, e.Hi = -1, 1
	}
	return e
}
