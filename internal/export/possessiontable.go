package export

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// possessionRow is a possession.
type possessionRow struct {
	p     *sim.Possession
	names *roster
}

type possessionColumns []column[possessionRow]

func possessionSays() possessionColumns {
	return slices.Concat(startAndEnd, passing(), progress, shooting, possessionColumns{
		{"forced_back", "", "a switch or attack was played back out (playout help metrics)", yes, func(r *possessionRow) cell { return ofBool(r.p.ForcedBack) }},
	}, switching(), overloads(), blockColumns(), afterLoss)
}

var possessionTable = table[possessionRow]{"possessions", "one row per possession", possessionSays()}

var startAndEnd = possessionColumns{
	{"possession", "", "its number, from 0: playout replay FILE --possession shows it", whole, func(r *possessionRow) cell { return ofInt(r.p.ID) }},
	{"start_x", "m", "where it began, along the pitch from the centre spot, attack plays towards +", number, func(r *possessionRow) cell { return metres(r.p.Start.X) }},
	{"start_y", "m", "across, + is left of the attack", number, func(r *possessionRow) cell { return metres(r.p.Start.Y) }},
	{"start_third", "", "own, middle, final", text, func(r *possessionRow) cell { return r.third(r.p.Start) }},
	{"start_lane", "", "left_wing, left_half_space, centre, right_half_space, right_wing", text, func(r *possessionRow) cell { return lane(r.p.Start) }},
	{"end", "", "intercepted, tackled, aerial_duel, miscontrol, offside, foul_committed, out_opponent_restart, out_own_restart, foul_won, shot, stalled", text, func(r *possessionRow) cell { return ofText(r.p.End.String()) }},
	{"lost", "", "the end is a turnover", yes, func(r *possessionRow) cell { return ofBool(r.p.End.Lost()) }},
	{"end_x", "m", "where the ball was then", number, func(r *possessionRow) cell { return metres(r.p.Place.X) }},
	{"end_y", "m", "likewise", number, func(r *possessionRow) cell { return metres(r.p.Place.Y) }},
	{"end_third", "", "own, middle, final", text, func(r *possessionRow) cell { return r.third(r.p.Place) }},
	{"end_lane", "", "as start_lane", text, func(r *possessionRow) cell { return lane(r.p.Place) }},
	{"lost_by", "", "shirt number of who lost it, empty if nobody did", whole, func(r *possessionRow) cell { return r.names.numberOf(0, r.p.Loser) }},
	{"pressure", "0 to 1", "on him at that moment", number, func(r *possessionRow) cell { return given(r.p.Loser != nobody, share(r.p.Under)) }},
	{"duration_s", "s", "to the end", number, func(r *possessionRow) cell { return seconds(r.p.Ticks) }},
	{"active_s", "s", "to the last own action", number, func(r *possessionRow) cell { return seconds(r.p.LastAction) }},
	{"rest_defence", "", "outfield team-mates goal-side of the ball at the loss", whole, func(r *possessionRow) cell { return given(r.p.End.Lost(), ofInt(r.p.RestDefence)) }},
	{"against_rest", "", "opponents ahead of the ball at the loss", whole, func(r *possessionRow) cell { return given(r.p.End.Lost(), ofInt(r.p.AgainstRest)) }},
}

func passing() (out possessionColumns) {
	for k := range sim.NumPassKinds {
		out = append(out,
			count(fmt.Sprintf("passes_%s", k), "attempted", func(p *sim.Possession) int { return p.Attempted[k] }),
			count(fmt.Sprintf("passes_%s_complete", k), "of these, found a team-mate", func(p *sim.Possession) int { return p.Completed[k] }))
	}
	out = append(out,
		count("passes_own_half", "completed passes that began and ended in the own half", func(p *sim.Possession) int { return p.OwnHalf }),
		count("crosses_inswinging", "attempted", func(p *sim.Possession) int { return p.Inswing }))
	for k := range model.NumRuns {
		out = append(out,
			count(fmt.Sprintf("runs_%s", k), "off the ball, set out", func(p *sim.Possession) int { return p.Runs[k] }),
			count(fmt.Sprintf("runs_%s_found", k), "of these, found by a complete pass", func(p *sim.Possession) int { return p.RunsFound[k] }))
	}
	return out
}

var progress = slices.Concat(possessionColumns{
	{"exit_own_third", "", "got out of the own third", yes, func(r *possessionRow) cell { return ofBool(r.p.ExitOwnThird) }},
	{"halfway", "", "got over the halfway line", yes, func(r *possessionRow) cell { return ofBool(r.p.Halfway) }},
	{"final_third_reached", "", "reached the final third", yes, func(r *possessionRow) cell { return ofBool(r.p.FinalReached) }},
	{"final_third", "", "entered it under control: the figure of playout run", yes, func(r *possessionRow) cell { return ofBool(r.p.FinalThird) }},
	{"box", "", "got into the penalty area", yes, func(r *possessionRow) cell { return ofBool(r.p.Box) }},
}, entry("entry", "the entry under control", func(p *sim.Possession) (*sim.Entry, bool) { return &p.Entry, p.FinalThird }),
	entry("reach", "the first reach", func(p *sim.Possession) (*sim.Entry, bool) { return &p.Reach, p.FinalReached }))

