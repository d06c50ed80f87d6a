package model

import "gonum.org/v1/gonum/spatial/r2"

// Position is where a player plays: the codes of match sheets.
type Position uint8

// Positions, from the keeper to the forwards.
const (
	GK Position = iota
	LB
	LCB
	CB
	RCB
	RB
	LDM
	CDM
	RDM
	LM
	LCM
	CM
	RCM
	RM
	LAM
	CAM
	RAM
	LW
	LCF
	CF
	RCF
	RW
	NumPositions
)

var positionNames = [NumPositions]string{
	"GK", "LB", "LCB", "CB", "RCB", "RB", "LDM", "CDM", "RDM", "LM", "LCM", "CM", "RCM", "RM",
	"LAM", "CAM", "RAM", "LW", "LCF", "CF", "RCF", "RW",
}

func (p Position) String() string { return positionNames[p] }

// place is where a position stands in a team: X from 0 (last line) to 1 (first
// line), Y from -1 (right touchline) to 1 (left). It serves only to hand the
// places of a shape to the players who fit them; common practice, no source.
var place = [NumPositions]r2.Vec{
	GK: {X: -1, Y: 0},
	LB: {X: 0.05, Y: 0.8}, LCB: {X: 0, Y: 0.3}, CB: {X: 0, Y: 0}, RCB: {X: 0, Y: -0.3}, RB: {X: 0.05, Y: -0.8},
	LDM: {X: 0.35, Y: 0.25}, CDM: {X: 0.32, Y: 0}, RDM: {X: 0.35, Y: -0.25},
	LM: {X: 0.55, Y: 0.8}, LCM: {X: 0.52, Y: 0.3}, CM: {X: 0.5, Y: 0}, RCM: {X: 0.52, Y: -0.3}, RM: {X: 0.55, Y: -0.8},
	LAM: {X: 0.75, Y: 0.4}, CAM: {X: 0.75, Y: 0}, RAM: {X: 0.75, Y: -0.4},
	LW: {X: 0.9, Y: 0.8}, LCF: {X: 1, Y: 0.2}, CF: {X: 1, Y: 0}, RCF: {X: 1, Y: -0.2}, RW: {X: 0.9, Y: -0.8},
}

// Group is the company among which a player's percentiles are taken.
type Group uint8

// Groups of positions.
const (
	Keepers Group = iota
	Defenders
	Midfielders
	Forwards
	NumGroups
)

var groupNames = [NumGroups]string{"keeper", "defender", "midfielder", "forward"}

func (g Group) String() string { return groupNames[g] }

// Group returns the company of the position.
func (p Position) Group() Group {
	switch {
	case p == GK:
		return Keepers
	case p <= RB:
		return Defenders
	case p <= RAM:
		return Midfielders
	}
	return Forwards
}

func (p Position) usualFoot() Foot {
	switch p {
	case LB, LCB, LM, LW:
		return LeftFoot
	}
	return RightFoot
}

// usualBehaviour is what a position does when the scenario does not say;
// common practice, no source.
func (p Position) usualBehaviour() Behaviour {
	switch p {
	case GK, LCB, CB, RCB:
		return Behaviour{Kind: RestDefence}
	case LB, RB, LM, RM:
		return Behaviour{Kind: OfferAngle}
	case CDM, LDM, RDM:
		return Behaviour{Kind: Support}
	case LCM, CM, RCM:
		return Behaviour{Kind: OfferAngle}
	case LAM, CAM, RAM:
		return Behaviour{Kind: BetweenLines}
	case CF, LCF, RCF:
		return Behaviour{Kind: Pin, Line: LastLine}
	}
	return Behaviour{Kind: OfferAngle}
}

// DefaultPositions are those of a 4-3-3, numbered 1 to 11 in this order when a
// scenario names no players.
var DefaultPositions = [11]Position{GK, LB, LCB, RCB, RB, CDM, LCM, RCM, LW, CF, RW}
