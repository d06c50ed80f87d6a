// Package terms holds the words of the trade for the keys of the scenario and of
// the engine, for everything that people read.
package terms

import (
	"playout/model"
	"playout/sim"
)

// Lanes are the names of lanes, by their keys.
var Lanes = map[string]string{
	model.LeftWing.String():       "left wing",
	model.LeftHalfSpace.String():  "left half-space",
	model.Centre.String():         "centre",
	model.RightHalfSpace.String(): "right half-space",
	model.RightWing.String():      "right wing",
}

// Thirds are the names of thirds, by their keys.
var Thirds = map[string]string{
	model.OwnThird.String():    "own third",
	model.MiddleThird.String(): "middle third",
	model.FinalThird.String():  "final third",
}

// Ends say how a possession ended, by the keys of the ends.
var Ends = map[string]string{
	sim.EndIntercepted.String():   "intercepted",
	sim.EndTackled.String():       "lost in a tackle",
	sim.EndAerial.String():        "lost in the air",
	sim.EndMiscontrol.String():    "bad touch",
	sim.EndOffside.String():       "offside",
	sim.EndFoulCommitted.String(): "foul given away",
	sim.EndOutTheirs.String():     "out, their restart",
	sim.EndOutOurs.String():       "out, own restart",
	sim.EndFoulWon.String():       "foul won",
	sim.EndShot.String():          "shot",
	sim.EndStalled.String():       "stalled",
}

// EndNouns name an end inside a sentence.
var EndNouns = map[string]string{
	sim.EndIntercepted.String():   "an interception",
	sim.EndTackled.String():       "a lost tackle",
	sim.EndAerial.String():        "a duel lost in the air",
	sim.EndMiscontrol.String():    "a bad touch",
	sim.EndOffside.String():       "offside",
	sim.EndFoulCommitted.String(): "a foul given away",
	sim.EndOutTheirs.String():     "the ball out of play for the opponent",
	sim.EndOutOurs.String():       "the ball out of play for an own restart",
	sim.EndFoulWon.String():       "a foul won",
	sim.EndShot.String():          "a shot",
	sim.EndStalled.String():       "time running out",
}
