package model

// Third is a band across the pitch as the attacking team sees it.
type Third uint8

// The thirds, from the team's own goal.
const (
	OwnThird Third = iota
	MiddleThird
	FinalThird
	NumThirds
)

var thirdNames = [NumThirds]string{"own", "middle", "final"}

func (t Third) String() string { return thirdNames[t] }

// ThirdOf returns the third of x, in the frame of the attacking team.
func (f Pitch) ThirdOf(x float64) Third {
	switch {
	case x < -f.Length/6:
		return OwnThird
	case x > f.Length/6:
		return FinalThird
	}
	return MiddleThird
}

// Lane is one of five strips along the pitch, named from the left of the
// attacking team. In text for people a lane is a channel.
type Lane uint8

// The lanes, from left to right.
const (
	LeftWing Lane = iota
	LeftHalfSpace
	Centre
	RightHalfSpace
	RightWing
	NumLanes
)

var laneNames = [NumLanes]string{"left_wing", "left_half_space", "centre", "right_half_space", "right_wing"}

func (l Lane) String() string { return laneNames[l] }

// LaneOf returns the lane of y (m, positive to the left) in the frame of the
// attacking team. The lanes are cut by the long edges of the penalty area
// (|y| = 20.16 m) and of the goal area (|y| = 9.16 m).
func LaneOf(y float64) Lane {
	switch {
	case y > PenaltyAreaWidth/2:
		return LeftWing
	case y > GoalAreaWidth/2:
		return LeftHalfSpace
	case y >= -GoalAreaWidth/2:
		return Centre
	case y >= -PenaltyAreaWidth/2:
		return RightHalfSpace
	}
	return RightWing
}

// Mirror is the lane on the other side.
func (l Lane) Mirror() Lane { return NumLanes - 1 - l }
