package scenario

import (
	"slices"
	"strconv"
	"strings"

	"playout/model"
)

// overlay is the tree of a variant that settings are put into one by one.
type overlay struct {
	base *Base
	root *node
}

// entry adds value to a mapping under a key, in place of what was there.
func (n *node) entry(key string, value *node) *node {
	value.key = &node{src: value.src, text: key, plain: true}
	for i, v := range n.entries {
		if v.key.text == key {
			n.entries[i] = value
			return value
		}
	}
	n.entries = append(n.entries, value)
	return value
}

// put lays a setting into the tree. Lists of runs and the start, which a
// variant replaces whole, are first copied from the base.
func (o *overlay) put(s Setting, value *node) error {
	steps := strings.Split(s.Path, ".")
	at := o.root
	for i, step := range steps[:len(steps)-1] {
		last := i == len(steps)-2
		switch {
		case last && (steps[i+1] == "x" || steps[i+1] == "y"):
			return o.coordinate(s, at, step, steps, value)
		case at.kind == list && i > 0 && steps[i-1] == "players":
			at = numberedItem(at, step)
		case at.kind == list: // runs
			entry, _ := strconv.Atoi(step)
			if entry > len(at.items) || at.items[entry-1].kind != mapping {
				return refused(s, "the runs are set too and have no entry "+step, "set either all runs or values of the present ones")
			}
			at = at.items[entry-1]
		case at.get(step) == nil:
			at = at.entry(step, o.begin(strings.Join(steps[:i+1], "."), step))
		default:
			next := at.get(step)
			if next.kind == scalar && shorthand[step] == "shape" {
				return clash(s, strings.Join(steps[:i+1], "."))
			}
			at = at.entry(step, expand(next))
		}
	}
	at.entry(steps[len(steps)-1], value)
	if s.Path == "start.from" && value.text != model.FromSettled.String() {
		at.entries = slices.DeleteFunc(at.entries, func(v *node) bool { return v.key.text == "ball" })
	}
	return nil
}

// clash refuses places beside a shape that takes all places anew.
func clash(s Setting, phase string) error {
	return refused(s, phase+" is set too, which gives every player a new place", "set "+phase+".shape to keep the places of single players")
}

// begin makes what a key holds before anything is put there.
func (o *overlay) begin(path, key string) *node {
	switch {
	case key == "players":
		return &node{kind: list}
	case path == "start":
		if given := o.base.root.get("start"); given != nil {
			return given.copy()
		}
	case key == "runs":
		if given := o.base.root.at(path); given.key != nil && given.key.text == key {
			return given.copy()
		}
		return o.base.usualRuns(path)
	}
	return &node{kind: mapping}
}

// usualRuns writes out the runs of a team whose file names none.
func (b *Base) usualRuns(path string) *node {
	text, err := Canonical(b.scenario)
	if err != nil {
		panic("scenario: " + err.Error()) // it was valid when it was read
	}
	var none faults
	return parse(&source{text: text}, &none).at(path)
}

func (n *node) copy() *node {
	out := *n
	out.entries, out.items = nil, nil
	for _, v := range n.entries {
		out.entries = append(out.entries, v.copy())
	}
	for _, v := range n.items {
		out.items = append(out.items, v.copy())
	}
	return &out
}

// numberedItem is the entry of a player in a list, made if need be.
func numberedItem(players *node, number string) *node {
	if i := byNumber(players.items, number); i >= 0 {
		return players.items[i]
	}
	p := &node{kind: mapping, flow: true}
	p.entry("number", &node{text: number, plain: true, number: true})
	players.items = append(players.items, p)
	return p
}

// coordinate sets x or y of a place and keeps the other as it is.
func (o *overlay) coordinate(s Setting, at *node, key string, steps []string, value *node) error {
	place := at.get(key)
	if place == nil {
		x, y := o.base.place(steps[:len(steps)-1])
		place = at.entry(key, &node{src: value.src, kind: list, flow: true, items: []*node{x, y}})
	}
	if place.kind != list || len(place.items) != 2 {
		return refused(s, "the place is not [x, y]", "set the whole place")
	}
	out := *place
	out.items = slices.Clone(place.items)
	out.items[strings.Index("xy", steps[len(steps)-1])] = value
	out.src = value.src
	at.entry(key, &out)
	return nil
}

// place is where the base puts the ball or a player in a phase.
func (b *Base) place(steps []string) (x, y *node) {
	p := b.scenario.Start.Ball
	if steps[0] != "start" {
		t := &b.scenario.Teams[sideNamed(steps[0])]
		number, _ := strconv.Atoi(steps[3])
		p = t.Structure.Anchor[phaseNamed(steps[2])][t.ByNumber(number)]
	}
	number := func(v float64) *node { return &node{text: format(v), plain: true, number: true} }
	return number(p.X), number(p.Y)
}

func sideNamed(name string) model.Side {
	if name == model.Defence.String() {
		return model.Defence
	}
	return model.Attack
}

func phaseNamed(name string) model.Phase {
	ph := model.BuildUp
	for ph < model.NumPhases-1 && ph.String() != name {
		ph++
	}
	return ph
}
