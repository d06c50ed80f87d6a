package picture

import (
	"math"
	"strconv"
)

// ticks are round numbers that cut lo to hi into about n steps of 1, 2, 2.5 or
// 5 times a power of ten, with their labels.
func ticks(lo, hi float64, n int) (at []float64, labels []string) {
	if !(hi > lo) {
		return []float64{lo}, []string{number(lo, 0)}
	}
	raw := (hi - lo) / float64(max(n, 1))
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	step := 10 * power
	for _, m := range []float64{1, 2, 2.5, 5} {
		if m*power >= raw*0.75 {
			step = m * power
			break
		}
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	if scaled := step * math.Pow(10, float64(decimals)); math.Abs(scaled-math.Round(scaled)) > 1e-6 {
		decimals++ // 2.5
	}
	for k := math.Ceil(lo/step - 1e-9); k*step <= hi+step*1e-9; k++ {
		at = append(at, k*step)
		labels = append(labels, number(k*step, decimals))
	}
	return at, labels
}

// number writes a number with so many decimals, a true minus, and no minus zero.
func number(x float64, decimals int) string {
	s := strconv.FormatFloat(math.Abs(x), 'f', decimals, 64)
	if x < 0 && s != strconv.FormatFloat(0, 'f', decimals, 64) {
		return "−" + s
	}
	return s
}

// decimalsFor is how many decimals tell values apart that span a range.
func decimalsFor(span float64) int {
	switch {
	case span >= 50 || span == 0 || !finite(span):
		return 0
	case span >= 2:
		return 1
	}
	return min(max(int(math.Ceil(-math.Log10(span)))+1, 2), 6)
}

// bounds collects the range of what is drawn.
type bounds struct{ lo, hi float64 }

func noBounds() bounds { return bounds{math.Inf(1), math.Inf(-1)} }

func (b *bounds) take(xs ...float64) {
	for _, x := range xs {
		if finite(x) {
			b.lo, b.hi = min(b.lo, x), max(b.hi, x)
		}
	}
}

func (b *bounds) interval(i Interval) {
	if i.drawn() {
		b.take(i.Value)
		if i.bounded() {
			b.take(i.Lo, i.Hi)
		}
	}
}

// wide leaves a share of room on either side, and some width where all values
// are equal.
func (b bounds) wide(room float64) bounds {
	if !(b.hi > b.lo) {
		d := max(math.Abs(b.lo)*0.1, 1)
		return bounds{b.lo - d, b.hi + d}
	}
	d := (b.hi - b.lo) * room
	return bounds{b.lo - d, b.hi + d}
}
