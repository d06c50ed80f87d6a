package report

import (
	"math"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// testScenario is two league-average teams, two of the players named.
func testScenario() *model.Scenario {
	sc := model.AverageScenario()
	sc.Title = "Three at the back against a high 4-4-2"
	sc.Teams[model.Attack].Players[5].Name = "Pivot"
	sc.Teams[model.Defence].Players[9].Name = "First to press"
	return &sc
}

// testTally is 10,000 possessions made up by hand so that the parts add up:
// losses by zone, by player and by end to the turnovers, entries by lane and by
// method to the entries, shots by lane and by source to the shots.
func testTally() sim.Tally {
	t := sim.Tally{
		Possessions: 10000, Starts: [model.NumThirds]int64{9000, 1000, 0}, StartsOwn: 10000,
		ExitOwnThird: 8370, Halfway: 5520, FinalReached: 3800, FinalThird: 3420, Box: 1000, Shot: 690, Goal: 84,
		Turnover: 7070, Stalled: 40, ForcedBack: 2150,

		EntryLane:   [model.NumLanes]int64{1060, 480, 450, 470, 960},
		EntryMethod: [sim.NumMethods]int64{1700, 500, 220, 600, 300, 100},
		EntryLaneMethod: [model.NumLanes][sim.NumMethods]int64{
			{500, 200, 110, 170, 60, 20}, {260, 60, 0, 90, 50, 20}, {250, 50, 0, 80, 50, 20},
			{250, 50, 0, 90, 60, 20}, {440, 140, 110, 170, 80, 20},
		},
		ReachLane:   [model.NumLanes]int64{1110, 530, 520, 530, 1110},
		ReachWay:    [sim.NumWays]int64{2130, 800, 870},
		EntryTicks:  sim.Sum{N: 3420, X: 485640, XX: 90000000},
		EntryPasses: sim.Sum{N: 3420, X: 14706, XX: 80000},

		ShotsByEntry: [model.NumLanes]int64{170, 110, 120, 110, 180},
		XGByEntry:    [model.NumLanes]int64{14_100_000, 13_200_000, 16_800_000, 12_900_000, 15_300_000},
		GoalsByEntry: [model.NumLanes]int64{16, 15, 20, 15, 18},
		ShotsByLast:  [model.NumLanes]int64{150, 130, 160, 120, 130},
		XGByLast:     [model.NumLanes]int64{11_000_000, 15_000_000, 21_300_000, 14_000_000, 11_000_000},
		GoalsByLast:  [model.NumLanes]int64{12, 18, 25, 17, 12},
		ShotsBy:      [sim.NumSources]int64{60, 40, 90, 70, 60, 30, 80, 110, 130, 20},
		XGBy: [sim.NumSources]int64{6_000_000, 4_000_000, 14_400_000, 8_400_000, 4_800_000, 2_400_000, 16_000_000,
			9_900_000, 5_200_000, 1_200_000},
		GoalsBy: [sim.NumSources]int64{7, 5, 17, 9, 6, 3, 19, 10, 6, 2},

		Ends: [sim.NumEnds][model.NumThirds]int64{
			{300, 1500, 1200}, {250, 700, 900}, {20, 300, 480}, {90, 220, 290}, {0, 60, 240}, {40, 110, 50}, {70, 110, 140},
			{200, 500, 600}, {160, 500, 240}, {0, 5, 685}, {5, 25, 10},
		},
		LostBy: [11]int64{120, 600, 450, 480, 620, 700, 900, 880, 800, 850, 600},
		LostIn: [model.NumThirds][model.NumLanes]int64{
			{200, 140, 100, 130, 200}, {900, 450, 350, 420, 880}, {1000, 450, 400, 440, 1010},
		},
		LostRest:    [model.NumThirds]sim.Sum{{N: 770, X: 2310, XX: 7700}, {N: 3000, X: 15000, XX: 78000}, {N: 3300, X: 16500, XX: 85800}},
		Against:     [model.NumThirds]sim.Sum{{N: 770, X: 1925, XX: 5390}, {N: 3000, X: 9000, XX: 30000}, {N: 3300, X: 8250, XX: 24750}},
		LostPressed: 2200,

		Attempted: [sim.NumPassKinds]int64{52000, 11500, 1500}, Completed: [sim.NumPassKinds]int64{45500, 6900, 400},
		PassSum: sim.Sum{N: 10000, X: 65000, XX: 640000}, PassSumDone: sim.Sum{N: 10000, X: 52800, XX: 480000}, PassCross: 550000,
		Duration: sim.Sum{N: 10000, X: 1890000, XX: 500_000_000}, Active: sim.Sum{N: 10000, X: 1800000, XX: 460_000_000},
		XG: sim.Sum{N: 10000, X: 72_300_000, XX: 12_000_000_000_000},

		Switches:     [sim.NumSwitchKinds][sim.NumVerdicts]int64{{420, 200, 250, 330}, {300, 250, 200, 350}},
		SwitchRace:   [2]int64{1500, 800},
		Overloads:    [sim.NumOverloads][model.NumLanes]int64{{1800, 900, 300, 850, 1700}, {500, 700, 250, 640, 480}},
		OverloadsWon: [sim.NumOverloads][model.NumLanes]int64{{760, 330, 90, 300, 700}, {240, 310, 90, 280, 220}},
		DefActions:   6500,
	}
	t.Block = sim.BlockTotals{
		Ticks: 1_800_000, Pressing: 414_000, GapN: 1_800_000, Gap: 1_800_000 * 1290, Width: 1_800_000 * 3580, Length: 1_800_000 * 2810,
		LagEC: 21_000_000, LagCC: 10_000_000, Jumps: 9000, JumpWon: 2070, Pinned: 2_520_000,
		Jumped:    [11]int64{0, 700, 500, 550, 750, 900, 1000, 950, 1100, 1500, 1050},
		PressureN: 52000, PressureTicks: 434000, Pressed: 31000,
	}
	t.After = testAfter()
	return t
}

// testAfter is what came of the losses of testTally.
func testAfter() sim.AfterTally {
	sum := func(lost, played, shots, goals, xg int64) sim.AfterSum {
		return sim.AfterSum{Lost: lost, Played: played, Shots: shots, Goals: goals, XG: sim.Sum{N: played, X: xg, XX: xg * 150_000}}
	}
	return sim.AfterTally{
		All:     sum(7070, 6900, 300, 33, 33_000_000),
		Against: sim.Sum{N: 10000, X: 33_000_000, XX: 5_000_000_000_000},
		Net:     sim.Sum{N: 10000, X: 39_300_000, XX: 17_000_000_000_000},
		By: [sim.NumTakeovers]sim.AfterSum{{}, sum(5400, 5400, 240, 26, 26_500_000), sum(950, 950, 36, 4, 3_900_000),
			sum(420, 420, 20, 3, 2_200_000), sum(130, 130, 4, 0, 400_000), sum(170, 0, 0, 0, 0)},
		Where: [model.NumThirds][sim.NumWidths]sim.AfterSum{
			{sum(230, 200, 60, 12, 9_000_000), sum(540, 460, 60, 7, 7_000_000)},
			{sum(700, 700, 50, 5, 5_500_000), sum(2300, 2300, 80, 6, 7_000_000)},
			{sum(1500, 1500, 20, 2, 1_700_000), sum(1800, 1740, 30, 1, 2_800_000)},
		},
		Rest: [8]sim.AfterSum{sum(120, 110, 40, 9, 6_500_000), sum(250, 230, 50, 7, 6_000_000), sum(500, 460, 50, 6, 5_500_000),
			sum(800, 800, 50, 4, 5_000_000), sum(1200, 1200, 40, 3, 4_000_000), sum(1500, 1500, 30, 2, 3_000_000),
			sum(1700, 1700, 25, 1, 2_000_000), sum(1000, 900, 15, 1, 1_000_000)},
		Ends:  [sim.NumEnds]int64{1700, 1500, 80, 100, 50, 300, 600, 700, 750, 300, 820},
		Ticks: 550_000,
	}
}

// testResult is testTally as a finished run; a part of it passes the filter of
// the open data.
func testResult() *sim.Result {
	r := &sim.Result{Asked: 10000, Played: 10000, Tally: testTally()}
	b := testTally()
	b.Possessions = 6120
	b.ExitOwnThird, b.Halfway, b.FinalReached, b.Box, b.Shot, b.Goal = 5120, 3380, 2330, 610, 420, 51
	b.Turnover = 4330
	b.LostIn = [model.NumThirds][model.NumLanes]int64{{100, 90, 90, 90, 100}, {500, 260, 260, 260, 520}, {600, 310, 240, 310, 600}}
	b.ReachLane = [model.NumLanes]int64{680, 320, 330, 320, 680}
	b.ReachWay = [sim.NumWays]int64{1300, 490, 540}
	b.PassSum.N, b.PassSumDone.N, b.Duration.N, b.Active.N, b.XG.N = 6120, 6120, 6120, 6120, 6120
	r.BuildUp = b
	return r
}

func testSummary() *Summary {
	return Summarise(testScenario(), testResult(), Run{Version: "v0.0.0-test", Revision: 1})
}

// doubtResult is testResult played with 50 draws of the parameters, between which
// the rates differ by a standard deviation of five points, goals not at all.
func doubtResult() *sim.Result {
	r := testResult()
	t, d := &r.Tally, &r.Draws
	r.Doubt = true
	for groups, count := range map[*stats.Groups]int64{
		&d.ExitOwnThird: t.ExitOwnThird, &d.Halfway: t.Halfway, &d.FinalReached: t.FinalReached, &d.FinalThird: t.FinalThird,
		&d.Box: t.Box, &d.Shot: t.Shot, &d.Turnover: t.Turnover, &d.ForcedBack: t.ForcedBack,
	} {
		*groups = groupsOf(count, count, 0.05)
	}
	d.Goal, d.Stalled = groupsOf(t.Goal, t.Goal, 0), groupsOf(t.Stalled, t.Stalled, 0)
	d.XG = groupsOf(t.XG.X/100, t.XG.XX/10_000, 0.002/sim.DrawXGUnit)
	return r
}

// groupsOf makes up 50 groups of 200 whose totals lie as far apart as chance and a
// spread of tau between groups make them: by the expected mean square,
// E MSB = var within + 200 tau².
func groupsOf(sum, squares int64, tau float64) stats.Groups {
	const n, m = 50, 200
	mean := float64(sum) / (n * m)
	within := float64(squares)/(n*m) - mean*mean - tau*tau
	totals := m * ((n-1)*(within+m*tau*tau) + n*m*mean*mean)
	return stats.Groups{N: n, Of: n * m, X: sum, XX: squares, TT: int64(math.Round(totals))}
}
