package model

// BehaviourKind is what a player does off the ball when his team has it.
type BehaviourKind uint8

// Behaviours.
const (
	HoldAnchor   BehaviourKind = iota // stays at his anchor
	OfferAngle                        // leaves it by a few metres to be free for a pass
	BetweenLines                      // looks for room between the block's midfield and last line
	Pin                               // stands so that a line, or one opponent, cannot leave
	Support                           // stays near and behind the ball, a way out
	RestDefence                       // guards against the counter-attack; offers the way back
	NumBehaviours
)

var behaviourNames = [NumBehaviours]string{"hold", "offer", "between_lines", "pin", "support", "rest_defence"}

func (b BehaviourKind) String() string { return behaviourNames[b] }

// BlockLine names a line of the block a player may pin.
type BlockLine uint8

// Lines of a block.
const (
	LastLine BlockLine = iota
	MidfieldLine
	NumBlockLines
)

var blockLineNames = [NumBlockLines]string{"last_line", "midfield_line"}

func (l BlockLine) String() string { return blockLineNames[l] }

// Behaviour is a kind with its object.
type Behaviour struct {
	Kind     BehaviourKind
	Line     BlockLine // Pin: the line to pin when Opponent is 0
	Opponent int       // Pin: shirt number of the opponent to pin; 0: the line
}
