package reference

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// measured is the group of one possession.
func measured(p *sim.Possession, events []sim.Event) *sums {
	m := &meter{pitch: model.DefaultPitch}
	m.Possession(p, events)
	return &m.group[p.ID%groups]
}

// wants compares figures with what was worked by hand.
func wants(t *testing.T, s *sums, want map[string]float64) {
	t.Helper()
	v := values{}
	v.league(s)
	for name, x := range want {
		got, ok := v[name]
		if !ok || math.Abs(got.Value-x) > 1e-9 || math.IsNaN(got.Value) != math.IsNaN(x) {
			t.Errorf("%s is %v, want %v", name, got.Value, x)
		}
	}
}

// TestOutcome: the possession of TestRecord leaves its own third, since it acts at
// x = 0, and no more: 0 is not beyond halfway, and the ball picked up at 20 m is
// neither a controlled action nor the end of a completed pass.
func TestOutcome(t *testing.T) {
	s := measured(&sim.Possession{End: sim.EndTackled, Ticks: 150, Place: r2.Vec{X: 22, Y: 3}}, buildUpEvents())
	wants(t, s, map[string]float64{
		"possession_outcomes/build_up/exit_own_third":       1,
		"possession_outcomes/build_up/halfway":              0,
		"possession_outcomes/build_up/final_third":          0,
		"possession_outcomes/build_up/lost_in_final":        1,
		"possession_outcomes/build_up/end_ground_duel_lost": 1,
		"possession_outcomes/build_up/duration_s":           14, // tick 10 to 150
		"possession_outcomes/build_up/passes_completed":     2,
		"possession_outcomes/build_up/passes_attempted":     3,
		"pass_chain_length/build_up/2":                      1,
		"share_of_starts/build_up":                          1,
		"possession_outcomes/own_third_start/halfway":       0,
		"possession_outcomes/own_third_start/duration_s":    14,
		"pass_chain_length/own_third_start/2":               1,
		"pass_chain_length/own_third_start/1":               0,
		// Lengths 16.97, 18.79 and 26.93 m; the first and second go forward by 45 degrees and sideways, the third up the pitch.
		"pass_completion/ground/own/15-20":            1,
		"pass_completion/ground/own/any":              1,
		"pass_completion/ground/own/forward/any":      1,
		"pass_completion/ground/own/sideways/any":     1,
		"pass_completion/high/middle/any":             0,
		"pass_completion/high/middle/25-30":           0,
		"pass_mix_build_up/own/ground/sideways/share": 0.5,
		"pass_mix_build_up/own/ground/forward/share":  0.5,
		"pass_mix_build_up/middle/high/forward/share": 1,
		"pass_to_next_action_s/own/mean":              2.25, // 30 and 15 ticks
		"pass_completion_build_up/ground":             1,
		"pass_completion_build_up/high":               0,
		"nearest_defender/reception/own":              10.05, // the middle of its bin
		"possession_outcomes/build_up/shot":           0,
		"closing_speed/held_1s":                       0,
		"time_on_ball/one_touch":                      0,
		"time_on_ball/mean":                           (1.8 + 4.5 + 2.0) / 3,
		"pass_completion/high_kept/25-30":             math.NaN(), // too few to weigh
	})
}

// TestOwnThirdStart: a possession whose second pass is cut out begins in the own third and
// is no build-up possession.
func TestOwnThirdStart(t *testing.T) {
	events := append(buildUpEvents()[:5], opponent(event(sim.EventEnd, 60, 3, -5)))
	wants(t, measured(&sim.Possession{End: sim.EndIntercepted, Ticks: 60}, events), map[string]float64{
		"share_of_starts/build_up":                             0,
		"pass_chain_length/own_third_start/1":                  1,
		"possession_outcomes/own_third_start/passes_attempted": 2,
		"possession_outcomes/own_third_start/passes_completed": 1,
		"possession_outcomes/own_third_start/shot":             0,
	})
}

// TestDirection: within 60 degrees of straight ahead is forward, of straight back back.
func TestDirection(t *testing.T) {
	for degrees, want := range map[float64]direction{0: forward, 59: forward, 61: sideways, 119: sideways, 121: back, 180: back} {
		for _, side := range []float64{1, -1} {
			angle := degrees * math.Pi / 180
			from, to := r2.Vec{X: 3, Y: 4}, r2.Vec{X: 3 + 10*math.Cos(angle), Y: 4 + side*10*math.Sin(angle)}
			if d := directionOf(from, to); d != want {
				t.Errorf("%v degrees to side %v: %v, want %v", degrees, side, directionNames[d], directionNames[want])
			}
		}
	}
}

