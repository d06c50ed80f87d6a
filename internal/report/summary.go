package report

import (
	"playout/model"
	"playout/sim"
)

// Summary is everything a run found, in the order in which it is written as
// JSON and CSV. Keys are stable: fields may be added, but none is renamed or
// changes its meaning. Every rate is a share (0 to 1) of `of`, with the bounds
// of its 95 % interval in low and high; a figure without any case is null.
// Units are in the names: _s seconds, _m metres, _per_100 per 100 build-ups.
type Summary struct {
	Scenario         string   `json:"scenario"`          // title
	Seed             uint64   `json:"seed"`              // may exceed 2^53
	Possessions      int64    `json:"possessions"`       // played
	Asked            int64    `json:"asked"`             // to be played
	Partial          bool     `json:"partial"`           // interrupted; figures hold for what was played
	Precision        Number   `json:"precision"`         // half-width asked for, null when none was
	PrecisionReached bool     `json:"precision_reached"` // false also when none was asked for
	Version          string   `json:"version"`           // of the program
	Revision         int      `json:"revision"`          // of the engine; raised when results change
	TickS            Number   `json:"tick_s"`            // step of the simulation
	Answer           []string `json:"answer"`            // in plain English
	Notes            []string `json:"notes"`             // doubts, precision, limits

	Rates Object[Rate] `json:"rates"` // of possessions: how far they got and what went wrong
	Means Object[Mean] `json:"means"`

	ParameterDoubt ParameterDoubt `json:"parameter_doubt"` // intervals that also cover not knowing the parameters

	StartsByThird       Object[Rate]            `json:"starts_by_third"`
	EntriesByLane       Object[Rate]            `json:"entries_by_lane"` // of controlled entries
	EntriesByMethod     Object[Rate]            `json:"entries_by_method"`
	EntriesByLaneMethod Object[Object[Rate]]    `json:"entries_by_lane_and_method"`
	ChancesByLane       Object[LaneChance]      `json:"chances_by_lane"`      // lane of the entry
	ChancesByLastLane   Object[Chance]          `json:"chances_by_last_lane"` // lane of the last action before the shot
	ShotsBySource       Object[Chance]          `json:"shots_by_source"`
	Passing             Passing                 `json:"passing"`
	Ends                Object[EndRate]         `json:"ends"`
	LossesByZone        Object[Object[Rate]]    `json:"losses_by_zone"`        // third, then lane; of possessions
	LossesUnderPressure Rate                    `json:"losses_under_pressure"` // of turnovers
	LossesByPlayer      []PlayerRate            `json:"losses_by_player"`      // of turnovers
	RestDefence         Object[RestDefence]     `json:"rest_defence"`          // by third of the loss
	AfterLoss           AfterLoss               `json:"after_loss"`            // what the losses cost
	Block               Block                   `json:"block"`
	Overloads           Object[Object[Surplus]] `json:"overloads"` // kind, then lane
	Switches            Switches                `json:"switches"`
	BuildUp             BuildUp                 `json:"build_up"`
}

// Run is what a summary states about a run besides its result.
type Run struct {
	Precision float64 // half-width asked for; 0: none
	Version   string
	Revision  int
}

// Summarise computes the figures of a result. The scenario is the one that was
// run, with the seed that was used.
func Summarise(sc *model.Scenario, r *sim.Result, run Run) *Summary {
	t := &r.Tally
	s := &Summary{
		Scenario:         clean(sc.Title),
		Seed:             sc.Seed,
		Possessions:      int64(r.Played),
		Asked:            int64(r.Asked),
		Partial:          r.Partial(),
		Precision:        missing,
		PrecisionReached: r.Reached,
		Version:          run.Version,
		Revision:         run.Revision,
		TickS:            Number(sim.TickSeconds),
	}
	if run.Precision > 0 {
		s.Precision = Number(run.Precision)
	}
	s.ParameterDoubt = doubt(r)
	s.progress(t)
	s.chances(t)
	s.losses(t, sc.Teams[model.Attack].Players)
	s.AfterLoss = afterLoss(t, sc.AfterLoss)
	s.Block = blockFigures(t, sc.Teams[model.Defence].Players)
	s.Overloads = overloads(t)
	s.Switches = switches(t)
	s.BuildUp = buildUp(&r.BuildUp)
	s.Answer = answer(s)
	s.Notes = notes(s)
	return s
}
