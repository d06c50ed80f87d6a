package reference

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// values are figures by name.
type values map[string]Value

func (v values) set(x float64, n int64, name ...string) {
	v[strings.Join(name, "/")] = Value{x, math.Inf(-1), math.Inf(1), n}
}

// ratio is a over b in the given unit.
func (v values) ratio(a, b int64, unit float64, name ...string) {
	v.set(float64(a)/float64(b)*unit, b, name...)
}

func (v values) part(p part, name ...string) { v.ratio(p.K, p.N, 1, name...) }

func (v values) mean(t total, unit float64, name ...string) { v.ratio(t.X, t.N, unit, name...) }

func (v values) quantile(h []int64, p, width float64, name ...string) {
	x, n := quantile(h, p, width)
	v.set(x, n, name...)
}

// league are the figures of the pool of all settings.
func (v values) league(s *sums) {
	v.outcomes(s)
	v.chains(&s.BuildUp, "build_up", 2, longChain)
	v.passes(s)
	v.mix(s)
	v.entries(s)
	v.switches(s)
	v.crosses(s)
	v.shots(s)
	v.losses(s)
	v.players(&s.Movement)
	v.block(&s.Movement)
	v.progress(&s.Starts, ownStarts)
	v.lengths(&s.Starts, ownStarts)
	v.chains(&s.Starts, "own_third_start", 0, 3)
	v.ratio(s.BuildUp.N, s.Starts.N, 1, "share_of_starts/build_up")
	for t, p := range s.Spells {
		v.part(p, "carries/share_of_ball_spells", model.Third(t).String())
	}
}

// ownStarts is the table of all possessions that begin in the own third.
const ownStarts = "possession_outcomes/own_third_start"

// progress are the rates that every table of how far possessions get has.
func (v values) progress(s *progressSums, table ...string) {
	for name, k := range map[string]int64{
		"exit_own_third": s.Exit, "halfway": s.Half, "final_third": s.Final, "box": s.Box, "shot": s.Shots,
	} {
		v.ratio(k, s.N, 1, append(table, name)...)
	}
	// The mean chance of scoring: as many goals as fall, with less noise.
	v.ratio(s.Chances, s.N, micro, append(table, "goal")...)
}

// lost are the losses of build-up possessions by third.
func (v values) lost(s *sums, table ...string) {
	for t, k := range s.LostIn {
		v.ratio(k, s.BuildUp.N, 1, append(table, "lost_in_"+model.Third(t).String())...)
	}
}

// lengths are how long possessions last, in time and passes.
func (v values) lengths(s *progressSums, table string) {
	v.ratio(s.Active, s.N, sim.TickSeconds, table, "duration_s")
	v.ratio(s.Completed, s.N, 1, table, "passes_completed")
	v.ratio(s.Attempted, s.N, 1, table, "passes_attempted")
}

// pressed are the figures against one tercile of pressing.
func (v values) pressed(p Press, s *sums) {
	v.progress(&s.BuildUp, "press_intensity", p.String())
	v.lost(s, "press_intensity", p.String())
}

// endNames are the names that the reference tables give to ends.
var endNames = [sim.NumEnds]string{
	sim.EndIntercepted: "end_pass_intercepted", sim.EndTackled: "end_ground_duel_lost", sim.EndAerial: "end_aerial_duel_lost",
	sim.EndMiscontrol: "end_miscontrol_or_touch", sim.EndOffside: "end_offside", sim.EndFoulCommitted: "end_foul_committed",
	sim.EndOutTheirs: "end_out_of_play_opponent_restart", sim.EndOutOurs: "end_out_of_play_own_restart",
	sim.EndFoulWon: "end_foul_won", sim.EndShot: "end_shot",
}

func (v values) outcomes(s *sums) {
	const table = "possession_outcomes/build_up"
	v.progress(&s.BuildUp, table)
	v.lost(s, table)
	v.lengths(&s.BuildUp, table)
	for e, name := range endNames {
		if name != "" {
			v.ratio(s.Ends[e], s.BuildUp.N, 1, table, name)
		}
	}
}

// chains are the shares of possessions with from to to completed passes.
func (v values) chains(s *progressSums, possessions string, from, to int) {
	for k := from; k <= to; k++ {
		v.ratio(s.Chain[k], s.N, 1, "pass_chain_length", possessions, chainName(k))
	}
}

func (v values) mix(s *sums) {
	for third := range numThirds {
		table := "pass_mix_build_up/" + model.Third(third).String()
		all := int64(0)
		for _, m := range s.Mix[third] {
			for _, n := range m {
				all += n
			}
		}
		for p := range s.Mix[third] {
			name := passType(p).String()
			for d, n := range s.Mix[third][p] {
				v.ratio(n, all, 1, table, name, directionNames[d], "share")
			}
			for _, q := range lengthQuantiles {
				v.quantile(s.Length[third][p][:], q.p, lengthBin, table, name, "len_"+q.name)
			}
		}
		table = "pass_to_next_action_s/" + model.Third(third).String()
		v.mean(s.NextSum[third], sim.TickSeconds, table, "mean")
		for _, q := range timeQuantiles {
			// A time of k ticks stands for anything within half a tick of it.
			x, n := quantile(s.NextAction[third][:], q.p, sim.TickSeconds)
			v.set(x-sim.TickSeconds/2, n, table, q.name)
		}
	}
}

