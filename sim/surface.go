package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Surface is the control surface of a still: for every cell of the pitch the chance
// that the side on the ball would have a ball that the carrier played there.
type Surface struct {
	Columns, Rows int       // cells along x, from the own goal line, and along y, from the right touchline
	Length, Width float64   // of a cell, m
	Chance        []float64 // of cell (i, k) at i + k Columns
	High          []bool    // the best ball there goes through the air
}

// At is the middle of cell (i, k).
func (s *Surface) At(i, k int) r2.Vec {
	return r2.Vec{
		X: (float64(i) + 0.5 - float64(s.Columns)/2) * s.Length,
		Y: (float64(k) + 0.5 - float64(s.Rows)/2) * s.Width,
	}
}

// surfaceCell is the size of a cell, m; it is stretched a little so that the cells fill
// the pitch.
const surfaceCell = 2.0

// surface asks of every cell what the best ball there is worth: along the ground, to be
// met or to be run on to, and through the air. It is meant for the team-mate who can be
// there first. A man in an offside position is no team-mate here: what he would get
// counts as lost (Law 11). Where nothing is passed it is the chance of keeping the ball.
func (w *world) surface() Surface {
	s := Surface{
		Columns: int(math.Round(w.pitch.Length / surfaceCell)), Rows: int(math.Round(w.pitch.Width / surfaceCell)),
	}
	s.Length, s.Width = w.pitch.Length/float64(s.Columns), w.pitch.Width/float64(s.Rows)
	s.Chance, s.High = make([]float64, s.Columns*s.Rows), make([]bool, s.Columns*s.Rows)
	w.opt.n = 0
	w.keep(w.pos[w.carrier], 0, 0)
	kept := w.opt.o[0].chance
	for b := range 11 {
		w.opt.near[b].ours = !w.fly.offside[b]
	}
	for k := range s.Rows {
		for i := range s.Columns {
			n := i + k*s.Columns
			s.Chance[n], s.High[n] = w.surfaceAt(s.At(i, k), kept)
		}
	}
	return s
}

// surfaceAt is the chance of the best ball to a place, and whether it goes through the
// air.
func (w *world) surfaceAt(at r2.Vec, kept float64) (best float64, high bool) {
	length := dist(w.ball, at)
	if length < shortest {
		return kept, false
	}
	aim, soonest := nobody, math.Inf(1)
	for b := range 11 {
		if b == w.carrier || w.fly.offside[b] {
			continue
		}
		r := w.alert(b, w.par.AimReaction)
		if t := r.timeTo(at.X, at.Y); t < soonest {
			aim, soonest = b, t
		}
	}
	dir := towards(w.ball, at, w.face)
	if length < longestFeet {
		for _, intent := range [2]intent{toFeet, intoRun} {
			f := GroundFlight(w.ball, dir, w.strike[intent].at(length))
			c, _, _ := w.chanceOf(&f, aim, at, length, nil)
			best = max(best, c)
		}
	}
	if length > shortestAir {
		c, _ := w.chanceInAir(aim, at, length, airKind(length), model.LongPassing)
		high = c > best
		best = max(best, c)
	}
	stopped, _ := w.blocked(dir, 0)
	return best * (1 - stopped), high
}
