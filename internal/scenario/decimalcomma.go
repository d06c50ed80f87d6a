package scenario

import "strings"

// joined is the number that two values were meant to be, if they stand where a decimal
// comma would have parted it: 10,5 in braces or brackets is a 10 and a 5 to YAML.
func joined(whole, rest *node) (string, bool) {
	if whole.kind != scalar || !whole.plain || rest.kind != scalar || !rest.plain {
		return "", false
	}
	digits := strings.TrimLeft(whole.text, "+-")
	ok := digits != "" && strings.Trim(digits, "0123456789") == "" &&
		rest.text != "" && strings.Trim(rest.text, "0123456789") == "" &&
		rest.line == whole.line && rest.col == whole.col+len(whole.text)+1
	return whole.text + "." + rest.text, ok
}

// afterPoint is how to mend a decimal comma.
func afterPoint(number string) string { return "write the decimals after a point: " + clip(number) }

// rejoin mends the entry before a key that is the rest of a number, and notes the fault.
func (p *parser) rejoin(entries []*node, value *node) bool {
	if len(entries) == 0 || !value.null || value.key.kind != scalar {
		return false
	}
	before := entries[len(entries)-1]
	number, ok := joined(before, value.key)
	if ok {
		p.faults.add(before, "", clip(before.key.text)+" is "+clip(before.text)+", and "+clip(value.key.text)+
			" is a key by itself: in braces a comma parts keys", afterPoint(number))
		before.text = number
	}
	return ok
}

// pointOf guesses the place that was meant by a value which is none.
func pointOf(n *node) string {
	x, y := n.get("x"), n.get("y")
	if n.kind == list && (len(n.items) == 3 || len(n.items) == 4) {
		var parts []*node
		for i := 0; i < len(n.items); i++ {
			part := *n.items[i]
			if i+1 < len(n.items) && len(n.items)-i+len(parts) > 2 {
				if number, ok := joined(n.items[i], n.items[i+1]); ok {
					part.text = number
					i++
				}
			}
			parts = append(parts, &part)
		}
		if len(parts) == 2 {
			x, y = parts[0], parts[1]
		}
	}
	for _, v := range []*node{x, y} {
		if v == nil || v.kind != scalar || !v.plain || !isDecimal(v.text) {
			return ""
		}
	}
	return "[" + clip(x.text) + ", " + clip(y.text) + "]"
}
