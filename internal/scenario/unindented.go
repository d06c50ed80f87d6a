package scenario

import (
	"cmp"
	"reflect"
	"slices"
	"strings"
)

// unindented finds the keys right below a key without a value that belong to it, a
// mapping of type t, but are not indented. They are no mistakes of their own.
func (d *decoder) unindented(n *node, t reflect.Type) []string {
	if n.key == nil || d.root == nil {
		return nil
	}
	var below []*node
	var collect func(*node)
	collect = func(at *node) {
		for _, v := range at.entries {
			if v.key.src == n.key.src && v.key.line > n.key.line {
				below = append(below, v.key)
			}
			collect(v)
		}
		for _, v := range at.items {
			collect(v)
		}
	}
	collect(d.root)
	slices.SortFunc(below, func(a, b *node) int { return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.col, b.col)) })
	var names []string
	for _, key := range below {
		if key.col > n.key.col && len(names) > 0 {
			continue // what belongs to one of them
		}
		if !slices.Contains(known(t), key.text) {
			break
		}
		d.strays[key] = true
		names = append(names, key.text)
	}
	return names
}

// indent says how to put keys under another.
func indent(names []string, under string) string {
	last := names[len(names)-1]
	list := last
	if len(names) > 1 {
		list = strings.Join(names[:len(names)-1], ", ") + " and " + last
	}
	return "move " + list + ", with any lines within, to two columns right of " + under
}
