package experiment

import (
	"math"

	"playout/internal/stats"
)

// level of the intervals.
const level = 0.95

// Mean is the figure's mean over the possessions.
func Mean(o []Outcome, f Figure) stats.Estimate {
	var sum, squares float64
	for i := range o {
		x := f.Of(&o[i])
		sum += x
		squares += x * x
	}
	if f.Rate {
		return stats.Proportion(int64(sum), int64(len(o)), level)
	}
	return stats.Mean(sum, squares, int64(len(o)), level)
}

// Paired is a difference between two cells whose possessions share their luck.
type Paired struct {
	stats.Estimate // of the difference

	// Correlation of the two cells' figures over the possessions; NaN when one of
	// them never changes.
	Correlation float64
	// Gain is the variance that the difference would have with independent luck
	// over the one it has: how many times as many possessions would be needed.
	// It is +Inf when the cells agree in every possession, NaN when there are fewer
	// than two or the figure never changes.
	Gain float64
	// Apart is the number of possessions in which the two differ.
	Apart int64
}

// Difference is by how much the figure's mean is larger in b than in a, whose
// possessions are the same: index by index. The interval is that of the mean of the
// differences (Student 1908, Biometrika 6, 1-25). Beyond the shorter of the two
// nothing is used.
func Difference(a, b []Outcome, f Figure) Paired {
	var s moments
	apart := int64(0)
	for i := range min(len(a), len(b)) {
		x, y := f.Of(&a[i]), f.Of(&b[i])
		s.add(x, y)
		if x != y {
			apart++
		}
	}
	p := s.paired()
	p.Apart = apart
	return p
}

// moments are the sums of a pair of variables and of their difference.
type moments struct {
	n                       int64
	a, b, aa, bb, ab, d, dd float64
}

func (s *moments) add(a, b float64) {
	d := b - a
	s.n++
	s.a += a
	s.b += b
	s.aa += a * a
	s.bb += b * b
	s.ab += a * b
	s.d += d
	s.dd += d * d
}

func (s *moments) paired() Paired {
	n := float64(s.n)
	va, vb := max(s.aa-s.a*s.a/n, 0), max(s.bb-s.b*s.b/n, 0)
	return pairedOf(stats.Mean(s.d, s.dd, s.n, level), va, vb, s.ab-s.a*s.b/n, max(s.dd-s.d*s.d/n, 0))
}

// pairedOf adds correlation and gain, from the two variances, the covariance and
// the variance of the difference, all to the same scale.
func pairedOf(e stats.Estimate, va, vb, cov, vd float64) Paired {
	p := Paired{Estimate: e, Correlation: math.NaN(), Gain: math.NaN()}
	if e.N < 2 {
		return p
	}
	if va > 0 && vb > 0 {
		p.Correlation = min(max(cov/math.Sqrt(va*vb), -1), 1)
	}
	if va+vb > 0 {
		p.Gain = (va + vb) / vd
	}
	return p
}

// ShareDifference is by how much the share that part has of whole is larger in b
// than in a, for instance the share of the entries that come by one lane: a ratio
// of two means, so the interval is that of the delta method (stats.RatioDifference).
func ShareDifference(a, b []Outcome, part, whole Figure) Paired {
	var s stats.PairedRatioSums
	apart := int64(0)
	for i := range min(len(a), len(b)) {
		pa, wa, pb, wb := part.Of(&a[i]), whole.Of(&a[i]), part.Of(&b[i]), whole.Of(&b[i])
		s.Add(pa, wa, pb, wb)
		if pa != pb || wa != wb {
			apart++
		}
	}
	e := stats.RatioDifference(s, level)
	va, vb := variance(stats.Ratio(s.A, level)), variance(stats.Ratio(s.B, level))
	vd := variance(e)
	p := pairedOf(e, va, vb, (va+vb-vd)/2, vd)
	p.Apart = apart
	return p
}

func variance(e stats.Estimate) float64 { return e.StdErr * e.StdErr }

// Share is the share that part has of whole.
func Share(o []Outcome, part, whole Figure) stats.Estimate {
	var s stats.RatioSums
	for i := range o {
		s.Add(part.Of(&o[i]), whole.Of(&o[i]))
	}
	return stats.Ratio(s, level)
}
