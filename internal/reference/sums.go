package reference

import (
	"math"

	"playout/model"
	"playout/sim"
)

// hist counts values in bins of a width known to its user; the last takes all
// that lies beyond.
type hist [400]int64

func (h *hist) add(x, width float64) { h[min(max(int(x/width), 0), len(h)-1)]++ }

// quantile is the value below which a share p of the counts lies; within a bin
// they are taken as evenly spread.
func quantile(h []int64, p, width float64) (float64, int64) {
	total := int64(0)
	for _, n := range h {
		total += n
	}
	left := p * float64(total)
	for i, n := range h {
		if left <= float64(n) && n > 0 {
			return (float64(i) + left/float64(n)) * width, total
		}
		left -= float64(n)
	}
	return math.NaN(), 0
}

// part is cases of a whole.
type part struct{ K, N int64 }

func (p *part) add(yes bool) {
	p.N++
	if yes {
		p.K++
	}
}

// total is a sum of N integers.
type total struct{ X, N int64 }

func (t *total) add(x, unit float64) {
	t.X += int64(math.Round(x / unit))
	t.N++
}

// Units of the integers.
const (
	cm    = 0.01
	micro = 1e-6 // xG
)

// Widths of bins.
const (
	metreBin  = 0.1  // distance to a defender, m
	lengthBin = 0.25 // length of a pass, m
	speedBin  = 0.1  // speed of a pass, m/s
)

// bands of pass length, m: their upper ends. The last is open.
var bands = [...]float64{5, 10, 15, 20, 25, 30, 35, 40, 50, 60, math.Inf(1)}

var bandNames = [len(bands)]string{"0-5", "5-10", "10-15", "15-20", "20-25", "25-30", "30-35", "35-40", "40-50", "50-60", "60+"}

func bandOf(x float64, ends []float64) int {
	i := 0
	for x >= ends[i] {
		i++
	}
	return i
}

// shotBands of distance to the middle of the goal, m.
var shotBands = [...]float64{6, 11, 16.5, 20, 25, 30, math.Inf(1)}

var shotBandNames = [len(shotBands)]string{"0-6", "6-11", "11-16.5", "16.5-20", "20-25", "25-30", "30+"}

// direction of a pass.
type direction uint8

const (
	forward direction = iota
	sideways
	back
	numDirections
)

var directionNames = [numDirections]string{"forward", "sideways", "back"}

// longChain is the first number of completed passes that the tables do not tell apart.
const longChain = 15

// origins of crosses.
const numOrigins = 4

var originNames = [numOrigins]string{"wing_byline", "wing_deep", "half_space_byline", "half_space_deep"}

// The cells of the threat grid in front of goal: so many of its 16 along the pitch, from the
// goal line, and of its 12 across, from the middle to either side.
const (
	gridX, gridY           = 16, 12
	shotCellsX, shotCellsY = 5, 3
)

// after is what can follow a completed switch within ten seconds.
type after uint8

const (
	progressed after = iota
	forcedBack
	lost10
	shot10
	numAfters
)

var afterNames = [numAfters]string{"progressed", "forced_back", "lost10", "shot10"}

const numThirds, numLanes = int(model.NumThirds), int(model.NumLanes)

// sums are all that a group of possessions adds to the figures. Every field is
// exported and an integer in the end, so that groups merge exactly
// (stats.AddIntegers).
type sums struct {
	Possessions int64
	Spells      [numThirds]part // on the ball, with a marked carry
	Starts      progressSums    // possessions that begin in the own third with a ground pass or a carry

	// Build-up possessions, the part of them with two passes completed in the own half.
	BuildUp       progressSums
	XG            int64 // micro
	Ends          [sim.NumEnds]int64
	LostIn        [numThirds]int64
	BuildUpPasses [numPassTypes]part
	Mix           [numThirds][2][numDirections]int64
	Length        [numThirds][2]hist
	NextAction    [numThirds]hist // ticks
	NextSum       [numThirds]total
	Crosses       int64
	Entries       [numLanes]entrySums
	ActsThere     int64 // entries after which another own action follows in the final third

	// All possessions.
	Passes    [2]passesByThird
	Directed  [2][numThirds][numDirections]part
	Kept      passesByThird // high passes
	Headed    [numThirds]part
	Switch    [2][numThirds]part
	Switched  [numThirds][numAfters]part
	Cross     [numOrigins][2]crossSums     // high, low
	CrossFoot [2]part                      // natural side, inverted
	ShotBands [2][len(shotBands)]total     // chance of scoring by foot, by head; micro
	ShotCells [shotCellsX][shotCellsY]part // own actions in front of goal, of these shots

	Losses [len(lossFrom)][2]lossSums // middle, outer thirds of the width

	Movement movementSums
}

// progressSums are how far possessions get, in how many passes and how much time.
type progressSums struct {
	N                      int64
	Exit, Half, Final, Box int64
	Shots                  int64
	Chances                int64 // of scoring, finishing and keeper included, micro
	Active                 int64 // first to last own action, ticks
	Completed, Attempted   int64
	Chain                  [longChain + 1]int64
}

// lossFrom are the bands of the place of a loss: where they begin, m.
var lossFrom = [...]float64{-52.5, -35, -17.5, 0, 17.5, 35}

var widthNames = [2]string{"middle", "outer"}

// lossSums are losses that were played on.
type lossSums struct {
	Shot    part
	Chances int64 // of a goal, micro
}

// entrySums are entries to the final third by one lane.
type entrySums struct {
	N                            int64
	Crossed                      int64    // with a cross after it
	Way                          [3]int64 // ground pass, high pass, carry or loose ball
	Shots, Boxes, Lost5, Chances int64
	XG                           int64
}

type crossSums struct{ Done, Shot part }
