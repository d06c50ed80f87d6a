package evolution

import (
	"slices"
	"testing"
)

func TestBox(t *testing.T) {
	b := Box{Lo: []float64{-6, 10}, Hi: []float64{6, 30}}
	for _, c := range []struct{ u, want []float64 }{
		{[]float64{0, 1}, []float64{-6, 30}},
		{[]float64{0.5, 0.25}, []float64{0, 15}},
	} {
		if got := b.At(c.u); !slices.Equal(got, c.want) {
			t.Errorf("At(%v) = %v, want %v", c.u, got, c.want)
		}
		if got := b.Of(c.want); !slices.Equal(got, c.u) {
			t.Errorf("Of(%v) = %v, want %v", c.want, got, c.u)
		}
	}
}

// inCube runs a strategy on the unit cube from a place for some generations.
func inCube(t *testing.T, at, sigma float64, generations int, f func([]float64) float64) *Strategy {
	s := New(filled(6, at), sigma, 0, 3, intoCube, nil)
	for range generations {
		var values []float64
		for _, x := range s.Ask() {
			if slices.Min(x) < 0 || slices.Max(x) > 1 {
				t.Fatalf("%v is outside", x)
			}
			values = append(values, f(x))
		}
		s.Tell(ranked(values))
	}
	return s
}

// An optimum in a corner of the box is reached.
func TestOptimumInACorner(t *testing.T) {
	if got := ellipsoid(inCube(t, 0.7, 0.2, 200, ellipsoid).Mean()); got > 1e-8 {
		t.Errorf("at %.2g", got)
	}
}

// A start on a wall, even in a corner, holds nothing back from an optimum inside.
func TestStartInACorner(t *testing.T) {
	inside := func(x []float64) float64 {
		sum := 0.0
		for _, v := range x {
			sum += (v - 0.4) * (v - 0.4)
		}
		return sum
	}
	if got := inside(inCube(t, 1, 0.2, 150, inside).Mean()); got > 1e-8 {
		t.Errorf("at %.2g", got)
	}
}
