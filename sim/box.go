package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Places in the box for a ball out wide in the final third, relative to the
// goal line and the side of the ball (y > 0 is the ball's side): near post,
// penalty spot, far post, edge. Common practice, no source.
var boxPlaces = [...]r2.Vec{{X: -5.5, Y: 3.5}, {X: -10.5, Y: -1}, {X: -6.5, Y: -6}, {X: -18, Y: 2}}

// boxDepth is how near to the goal line a wide ball must be for the box to be
// attacked, m; common practice, no source.
const boxDepth = 22.0

// boxPlace sends forwards, the far wide man and the foremost midfielder into
// the box when the ball is wide in the final third.
func (w *world) boxPlace(b int, ball r2.Vec) (r2.Vec, bool) {
	if ball.X < w.halfL-boxDepth || math.Abs(ball.Y) < crossSide {
		return r2.Vec{}, false
	}
	side := math.Copysign(1, ball.Y)
	rank := w.boxRank(b, side)
	if rank < 0 {
		return r2.Vec{}, false
	}
	at := boxPlaces[rank]
	p := r2.Vec{X: w.halfL + at.X, Y: side * at.Y}
	return w.onside(p, ball), true
}

// boxRank orders the players who attack the box by how far up the final-third
// structure puts them, wide men on the ball's side left out; -1 for the rest.
func (w *world) boxRank(b int, side float64) int {
	anchor := &w.team(w.onBall).Structure.Anchor[model.FinalThirdAttack]
	i := b % 11
	if side*anchor[i].Y > model.PenaltyAreaWidth/2-4 {
		return -1
	}
	rank := 0
	for j := 1; j < 11; j++ {
		if j == i || 11*w.onBall+j == w.carrier || side*anchor[j].Y > model.PenaltyAreaWidth/2-4 {
			continue
		}
		if anchor[j].X > anchor[i].X+0.01 || (anchor[j].X > anchor[i].X-0.01 && math.Abs(anchor[j].Y) < math.Abs(anchor[i].Y)-0.01) {
			rank++
		}
	}
	order := [...]int{1, 2, 0, 3} // spot first, then far post, near post, edge
	if rank >= len(order) {
		return -1
	}
	return order[rank]
}
