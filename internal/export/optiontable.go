package export

import "playout/sim"

// optionRow is one thing that a carrier could do.
type optionRow struct {
	id    int
	nth   int // decision of the possession
	d     *sim.Decision
	i     int
	names *roster
}

func (r *optionRow) o() *sim.Option { return &r.d.Options[r.i] }

// other is the side of the player an option names.
func (r *optionRow) other() int {
	if r.o().Act == sim.ActTakeOn {
		return 1 - r.d.Team
	}
	return r.d.Team
}

var optionTable = table[optionRow]{"options", "one row per option of every decision on the ball, of the filmed possessions", []column[optionRow]{
	{"possession", "", "its number, from 0", whole, func(r *optionRow) cell { return ofInt(r.id) }},
	{"decision", "", "of this possession, from 0", whole, func(r *optionRow) cell { return ofInt(r.nth) }},
	{"t_s", "s", "from the start of the possession", number, func(r *optionRow) cell { return seconds(r.d.Tick) }},
	{"phase", "", "possession, or after_loss: the opponent has the ball", text, func(r *optionRow) cell { return ofText(phases[r.d.Team]) }},
	{"team", "", "on the ball", text, func(r *optionRow) cell { return ofText(sides[r.d.Team]) }},
	{"player", "", "shirt number of the carrier", whole, func(r *optionRow) cell { return ofInt(r.names.number[r.d.Team][r.d.Player]) }},
	{"option", "", "of this decision, from 0", whole, func(r *optionRow) cell { return ofInt(r.i) }},
	{"taken", "", "it is what he did", yes, func(r *optionRow) cell { return ofBool(r.i == r.d.Taken) }},
	{"act", "", "pass, keep (stand on the ball or carry it), take_on, shot", text, func(r *optionRow) cell { return ofText(r.o().Act.String()) }},
	{"to_player", "", "shirt number of the receiver or, for a take_on, of the opponent", whole, func(r *optionRow) cell {
		return r.names.numberOf(r.other(), r.o().Player)
	}},
	{"to_x", "m", "where the ball is meant to go", number, func(r *optionRow) cell { return metres(r.o().To.X) }},
	{"to_y", "m", "likewise", number, func(r *optionRow) cell { return metres(r.o().To.Y) }},
	{"detail", "", "of a pass: ground, high, cross, cut_back", text, func(r *optionRow) cell {
		if r.o().Act != sim.ActPass {
			return cell{}
		}
		if r.o().Back {
			return ofText("cut_back")
		}
		return ofText(r.o().Pass.String())
	}},
	{"flight", "", "of a pass: ground, driven, clipped, floated", text, func(r *optionRow) cell {
		return given(r.o().Act == sim.ActPass, ofText(r.o().Flight.String()))
	}},
	{"into_space", "", "a pass into space rather than to feet", yes, func(r *optionRow) cell {
		return given(r.o().Act == sim.ActPass, ofBool(r.o().Space))
	}},
	{"chance", "0 to 1", "of success as the engine gives it, before the error of execution; of a shot its xG", number, func(r *optionRow) cell { return share(r.o().Chance) }},
	{"worth", "goals", "if it comes off", number, func(r *optionRow) cell { return share(r.o().Worth) }},
	{"share", "0 to 1", "of the times he would choose it", number, func(r *optionRow) cell { return share(r.o().Share) }},
}}
