package scenario

import (
	"reflect"
	"slices"
	"strings"

	"playout/model"
)

// otherKind notes that a file is one of the project's, but no scenario: a still, or a
// block by itself. Its keys would otherwise seem to be in the wrong place one by one.
func otherKind(root *node, faults *faults) bool {
	if len(root.entries) == 0 {
		return false
	}
	at := root.entries[0].key
	switch {
	case placesPlayers(root.get("attack")) || placesPlayers(root.get("defence")):
		faults.add(at, "", "this file is a still: it says where players stand at one moment", "give it to playout still, and a scenario here")
	case allOfBlock(root):
		faults.add(at, "", "this file is a block by itself, not a scenario",
			"put a line defence: above it and below that a line block: indented by two spaces; indent all the rest by four")
	default:
		return false
	}
	return true
}

// isScenario reports whether the file of another kind is a scenario: a team is written
// with the keys of one, or a key of the top is there that only a scenario has.
func isScenario(root *node) bool {
	keys := known(reflect.TypeFor[teamDoc]())
	for _, side := range []model.Side{model.Attack, model.Defence} {
		if team := root.get(side.String()); team != nil && slices.ContainsFunc(team.entries, func(v *node) bool { return slices.Contains(keys, v.key.text) }) {
			return true
		}
	}
	own := []string{"extends", "possessions", "seed", "clock", "after_loss", "start"}
	return root.get("ball") == nil && slices.ContainsFunc(root.entries, func(v *node) bool { return slices.Contains(own, v.key.text) })
}

// placesPlayers reports whether a side is written as in a still, by shirt numbers.
func placesPlayers(side *node) bool {
	if side == nil || side.kind != mapping || len(side.entries) == 0 {
		return false
	}
	return !slices.ContainsFunc(side.entries, func(v *node) bool { return strings.Trim(v.key.text, "0123456789") != "" })
}

// allOfBlock reports whether every key is one of a block.
func allOfBlock(root *node) bool {
	keys := known(reflect.TypeFor[blockDoc]())
	return !slices.ContainsFunc(root.entries, func(v *node) bool { return !slices.Contains(keys, v.key.text) })
}
