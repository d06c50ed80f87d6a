package model

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Phase is a stage of the attack. Each has its own anchors; between the places
// of the ball that stand for two phases the anchors are blended, so nobody
// jumps.
type Phase uint8

// Phases.
const (
	BuildUp          Phase = iota // ball deep in the own third
	Progression                   // ball near halfway
	FinalThirdAttack              // ball in the final third
	NumPhases
)

var phaseNames = [NumPhases]string{"build_up", "progression", "final_third"}

func (p Phase) String() string { return phaseNames[p] }

// PhaseBall is the ball's x, as a share of the length from the centre spot, at
// which each phase's anchors hold in full (-35, 0 and +32 m on 105 m).
// Common practice, no source.
var PhaseBall = [NumPhases]float64{-35.0 / 105, 0, 32.0 / 105}

// Structure is where the players of the team on the ball stand, by phase, in
// the team's own frame. Index 0 is the keeper; the others follow the order of
// Team.Players.
type Structure struct {
	Anchor [NumPhases][11]r2.Vec // m
	Shape  [NumPhases]string     // as written, "" where given player by player

	// BallSide is how much of the ball's lateral offset the anchors follow,
	// 0 to 1. Assumed 0.15: attacks keep their width.
	BallSide float64
}

// depth of the last and first row by phase, m from the centre spot on a
// 105 m pitch. The first row stands near the measured last line of a settled
// block for that place of the ball (2.6 + 0.54 d, SkillCorner open data via
// movement tables); the last row is common practice, no source.
var phaseDepth = [NumPhases][2]float64{{-34, 7}, {-16, 24}, {2, 39}}

// keeperDepth is the keeper's x by phase; common practice, no source.
var keeperDepth = [NumPhases]float64{-47, -38, -30}

// rowHalfWidth is half the distance between the outer players of a row of n,
// in metres on a 68 m pitch: the attack as a whole is about 50 m wide
// (movement tables: 51 m against a high, 48 m against a mid block; see phaseWidth). A
// row of three before a lone forward or a pair is the widest there is up there.
func rowHalfWidth(n int, first, last, widest bool) float64 {
	switch n {
	case 1:
		return 0
	case 2:
		switch {
		case first:
			return 9
		case last:
			return 7
		}
		return 11
	case 3:
		switch {
		case first:
			return 17
		case last:
			return 22
		case widest:
			return 18
		}
		return 13
	case 4:
		return 25
	}
	return 27
}

// wideStep is, by phase, how far the outer players of a last row of four or five stand
// ahead of it, as a share of the distance to the next row: the nearer to goal, the
// further they go up; common practice, no source.
var wideStep = [NumPhases]float64{0.2, 0.7, 1.1}

// phaseWidth is how wide the rows are by phase, as a share of rowHalfWidth: the nearer to
// goal, the nearer together. Source: movement tables, medians of the attack's width of 49,
// 44 and 42 m with the ball in the own, the middle and the last third, 51, 48 and 42 m
// against a high, a mid and a low block.
var phaseWidth = [NumPhases]float64{1.05, 0.98, 0.86}

// places lays a shape out: rows at even depth between back and front, each
// spread over its width, the outer players of a wide last row step ahead of it. X is
// the depth, Y the lateral place in metres.
func (s Shape) places(back, front, step, width float64) [10]r2.Vec {
	var out [10]r2.Vec
	i := 0
	for row, n := range s {
		x := back + (front-back)*float64(row)/float64(len(s)-1)
		half := width * rowHalfWidth(n, row == 0, row == len(s)-1, row == len(s)-2 && s[row+1] < 3)
		for k := 0; k < n; k++ {
			y := 0.0
			if n > 1 {
				y = half * (1 - 2*float64(k)/float64(n-1))
			}
			out[i] = r2.Vec{X: x, Y: y}
			if row == 0 && n >= 4 && (k == 0 || k == n-1) {
				out[i].X += step * (front - back) / float64(len(s)-1)
			}
			i++
		}
	}
	return out
}

// wants gives, for ten players, the place their positions ask for in a shape,
// between back and front and over the half width of the pitch. With fewer than
// four in the last line the full-backs play higher.
func wants(players []Player, shape Shape, back, front float64) [10]r2.Vec {
	var out [10]r2.Vec
	for i, p := range players[1:] {
		w := place[p.Position]
		if (p.Position == LB || p.Position == RB) && shape[0] < 4 {
			w.X = wingBackDepth
		}
		out[i] = r2.Vec{X: back + (front-back)*w.X, Y: 28 * w.Y}
	}
	return out
}

// wingBackDepth is where a full-back plays who is none of a last line of four,
// 0 the last line, 1 the first; common practice, no source.
const wingBackDepth = 0.5

// SetShape fills one phase's anchors from a shape: the places of the shape go
// to the players whose positions fit them best.
func (st *Structure) SetShape(ph Phase, shape Shape, players []Player, pitch Pitch) {
	back, front := phaseDepth[ph][0], phaseDepth[ph][1]
	places := shape.places(back, front, wideStep[ph], phaseWidth[ph])
	got := assign(wants(players, shape, back, front), places)
	sx, sy := pitch.Length/DefaultPitch.Length, pitch.Width/DefaultPitch.Width
	st.Anchor[ph][0] = r2.Vec{X: rounded(keeperDepth[ph]*sx, 100)}
	for i, j := range got {
		st.Anchor[ph][i+1] = r2.Vec{X: rounded(places[j].X*sx, 100), Y: rounded(places[j].Y*sy, 100)}
	}
	st.Shape[ph] = shape.String()
}

// rounded keeps one part in parts of a unit: laid-out places are whole
// centimetres and thousandths, so that they read well in files and left and
// right mirror each other exactly.
func rounded(x, parts float64) float64 { return math.Round(x*parts) / parts }

// At returns the anchor of player i for a ball at ball (own frame).
func (st *Structure) At(i int, ball r2.Vec, pitch Pitch) r2.Vec {
	x := ball.X / pitch.Length
	ph := BuildUp
	if x > PhaseBall[Progression] {
		ph = Progression
	}
	a, b := PhaseBall[ph], PhaseBall[ph+1]
	w := min(max((x-a)/(b-a), 0), 1)
	p, q := st.Anchor[ph][i], st.Anchor[ph+1][i]
	return r2.Vec{X: p.X + w*(q.X-p.X), Y: p.Y + w*(q.Y-p.Y) + st.BallSide*ball.Y}
}
