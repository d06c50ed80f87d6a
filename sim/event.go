package sim

import "gonum.org/v1/gonum/spatial/r2"

// EventKind is what happened.
type EventKind uint8

// Events of a possession.
const (
	EventStart EventKind = iota
	EventPass            // played; Success is the chance the engine gave it when it left the foot
	EventReceive
	EventCarry
	EventTakeOn
	EventJump // a defender leaves his slot to press
	EventDuel
	EventLoose
	EventShot
	EventEnd
	EventTakeOver // after EventEnd: the opponent has the ball and what he makes of it is played
	EventAfterEnd // the end of that; End tells how, for the opponent
	NumEvents
)

var eventNames = [NumEvents]string{
	"start", "pass", "receive", "carry", "take_on", "jump", "duel", "loose_ball", "shot", "end", "take_over", "after_end",
}

func (k EventKind) String() string { return eventNames[k] }

// Event is one line of a possession's history. Places are metres in the frame
// of the team that started with the ball.
type Event struct {
	Tick   int
	Kind   EventKind
	Team   int // 0 attack, 1 defence
	Player int // index in the team; -1: nobody
	Other  int // receiver aimed at, opponent in a duel; -1: nobody
	Flight FlightKind
	From   r2.Vec
	To     r2.Vec
	Chance float64 // of success when chosen; xG of a shot
	Near   float64 // distance of the nearest opponent, m: pass, receive, shot
	End    End     // EventEnd, EventAfterEnd
}
