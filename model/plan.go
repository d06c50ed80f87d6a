package model

// Plan tilts the choices of the team on the ball. The zero value of a tilt is
// not neutral; use DefaultPlan.
type Plan struct {
	// Lane multiplies the odds of playing or carrying the ball into a lane.
	Lane [NumLanes]float64
	// Tempo is the typical time on the ball before it is released, s.
	Tempo float64
	// Risk scales how little a loss of the ball is feared: 0 most careful,
	// 0.5 as the numbers say, 1 a loss counts for nothing.
	Risk float64
	// Switching multiplies the odds of a pass that goes 30 m or more across.
	Switching float64
	// Directness multiplies the odds of an action for every 20 m it gains.
	Directness float64
	// Find lists shirt numbers to look for: passes to them have doubled odds.
	Find []int
}

// AverageTempo is the mean time on the ball after a pass, s. Source: movement
// tables (SkillCorner open data, MIT): mean 1.5 s, median 1.1 s.
const AverageTempo = 1.5

// SwitchWidth is how far across the pitch the ball goes in a switch of play at the
// least, m: in one pass, or in a chain of passes. A cross is no switch, however far it
// goes: it is played into the box, not to the side the block has left. Source: the
// definition of the reference table of switches.
const SwitchWidth = 30.0

// DefaultPlan tilts nothing.
func DefaultPlan() Plan {
	return Plan{Lane: [NumLanes]float64{1, 1, 1, 1, 1}, Tempo: AverageTempo, Risk: 0.5, Switching: 1, Directness: 1}
}

// RunKind is a run off the ball.
type RunKind uint8

// Runs.
const (
	Overlap  RunKind = iota // past the carrier on the touchline side
	Underlap                // past the carrier on the inside
	InBehind                // beyond the last line
	ThirdMan                // ahead of a lay-off: found by the receiver, not by the passer
	NumRuns
)

var runNames = [NumRuns]string{"overlap", "underlap", "in_behind", "third_man"}

func (r RunKind) String() string { return runNames[r] }

// Run is a run with its trigger. An empty set of a trigger means any.
type Run struct {
	Kind   RunKind
	Player int             // shirt number of the runner
	With   []int           // shirt numbers: one of them has the ball
	Lane   [NumLanes]bool  // the ball is in one of these; none set: any
	Third  [NumThirds]bool // the ball is in one of these; none set: any
	Chance float64         // of going each time the trigger comes up, 0 to 1
}
