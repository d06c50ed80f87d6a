package scenario

import (
	"strconv"
	"strings"
)

// kind is what a node holds.
type kind uint8

const (
	scalar  kind = iota
	mapping      // key: value
	list
	broken // a fault was reported; whoever meets it stays silent
)

// A node is one value of a file, with where it was written, so that a fault
// found late can still be shown in its place.
type node struct {
	src       *source
	line, col int // 1-based; columns count characters
	kind      kind
	text      string // of a scalar
	plain     bool   // scalar without quotes
	null      bool   // scalar that stands for nothing
	number    bool   // plain scalar that YAML reads as something other than text
	flow      bool   // [..] or {..}
	key       *node  // the key this is the value of, nil in lists
	entries   []*node
	items     []*node
}

// get returns the value of a key of a mapping, or nil.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for _, v := range n.entries {
		if v.key.text == key {
			return v
		}
	}
	return nil
}

// mark is the node to point at: the key of a value spread over lines of its
// own, otherwise the value.
func (n *node) mark() *node {
	if n.key != nil && (n.kind == mapping || n.kind == list) && !n.flow {
		return n.key
	}
	return n
}

// at follows a path such as attack.players[3].pace and returns the deepest
// node there is on it.
func (n *node) at(path string) *node {
	for step := range strings.SplitSeq(path, ".") {
		name, index, indexed := strings.Cut(step, "[")
		next := n.get(name)
		if next == nil {
			return n
		}
		n = next
		if !indexed {
			continue
		}
		i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
		if err != nil || i < 0 || i >= len(n.items) {
			return n
		}
		n = n.items[i]
	}
	return n
}

// say puts a path into words: attack.players[3].pace becomes "attack, player
// 7, pace" when the fourth player listed wears number 7.
func (n *node) say(path string) string {
	var words []string
	at := ""
	for step := range strings.SplitSeq(path, ".") {
		at = strings.TrimPrefix(at+"."+step, ".")
		name, index, indexed := strings.Cut(strings.TrimSuffix(step, "]"), "[")
		i, err := strconv.Atoi(index)
		switch {
		case indexed && err == nil && name == "players":
			who := strconv.Itoa(i+1) + " of the list"
			if number := n.at(at + ".number"); number.key != nil && number.key.text == "number" {
				who = number.text
			}
			words = append(words, "player "+clip(who))
		case indexed && err == nil:
			words = append(words, name, "entry "+strconv.Itoa(i+1))
		case strings.Trim(step, "0123456789") == "":
			words = append(words, "player "+clip(step))
		default:
			words = append(words, clip(step))
		}
	}
	return strings.Join(words, ", ")
}

// describe names what a node holds, for "needs ..., not ...".
func (n *node) describe() string {
	switch {
	case n.kind == mapping:
		return "a mapping (keys with values)"
	case n.kind == list:
		return "a list"
	case n.null:
		return "nothing"
	}
	return quote(n.text)
}
