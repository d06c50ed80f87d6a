package sim

import "gonum.org/v1/gonum/spatial/r2"

import "playout/model"

// End is how a possession ended.
type End uint8

// Ends. The first seven are losses of the ball; a possession that ends by a
// foul won, for an own restart, with a shot or with the clock is not lost.
const (
	EndIntercepted   End = iota // a pass or loose ball was controlled by an opponent
	EndTackled                  // lost in a ground duel
	EndAerial                   // lost in an aerial duel
	EndMiscontrol               // a touch got away and an opponent had it
	EndOffside                  // Law 11
	EndFoulCommitted            // foul by the team on the ball
	EndOutTheirs                // out of play, restart for the opponent
	EndOutOurs                  // out of play off an opponent, own restart
	EndFoulWon                  // foul by the opponent
	EndShot                     // a shot, whatever came of it
	EndStalled                  // the clock of the scenario ran out
	NumEnds
)

var endNames = [NumEnds]string{
	"intercepted", "tackled", "aerial_duel", "miscontrol", "offside", "foul_committed",
	"out_opponent_restart", "out_own_restart", "foul_won", "shot", "stalled",
}

func (e End) String() string { return endNames[e] }

// Lost reports whether the end is a turnover: the opponent has the ball or its restart.
func (e End) Lost() bool { return e <= EndOutTheirs }

// Method is how a possession entered the final third.
type Method uint8

// Methods of entry.
const (
	ByGroundPass Method = iota
	ByLoftedPass
	BySwitch
	ByCarry
	ByRunInBehind // a pass to a player who is running beyond the last line
	ByLooseBall
	NumMethods
)

var methodNames = [NumMethods]string{"ground_pass", "lofted_pass", "switch", "carry", "run_in_behind", "loose_ball"}

func (m Method) String() string { return methodNames[m] }

// Source is what a shot came from.
type Source uint8

// Sources of shots.
const (
	FromOverlap Source = iota
	FromUnderlap
	FromCutBack
	FromLowCross
	FromInswinger
	FromOutswinger
	FromThroughBall
	FromCarry
	FromRange // from beyond the penalty area without any of the above
	FromOther
	NumSources
)

var sourceNames = [NumSources]string{
	"overlap", "underlap", "cut_back", "low_cross", "high_cross_inswinging", "high_cross_outswinging",
	"through_ball", "carry", "range", "other",
}

func (s Source) String() string { return sourceNames[s] }

// Verdict is what came of a switch of play within ten seconds.
type Verdict uint8

// Verdicts of a switch.
const (
	SwitchProgressed Verdict = iota
	SwitchForcedBack
	SwitchLost
	SwitchHeld
	NumVerdicts
)

var verdictNames = [NumVerdicts]string{"progressed", "forced_back", "lost", "held"}

func (v Verdict) String() string { return verdictNames[v] }

// SwitchKind tells a switch by one pass from a switch by a chain of passes.
type SwitchKind uint8

// Kinds of switch.
const (
	SinglePass SwitchKind = iota
	PassChain
	NumSwitchKinds
)

var switchKindNames = [NumSwitchKinds]string{"single_pass", "chain"}

func (k SwitchKind) String() string { return switchKindNames[k] }

// PassKind sorts passes as the reference tables do.
type PassKind uint8

// Kinds of pass.
const (
	GroundPass PassKind = iota
	HighPass
	Cross
	NumPassKinds
)

var passKindNames = [NumPassKinds]string{"ground", "high", "cross"}

func (k PassKind) String() string { return passKindNames[k] }

// Overload is a local surplus of attackers.
type Overload uint8

// Overloads counted.
const (
	TwoOnOne Overload = iota
	ThreeOnTwo
	NumOverloads
)

var overloadNames = [NumOverloads]string{"2v1", "3v2"}

func (o Overload) String() string { return overloadNames[o] }

