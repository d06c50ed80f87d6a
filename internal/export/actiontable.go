package export

import (
	"playout/model"
	"playout/sim"
)

// actionRow is an action of a possession.
type actionRow struct {
	id    int
	nth   int
	a     *action
	names *roster
}

// passOnly and eventOnly are values that only some actions have.
func passOnly(r *actionRow, c func(e *sim.Event) cell) cell {
	if r.a.kind != actPass {
		return cell{}
	}
	return c(r.a.event)
}

func eventOnly(r *actionRow, c func(e *sim.Event) cell) cell {
	if r.a.event == nil {
		return cell{}
	}
	return c(r.a.event)
}

var actionTable = table[actionRow]{"actions", "one row per event on the ball, and per press, with what came of it", []column[actionRow]{
	{"possession", "", "its number, from 0", whole, func(r *actionRow) cell { return ofInt(r.id) }},
	{"action", "", "of this possession, from 0, in order of time", whole, func(r *actionRow) cell { return ofInt(r.nth) }},
	{"phase", "", "possession, or after_loss: what the opponent makes of the lost ball", text, func(r *actionRow) cell {
		if r.a.after {
			return ofText(phases[1])
		}
		return ofText(phases[0])
	}},
	{"t_s", "s", "when it began, from the start of the possession", number, func(r *actionRow) cell { return seconds(r.a.tick) }},
	{"end_s", "s", "when it was over: a pass received, cut out or out of play, a carry at its end", number, func(r *actionRow) cell { return seconds(r.a.end) }},
	{"team", "", "of the player: attack or defence", text, func(r *actionRow) cell { return ofText(sides[r.a.team]) }},
	{"player", "", "shirt number", whole, func(r *actionRow) cell { return r.names.numberOf(r.a.team, r.a.player) }},
	{"position", "", "his position", text, func(r *actionRow) cell { return r.names.positionOf(r.a.team, r.a.player) }},
	{"type", "", "start (has the ball first), pass, carry (3 m or more), take_on, shot, touch (gets away from him), recovery, restart, challenge (by an opponent of the carrier), deflection (off an opponent, clearances among them), press (a defender leaves his slot)", text, func(r *actionRow) cell {
		return ofText(r.a.kind.String())
	}},
	{"detail", "", "pass: ground, high, cross, cut_back; recovery: loose_ball or the end that gave the ball away; restart: throw_in, free_kick, goal_kick", text, func(r *actionRow) cell {
		return given(r.a.detail != "", ofText(r.a.detail))
	}},
	{"outcome", "", "complete, cut_out (touched by an opponent, nobody has it), won, not_won, lost, loose, taken, foul, foul_won, goal, no_goal, or the end it led to", text, func(r *actionRow) cell { return ofText(r.a.outcome) }},
	{"success", "", "for the player's side; of a press: the ball was won within 5 s", yes, func(r *actionRow) cell { return ofBool(r.a.success) }},
	{"x", "m", "where it began, along the pitch from the centre spot, attack plays towards +", number, func(r *actionRow) cell { return metres(r.a.from.X) }},
	{"y", "m", "across, + is left of the attack", number, func(r *actionRow) cell { return metres(r.a.from.Y) }},
	{"end_x", "m", "where it ended; of a press: where it aimed", number, func(r *actionRow) cell { return metres(r.a.to.X) }},
	{"end_y", "m", "likewise", number, func(r *actionRow) cell { return metres(r.a.to.Y) }},
	{"third", "", "where it began, as the player's own side sees it", text, func(r *actionRow) cell { return ofText(r.names.pitch.ThirdOf(r.own(r.a.from.X)).String()) }},
	{"lane", "", "likewise", text, func(r *actionRow) cell { return ofText(model.LaneOf(r.own(r.a.from.Y)).String()) }},
	{"receiver", "", "shirt number of the team-mate who got a complete pass", whole, func(r *actionRow) cell { return r.names.numberOf(r.a.team, r.a.receiver) }},
	{"aimed_at", "", "shirt number of the team-mate a pass was meant for", whole, func(r *actionRow) cell { return r.names.numberOf(r.a.team, r.a.aimed) }},
	{"target_x", "m", "where a pass or take-on was meant to go", number, func(r *actionRow) cell {
		return given(r.a.kind != actShot, eventOnly(r, func(e *sim.Event) cell { return metres(e.To.X) }))
	}},
	{"target_y", "m", "likewise", number, func(r *actionRow) cell {
		return given(r.a.kind != actShot, eventOnly(r, func(e *sim.Event) cell { return metres(e.To.Y) }))
	}},
	{"opponent", "", "shirt number of the opponent challenged, of the carrier challenged, or of who cut the pass out, if known", whole, func(r *actionRow) cell { return r.names.numberOf(1-r.a.team, r.a.opponent) }},
	{"chance", "0 to 1", "of success of a pass or take-on when it was chosen", number, func(r *actionRow) cell { return share(r.a.chance) }},
	{"xg", "goals", "of a shot", number, func(r *actionRow) cell { return given(r.a.kind == actShot, share(r.a.xg)) }},
	{"flight", "", "of a pass: ground, driven, clipped, floated", text, func(r *actionRow) cell {
		return passOnly(r, func(e *sim.Event) cell { return ofText(e.Flight.String()) })
	}},
	{"header", "", "pass or shot: with the head", yes, func(r *actionRow) cell {
		return given(r.a.kind != actTakeOn, eventOnly(r, func(e *sim.Event) cell { return ofBool(e.Header) }))
	}},
	{"inswinging", "", "of a cross: with the foot nearer to the goal", yes, func(r *actionRow) cell {
		return passOnly(r, func(e *sim.Event) cell { return given(e.Pass == sim.Cross, ofBool(e.Inner)) })
	}},
	{"nearest_opponent", "m", "pass, shot: his distance from the ball then", number, func(r *actionRow) cell {
		return given(r.a.kind != actTakeOn, eventOnly(r, func(e *sim.Event) cell { return metres(e.Near) }))
	}},
	{"closest_opponent", "m", "pass, shot, take-on of the first phase: how near one had been in this spell on the ball", number, func(r *actionRow) cell {
		return given(!r.a.after, eventOnly(r, func(e *sim.Event) cell { return metres(e.Closest) }))
	}},
	{"moved", "m", "pass, shot, take-on of the first phase: the player's way in this spell on the ball", number, func(r *actionRow) cell {
		return given(!r.a.after, eventOnly(r, func(e *sim.Event) cell { return metres(e.Path) }))
	}},
	{"last_line", "m", "pass, shot, take-on: height of the opponent's last line above his own goal line", number, func(r *actionRow) cell {
		return eventOnly(r, func(e *sim.Event) cell { return metres(e.Line) })
	}},
}}

// own is a coordinate as the side of the player sees it.
func (r *actionRow) own(v float64) float64 { return v * (1 - 2*float64(r.a.team)) }

// roster is what tables need of the scenario.
type roster struct {
	pitch    model.Pitch
	number   [2][]int
	position [2][]string
}

func newRoster(sc *model.Scenario) *roster {
	r := &roster{pitch: sc.Pitch}
	for side := range sc.Teams {
		for _, p := range sc.Teams[side].Players {
			r.number[side] = append(r.number[side], p.Number)
			r.position[side] = append(r.position[side], p.Position.String())
		}
	}
	return r
}

// numberOf is the shirt number of a player; nobody has none.
func (r *roster) numberOf(side, player int) cell {
	if player == nobody {
		return cell{}
	}
	return ofInt(r.number[side][player])
}

func (r *roster) positionOf(side, player int) cell {
	if player == nobody {
		return cell{}
	}
	return ofText(r.position[side][player])
}
