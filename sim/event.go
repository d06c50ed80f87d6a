package sim

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

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
	Near   float64 // distance of the nearest opponent, m: pass, receive, shot, loose, end
	End    End     // EventEnd, EventAfterEnd

	Pass    PassKind // of a pass: ground, high or cross
	Back    bool     // the pass is a cut-back
	Inner   bool     // the cross was played with the foot nearer to the goal, by the wing's inverted player
	Header  bool     // pass, shot: played with the head
	Closest float64  // how near an opponent has been in this spell on the ball, m
	Path    float64  // how far the player has moved in this spell, m
	Line    float64  // height of the opponent's last line above his goal line, m

	OnRun bool          // the man a pass is meant for, or who receives it, is on a run
	Run   model.RunKind // which, when OnRun
}

// annotate adds to an event what the tracker knows of the spell it ends.
func (t *tracker) annotate(w *world, e *Event) {
	e.Closest, e.Path = t.closest, t.path
	e.Line = w.halfL - w.att.last
	switch e.Kind {
	case EventPass:
		e.Pass, e.Back, e.Inner = t.passKind, t.passCut, t.passIn
		e.Header = t.high && w.tick == w.since
		if r := &w.runs[w.fly.aim]; r.until > w.tick {
			e.OnRun, e.Run = true, r.kind
		}
	case EventReceive:
		if w.fly.pass && t.runTick == w.tick {
			e.OnRun, e.Run = true, t.runKind
		}
	case EventShot:
		e.Header = t.high && w.tick == w.since
	case EventLoose, EventEnd:
		e.Near = w.gapTo
	}
}
