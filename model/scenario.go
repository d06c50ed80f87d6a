package model

import "gonum.org/v1/gonum/spatial/r2"

// Side says which of the two teams.
type Side uint8

// The two teams of a scenario.
const (
	Attack  Side = iota // starts with the ball; its build-up is tested
	Defence             // starts in its block
)

// Team is eleven players with what they do with and without the ball.
type Team struct {
	Name      string
	Players   []Player // eleven; the keeper first
	Structure Structure
	Block     Block
	Plan      Plan
	Runs      []Run
}

// StartKind is how a possession begins.
type StartKind uint8

// Starts.
const (
	FromMix        StartKind = iota // the mix of starts measured for build-up possessions
	FromGoalKick                    // short goal kick
	FromKeeper                      // keeper with the ball in his hands or at his feet
	FromCentreBack                  // a centre-back on the ball
	FromSettled                     // a settled restart at a given place
	FromRegain                      // the ball has just been won in the own third; the opponent counter-presses
	NumStarts
)

var startNames = [NumStarts]string{"mix", "goal_kick", "keeper", "centre_back", "settled", "regain"}

func (s StartKind) String() string { return startNames[s] }

// Start is where and with whom a possession begins.
type Start struct {
	Kind   StartKind
	Player int    // shirt number on the ball; 0: whoever stands nearest
	Ball   r2.Vec // FromSettled: place of the ball, own frame of the attack
}

// Scenario is the whole question put to the engine.
type Scenario struct {
	Title       string
	Pitch       Pitch
	Teams       [2]Team // by Side
	Start       Start
	Possessions int     // how many to play
	Seed        uint64  // names the luck
	Clock       float64 // s; a possession that lasts longer has stalled
	AfterLoss   float64 // s of the opponent's attack played after a loss; 0: none
}

// Limits and defaults of a run.
const (
	DefaultPossessions = 10000
	MaxPossessions     = 100_000_000
	DefaultClock       = 90.0 // s; 95 % of build-up possessions are over in 52 s (Pappalardo et al. 2019)
	MinClock           = 5.0
	MaxClock           = 600.0
	DefaultAfterLoss   = 12.0 // s; common practice, no source: a counter-attack is over or stopped by then
	MaxAfterLoss       = 30.0
	DefaultShape       = "4-1-2-3"
	DefaultBlockShape  = "4-4-2"
)

// AverageTeam is eleven league-average players in a 4-3-3 on the ball and a
// 4-4-2 mid block off it.
func AverageTeam(name string, pitch Pitch) Team {
	t := Team{Name: name, Plan: DefaultPlan()}
	for i, pos := range DefaultPositions {
		t.Players = append(t.Players, AveragePlayer(i+1, pos))
	}
	shape, _ := ParseShape(DefaultShape)
	t.Structure.BallSide = 0.15
	for ph := BuildUp; ph < NumPhases; ph++ {
		t.Structure.SetShape(ph, shape, t.Players, pitch)
	}
	blockShape, _ := ParseShape(DefaultBlockShape)
	t.Block = AverageBlock(blockShape)
	t.Block.SetSlots(t.Players)
	t.Runs = DefaultRuns(t.Players)
	return t
}

// AverageScenario is two league-average teams.
func AverageScenario() Scenario {
	return Scenario{
		Title: "League average",
		Pitch: DefaultPitch,
		Teams: [2]Team{AverageTeam("Attack", DefaultPitch), AverageTeam("Defence", DefaultPitch)},
		Start: Start{Kind: FromMix}, Possessions: DefaultPossessions, Seed: 1, Clock: DefaultClock, AfterLoss: DefaultAfterLoss,
	}
}

// DefaultRuns are the runs of a team that declares none: forwards and wide
// midfielders go in behind, full-backs overlap, midfielders run as third men.
// Common practice, no source; how often is set by the run figures of the
// movement tables (about 480 logged runs a match, both teams).
func DefaultRuns(players []Player) []Run {
	var runs []Run
	for _, p := range players {
		switch p.Position {
		case LW, RW, LCF, CF, RCF:
			runs = append(runs, Run{Kind: InBehind, Player: p.Number, Chance: 0.25})
		case LM, RM, LAM, CAM, RAM:
			runs = append(runs, Run{Kind: InBehind, Player: p.Number, Chance: 0.15})
		case LB, RB:
			runs = append(runs, Run{Kind: Overlap, Player: p.Number, Third: [NumThirds]bool{MiddleThird: true, FinalThird: true}, Chance: 0.2})
		case LCM, CM, RCM:
			runs = append(runs, Run{Kind: ThirdMan, Player: p.Number, Chance: 0.15})
		}
	}
	return runs
}
