package stats

import (
	"math"
	"slices"
)

// Shape is what can be said of a curve.
type Shape uint8

// Shapes.
const (
	TooFew  Shape = iota // too few places or observations to say anything
	Flat                 // no difference found
	Uneven               // differences found, but neither a trend nor a turn
	Rising               // the last value surely above the first, no turn found
	Falling              // below
	Bent                 // its slope changes at a place; not a maximum or minimum
	Peak                 // a maximum inside
	Valley               // a minimum inside
	Both                 // a maximum and a minimum inside
)

// Turning is where a curve turns, as far as the data support it.
type Turning struct {
	Shape Shape
	// Of Peak, Valley and Both: the extreme place, and the first and last of those
	// that may be it.
	Top, Bottom Extreme
	// Of Bent: the place with its interval, and the slopes either side of it.
	Bend          Estimate
	Before, After float64
}

// Extreme is a place with the range it may lie in.
type Extreme struct{ At, From, To float64 }

// turningLevel: each of the two looks at a curve, at its differences and at its
// bend, has this level; together they find something where nothing is in one of
// twenty curves at most.
const turningLevel = 0.975

// Least of what a curve needs.
const (
	leastTurning = 3   // places for a maximum or minimum
	leastBend    = 5   // places for a bend
	LeastTurning = 200 // observations, for means to be as good as normal
	bendPlaces   = 41  // places between which a bend is looked for
	bendDraws    = 2000
)

// Turn looks for the turning point of the curve through the means at x, which
// ascends.
//
// A maximum inside the range is stated when both ends are surely below some
// other place, by intervals of all differences that hold together (Critical);
// the places that may be the highest are those of Best. A minimum likewise.
// Without either it looks for a bend: two lines that meet fit better than one
// (segmented regression: Muggeo 2003, Statistics in Medicine 22, 3055-3071),
// more so at the best place than 1 in 40 of curves without a bend, whose noise is
// drawn with the covariances of the means (the supremum test of Davies 1987,
// Biometrika 74, 33-43, by simulation as in Hansen 1996, Econometrica 64,
// 413-430). The interval of the place is that of a parametric bootstrap,
// from one of the given places to another, as nothing is known between them.
//
// On a curve that is flat or straight, the chance of any false statement is at
// most 0.05. A smooth curve that is no line is Bent: the place says where most of
// the bending is.
func Turn(x []float64, j Joint) Turning {
	k := len(x)
	if k != len(j.Mean) {
		panic("stats: a curve needs a mean for each place")
	}
	if !slices.IsSorted(x) {
		panic("stats: the places of a curve ascend")
	}
	if k < leastTurning || k > MostJoint || j.N < LeastTurning {
		return Turning{Shape: TooFew}
	}
	critical := j.Critical(turningLevel)
	top, peak := extreme(x, &j, j.Best(+1, critical), +1)
	bottom, valley := extreme(x, &j, j.Best(-1, critical), -1)
	switch {
	case peak && valley:
		return Turning{Shape: Both, Top: top, Bottom: bottom}
	case peak:
		return Turning{Shape: Peak, Top: top}
	case valley:
		return Turning{Shape: Valley, Bottom: bottom}
	}
	if t, ok := bend(x, &j); ok {
		return t
	}
	d, se := j.Mean[k-1]-j.Mean[0], j.stdErr(0, k-1)
	switch {
	case d > critical*se && se > 0:
		return Turning{Shape: Rising}
	case d < -critical*se && se > 0:
		return Turning{Shape: Falling}
	case len(j.Best(+1, critical)) < k:
		return Turning{Shape: Uneven}
	}
	return Turning{Shape: Flat}
}

// extreme is the range of the places that may be the best, and whether both
// ends of the curve are ruled out.
func extreme(x []float64, j *Joint, best []int, sign int) (Extreme, bool) {
	first, last := best[0], best[len(best)-1]
	at := first
	for i := range x {
		if float64(sign)*(j.Mean[i]-j.Mean[at]) > 0 {
			at = i
		}
	}
	return Extreme{x[at], x[first], x[last]}, first > 0 && last < len(x)-1
}

