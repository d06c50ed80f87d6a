package model

import "gonum.org/v1/gonum/spatial/r2"

// Markings in metres. Source: IFAB, Laws of the Game, Law 1.
const (
	GoalWidth        = 7.32  // between the posts
	GoalHeight       = 2.44  // to the lower edge of the bar
	GoalAreaDepth    = 5.5   // from the goal line
	GoalAreaWidth    = 18.32 // 5.5 m outside each post
	PenaltyAreaDepth = 16.5  // from the goal line
	PenaltyAreaWidth = 40.32 // 16.5 m outside each post
	PenaltyMark      = 11.0  // from the goal line
	CircleRadius     = 9.15  // centre circle and penalty arc
	CornerRadius     = 1.0   // corner arc
)

// Size limits in metres. Source: IFAB, Laws of the Game, Law 1.
const (
	MinLength, MaxLength = 90.0, 120.0
	MinWidth, MaxWidth   = 45.0, 90.0
)

// Pitch is the field of play. The zero value is not a pitch; use DefaultPitch.
type Pitch struct {
	Length float64 // m, along x
	Width  float64 // m, along y
}

// DefaultPitch is the size most competitions play on, 105 x 68 m
// (competition regulations, from memory).
var DefaultPitch = Pitch{Length: 105, Width: 68}

// Contains reports whether p lies on the pitch; the lines belong to it (Law 1).
func (f Pitch) Contains(p r2.Vec) bool {
	return p.X >= -f.Length/2 && p.X <= f.Length/2 && p.Y >= -f.Width/2 && p.Y <= f.Width/2
}

// Goal is the centre of the goal that a team playing towards +x attacks.
func (f Pitch) Goal() r2.Vec { return r2.Vec{X: f.Length / 2} }

// InPenaltyArea reports whether p lies in the penalty area at the +x end.
func (f Pitch) InPenaltyArea(p r2.Vec) bool {
	return p.X >= f.Length/2-PenaltyAreaDepth && p.X <= f.Length/2 &&
		p.Y >= -PenaltyAreaWidth/2 && p.Y <= PenaltyAreaWidth/2
}