type namedQuantile struct {
	name string
	p    float64
}

var lengthQuantiles = []namedQuantile{{"p10", 0.1}, {"p25", 0.25}, {"p50", 0.5}, {"p75", 0.75}, {"p90", 0.9}}

var timeQuantiles = []namedQuantile{{"p25", 0.25}, {"p50", 0.5}, {"p75", 0.75}, {"p95", 0.95}}

func (v values) entries(s *sums) {
	const table = "final_third_entries"
	var any entrySums
	for l := range s.Entries {
		stats.AddIntegers(&any, &s.Entries[l])
	}
	follow := func(e *entrySums, lane string) {
		v.ratio(e.Shots, e.N, 1, table, "shot_given_entry", lane)
		v.ratio(e.Boxes, e.N, 1, table, "box_given_entry", lane)
		v.ratio(e.Crossed, e.N, 1, table, "cross_given_entry", lane)
		v.ratio(e.Lost5, e.N, 1, table, "lost_5s_given_entry", lane)
		v.ratio(e.Chances, e.N, micro, table, "goal_given_entry", lane)
		v.ratio(e.XG, e.N, micro, table, "xg_per_entry", lane)
	}
	follow(&any, "any")
	for y, n := range any.Way {
		v.ratio(n, any.N, 1, table, "share_of_entries", sim.Way(y).String())
	}
	for l := range s.Entries {
		e, lane := &s.Entries[l], model.Lane(l).String()
		follow(e, lane)
		v.ratio(e.N, any.N, 1, table, "share_of_entries", lane)
		for y, n := range e.Way {
			v.ratio(n, e.N, 1, table, "share_of_lane", lane, sim.Way(y).String())
		}
	}
	v.ratio(s.ActsThere, any.N, 1, "final_third/controlled_given_reached")
	v.ratio(s.Crosses, any.N, 1, "crosses/per_entry")
}

func (v values) switches(s *sums) {
	for third := range numThirds {
		name := model.Third(third).String()
		for p := range s.Switch {
			v.part(s.Switch[p][third], "switches/completed", name, passType(p).String())
		}
		for k, p := range s.Switched[third] {
			v.part(p, "switches", afterNames[k]+"_if_completed", name, "any")
		}
	}
}

func (v values) crosses(s *sums) {
	total := int64(0)
	for o := range s.Cross {
		for h := range s.Cross[o] {
			total += s.Cross[o][h].Done.N
		}
	}
	for o := range s.Cross {
		for h, height := range []string{"high", "low"} {
			v.ratio(s.Cross[o][h].Done.N, total, 1, "crosses/share", originNames[o], height)
			v.part(s.Cross[o][h].Done, "crosses/completed", originNames[o], height)
			v.part(s.Cross[o][h].Shot, "crosses/shot_within_5s", originNames[o], height)
		}
	}
	for f, foot := range []string{"natural_side", "inverted"} {
		v.part(s.CrossFoot[f], "crosses/completed/any", foot)
	}
}

func (v values) shots(s *sums) {
	var of [len(shotBands)]int64
	all := int64(0)
	for by := range s.ShotBands {
		for b, t := range s.ShotBands[by] {
			v.mean(t, micro, "shot_conversion", []string{"0", "1"}[by], shotBandNames[b])
			of[b] += t.N
			all += t.N
		}
	}
	for b, name := range shotBandNames {
		v.ratio(of[b], all, 1, "shot_conversion/share", name)
	}
	for x := range s.ShotCells {
		for y, p := range s.ShotCells[x] {
			v.part(p, "threat_grid/shot_share", cellName(x, y))
		}
	}
	v.ratio(s.XG, s.BuildUp.Shots, micro, "xg_per_shot/build_up")
}

// cellName names a cell of the threat grid, counted from the goal line and the middle of the pitch,
// by its middle, in metres of a pitch of 105 x 68.
func cellName(x, y int) string {
	const dx, dy = 105.0 / gridX, 68.0 / gridY
	return fmt.Sprintf("%.1f/%.1f", 105.0/2-(float64(x)+0.5)*dx, (float64(y)+0.5)*dy)
}

// chainName names a number of completed passes as the table does.
func chainName(k int) string {
	if k == longChain {
		return strconv.Itoa(k) + "+"
	}
	return strconv.Itoa(k)
}

func (v values) losses(s *sums) {
	for b := range s.Losses {
		place := "turnover_cost/" + strconv.FormatFloat(lossFrom[b], 'f', -1, 64)
		chances, n := int64(0), int64(0)
		for w := range s.Losses[b] {
			l := &s.Losses[b][w]
			v.part(l.Shot, place, widthNames[w], "opponent_shot_within_20s")
			v.ratio(l.Chances, l.Shot.N, micro, place, widthNames[w], "opponent_goal_within_20s")
			chances, n = chances+l.Chances, n+l.Shot.N
		}
		v.ratio(chances, n, micro, place, "opponent_goal_within_20s")
	}
}
