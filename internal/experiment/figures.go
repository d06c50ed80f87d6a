package experiment

import (
	"fmt"
	"strings"

	"playout/model"
	"playout/sim"
)

// Figure is a figure of one possession whose mean over possessions is reported.
type Figure struct {
	Name     string // stable; lower case
	Label    string // for people
	Unit     string // of 100 possessions
	Of       func(*Outcome) float64
	Sense    int  // +1: more is better for the side on the ball, -1: less is, 0: neither
	Rate     bool // 0 or 1 for every possession
	Decimals int  // that a figure per 100 possessions deserves
}

// Headline are the figures of the whole possession that experiments report.
var Headline = []Figure{
	yes("final_third", "final third, under control", FinalThird, +1),
	yes("exit_own_third", "out of the own third", ExitOwnThird, +1),
	yes("halfway", "over halfway", Halfway, +1),
	yes("box", "penalty area", Box, +1),
	yes("shot", "shot", Shot, +1),
	yes("goal", "goal", Goal, +1),
	{Name: "lost", Label: "ball lost", Unit: perHundred, Of: lost, Sense: -1, Rate: true, Decimals: 1},
	yes("forced_back", "forced back 10 m or more", ForcedBack, -1),
	{Name: "stalled", Label: "stalled (time ran out)", Unit: perHundred, Of: stalled, Sense: -1, Rate: true, Decimals: 1},
	expectedGoals,
	yes("shots_against", "shot against after a loss", ShotAgainst, -1),
	{Name: "xg_against", Label: "xG against after a loss", Unit: xgPerHundred, Of: xgAgainst, Sense: -1, Decimals: 2},
	{Name: "net_xg", Label: "xG for minus xG against", Unit: xgPerHundred, Of: netXG, Sense: +1, Decimals: 2},
}

var expectedGoals = Figure{Name: "xg", Label: "xG (expected goals)", Unit: xgPerHundred, Of: xg, Sense: +1, Decimals: 2}

const (
	perHundred   = "per 100 build-ups"
	xgPerHundred = "xG per 100 build-ups"
)

// Switching are the figures of switches of play, by one pass or by a chain of
// passes, and what came of them within ten seconds.
var Switching = []Figure{
	{Name: "switches", Label: "switches of play", Unit: perHundred, Of: switches(sim.SwitchProgressed, sim.SwitchForcedBack, sim.SwitchLost, sim.SwitchHeld), Decimals: 1},
	{Name: "switches/progressed", Label: "switches that progress", Unit: perHundred, Of: switches(sim.SwitchProgressed), Sense: +1, Decimals: 1},
	{Name: "switches/forced_back", Label: "switches forced back", Unit: perHundred, Of: switches(sim.SwitchForcedBack), Sense: -1, Decimals: 1},
	{Name: "switches/lost", Label: "switches lost", Unit: perHundred, Of: switches(sim.SwitchLost), Sense: -1, Decimals: 1},
	{Name: "switches/held", Label: "switches held", Unit: perHundred, Of: switches(sim.SwitchHeld), Decimals: 1},
}

// Entries, Shots and XG are the figures by lane of the controlled entry, or for a
// shot without one of the first reach or the shot itself.
var (
	Entries = byLane("final_third", "final third by the ", perHundred, true, 1, func(o *Outcome) float64 { return 1 },
		func(o *Outcome) uint8 { return o.EntryLane })
	Shots = byLane("shot", "shot by the ", perHundred, true, 1, func(o *Outcome) float64 { return 1 }, shotLane)
	XG    = byLane("xg", "xG by the ", xgPerHundred, false, 2, xg, shotLane)
)

// Figures are all of them.
var Figures = concat(Headline, Switching, Entries, Shots, XG)

func concat(lists ...[]Figure) []Figure {
	var all []Figure
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

func yes(name, label string, flag Flags, sense int) Figure {
	of := func(o *Outcome) float64 { return one(o.has(flag)) }
	return Figure{name, label, perHundred, of, sense, true, 1}
}

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func lost(o *Outcome) float64      { return one(o.End.Lost()) }
func stalled(o *Outcome) float64   { return one(o.End == sim.EndStalled) }
func xg(o *Outcome) float64        { return float64(o.XG) / xgScale }
func xgAgainst(o *Outcome) float64 { return float64(o.XGAgainst) / xgScale }
func netXG(o *Outcome) float64     { return float64(o.XG-o.XGAgainst) / xgScale }
func shotLane(o *Outcome) uint8    { return o.ShotLane }

// switches counts those that ended in one of the verdicts.
func switches(verdicts ...sim.Verdict) func(*Outcome) float64 {
	return func(o *Outcome) float64 {
		n := 0
		for k := range o.Switches {
			for _, v := range verdicts {
				n += int(o.Switches[k][v])
			}
		}
		return float64(n)
	}
}

// laneWords name the lanes for people, as in the report of a run.
var laneWords = [model.NumLanes]string{"left wing", "left half-space", "centre", "right half-space", "right wing"}

// byLane are the figures of the possessions of each lane, 0 for the others. More
// by one lane is neither better nor worse.
func byLane(name, label, unit string, rate bool, decimals int, of func(*Outcome) float64, lane func(*Outcome) uint8) []Figure {
	out := make([]Figure, 0, model.NumLanes)
	for l := range model.NumLanes {
		of := func(o *Outcome) float64 {
			if lane(o) != uint8(l) {
				return 0
			}
			return of(o)
		}
		out = append(out, Figure{name + "/" + l.String(), label + laneWords[l], unit, of, 0, rate, decimals})
	}
	return out
}

// FigureNamed is the figure of a name. The error names the nearest ones, or where none
// is near, all but those by lane.
func FigureNamed(name string) (Figure, error) {
	for _, f := range Figures {
		if f.Name == name {
			return f, nil
		}
	}
	if near, changes := nearest(name); 2*changes <= len(name) {
		return Figure{}, fmt.Errorf("there is no figure %q; did you mean %s?", name, strings.Join(near, " or "))
	}
	var names []string
	for _, f := range concat(Headline, Switching) {
		names = append(names, f.Name)
	}
	return Figure{}, fmt.Errorf("there is no figure %q; give one of %s, or by lane such as %s", name, strings.Join(names, ", "), Shots[0].Name)
}

// nearest are the names of the figures that take the fewest changes of a letter to
// get to from a name, and how many: insertions, deletions and replacements (Levenshtein 1966).
func nearest(name string) (near []string, least int) {
	least = -1
	for _, f := range Figures {
		switch d := letters(strings.ToLower(name), f.Name); {
		case least < 0 || d < least:
			near, least = []string{f.Name}, d
		case d == least && len(near) < 3:
			near = append(near, f.Name)
		}
	}
	return near, least
}

func letters(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