// hinge is the least squares fit of two lines that meet at a place: weights
// that give the change of slope of any values, and what else the fit needs.
type hinge struct {
	at            float64
	change, slope []float64 // weights of the change of slope, and of the slope before
	size          float64   // sum of squares that a change of slope of 1 explains
	stdErr        float64   // of the change of slope
}

// hinges are the fits at every place a bend is looked for.
func hinges(x []float64, j *Joint) []hinge {
	k := len(x)
	var out []hinge
	lo, hi := x[1], x[k-2]
	for i := range bendPlaces {
		h := hinge{at: lo + (hi-lo)*float64(i)/(bendPlaces-1)}
		beyond := make([]float64, k)
		for i := range x {
			beyond[i] = max(x[i]-h.at, 0)
		}
		straight := residual(x, ones(k))                      // x without its mean
		rest := residual(residual(beyond, ones(k)), straight) // what no line explains
		h.size = dot(rest, rest)
		if h.size < 1e-9*dot(straight, straight) {
			continue
		}
		h.change = scaled(rest, 1/h.size)
		// Slope before: that of the line, less what the hinge adds to it.
		s2 := dot(straight, straight)
		h.slope = scaled(straight, 1/s2)
		share := dot(straight, beyond) / s2
		for i := range h.slope {
			h.slope[i] -= share * h.change[i]
		}
		v := 0.0
		for a := range k {
			for b := range k {
				v += h.change[a] * h.change[b] * j.Cov.At(a, b)
			}
		}
		if v > 0 {
			h.stdErr = math.Sqrt(v)
			out = append(out, h)
		}
	}
	return out
}

func ones(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = 1
	}
	return out
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i := range a {
		s += a[i] * b[i]
	}
	return s
}

func scaled(a []float64, c float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = c * a[i]
	}
	return out
}

// residual is a less its projection on b.
func residual(a, b []float64) []float64 {
	c := dot(a, b) / dot(b, b)
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - c*b[i]
	}
	return out
}

// steepest is the largest |t| of a change of slope.
func steepest(hs []hinge, y []float64) float64 {
	t := 0.0
	for i := range hs {
		t = max(t, math.Abs(dot(hs[i].change, y))/hs[i].stdErr)
	}
	return t
}

// closest is the hinge that fits best: the least squares estimate of the place.
func closest(hs []hinge, y []float64) int {
	best, most := 0, 0.0
	for i := range hs {
		c := dot(hs[i].change, y)
		if s := c * c * hs[i].size; s > most {
			best, most = i, s
		}
	}
	return best
}

// bend looks for a change of slope.
func bend(x []float64, j *Joint) (Turning, bool) {
	k := len(x)
	if k < leastBend || x[k-2] <= x[1] {
		return Turning{}, false
	}
	hs := hinges(x, j)
	if len(hs) == 0 {
		return Turning{}, false
	}
	t := steepest(hs, j.Mean)
	s := j.noise()
	beyond := 0
	for range bendDraws {
		if steepest(hs, s.draw()) >= t {
			beyond++
		}
	}
	if float64(beyond+1)/(bendDraws+1) > 1-turningLevel {
		return Turning{}, false
	}
	h := hs[closest(hs, j.Mean)]
	change, before := dot(h.change, j.Mean), dot(h.slope, j.Mean)
	// Only the change of slope moves the place: lines added to it do not.
	y := make([]float64, k)
	places := make([]float64, bendDraws)
	for d := range places {
		z := s.draw()
		for i := range y {
			y[i] = change*max(x[i]-h.at, 0) + z[i]
		}
		places[d] = hs[closest(hs, y)].at
	}
	slices.Sort(places)
	lo, hi := places[bendDraws/40], places[bendDraws-1-bendDraws/40]
	return Turning{
		Shape: Bent, Before: before, After: before + change,
		Bend: Estimate{Value: h.at, StdErr: math.NaN(), Lo: x[slices.IndexFunc(x, func(v float64) bool { return v > lo })-1], Hi: x[slices.IndexFunc(x, func(v float64) bool { return v >= hi })], Level: 0.95, N: j.N},
	}, true
}
