package sim

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// ShapeBins is the number of bins of a histogram of Shape.
const ShapeBins = 80

// HullBin is the width of the bins of Shape.Hull, m2; the other histograms of
// the block count in metres.
const HullBin = 20.0

// RunBin is the width of the bins of Shape.Run, m/s.
const RunBin = 0.1

// ShiftTimes are the time constants, s, at which the first-order response of
// the block to the ball is tried.
var ShiftTimes = [...]float64{1, 1.5, 2, 2.5, 3, 4, 5}

// Shape is a finer record of the block and of the runs than BlockSample holds:
// the distributions that tracking data are reported by. It is taken every
// shapeEvery ticks, and only when an Observer looks on. Histograms count samples;
// the last bin takes all that lies beyond.
type Shape struct {
	Width    [model.NumThirds][ShapeBins]int64    // outfield players, m, by third of the ball
	Attack   [model.NumThirds][ShapeBins]int64    // width of the team on the ball, likewise
	Length   [ShapeBins]int64                     // m
	Keeper   [ShapeBins]int64                     // keeper to last line, m
	LastGap  [ShapeBins]int64                     // last line to midfield, m
	FirstGap [ShapeBins]int64                     // midfield to first line, m
	Hull     [ShapeBins]int64                     // area of the convex hull, HullBin
	Marked   [model.NumThirds][3][ShapeBins]int64 // nearest opponent of a team-mate of the man on the ball, m: see marking
	Run      [2 * ShapeBins]int64                 // mean speed of a run off the ball, RunBin
	Height   HeightSum
	Shift    [len(ShiftTimes)]ShiftSum
}

// HeightSum is the regression of the last line's height H on the ball's
// distance D from the defended goal line, both in cm.
type HeightSum struct{ N, D, H, DD, DH int64 }

// ShiftSum is the regression behind one time constant tau of the first-order
// response dc/dt = (gain x ball + offset - c)/tau of the block's lateral centre c,
// started where it was seen to be, c(0). Then c - c(0) u' = gain Z + offset U
// with u' = exp(-t/tau), U = 1 - u' and Z the ball through the filter. C is the left
// side; C and Z are in cm, U in thousandths.
type ShiftSum struct{ CC, CZ, CU, ZZ, ZU, UU int64 }

// shapeEvery is the time between two samples, ticks.
const shapeEvery = 2 * viewEvery

// Runs off the ball: faster than runFrom, m/s, for at least runTicks. The movement
// tables log runs above about 4 m/s; that they last 0.7 s and more holds for 95 %
// of theirs.
const (
	runFrom  = 4.0
	runTicks = 7
)

// shapeTrack is what the tracker keeps between two samples.
type shapeTrack struct {
	start  float64 // lateral centre of the block at the first sample, m
	first  int     // its tick
	begun  bool
	filter [len(ShiftTimes)]shiftFilter
	run    [11]struct {
		ticks int
		path  float64
	}
}

// shiftFilter is ShiftSum in the making, m.
type shiftFilter struct{ z, cc, cz, cu, zz, zu, uu float64 }

// sampleShape measures the block once.
func (t *tracker) sampleShape(w *world) {
	def := 1 - w.onBall
	s := &w.p.Shape
	var at [10]r2.Vec
	deep, high := math.Inf(1), math.Inf(-1)
	sum := 0.0
	for i := range at {
		p := own(def, w.pos[11*def+1+i])
		at[i] = p
		deep, high = min(deep, p.X), max(high, p.X)
		sum += p.Y
	}
	third := w.pitch.ThirdOf(own(w.onBall, w.ball).X)
	s.Width[third][bin(w.spread(def))]++
	s.Attack[third][bin(w.spread(w.onBall))]++
	s.Length[bin(high-deep)]++
	if last, first, ok := w.lineGaps(); ok {
		s.LastGap[bin(last)]++
		s.FirstGap[bin(first)]++
	}
	s.Hull[bin(hullArea(at[:])/HullBin)]++
	s.Keeper[bin(-w.att.last-own(def, w.pos[11*def]).X)]++
	d, h := cm(w.halfL+own(def, w.ball).X), cm(w.halfL-w.att.last)
	s.Height.N++
	s.Height.D += d
	s.Height.H += h
	s.Height.DD += d * d
	s.Height.DH += d * h
	w.marking(&s.Marked[third])
	t.shift(w, sum/10, own(def, w.ball).Y)
}

// A team-mate is looked at from mateFrom to mateTo away from the ball, m.
const (
	mateFrom = 3.0
	mateTo   = 30.0
)