// entryEvents go on from two passes in the own half: a high ball from (-20, -5) is
// headed down by a team-mate at (25, 15), who loses it, and an opponent clears.
func entryEvents() []sim.Event {
	return append(buildUpEvents()[:6],
		passAt(70, -20, -5, sim.HighPass),
		event(sim.EventLoose, 95, 25, 15),
		event(sim.EventEnd, 101, 27, 15))
}

// TestEntryByHeaderLost: a high ball that reaches a team-mate counts as completed
// even if he loses it in the air, as the tag of the data does; so the possession
// enters the final third by a high pass, is lost within 5 s and acts there once.
func TestEntryByHeaderLost(t *testing.T) {
	s := measured(&sim.Possession{End: sim.EndAerial, Ticks: 101, Place: r2.Vec{X: 27, Y: 15}}, entryEvents())
	wants(t, s, map[string]float64{
		"possession_outcomes/build_up/final_third":                    1,
		"final_third_entries/share_of_entries/left_half_space":        1,
		"final_third_entries/share_of_entries/high_pass":              1,
		"final_third_entries/share_of_lane/left_half_space/high_pass": 1,
		"final_third_entries/lost_5s_given_entry/any":                 1,
		"final_third_entries/shot_given_entry/left_half_space":        0,
		"final_third/controlled_given_reached":                        1, // the touch
		"pass_completion_build_up/high":                               1,
		"possession_outcomes/build_up/passes_completed":               3,
		"possession_outcomes/build_up/end_aerial_duel_lost":           1,
	})
	if k := s.Kept[model.OwnThird][bandOf(math.Hypot(45, 20), bands[:])]; k != (part{0, 1}) {
		t.Errorf("kept %+v, want none of one: the touch is no controlled action", k)
	}
}

// TestHeadedPasses: of two headed passes out of the middle third one finds a team-mate; neither
// is among the passes along the ground.
func TestHeadedPasses(t *testing.T) {
	headed := func(tick int, x, y float64) sim.Event {
		e := passAt(tick, x, y, sim.GroundPass)
		e.Header = true
		return e
	}
	events := append(buildUpEvents()[:6],
		passAt(70, -20, -5, sim.HighPass),
		event(sim.EventReceive, 95, 10, 5),
		headed(95, 10, 5),
		event(sim.EventReceive, 105, 15, 0),
		headed(105, 15, 0),
		event(sim.EventEnd, 115, 16, 8))
	s := measured(&sim.Possession{End: sim.EndIntercepted, Ticks: 115, Place: r2.Vec{X: 16, Y: 8}}, events)
	wants(t, s, map[string]float64{"pass_completion/head/middle/any": 0.5})
	if n := whole(&s.Passes[ground])[model.MiddleThird].N; n != 0 {
		t.Errorf("%d passes along the ground out of the middle third, want none", n)
	}
}

// TestCrossAfterEntry: a cross counts for the entry it follows, and one before it for none.
func TestCrossAfterEntry(t *testing.T) {
	for _, c := range []struct{ x, want float64 }{{30, 1}, {16, 0}} {
		events := append(buildUpEvents()[:6],
			passAt(70, -20, -5, sim.GroundPass),
			event(sim.EventReceive, 90, c.x, -25),
			passAt(100, c.x, -25, sim.Cross),
			event(sim.EventReceive, 120, 44, 2),
			event(sim.EventEnd, 125, 44, 2))
		wants(t, measured(&sim.Possession{End: sim.EndTackled, Ticks: 125}, events), map[string]float64{
			"final_third_entries/cross_given_entry/any": c.want,
		})
	}
}

// TestEntryByCarry carries 20 m into the final third and shoots from inside the box.
func TestEntryByCarry(t *testing.T) {
	events := append(buildUpEvents()[:6],
		passAt(70, -20, -5, sim.GroundPass),
		event(sim.EventReceive, 90, 5, 0),
		passAt(130, 25, -22, sim.GroundPass), // 29.7 m from where he got it: a marked carry
		event(sim.EventReceive, 150, 38, -3),
		event(sim.EventShot, 155, 40, -2),
		event(sim.EventEnd, 155, 40, -2))
	events[len(events)-2].Chance = 0.25
	p := &sim.Possession{End: sim.EndShot, Ticks: 155, Shot: true, Place: r2.Vec{X: 40, Y: -2}, XG: 0.25, Chance: 0.2}
	wants(t, measured(p, events), map[string]float64{
		"final_third_entries/share_of_entries/carry_or_loose": 1,
		"final_third_entries/share_of_entries/right_wing":     1,
		"final_third_entries/box_given_entry/any":             1,
		"final_third_entries/shot_given_entry/right_wing":     1,
		"final_third_entries/goal_given_entry/any":            0.2,
		"final_third_entries/xg_per_entry/any":                0.25,
		"final_third_entries/lost_5s_given_entry/any":         0,
		"possession_outcomes/build_up/goal":                   0.2,
		"xg_per_shot/build_up":                                0.25,
		"shot_conversion/0/11-16.5":                           0.2, // hypot(12.5, 2) = 12.7 m
		"threat_grid/shot_share/42.7/2.8":                     1,   // 12.5 m is in the second row of 6.56 m
		"carries/share_of_ball_spells/middle":                 1,
		"carries/share_of_ball_spells/final":                  0,
	})
}

