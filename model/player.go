package model

// Foot is a player's strong foot.
type Foot uint8

// Feet.
const (
	RightFoot Foot = iota
	LeftFoot
	BothFeet
	NumFeet
)

var footNames = [NumFeet]string{"right", "left", "both"}

func (f Foot) String() string { return footNames[f] }

// Attribute is a quality of a player, given as a percentile among players of
// his position at his level.
type Attribute uint8

// The attributes.
const (
	ShortPassing Attribute = iota
	LongPassing
	Crossing
	FirstTouch
	Carrying
	TakeOn
	Finishing
	Decisions
	Composure
	Pace
	Acceleration
	Pressing
	Tackling
	Interception
	Positioning
	Aerial
	Distribution
	Sweeping
	ShotStopping
	NumAttributes
)

var attributeNames = [NumAttributes]string{
	"short_passing", "long_passing", "crossing", "first_touch", "carrying", "take_on", "finishing",
	"decisions", "composure", "pace", "acceleration", "pressing", "tackling",
	"interception", "positioning", "aerial", "distribution", "sweeping", "shot_stopping",
}

func (a Attribute) String() string { return attributeNames[a] }

// AttributeNamed finds an attribute by its name in scenario files.
func AttributeNamed(name string) (Attribute, bool) {
	for a, n := range attributeNames {
		if n == name {
			return Attribute(a), true
		}
	}
	return 0, false
}

// AveragePercentile is the percentile of the median player: the league average.
const AveragePercentile = 50

// Player is one of eleven: a position, behaviours and percentiles.
type Player struct {
	Number     int    // shirt number, 1 to 99, unique in the team
	Name       string // may be empty
	Position   Position
	Foot       Foot
	Behaviour  Behaviour              // what he does off the ball when his team has it
	Percentile [NumAttributes]float64 // 0 to 100

	TopSpeed  float64 // m/s; 0: from the pace percentile
	PeakAccel float64 // m/s^2; 0: from the acceleration percentile
}

// AveragePlayer is a player with every attribute at the 50th percentile.
func AveragePlayer(number int, pos Position) Player {
	p := Player{Number: number, Position: pos, Foot: pos.usualFoot(), Behaviour: pos.usualBehaviour()}
	for a := range p.Percentile {
		p.Percentile[a] = AveragePercentile
	}
	return p
}
