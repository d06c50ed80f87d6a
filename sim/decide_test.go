package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// Worked by hand: at arm's length a man in the way lets the carrier walk, each metre
// further gives him 0.8 m/s; who stands beside him, behind him or is beaten does not
// count.
func TestRoomAhead(t *testing.T) {
	for _, c := range []struct {
		name string
		at   r2.Vec
		out  int
		want float64
	}{
		{"nobody near", r2.Vec{X: -30}, 0, math.Inf(1)},
		{"at arm's length", r2.Vec{X: 1.5}, 0, 2},
		{"nearer still", r2.Vec{X: 0.5}, 0, 2},
		{"five metres ahead", r2.Vec{X: 4.8, Y: 1.4}, 0, 4.8},
		{"beside him", r2.Vec{X: 3, Y: 4}, 0, math.Inf(1)},
		{"beaten", r2.Vec{X: 2}, 9, math.Inf(1)},
	} {
		w := &world{}
		for b := 11; b < bodies; b++ {
			w.pos[b] = r2.Vec{X: -40, Y: float64(b)}
		}
		w.carrier, w.pos[15], w.beaten[15] = 5, c.at, c.out
		if got := w.roomAhead(r2.Vec{X: 1}); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %.3f m/s, want %.3f", c.name, got, c.want)
		}
	}
}
