package stats

import "math"

// RatioSums tallies pairs (num, den), one pair per independent observation: passes
// completed and passes attempted in a possession, say. The zero value is empty.
type RatioSums struct {
	Num, Den             float64 // Σ num, Σ den
	NumSq, DenSq, NumDen float64 // Σ num², Σ den², Σ num·den
	N                    int64
}

// Add tallies one observation.
func (s *RatioSums) Add(num, den float64) {
	s.Num += num
	s.Den += den
	s.NumSq += num * num
	s.DenSq += den * den
	s.NumDen += num * den
	s.N++
}

// Merge adds the tally of other observations.
func (s *RatioSums) Merge(o RatioSums) {
	s.Num += o.Num
	s.Den += o.Den
	s.NumSq += o.NumSq
	s.DenSq += o.DenSq
	s.NumDen += o.NumDen
	s.N += o.N
}

// Ratio estimates E[num]/E[den] by R = Σ num / Σ den. What happens within one
// observation may hang together (the passes of a possession do): only the
// observations need be independent. By the delta method
//
//	StdErr² = n/(n-1) · Σ (num - R den)² / (Σ den)²
//
// and the interval is R ± t StdErr with n - 1 degrees of freedom. It needs tens of
// observations with a den that is not 0, and does not know that a share ends at 0
// and 1. Value is NaN when Σ den = 0; bounds are infinite then, or when N < 2.
// Reference: Cochran (1977), Sampling Techniques, 3rd ed., section 6.3.
func Ratio(s RatioSums, level float64) Estimate {
	if s.N < 0 {
		panic("stats: negative number of observations")
	}
	checkLevel(level)
	if s.Den == 0 {
		return unbounded(math.NaN(), level, s.N)
	}
	r := s.Num / s.Den
	if s.N < 2 {
		return unbounded(r, level, s.N)
	}
	n := float64(s.N)
	residual := max(s.NumSq-2*r*s.NumDen+r*r*s.DenSq, 0)
	stdErr := math.Sqrt(n/(n-1)*residual) / math.Abs(s.Den)
	return around(r, stdErr, studentQuantile(level, s.N-1), level, s.N)
}
