// Package scenario reads scenario files (YAML) into model.Scenario and writes
// them back. It is strict: an unknown key, a value of the wrong kind or a
// number out of range is a fault, shown with its line and a way to mend it.
//
// # The file
//
// Every key may be left out; what is left out is the league average (see
// model.AverageScenario), and `playout defaults FILE` shows it. Places are
// metres from the centre spot in the team's own frame: x towards the goal it
// attacks, y to its left.
//
//	title: what the scenario asks      # left out: the name of the file
//	extends: other.yaml                # a variant of another file, see below
//	pitch: {length: 105, width: 68}
//	possessions: 10000
//	seed: 1
//	clock: 90                          # s
//	start: {from: settled, player: 4, ball: [-30, 5]}
//	attack:
//	  name: ...
//	  level: 60                        # percentile of whatever a player does not say
//	  players:                         # exactly eleven, the keeper first
//	    - {number: 1, position: GK, foot: left, behaviour: hold, short_passing: 60}
//	    - {number: 9, position: CF, behaviour: {pin: 5}, top_speed: 9.1}
//	  structure:
//	    build_up: 4-3-3                # a shape ...
//	    progression: {shape: 3-2-5, 6: [-12, 0]}   # ... with places of single players ...
//	    final_third: {1: [-30, 0], 2: [12, 20]}    # ... or places alone
//	    ball_side: 0.15
//	  plan: {lanes: {left_wing: 1.5}, tempo: 1.2, risk: 0.5, switching: 1, directness: 1, find: [10]}
//	  runs:
//	    - {run: overlap, player: 2, with: [7], lane: [right_wing], third: [final], chance: 0.3}
//	  block: 4-4-2-mid                 # a library block, or a mapping as below
//	defence:
//	  block:
//	    library: 4-4-2-mid             # what the other keys start from
//	    line_height: 33
//	    shift: {gain: 0.5, delay: 2, speed: 3.5}
//	    press: {height: 70, intensity: 0.7, triggers: [back_pass, touchline]}
//	    slots: {7: {depth: 0.6, side: -0.4}}
//
// A phase that names no shape takes that of the phase before it; a player
// without a place of his own stands where the shape puts him. A phase that
// places all eleven players needs no shape.
//
// # Variants
//
// A file that extends another says only what differs. Mappings are merged key
// by key and players by number; lists (runs, triggers, find) and the start are
// replaced whole. A block or phase written as one word replaces the other
// file's; written as a mapping it changes it.
//
// # Values by path
//
// Open reads a file once; Base.With gives the scenario with other values, named by
// their path in the keys of the file (defence.block.press.height,
// attack.players.7.pace by shirt number, attack.runs.2.chance by place in the
// list), exactly as a variant file would say them, which Base.Variant writes.
//
// Anchors, aliases and tags of YAML are refused: extends does their work.
package scenario
