package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// What a man right in front of the ball covers without having to react: this far
// away at most, and this far to either side, half a stride and a leg, m. Common
// practice, no source.
const (
	blockNear = 2.5
	blockSide = 0.8
)

// blocked is the chance that the opponent nearest to the carrier gets his body in
// the way of a ball that leaves along dir.
func (w *world) blocked(dir r2.Vec) float64 {
	o := w.nearest
	if o == nobody || w.gapTo > blockNear || w.beaten[o] > w.tick {
		return 0
	}
	dx, dy := w.pos[o].X-w.ball.X, w.pos[o].Y-w.ball.Y
	if dx*dir.X+dy*dir.Y <= 0 {
		return 0
	}
	across := (dx*dir.Y - dy*dir.X) / blockSide
	return w.par.BlockChance * max(1-across*across, 0)
}

// blockedBy ends the pass that has just left on opponent o.
func (w *world) blockedBy(o int) {
	f := &w.fly
	along := math.Abs((w.pos[o].X-w.ball.X)*f.flight.Dir.X + (w.pos[o].Y-w.ball.Y)*f.flight.Dir.Y)
	w.leave()
	f.winner, f.when = o, max(f.flight.TimeTo(along), TickSeconds)
	f.where = r2.Vec{X: w.ball.X + along*f.flight.Dir.X, Y: w.ball.Y + along*f.flight.Dir.Y}
	_, f.height = f.flight.At(f.when)
}
