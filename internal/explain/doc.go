// Package explain says why build-ups fail and what works.
//
// Collect films possessions (sim.Record) and reads a compact record off each film.
// A Story is the record of a whole possession: its spells on the ball, how far it
// got, what came of it, the cause of its failure (classify in cause.go) and the
// moment that decided it. Causes, Factors, FlowOf and TypicalOf work on stories. A
// Race (race.go) is one contest of the ball against the block: a switch, a run
// found, a pass into the centre, a press; Change looks for the value of the scenario
// at which half of these races are won.
//
// Everything is read off the film, so what is said here is what playout replay shows.
// Places are metres in the frame of the team that starts with the ball, times ticks
// of sim.TickSeconds unless said otherwise.
package explain
