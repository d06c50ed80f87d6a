package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// TestHullArea holds the area of the convex hull to figures of known area: a
// rectangle of 30 by 20 m with points on and inside its edges, a triangle with base 10
// and height 6, points on a line, and a rectangle turned by 30 degrees.
func TestHullArea(t *testing.T) {
	rectangle := []r2.Vec{{X: 0, Y: 0}, {X: 30, Y: 0}, {X: 30, Y: 20}, {X: 0, Y: 20}, {X: 15, Y: 0}, {X: 15, Y: 10}, {X: 30, Y: 5}, {X: 2, Y: 19}, {X: 29, Y: 1}, {X: 0, Y: 7}}
	turned := make([]r2.Vec, len(rectangle))
	for i, p := range rectangle {
		turned[i] = r2.Rotate(p, math.Pi/6, r2.Vec{})
	}
	for name, c := range map[string]struct {
		at   []r2.Vec
		want float64
	}{
		"rectangle": {rectangle, 600},
		"turned":    {turned, 600},
		"triangle":  {[]r2.Vec{{X: -5}, {X: 5}, {X: 1, Y: 6}, {X: 0, Y: 1}}, 30},
		"line":      {[]r2.Vec{{X: 0}, {X: 1, Y: 1}, {X: 2, Y: 2}}, 0},
	} {
		if got := hullArea(append([]r2.Vec{}, c.at...)); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// TestObserverChangesNothing plays with and without the finer record: the possession
// is the same but for it, and it holds as many samples as there are ticks for.
func TestObserverChangesNothing(t *testing.T) {
	sc := model.AverageScenario()
	par := model.DefaultParams()
	plain, seen := newWorld(&sc, par), newWorld(&sc, par)
	seen.rec = true
	for id := range 50 {
		a, b := *plain.play(id), *seen.play(id)
		samples := int64(0)
		for _, n := range b.Shape.Length {
			samples += n
		}
		if want := int64(b.Ticks / shapeEvery); samples < want-1 || samples > want+1 {
			t.Errorf("possession %d of %d ticks has %d samples, want %d", id, b.Ticks, samples, want)
		}
		if n := b.Shape.Height.N; n != samples {
			t.Errorf("possession %d: %d heights of %d samples", id, n, samples)
		}
		if a.Shape != (Shape{}) {
			t.Errorf("possession %d: a finer record though nobody looks on", id)
		}
		b.Shape = Shape{}
		if a != b {
			t.Errorf("possession %d changes when an observer looks on", id)
		}
	}
}

// TestMarking: a man 10 m ahead of the ball has an opponent at 2 m, one square of it at 5 m,
// one behind it at 7 m; who is on the ball or far from it is not counted.
func TestMarking(t *testing.T) {
	w := worldWith(func(*model.Params) {})
	w.ball = r2.Vec{}
	for b := range w.pos {
		w.pos[b] = r2.Vec{X: -50}
	}
	place := func(mate, opponent int, at r2.Vec, near float64) {
		w.pos[mate], w.pos[opponent] = at, r2.Vec{X: at.X, Y: at.Y + near}
	}
	w.pos[1] = r2.Vec{X: 0.5}
	place(2, 13, r2.Vec{X: 10}, 2)
	place(3, 14, r2.Vec{Y: 20}, 5)
	place(4, 15, r2.Vec{X: -12, Y: -3}, -7)
	var h, want [3][ShapeBins]int64
	want[0][2], want[1][5], want[2][7] = 1, 1, 1
	if w.marking(&h); h != want {
		t.Errorf("%v, want %v", h, want)
	}
}
