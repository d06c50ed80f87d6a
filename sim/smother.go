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

// lunge is how much further to either side a man further off gets, m for each metre: he sees the
// ball come and stretches for it, at some 2 m/s while it covers 20. Assumed.
const lunge = 0.1

// blocked is the chance that an opponent gets his body in the way of a ball that
// leaves along dir, and who is most in the way. Of most balls only the man nearest to
// the carrier is, close in front of him: the others have time, and the control model
// knows what they do with it. A cross struck hard along the ground must pass everybody
// on its way, low metres far.
func (w *world) blocked(dir r2.Vec, low float64) (chance float64, by int) {
	free, most := 1.0, 0.0
	by = w.nearest
	if o := w.nearest; o != nobody && w.gapTo <= blockNear {
		most = w.inTheWay(o, dir, math.Inf(1))
		free -= most
	}
	if low > 0 {
		first := 11 * (1 - w.onBall)
		for o := first; o < first+11; o++ {
			if o == w.nearest && w.gapTo <= blockNear {
				continue
			}
			p := w.inTheWay(o, dir, low)
			free *= 1 - p
			if p > most {
				most, by = p, o
			}
		}
	}
	return 1 - free, by
}

// inTheWay is the chance that opponent o stops a ball that leaves along dir before it
// has gone far.
func (w *world) inTheWay(o int, dir r2.Vec, far float64) float64 {
	if w.beaten[o] > w.tick {
		return 0
	}
	dx, dy := w.pos[o].X-w.ball.X, w.pos[o].Y-w.ball.Y
	along := dx*dir.X + dy*dir.Y
	if along <= 0 || along >= far {
		return 0
	}
	across := (dx*dir.Y - dy*dir.X) / (blockSide + lunge*max(along-blockNear, 0))
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
