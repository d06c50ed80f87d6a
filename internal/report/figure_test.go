package report

import (
	"encoding/json"
	"math"
	"testing"

	"playout/model"
	"playout/sim"
)

// Expected values worked out by hand from testTally.
func TestFigures(t *testing.T) {
	s := testSummary()
	for _, c := range []struct {
		name string
		got  Number
		want float64
	}{
		{"final third", s.Rates.Get("final_third_entry").Rate, 0.342},
		{"entries left", s.EntriesByLane.Get("left_wing").Rate, 1060.0 / 3420},
		{"left wing by switch", s.EntriesByLaneMethod.Get("left_wing").Get("switch").Rate, 110.0 / 3420},
		{"seconds to entry", s.Means.Get("entry_s").Mean, 14.2},
		{"passes to entry", s.Means.Get("entry_passes").Mean, 4.3},
		{"duration", s.Means.Get("duration_s").Mean, 18.9},
		{"xg", s.Means.Get("xg").Mean, 0.00723},
		{"shots centre", s.ChancesByLane.Get("centre").ShotsPer100, 1.2},
		{"xg centre", s.ChancesByLane.Get("centre").XGPer100, 0.168},
		{"xg centre per 100 entries", s.ChancesByLane.Get("centre").XGPer100Entries, 100 * 16.8 / 450},
		{"goals centre, last", s.ChancesByLastLane.Get("centre").GoalsPer100, 0.25},
		{"xg per cut-back shot", s.ShotsBySource.Get("cut_back").XGPerShot, 0.16},
		{"passing", s.Passing.Rate, 52800.0 / 65000},
		{"crosses", s.Passing.ByKind.Get("cross").Rate, 400.0 / 1500},
		{"intercepted, middle", s.Ends.Get("intercepted").ByThird.Get("middle").Rate, 0.15},
		{"lost in the air", s.Ends.Get("aerial_duel").Rate.Rate, 0.08},
		{"lost by number 7", s.LossesByPlayer[6].Rate.Rate, 900.0 / 7070},
		{"lost on the right in the final third", s.LossesByZone.Get("final").Get("right_wing").Rate, 0.101},
		{"under pressure", s.LossesUnderPressure.Rate, 2200.0 / 7070},
		{"rest defence", s.RestDefence.Get("middle").TeamMates.Mean, 5},
		{"opponents ahead", s.RestDefence.Get("own").Opponents.Mean, 2.5},
		{"press", s.Block.PressShare, 0.23},
		{"gap", s.Block.GapM, 12.9},
		{"width", s.Block.WidthM, 35.8},
		{"length", s.Block.LengthM, 28.1},
		{"lag", s.Block.LagS, 2.1},
		{"time to pressure", s.Block.TimeToPressureS, 1.4},
		{"pressed", s.Block.Pressed.Rate, 31.0 / 52},
		{"passes per action", s.Block.PassesPerAction, 10},
		{"pinned", s.Block.Pinned, 1.4},
		{"regained", s.Block.JumpsWon.Rate, 0.23},
		{"jumps of number 10", s.Block.JumpsByPlayer[9].Rate, 1500.0 / 9000},
		{"2v1 left", s.Overloads.Get("2v1").Get("left_wing").Per100, 18},
		{"2v1 left won", s.Overloads.Get("2v1").Get("left_wing").Won.Rate, 760.0 / 1800},
		{"single switches", s.Switches.SinglePass.Per100, 12},
		{"chains lost", s.Switches.Chain.Verdicts.Get("lost").Rate, 200.0 / 1100},
		{"receiver met", s.Switches.ReceiverMet.Rate, 1500.0 / 2300},
		{"open data, final third", s.BuildUp.Rates.Get("final_third_reached").Rate, 2330.0 / 6120},
		{"open data, lost in the own third", s.BuildUp.LossesByThird.Get("own").Rate, 470.0 / 6120},
	} {
		if math.Abs(float64(c.got)-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

// The fixture stands for a real run only if its parts add up as a real one's do.
func TestFixtureAddsUp(t *testing.T) {
	tally := testTally()
	sums := map[string][2]int64{
		"entries by lane":   {tally.FinalThird, sumLanes(tally.EntryLane)},
		"shots by lane":     {tally.Shot, sumLanes(tally.ShotsByEntry)},
		"shots by last":     {tally.Shot, sumLanes(tally.ShotsByLast)},
		"goals by lane":     {tally.Goal, sumLanes(tally.GoalsByEntry)},
		"xg by lane":        {tally.XG.X, sumLanes(tally.XGByEntry)},
		"passes attempted":  {tally.PassSum.X, tally.Attempted[0] + tally.Attempted[1] + tally.Attempted[2]},
		"passes completed":  {tally.PassSumDone.X, tally.Completed[0] + tally.Completed[1] + tally.Completed[2]},
		"losses by zone":    {tally.Turnover, sumLanes(tally.LostIn[0]) + sumLanes(tally.LostIn[1]) + sumLanes(tally.LostIn[2])},
		"entries by method": {tally.FinalThird, 0}, "losses by end": {tally.Turnover, 0}, "all ends": {tally.Possessions, 0},
		"shots by source": {tally.Shot, 0}, "xg by source": {tally.XG.X, 0}, "losses by player": {tally.Turnover, 70},
	}
	add := func(name string, n int64) { sums[name] = [2]int64{sums[name][0], sums[name][1] + n} }
	for _, n := range tally.EntryMethod {
		add("entries by method", n)
	}
	for i := range tally.ShotsBy {
		add("shots by source", tally.ShotsBy[i])
		add("xg by source", tally.XGBy[i])
	}
	for _, n := range tally.LostBy {
		add("losses by player", n)
	}
	for e, thirds := range tally.Ends {
		for _, n := range thirds {
			add("all ends", n)
			if sim.End(e).Lost() {
				add("losses by end", n)
			}
		}
	}
	for name, s := range sums {
		if s[0] != s[1] {
			t.Errorf("%s: %d, parts %d", name, s[0], s[1])
		}
	}
	for l := range model.NumLanes {
		n := int64(0)
		for _, x := range tally.EntryLaneMethod[l] {
			n += x
		}
		if n != tally.EntryLane[l] {
			t.Errorf("%s: %d entries, by method %d", l, tally.EntryLane[l], n)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{math.NaN(), "null"}, {math.Inf(1), "null"}, {math.Inf(-1), "null"},
		{math.Copysign(0, -1), "0"}, {1.0 / 3, "0.333333333"}, {1e-7, "1e-07"}, {123456789, "123456789"},
	} {
		got, err := json.Marshal(Number(c.x))
		if err != nil || string(got) != c.want {
			t.Errorf("%v: %s, %v; want %s", c.x, got, err, c.want)
		}
	}
}

func TestCells(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{fixed(Number(math.Copysign(0.001, -1)), 1), "0.0"},
		{fixed(-1.26, 1), "-1.3"},
		{fixed(missing, 1), "-"},
		{percent(0.314), "31%"},
		{span(missing, 1, 100, 1), "-"},
		{thousands(1), "1"},
		{thousands(-1234567), "-1,234,567"},
		{thousands(-123), "-123"},
		{thousands(100000000), "100,000,000"},
		{who(7, "", "LW"), "7 LW"},
		{who(7, "Winger", "LW"), "7 Winger"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}