// TestSwitch: 40 m across, received at tick 140 at x = -10, and what follows within
// 10 s of it.
func TestSwitch(t *testing.T) {
	begin := append(buildUpEvents()[:6], // ends with a reception at (-20, -5)
		passAt(60, -20, -25, sim.HighPass),
		event(sim.EventReceive, 140, -10, 15))
	for name, c := range map[string]struct {
		then []sim.Event
		p    sim.Possession
		want [numAfters]float64
	}{
		"15 m beyond the passer": {
			[]sim.Event{passAt(160, -9, 15, sim.GroundPass), event(sim.EventReceive, 175, -4, 15), passAt(180, -4, 15, sim.GroundPass)},
			sim.Possession{End: sim.EndIntercepted, Ticks: 241},
			[numAfters]float64{progressed: 1},
		},
		"too late": {
			[]sim.Event{passAt(160, -9, 15, sim.GroundPass), event(sim.EventReceive, 245, -4, 15), passAt(250, -4, 15, sim.GroundPass)},
			sim.Possession{End: sim.EndIntercepted, Ticks: 260},
			[numAfters]float64{},
		},
		"back 10 m and lost": {
			[]sim.Event{passAt(160, -11, 15, sim.GroundPass), event(sim.EventReceive, 175, -21, 15), passAt(180, -21, 15, sim.GroundPass)},
			sim.Possession{End: sim.EndIntercepted, Ticks: 240},
			[numAfters]float64{forcedBack: 1, lost10: 1},
		},
	} {
		events := append(append([]sim.Event{}, begin...), c.then...)
		events = append(events, event(sim.EventEnd, c.p.Ticks, 0, 15))
		want := map[string]float64{"switches/completed/own/high": 1}
		for k, x := range c.want {
			want["switches/"+afterNames[k]+"_if_completed/own/any"] = x
		}
		t.Run(name, func(t *testing.T) { wants(t, measured(&c.p, events), want) })
	}
}

// TestCross: a low cross from the right wing short of the byline, with the inner
// foot, cut out; a shot 4 s later would count, one of 6 s would not.
func TestCross(t *testing.T) {
	for _, c := range []struct {
		shot int
		want float64
	}{{140, 1}, {160, 0}} {
		cross := passAt(100, 30, -25, sim.Cross)
		cross.Flight, cross.Inner = sim.Ground, true
		events := []sim.Event{event(sim.EventStart, 0, -41, 0), cross, opponent(event(sim.EventLoose, 110, 41, -3)),
			event(sim.EventReceive, 120, 39, -3), event(sim.EventShot, c.shot, 39, -3), event(sim.EventEnd, c.shot, 39, -3)}
		p := &sim.Possession{End: sim.EndShot, Shot: true, Ticks: c.shot}
		wants(t, measured(p, events), map[string]float64{
			"crosses/share/wing_deep/low":          1,
			"crosses/share/wing_byline/high":       0,
			"crosses/completed/wing_deep/low":      0,
			"crosses/shot_within_5s/wing_deep/low": c.want,
			"crosses/completed/any/inverted":       0,
			"crosses/completed/any/natural_side":   math.NaN(),
		})
	}
}

// TestLoss: what the opponent makes of a loss at (-20, 5), in the middle of the width.
// The loser acted last 3 s before the ball was lost: a shot 17 s after that counts,
// one a tick later does not.
func TestLoss(t *testing.T) {
	for _, c := range []struct {
		after      int
		shot, goal float64
	}{{0, 1, 0.3}, {170, 1, 0.3}, {171, 0, 0}} {
		p := &sim.Possession{End: sim.EndTackled, Ticks: 180, Place: r2.Vec{X: -20, Y: 5}}
		p.After = sim.After{By: sim.WonInPlay, Played: true, Ticks: c.after, Shot: true, Chance: 0.3}
		wants(t, measured(p, buildUpEvents()), map[string]float64{
			"turnover_cost/-35/middle/opponent_shot_within_20s": c.shot,
			"turnover_cost/-35/middle/opponent_goal_within_20s": c.goal,
			"turnover_cost/-35/opponent_goal_within_20s":        c.goal,
			"turnover_cost/-35/outer/opponent_shot_within_20s":  math.NaN(),
		})
	}
}
