package export

import (
	"playout/internal/plain"
	"playout/model"
)

// playerRow is a player of either side.
type playerRow struct {
	side int
	name string // of the team
	p    *model.Player
}

var playerTable = table[playerRow]{"players", "the 22 players; actions, frames and options name a player by team and number", []column[playerRow]{
	{"team", "", "attack: starts every possession with the ball; defence: the block", text, func(r *playerRow) cell { return ofText(sides[r.side]) }},
	{"team_name", "", "the scenario's name for it", text, func(r *playerRow) cell { return ofText(plain.Clean(r.name)) }},
	{"number", "", "of the shirt", whole, func(r *playerRow) cell { return ofInt(r.p.Number) }},
	{"name", "", "empty if the scenario gives none", text, func(r *playerRow) cell { return given(r.p.Name != "", ofText(plain.Clean(r.p.Name))) }},
	{"position", "", "code of match sheets", text, func(r *playerRow) cell { return ofText(r.p.Position.String()) }},
	{"foot", "", "strong foot: right, left, both", text, func(r *playerRow) cell { return ofText(r.p.Foot.String()) }},
	{"behaviour", "", "off the ball when his team has it", text, func(r *playerRow) cell { return ofText(r.p.Behaviour.Kind.String()) }},
}}

// sides are the keys of the teams, by model.Side.
var sides = [2]string{model.Attack.String(), model.Defence.String()}
