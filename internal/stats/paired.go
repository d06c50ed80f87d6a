package stats

import "math"

// PairedRatioSums tallies the same observations under two variants, A and B: one
// pair (num, den) of each for every observation. The zero value is empty.
type PairedRatioSums struct {
	A, B                           RatioSums
	NumNum, NumDen, DenNum, DenDen float64 // Σ of products of A's with B's
}

// Add tallies one observation.
func (s *PairedRatioSums) Add(aNum, aDen, bNum, bDen float64) {
	s.A.Add(aNum, aDen)
	s.B.Add(bNum, bDen)
	s.NumNum += aNum * bNum
	s.NumDen += aNum * bDen
	s.DenNum += aDen * bNum
	s.DenDen += aDen * bDen
}

// Merge adds the tally of other observations.
func (s *PairedRatioSums) Merge(o PairedRatioSums) {
	s.A.Merge(o.A)
	s.B.Merge(o.B)
	s.NumNum += o.NumNum
	s.NumDen += o.NumDen
	s.DenNum += o.DenNum
	s.DenDen += o.DenDen
}

// RatioDifference estimates how much larger the ratio of variant B is than that of
// A, D = R_B - R_A. What the two share in an observation, their luck for instance,
// cancels as far as it moves both alike. By the delta method, as in Ratio,
//
//	StdErr² = n/(n-1) · Σ [(num_B - R_B den_B)/Σ den_B - (num_A - R_A den_A)/Σ den_A]²
//
// and the interval is D ± t StdErr with n - 1 degrees of freedom. With every den 1 it
// is the paired t interval. Value is NaN when a Σ den is 0; bounds are infinite then,
// or when n < 2.
// References: Student (1908), Biometrika 6, 1-25; Cochran (1977), Sampling
// Techniques, 3rd ed., sections 6.3 and 6.12.
func RatioDifference(s PairedRatioSums, level float64) Estimate {
	a, b := Ratio(s.A, level), Ratio(s.B, level)
	d := b.Value - a.Value
	if s.A.N != s.B.N {
		panic("stats: variants of different length are not paired")
	}
	if s.A.N < 2 || math.IsNaN(d) {
		return unbounded(d, level, s.A.N)
	}
	n := float64(s.A.N)
	ra, rb := a.Value, b.Value
	cross := s.NumNum - rb*s.NumDen - ra*s.DenNum + ra*rb*s.DenDen
	covariance := n / (n - 1) * cross / (s.A.Den * s.B.Den)
	stdErr := math.Sqrt(max(a.StdErr*a.StdErr+b.StdErr*b.StdErr-2*covariance, 0))
	return around(d, stdErr, studentQuantile(level, s.A.N-1), level, s.A.N)
}