// Possession is the summary of one possession, in the frame of the team that
// started with the ball. Times are in ticks of TickSeconds.
type Possession struct {
	ID    int
	End   End
	Place r2.Vec  // where it ended, m
	Loser int     // index of the player who lost it, -1 if nobody did
	Under float64 // pressure on him at that moment, 0 to 1

	Start      r2.Vec // where it began, m
	Ticks      int    // to the end
	LastAction int    // tick of the last own action

	Attempted [NumPassKinds]int
	Completed [NumPassKinds]int
	OwnHalf   int // completed passes that started and ended in the own half
	Inswing   int // crosses attempted that swing in: the strong foot is the one nearer to the goal

	Runs      [model.NumRuns]int // runs off the ball that set out
	RunsFound [model.NumRuns]int // of these, found by a completed pass

	// Zones. Reached follows the reference tables (an own action begins there or
	// a completed pass ends there); Controlled needs 1 s or a next own action.
	ExitOwnThird bool
	Halfway      bool
	FinalReached bool
	FinalThird   bool // controlled entry
	Box          bool
	Entry        Entry // of the final third, valid when FinalThird
	Reach        Entry // first reach, valid when FinalReached

	Shot   bool
	Goal   bool
	XG     float64
	Chance float64 // of a goal from that shot, with the shooter's finishing and the keeper
	ShotAt r2.Vec
	Source Source
	Before model.Lane // lane of the last pass, carry or cross before the shot

	ForcedBack bool
	Switches   [NumSwitchKinds][NumVerdicts]int
	SwitchRace [2]int // switches whose receiver was reached within 3 s by a defender closer than 3 m: yes, no

	Overloads    [NumOverloads][model.NumLanes]int // how often one arose
	OverloadsFor [NumOverloads][model.NumLanes]int // ticks until help came or it was over, 5 s at most
	OverloadsWon [NumOverloads][model.NumLanes]int // of these, carried or passed beyond within 5 s
	RestDefence  int                               // outfield team-mates goal-side of the ball at the loss
	AgainstRest  int                               // opponents ahead of the ball at the loss
	DefActions   int                               // tackles, interceptions, challenges and fouls of the block
	BlockSample  BlockSample
	Shape        Shape // only for an Observer

	After After // what the opponent made of the ball
}

// Entry is the first entry to the final third.
type Entry struct {
	Tick   int
	Passes int // completed before it
	Lane   model.Lane
	Method Method
	Way    Way
}

// Way is how the reference tables sort entries.
type Way uint8

// Ways of entry.
const (
	WayGround Way = iota
	WayHigh
	WayCarryOrLoose
	NumWays
)

var wayNames = [NumWays]string{"ground_pass", "high_pass", "carry_or_loose"}

func (y Way) String() string { return wayNames[y] }

// lineBands are 10 m bands of the ball's distance from the defended goal line.
const lineBands = 12

// BandSum is a sum over the samples that fall in a band.
type BandSum struct{ N, X int64 }

// speedCuts part the speeds of players, m/s: the zones of the movement tables.
var speedCuts = [...]float64{2, 4, 5.5, 7}

// BlockSample sums what the block did over the ticks of a possession.
// Distances are in cm so that sums are exact integers.
type BlockSample struct {
	Ticks    int // ticks with the ball in play
	Pressing int // of these, the stance was to press
	GapN     int
	Gap      int64                     // last line to midfield line, cm
	Midfield int64                     // height of the midfield line, over GapN, cm
	Width    int64                     // cm, over Ticks
	Length   int64                     // cm, over Ticks
	LagEC    int64                     // cm x cm/s: offset from where the block wants to be times its lateral speed
	LagCC    int64                     // (cm/s)^2
	Line     [lineBands]BandSum        // height of the last line by distance of the ball, cm
	Speed    [len(speedCuts) + 1]int64 // player-samples by speed, both teams
	Jumps    int
	Jumped   [11]int  // by player of the defending team
	JumpWon  int      // ball won within 5 s of a jump
	Pinned   int      // player-ticks of defenders held by an opponent in their zone
	Pressure struct { // at receptions: ticks until a defender is within 2 m
		N       int
		Ticks   int64
		Pressed int // a defender came within 2 m
	}
}
