package replay

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/plain"
	"playout/internal/terms"
	"playout/model"
	"playout/sim"
)

// Story is a filmed possession ready to be told.
type Story struct {
	Scenario *model.Scenario
	Film     *sim.Film
	Title    string // of the scenario, safe to show
	Version  string // of the program
	Steps    []Step // one for each event, in order; a carry that goes on is one

	// Reel is the film as it is shown: the frames in order, with the last one before
	// a restart and the very last one held, so that the eye can follow. The clock of a
	// held frame stands still.
	Reel []sim.Frame
}

// Step is one event of the story.
type Step struct {
	sim.Event
	Frame int          // index in Reel
	Place string       // third and lane, as the side that started sees them
	What  string       // the event in a sentence
	Left  []sim.Option // passes forward he left: see leftOpen
}

// Holds, in frames of 0.1 s.
const (
	holdRestart = 10
	holdEnd     = 20
)

// New makes the story of a film. The scenario is the one that was filmed.
func New(sc *model.Scenario, film *sim.Film, version string) *Story {
	st := &Story{Scenario: sc, Film: film, Title: plain.Clean(sc.Title), Version: version}
	if st.Title == "" {
		st.Title = "Untitled scenario"
	}
	restart := st.unreel()
	shift := 0
	for i := range film.Events {
		e := film.Events[i]
		if e.Kind == sim.EventTakeOver && restart {
			shift = holdRestart
		}
		if goesOn(film.Events[:i+1]) {
			continue
		}
		s := Step{Event: e, Frame: e.Tick + shift, Place: place(sc.Pitch, e.From)}
		s.Left = leftOpen(film.DecisionOf(&e), sign(e.Team))
		st.Steps = append(st.Steps, s)
	}
	for i := range st.Steps {
		st.Steps[i].What = capital(st.sentence(i))
	}
	return st
}

// goesOn reports whether the last of the events continues the carry before it.
func goesOn(events []sim.Event) bool {
	n := len(events) - 1
	return n > 0 && events[n].Kind == sim.EventCarry && events[n-1].Kind == sim.EventCarry &&
		events[n].Team == events[n-1].Team && events[n].Player == events[n-1].Player
}

// unreel fills the reel and reports whether a lost ball was brought back by a
// restart.
func (st *Story) unreel() (restart bool) {
	frames := st.Film.Frames
	for i, f := range frames {
		if f.Cut && i > 0 {
			restart = true
			held := frames[i-1]
			held.Tick, held.Height, held.Carrier = i, 0, -1
			for _, e := range st.Film.Events {
				if e.Kind == sim.EventEnd {
					held.Ball = e.From
				}
			}
			st.Reel = append(st.Reel, slices.Repeat([]sim.Frame{held}, holdRestart)...)
		}
		st.Reel = append(st.Reel, f)
	}
	last := st.Reel[len(st.Reel)-1]
	last.Cut = false
	st.Reel = append(st.Reel, slices.Repeat([]sim.Frame{last}, holdEnd)...)
	return restart
}

// Seconds is the clock of a step, s.
func (s *Step) Seconds() float64 { return float64(s.Tick) * sim.TickSeconds }

// Up and Across say where a place is, in whole metres from the goal line and from
// the left touchline of the side that started.
func Up(f model.Pitch, p r2.Vec) int     { return int(math.Round(p.X + f.Length/2)) }
func Across(f model.Pitch, p r2.Vec) int { return int(math.Round(f.Width/2 - p.Y)) }

// place is a place in the words of the trade.
func place(f model.Pitch, p r2.Vec) string {
	return terms.Thirds[f.ThirdOf(p.X).String()] + ", " + terms.Lanes[model.LaneOf(p.Y).String()]
}

// sign is +1 for the team that attacks +x and -1 for the other.
func sign(team int) float64 { return 1 - 2*float64(team) }

// A pass forward was left open when it would have won this much ground, m, with at
// least this chance, and went to another man. Common practice, no source.
const (
	openGain   = 5.0
	openChance = 0.6
	openMost   = 2
)

// leftOpen lists the passes forward that the carrier could have played and did not,
// the most promising first: at most one to each team-mate.
func leftOpen(d *sim.Decision, s float64) []sim.Option {
	if d == nil {
		return nil
	}
	taken := d.Options[d.Taken]
	if taken.Act != sim.ActPass && taken.Act != sim.ActShot {
		return nil
	}
	var open []sim.Option
	for _, o := range d.Options {
		if o.Act == sim.ActPass && o.Player != taken.Player && o.Chance >= openChance && s*(o.To.X-d.From.X) >= openGain {
			open = append(open, o)
		}
	}
	slices.SortStableFunc(open, func(a, b sim.Option) int {
		switch x, y := a.Chance*a.Worth, b.Chance*b.Worth; {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	var best []sim.Option
	for _, o := range open {
		if len(best) < openMost && !slices.ContainsFunc(best, func(b sim.Option) bool { return b.Player == o.Player }) {
			best = append(best, o)
		}
	}
	return best
}
