package evolution

import (
	"math"
	"slices"
	"testing"
)

func TestFold(t *testing.T) {
	b := Box{Lo: []float64{-6, 10}, Hi: []float64{6, 30}}
	for _, c := range []struct{ u, want []float64 }{
		{[]float64{0, 1}, []float64{-6, 30}},
		{[]float64{0.5, 0.25}, []float64{0, 15}},
		{[]float64{-0.25, 1.25}, []float64{-3, 25}}, // mirrored at the wall
		{[]float64{2.25, -1.5}, []float64{-3, 20}},  // and at both
	} {
		if got := b.Fold(c.u); !slices.Equal(got, c.want) {
			t.Errorf("Fold(%v) = %v, want %v", c.u, got, c.want)
		}
	}
	x := []float64{-2.5, 17}
	if got := b.Fold(b.Unfold(x)); math.Abs(got[0]-x[0]) > 1e-12 || math.Abs(got[1]-x[1]) > 1e-12 {
		t.Errorf("there and back: %v", got)
	}
}

// An optimum in a corner of the box is found as exactly as one inside.
func TestOptimumInACorner(t *testing.T) {
	b := Box{Lo: filled(6, 0), Hi: filled(6, 1)}
	s := New(filled(6, 0.7), 0.2, 0, 3, nil)
	best := math.Inf(1)
	for range 400 {
		var values []float64
		for _, u := range s.Ask() {
			x := b.Fold(u)
			for i := range x {
				if x[i] < 0 || x[i] > 1 {
					t.Fatalf("%v is outside", x)
				}
			}
			values = append(values, ellipsoid(x))
		}
		best = min(best, slices.Min(values))
		s.Tell(ranked(values))
	}
	if best > 1e-6 {
		t.Errorf("best %.2g", best)
	}
}