// entry is an entry to the final third; empty if there was none.
func entry(name, says string, of func(p *sim.Possession) (*sim.Entry, bool)) possessionColumns {
	if1 := func(c func(e *sim.Entry) cell) func(r *possessionRow) cell {
		return func(r *possessionRow) cell {
			e, ok := of(r.p)
			return given(ok, c(e))
		}
	}
	return possessionColumns{
		{name + "_s", "s", says + " came at", number, if1(func(e *sim.Entry) cell { return seconds(e.Tick) })},
		{name + "_passes", "", "completed before it", whole, if1(func(e *sim.Entry) cell { return ofInt(e.Passes) })},
		{name + "_lane", "", "as start_lane", text, if1(func(e *sim.Entry) cell { return ofText(e.Lane.String()) })},
		{name + "_method", "", "ground_pass, lofted_pass, switch, carry, run_in_behind, loose_ball", text, if1(func(e *sim.Entry) cell { return ofText(e.Method.String()) })},
		{name + "_way", "", "as event data sort it: ground_pass, high_pass, carry_or_loose", text, if1(func(e *sim.Entry) cell { return ofText(e.Way.String()) })},
	}
}

var shooting = possessionColumns{
	{"shot", "", "it ended with a shot", yes, func(r *possessionRow) cell { return ofBool(r.p.Shot) }},
	{"goal", "", "it went in", yes, func(r *possessionRow) cell { return ofBool(r.p.Goal) }},
	{"xg", "goals", "of the shot, 0 without one", number, func(r *possessionRow) cell { return share(r.p.XG) }},
	{"goal_chance", "goals", "the same with the shooter's finishing and the keeper", number, func(r *possessionRow) cell { return given(r.p.Shot, share(r.p.Chance)) }},
	{"shot_x", "m", "where it was taken from", number, func(r *possessionRow) cell { return given(r.p.Shot, metres(r.p.ShotAt.X)) }},
	{"shot_y", "m", "likewise", number, func(r *possessionRow) cell { return given(r.p.Shot, metres(r.p.ShotAt.Y)) }},
	{"shot_source", "", "overlap, underlap, cut_back, low_cross, high_cross_inswinging, high_cross_outswinging, through_ball, carry, range, other", text, func(r *possessionRow) cell {
		return given(r.p.Shot, ofText(r.p.Source.String()))
	}},
	{"shot_last_lane", "", "lane of the last pass, carry or cross before it", text, func(r *possessionRow) cell { return given(r.p.Shot, ofText(r.p.Before.String())) }},
}

func switching() (out possessionColumns) {
	for k := range sim.NumSwitchKinds {
		for v := range sim.NumVerdicts {
			out = append(out, count(fmt.Sprintf("switches_%s_%s", k, v), "switches of play by what came of them within 10 s", func(p *sim.Possession) int { return p.Switches[k][v] }))
		}
	}
	return append(out,
		count("switches_caught", "receiver reached within 3 s by a defender closer than 3 m", func(p *sim.Possession) int { return p.SwitchRace[0] }),
		count("switches_free", "receiver not reached", func(p *sim.Possession) int { return p.SwitchRace[1] }))
}

func overloads() (out possessionColumns) {
	for k := range sim.NumOverloads {
		for l := range model.NumLanes {
			name := fmt.Sprintf("overloads_%s_%s", k, l)
			out = append(out,
				count(name, "how often one arose", func(p *sim.Possession) int { return p.Overloads[k][l] }),
				column[possessionRow]{name + "_s", "s", "for how long, all together, each 5 s at most", number, func(r *possessionRow) cell { return seconds(r.p.OverloadsFor[k][l]) }},
				count(name+"_won", "of these, carried or passed beyond within 5 s", func(p *sim.Possession) int { return p.OverloadsWon[k][l] }))
		}
	}
	return out
}

var afterLoss = possessionColumns{
	{"after_by", "", "how the opponent came to the ball: none, in_play, throw_in, free_kick, goal_kick, set_play (counted, not played)", text, func(r *possessionRow) cell { return ofText(r.p.After.By.String()) }},
	{"after_played", "", "what he made of it was played", yes, func(r *possessionRow) cell { return ofBool(r.p.After.Played) }},
	{"after_s", "s", "for how long", number, func(r *possessionRow) cell { return given(r.p.After.Played, seconds(r.p.After.Ticks)) }},
	{"after_end", "", "how it ended for him, as end; stalled: the time was up", text, func(r *possessionRow) cell { return given(r.p.After.Played, ofText(r.p.After.End.String())) }},
	{"after_shot", "", "against", yes, func(r *possessionRow) cell { return given(r.p.After.Played, ofBool(r.p.After.Shot)) }},
	{"after_goal", "", "against", yes, func(r *possessionRow) cell { return given(r.p.After.Played, ofBool(r.p.After.Goal)) }},
	{"after_xg", "goals", "against: of his shot, 0 without one", number, func(r *possessionRow) cell { return given(r.p.After.Played, share(r.p.After.XG)) }},
	{"after_goal_chance", "goals", "the same with the shooter's finishing and the keeper", number, func(r *possessionRow) cell {
		return given(r.p.After.Shot, share(r.p.After.Chance))
	}},
}

func count(name, says string, of func(p *sim.Possession) int) column[possessionRow] {
	return column[possessionRow]{name, "", says, whole, func(r *possessionRow) cell { return ofInt(of(r.p)) }}
}

func (r *possessionRow) third(at r2.Vec) cell { return ofText(r.names.pitch.ThirdOf(at.X).String()) }

func lane(at r2.Vec) cell { return ofText(model.LaneOf(at.Y).String()) }
