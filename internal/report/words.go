package report

import (
	"playout/internal/terms"
	"playout/sim"
)

// The words of the tables for the keys of the scenario and of the engine. Those that
// others speak too are in package terms.

var (
	laneWords  = terms.Lanes
	thirdWords = terms.Thirds
	endWords   = terms.Ends
	endNouns   = terms.EndNouns
)

var stepWords = map[string]string{
	"own_third_exit":      "out of the own third",
	"halfway":             "over halfway",
	"final_third_entry":   "final third, under control",
	"final_third_reached": "final third reached",
	"box_entry":           "penalty area",
	"shot":                "shot",
	"goal":                "goal",
	"turnover":            "ball lost",
	"stalled":             "stalled (time ran out)",
	"forced_back":         "forced back 10 m or more",
}

var meanWords = map[string]string{
	"entry_s":          "to the controlled entry: seconds",
	"entry_passes":     "to the controlled entry: passes",
	"duration_s":       "whole build-up: seconds",
	"active_s":         "to its last action: seconds",
	"passes":           "passes completed",
	"passes_attempted": "passes attempted",
	"xg":               "expected goals",
}

var widthWords = map[string]string{
	sim.MiddleWidth.String(): "middle",
	sim.OuterWidth.String():  "outside",
}

var takeoverWords = map[string]string{
	sim.WonInPlay.String():  "won in play",
	sim.ByThrowIn.String():  "throw-in",
	sim.ByFreeKick.String(): "free kick",
	sim.ByGoalKick.String(): "goal kick",
	sim.BySetPlay.String():  "corner or set play near goal, not played",
}

var methodWords = map[string]string{
	sim.ByGroundPass.String():  "ground pass",
	sim.ByLoftedPass.String():  "lofted pass",
	sim.BySwitch.String():      "switch of play",
	sim.ByCarry.String():       "carry",
	sim.ByRunInBehind.String(): "run in behind",
	sim.ByLooseBall.String():   "loose ball",
}

var sourceWords = map[string]string{
	sim.FromOverlap.String():     "overlap",
	sim.FromUnderlap.String():    "underlap",
	sim.FromCutBack.String():     "cut-back",
	sim.FromLowCross.String():    "low cross",
	sim.FromInswinger.String():   "high cross, in-swinging",
	sim.FromOutswinger.String():  "high cross, out-swinging",
	sim.FromThroughBall.String(): "through ball",
	sim.FromCarry.String():       "after a carry",
	sim.FromRange.String():       "from range",
	sim.FromOther.String():       "other",
}

var passKindWords = map[string]string{
	sim.GroundPass.String(): "ground passes",
	sim.HighPass.String():   "high passes",
	sim.Cross.String():      "crosses",
}

var verdictWords = map[string]string{
	sim.SwitchProgressed.String(): "progressed",
	sim.SwitchForcedBack.String(): "forced back",
	sim.SwitchLost.String():       "lost",
	sim.SwitchHeld.String():       "held",
}
