package draw

import (
	"math"
	"testing"
)

// A cone's contour is a circle of known area; a hole in it is found as one; all lines
// close at the border.
func TestContours(t *testing.T) {
	const n = 81
	cone := func(i, k int) float64 { return 30 - math.Hypot(float64(i-40), float64(k-40)) }
	c := Contours(n, n, cone, []float64{10, 20})
	if len(c) != 2 || c[0].Hole || c[1].Hole || c[0].Level != 0 || c[1].Level != 1 {
		t.Fatalf("%d contours of a cone: %+v", len(c), c)
	}
	for i, r := range []float64{20, 10} {
		if want := math.Pi * r * r; math.Abs(c[i].Area-want) > 0.01*want {
			t.Errorf("area %v, want %v", c[i].Area, want)
		}
	}
	crater := func(i, k int) float64 { return -math.Abs(math.Hypot(float64(i-40), float64(k-40)) - 20) }
	c = Contours(n, n, crater, []float64{-5})
	if len(c) != 2 || c[0].Hole || !c[1].Hole {
		t.Fatalf("%d contours of a crater", len(c))
	}
	for i, r := range []float64{25, 15} {
		if want := math.Pi * r * r; math.Abs(c[i].Area-want) > 0.01*want {
			t.Errorf("area %v, want %v", c[i].Area, want)
		}
	}
	// A plain field reaches half a cell beyond the middles of its outermost cells.
	c = Contours(4, 3, func(i, k int) float64 { return 1 }, []float64{0.5})
	if len(c) != 1 || math.Abs(c[0].Area-(4*3-0.5)) > 1e-12 {
		t.Errorf("a plain field: %+v", c)
	}
	// Saddles: every line closes whatever the values.
	odd := func(i, k int) float64 { return float64((i*7+k*13+i*k*5)%4) / 3 }
	for _, c := range Contours(23, 17, odd, []float64{0.2, 0.5, 0.9}) {
		for i, p := range c.Points {
			q := c.Points[(i+1)%len(c.Points)]
			if math.Hypot(p.X-q.X, p.Y-q.Y) > 1.5 {
				t.Fatalf("a line jumps from %v to %v", p, q)
			}
		}
	}
}
