package scenario

import (
	"slices"
	"testing"
)

func TestNotes(t *testing.T) {
	const five = "the last line of 5-3-2"
	f := files{
		"plain.yaml": "title: x",
		"none.yaml":  "extends: plain.yaml\nattack: {runs: []}",
		"runs.yaml":  "attack:\n  runs: [{run: in_behind, player: 9}, {run: overlap, player: 2}]",
		"one.yaml":   "extends: runs.yaml\nattack: {runs: [{run: in_behind, player: 9}]}",
		"heir.yaml":  "extends: one.yaml\ntitle: y",
		"same.yaml":  "extends: runs.yaml\nattack: {runs: [{run: in_behind, player: 9}, {run: overlap, player: 5}]}",
		"kick.yaml":  "start: {from: goal_kick, player: 10}",
		"kick2.yaml": "extends: kick.yaml\ntitle: y",
		"keeps.yaml": "start: {from: keeper, player: 1}",
		"back4.yaml": "start: {from: centre_back, player: 9}",
		"back5.yaml": "start: {from: centre_back, player: 4}",
		"mix.yaml":   "start: {player: 1}",
		"five.yaml":  "defence: {block: 5-3-2-low}",
		"slot.yaml":  "extends: five.yaml\ndefence: {block: {slots: {6: {row: 1, depth: 0, side: 0}}}}",
		"back.yaml":  "extends: five.yaml\ndefence: {players: [{number: 6, position: CB}]}",
		"three.yaml": "defence: {block: 4-4-2-mid, players: [{number: 1, position: GK}, {number: 2, position: LCB}, {number: 3, position: CB}, {number: 4, position: CB}, {number: 5, position: CB}, {number: 6, position: RCB}, {number: 7, position: CM}, {number: 8, position: CM}, {number: 9, position: CM}, {number: 10, position: CF}, {number: 11, position: CF}]}",
	}
	for name, want := range map[string][]string{
		"plain.yaml": nil,
		"none.yaml":  nil,
		"runs.yaml":  {"runs.yaml:2:9: note: attack, runs: 2 in place of the usual 7; to keep those, list them here too (playout defaults prints them)"},
		"one.yaml":   {"one.yaml:2:16: note: attack, runs: 1 in place of the 2 in runs.yaml; to keep those, list them here too"},
		"heir.yaml":  nil, // said of one.yaml
		"same.yaml":  nil,
		"kick.yaml":  {"kick.yaml:1:34: note: start, player: 10 (CF) begins in the keeper's place; leave player out for the man the start means"},
		"kick2.yaml": nil, // said of kick.yaml
		"keeps.yaml": nil,
		"back4.yaml": {"back4.yaml:1:36: note: start, player: 9 (LW) is no defender; leave player out for the man the start means"},
		"back5.yaml": nil,
		"mix.yaml":   {"mix.yaml:1:17: note: start, player: 1 begins every build-up, goal kicks too; leave player out for the man the start means"},
		"five.yaml":  {"five.yaml:1:18: note: defence, block: 6 (CDM) stands in " + five + ", for which the team lacks a defender; give a player another position, or a place in slots"},
		"slot.yaml":  nil,
		"back.yaml":  nil,
		"three.yaml": {"three.yaml:1:18: note: defence, block: 3 (CB) stands in front of the last line of 4-4-2; give a player another position, or a place in slots"},
	} {
		var l loader
		path, data, err := l.open(name, f.read)
		if err != nil {
			t.Fatal(err)
		}
		if _, notes, err := l.check(path, data); err != nil || !slices.Equal(notes, want) {
			t.Errorf("%s: %q, %v, want %q", name, notes, err, want)
		}
	}
}
