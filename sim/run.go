package sim

import (
	"context"
	"errors"

	"playout/model"
)

// Config says how a run is carried out; it never changes what comes out, save
// for Precision.
type Config struct {
	// Workers is the number of goroutines; 0: one for each processor.
	Workers int
	// Precision, when positive, stops the run once the half-width of the 95 %
	// interval of the final-third rate is at most this. It is judged after
	// every CheckEvery possessions in order, so the result does not depend on
	// Workers.
	Precision float64
	// Progress, when set, is told how many possessions are done. It is called
	// from one goroutine.
	Progress func(done, of int)
	// Observer, when set, is handed every possession with its events, in order
	// of ID, from one goroutine.
	Observer Observer
}

// CheckEvery is the number of possessions between looks at the precision.
const CheckEvery = 1000

// Result is what a run found.
type Result struct {
	Asked   int  // possessions asked for
	Played  int  // possessions played
	Reached bool // stopped because the precision was reached
	Tally   Tally
	BuildUp Tally // of the possessions that pass the filter of the reference tables
}

// Partial reports whether the run was cut short.
func (r *Result) Partial() bool { return r.Played < r.Asked && !r.Reached }

// Observer is handed the possessions of a run.
type Observer interface {
	Possession(p *Possession, events []Event)
}

var errTODO = errors.New("sim: not yet")

// Run plays the scenario's possessions. It returns what was played so far
// together with the context's error when the context ends first. The scenario
// must be valid (Scenario.Validate) and must not change during the run.
func Run(ctx context.Context, sc *model.Scenario, cfg Config) (*Result, error) {
	return nil, errTODO
}