// marking adds how far the nearest opponent is from each outfield team-mate near the ball,
// whether he gets it or not: those within 60 degrees of straight ahead of it, those square of
// it and those behind.
func (w *world) marking(h *[3][ShapeBins]int64) {
	ball := own(w.onBall, w.ball)
	def := 11 * (1 - w.onBall)
	for b := 11*w.onBall + 1; b < 11*w.onBall+11; b++ {
		p := own(w.onBall, w.pos[b])
		d := dist(p, ball)
		if d < mateFrom || d > mateTo {
			continue
		}
		side := 1
		switch cos := (p.X - ball.X) / d; {
		case cos > 0.5:
			side = 0
		case cos < -0.5:
			side = 2
		}
		near := math.Inf(1)
		for o := def + 1; o < def+11; o++ {
			near = min(near, dist2(w.pos[o], w.pos[b]))
		}
		h[side][bin(math.Sqrt(near))]++
	}
}

// spread is the width of a team's outfield players, m.
func (w *world) spread(team int) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range w.pos[11*team+1 : 11*team+11] {
		lo, hi = min(lo, p.Y), max(hi, p.Y)
	}
	return hi - lo
}

func bin(x float64) int { return min(max(int(x), 0), ShapeBins-1) }

// lineGaps are the gaps between the last line, all players between it and the
// first, and the first: three lines, as the movement tables see a block of any
// shape.
func (w *world) lineGaps() (last, first float64, ok bool) {
	v := &w.att
	if v.lines < 3 {
		return 0, 0, false
	}
	shape := w.team(1 - w.onBall).Block.Shape
	sum, n := 0.0, 0.0
	for r := 1; r < v.lines-1; r++ {
		sum += float64(shape[r]) * v.line[r]
		n += float64(shape[r])
	}
	mid := sum / n
	return v.line[0] - mid, mid - v.line[v.lines-1], true
}

// shift moves the filters on: the block's centre is at c, the ball at b, both
// across the pitch in the frame of the block.
func (t *tracker) shift(w *world, c, b float64) {
	k := &t.shape
	if !k.begun {
		k.begun, k.start, k.first = true, c, w.tick
		return
	}
	age := float64(w.tick-k.first) * TickSeconds
	for i := range k.filter {
		f := &k.filter[i]
		f.z += shiftGain[i] * (b - f.z)
		left := math.Exp(-age / ShiftTimes[i])
		u, y := 1-left, c-k.start*left
		f.cc += y * y
		f.cz += y * f.z
		f.cu += y * u
		f.zz += f.z * f.z
		f.zu += f.z * u
		f.uu += u * u
	}
}

// shiftGain is how far a filter goes towards its input in one sample.
var shiftGain = func() (g [len(ShiftTimes)]float64) {
	for i, tau := range ShiftTimes {
		g[i] = 1 - math.Exp(-shapeEvery*TickSeconds/tau)
	}
	return g
}()

// watchRuns follows the runs of the team on the ball; those under way when the
// possession ends are not counted.
func (t *tracker) watchRuns(w *world) {
	first := 11 * w.onBall
	for i := 1; i < 11; i++ {
		k, v := &t.shape.run[i], w.vel[first+i]
		v2 := v.X*v.X + v.Y*v.Y
		if v2 > runFrom*runFrom && first+i != w.carrier {
			k.ticks++
			k.path += math.Sqrt(v2) * TickSeconds
			continue
		}
		if k.ticks >= runTicks {
			mean := k.path / (float64(k.ticks) * TickSeconds)
			w.p.Shape.Run[min(int(mean/RunBin), len(w.p.Shape.Run)-1)]++
		}
		k.ticks, k.path = 0, 0
	}
}

// finishShape turns the sums of the filters into integers.
func (t *tracker) finishShape(w *world) {
	for i := range t.shape.filter {
		f := &t.shape.filter[i]
		w.p.Shape.Shift[i] = ShiftSum{
			CC: integer(1e4 * f.cc), CZ: integer(1e4 * f.cz), CU: integer(1e5 * f.cu),
			ZZ: integer(1e4 * f.zz), ZU: integer(1e5 * f.zu), UU: integer(1e6 * f.uu),
		}
	}
}

func integer(x float64) int64 { return int64(math.Round(x)) }

// hullArea is the area of the convex hull of p, m2. It sorts p.
// Reference: Andrew (1979), Information Processing Letters 9, 216-219.
func hullArea(p []r2.Vec) float64 {
	slices.SortFunc(p, func(a, b r2.Vec) int {
		switch {
		case a.X < b.X || a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	return chainArea(p, 1) + chainArea(p, -1)
}

// chainArea is the area between the line from the first to the last point and
// the part of the hull on its right (side 1) or left (side -1).
func chainArea(p []r2.Vec, side float64) float64 {
	var chain [16]r2.Vec
	n := 0
	for _, q := range p {
		for n > 1 && side*cross(chain[n-2], chain[n-1], q) <= 0 {
			n--
		}
		chain[n] = q
		n++
	}
	twice := 0.0
	for i := 1; i+1 < n; i++ {
		twice += side * cross(chain[0], chain[i], chain[i+1])
	}
	return twice / 2
}

// cross is twice the area of the triangle a, b, c; positive when it turns left.
func cross(a, b, c r2.Vec) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}
