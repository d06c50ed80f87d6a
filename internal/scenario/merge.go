package scenario

import (
	"fmt"
	"slices"
	"strconv"

	"playout/model"
)

// shorthand names the key that a value written as one word stands for:
// "block: 4-4-2-mid" is "block: {library: 4-4-2-mid}".
var shorthand = map[string]string{
	"block":                         "library",
	model.BuildUp.String():          "shape",
	model.Progression.String():      "shape",
	model.FinalThirdAttack.String(): "shape",
}

// expand writes a shorthand out; other nodes stay as they are.
func expand(n *node) *node {
	if n == nil || n.kind != scalar || n.null || n.key == nil || shorthand[n.key.text] == "" {
		return n
	}
	key := *n.key
	key.text = shorthand[n.key.text]
	word := *n
	word.key = &key
	return &node{src: n.src, line: n.line, col: n.col, kind: mapping, flow: true, key: n.key, entries: []*node{&word}}
}

// merge lays a variant over what it extends: mappings key by key, players by
// number, everything else replaces. It changes neither tree.
func (l *loader) merge(base, over *node) *node {
	if base == nil || over.kind != mapping {
		return over
	}
	if base = expand(base); base.kind != mapping {
		return over
	}
	out := *over
	out.entries = nil
	for _, b := range base.entries {
		v := over.get(b.key.text)
		switch {
		case v == nil:
			v = b
		case b.key.text == "start": // one fact: half of another start makes no sense
		case b.key.text == "block" && expand(v).get("library") != nil: // starts anew from the library
		case b.key.text == "players":
			v = l.mergePlayers(b, v)
		default:
			v = l.merge(b, v)
		}
		out.entries = append(out.entries, v)
	}
	for _, v := range over.entries {
		if base.get(v.key.text) == nil {
			out.entries = append(out.entries, v)
		}
	}
	return &out
}

// mergePlayers lays the players of a variant over those of the same number.
func (l *loader) mergePlayers(base, over *node) *node {
	if base.kind != list || over.kind != list {
		return over
	}
	if len(over.items) > 11 || len(base.items) > 11 {
		l.faults.add(over, "players", "more than 11 players", "a team has 11; a variant names only those it changes")
		return over
	}
	out := *over
	out.items = append([]*node(nil), base.items...)
	seen := map[string]bool{}
	for _, p := range over.items {
		number := p.get("number")
		if p.kind != mapping || number == nil {
			l.faults.add(p, "players", "this player has no number", "a variant changes players by number: {number: 9, pace: 70}")
			continue
		}
		if seen[number.text] {
			l.faults.add(number, "players", "player "+clip(number.text)+" is given twice", "say everything about him in one entry")
			continue
		}
		seen[number.text] = true
		i := byNumber(base.items, number.text)
		if i < 0 {
			l.faults.add(number, "players", "player "+clip(number.text)+" is not in "+clipPath(base.src.name),
				"a variant changes the players that are there; to put a new man in a place, change the name and qualities of that number")
			continue
		}
		out.items[i] = l.merge(base.items[i], p)
	}
	return &out
}

func byNumber(players []*node, number string) int {
	for i, p := range players {
		if n := p.get("number"); n != nil && n.text == number {
			return i
		}
	}
	return -1
}

// averagePlayers gives a team that lists nobody the eleven it would have, so
// that a variant can change one of them.
func averagePlayers(root *node) {
	for _, side := range []model.Side{model.Attack, model.Defence} {
		team := root.get(side.String())
		if team == nil {
			team = &node{src: root.src, kind: mapping, key: &node{src: root.src, text: side.String()}}
			root.entries = append(root.entries, team)
		}
		if team.kind != mapping || team.get("players") != nil {
			continue
		}
		players := &node{src: root.src, kind: list, key: &node{src: root.src, text: "players"}}
		for i, pos := range model.DefaultPositions {
			p := &node{src: root.src, kind: mapping}
			for _, e := range [][2]string{{"number", strconv.Itoa(i + 1)}, {"position", pos.String()}} {
				p.entries = append(p.entries, &node{src: root.src, text: e[1], plain: true, number: e[0] == "number", key: &node{src: root.src, text: e[0]}})
			}
			players.items = append(players.items, p)
		}
		team.entries = append(team.entries, players)
	}
}

// libraries lays each team's block over the library block it names. It leaves
// the tree as it is.
func (l *loader) libraries(root *node) *node {
	out := *root
	out.entries = slices.Clone(root.entries)
	for i, team := range out.entries {
		if k := team.key.text; k == model.Attack.String() || k == model.Defence.String() {
			out.entries[i] = l.library(team)
		}
	}
	return &out
}

func (l *loader) library(team *node) *node {
	block := expand(team.get("block"))
	name := block.get("library")
	if name == nil || name.kind != scalar {
		return team // nothing to lay it over, or a fault that the decoder reports
	}
	base, err := libraryBlock(name.text, &l.faults)
	if err != nil {
		l.faults.add(name, "", fmt.Sprintf("there is no library block %s", quote(name.text)), err.Error())
		return team
	}
	base.key = block.key
	out := *team
	out.entries = slices.Clone(team.entries)
	for i, v := range out.entries {
		if v.key.text == "block" {
			out.entries[i] = l.merge(base, block)
		}
	}
	return &out
}
