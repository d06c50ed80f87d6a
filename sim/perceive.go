package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// attackView is what both teams know of the block, in the frame of the team on
// the ball. Refreshed every viewEvery ticks.
type attackView struct {
	last  float64    // second-last opponent: the offside line, m
	line  [5]float64 // mean x of the block's rows, last line first, m
	lines int
	ahead [11]float64 // x of the opponents
	mates [11]float64 // x of the team on the ball
	open  float64     // how far the block is beaten, 0 to 1: opponents fewer goal-side of the ball than usual
}

const viewEvery = 2

// perceive works out the pressure on the carrier and where the lines are.
func (w *world) perceive() {
	if w.tick%viewEvery == 0 {
		w.viewLines()
	}
	if w.state != held {
		return
	}
	w.pressure, w.nearest, w.gapTo = w.pressureAt(w.carrier, w.pos[w.carrier])
	if w.restart != inPlay {
		w.pressure = 0 // the laws keep them off
	}
}

// viewLines measures the block.
func (w *world) viewLines() {
	def := 1 - w.onBall
	s := sign(w.onBall)
	slots := &w.team(def).Block.Slot
	v := &w.att
	first, second := math.Inf(-1), math.Inf(-1)
	var sum, n [6]float64
	for i := 0; i < 11; i++ {
		x := s * w.pos[11*def+i].X
		v.ahead[i] = x
		v.mates[i] = s * w.pos[11*w.onBall+i].X
		if x > first {
			first, second = x, first
		} else if x > second {
			second = x
		}
		if i > 0 {
			row := slots[i].Row
			sum[row] += x
			n[row]++
		}
	}
	v.last = second
	v.lines = w.rows[def]
	for r := 0; r < v.lines; r++ {
		v.line[r] = sum[r] / n[r]
	}
	ball := s * w.ball.X
	v.open = min(max((usualGoalSide(ball, w.halfL)-float64(w.goalSide(ball)))/beatenBy, 0), 1)
}

// beatenBy is how many opponents fewer than usual goal-side of the ball make a
// block that is wide open; common practice, no source.
const beatenBy = 4.0

// goalSide counts opponents (keeper excepted) nearer to their goal line than x,
// own frame.
func (w *world) goalSide(x float64) int {
	n := 0
	for _, o := range w.att.ahead[1:] {
		if o > x {
			n++
		}
	}
	return n
}

// Reach of the pressure zone, m: 9 in front of the carrier (the presser stands
// between him and the goal), 3 behind. Source: Andrienko et al. 2017.
const (
	pressFront = 9.0
	pressBack  = 3.0
)

// pressureAt is the pressure on body b if he were at p: 0 free, 1 smothered;
// with the nearest opponent and his distance.
func (w *world) pressureAt(b int, p r2.Vec) (pressure float64, nearest int, gap float64) {
	t := teamOf(b)
	s := sign(t)
	gx, gy := s*w.halfL-p.X, -p.Y
	g := math.Sqrt(gx*gx + gy*gy)
	if g < 1e-6 {
		g = 1e-6
	}
	free := 1.0
	best := math.Inf(1)
	nearest = nobody
	for o := 11 * (1 - t); o < 11*(1-t)+11; o++ {
		dx, dy := w.pos[o].X-p.X, w.pos[o].Y-p.Y
		d2 := dx*dx + dy*dy
		if d2 < best {
			best, nearest = d2, o
		}
		if d2 > pressFront*pressFront {
			continue
		}
		d := math.Sqrt(d2)
		cos := 1.0
		if d > 1e-6 {
			cos = (dx*gx + dy*gy) / (d * g)
		}
		z := (1 + cos) / 2
		zone := pressBack + (pressFront-pressBack)*(z*z*z+0.3*z)/1.3
		if d < zone {
			q := 1 - d/zone
			free *= 1 - q*math.Sqrt(q)
		}
	}
	return 1 - free, nearest, math.Sqrt(best)
}
