package model

import "slices"

// Meet puts the attack of one scenario, with its pitch, start and clock, against the
// defence of another. What one side says of the other, such as an opponent to pin, may
// not fit any more: Validate tells. Both scenarios share their players and runs with the
// new one, so none of the three may be changed afterwards.
func Meet(plan, answer *Scenario) *Scenario {
	sc := *plan
	sc.Title = plan.Title + " against " + answer.Title
	sc.Teams[Defence] = answer.Teams[Defence]
	return &sc
}

// InBlock is the team in another team's block: the same shape and measures, its slots
// handed to the players of this team whose positions fit them best.
func (t *Team) InBlock(b Block) Team {
	out := *t
	out.Block = b
	out.Block.SetSlots(out.Players)
	return out
}

// WithPlayer is the scenario with another man in a player's place, which keeps its
// number, its places in structure and block, and its runs.
func (sc *Scenario) WithPlayer(side Side, index int, p Player) *Scenario {
	out := *sc
	players := slices.Clone(sc.Teams[side].Players)
	p.Number = players[index].Number
	players[index] = p
	out.Teams[side].Players = players
	return &out
}
