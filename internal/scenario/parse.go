package scenario

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// Limits on a file. Shipped scenarios stay below a tenth of each.
const (
	maxBytes = 1 << 20 // 1 MiB
	maxMarks = 50_000  // characters that can begin a value; bounds the memory of the tree
	maxDepth = 16      // values within values; the format needs 6
)

// parse turns the text of a file into a tree. It refuses what a scenario never
// needs: aliases and tags, repeated keys, a second document.
func parse(src *source, faults *faults) *node {
	src.text = bytes.TrimPrefix(src.text, []byte("\ufeff"))
	if what, mend, at := unreadable(src); what != "" {
		faults.add(at, "", what, mend)
		return nil
	}
	loader, err := yaml.NewLoader(bytes.NewReader(src.text), yaml.WithUniqueKeys(false))
	if err != nil {
		syntax(src, err, faults)
		return nil
	}
	var doc, second yaml.Node
	if err := loader.Load(&doc); err != nil {
		if errors.Is(err, io.EOF) {
			empty(src, faults)
		} else {
			syntax(src, err, faults)
		}
		return nil
	}
	switch err := loader.Load(&second); {
	case err == nil:
		faults.add(&node{src: src, line: second.Line, col: second.Column}, "", "a second document begins here",
			"keep one in a file, and remove the line ---")
		return nil
	case !errors.Is(err, io.EOF):
		syntax(src, err, faults)
		return nil
	}
	p := parser{src, faults}
	root := &doc
	if doc.Kind == yaml.DocumentNode && len(doc.Content) == 1 {
		root = doc.Content[0]
	}
	if root.Kind == yaml.ScalarNode && root.ShortTag() == "!!null" {
		empty(src, faults)
		return nil
	}
	return p.convert(root, 0)
}

// nothingThere is said of a text that holds nothing, or null.
const nothingThere = "the file is empty"

func empty(src *source, faults *faults) {
	faults.add(src.start(), "", nothingThere, src.begins)
}

// unreadable finds what makes a file no text for people: size, encoding,
// control characters.
func unreadable(src *source) (what, mend string, at *node) {
	text := src.text
	if len(text) > maxBytes {
		return fmt.Sprintf("the file is larger than %d KiB", maxBytes>>10), "a few kB are enough; is this the right file?", src.start()
	}
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return "the file is UTF-16 text", "save it as UTF-8", src.start()
	}
	line, col, marks := 1, 0, 0
	for i, r := range string(text) {
		col++
		here := &node{src: src, line: line, col: col}
		switch {
		case r == utf8.RuneError && sizeAt(text, i) == 1:
			return "this is not text (UTF-8)", "write plain text; save it as UTF-8", here
		case r != '\t' && r != '\n' && r != '\r' && r != 0x85 && unicode.IsControl(r), r == 0xfeff, r == 0xfffe, r == 0xffff:
			return fmt.Sprintf("%U, a character that YAML does not take", r), "delete it; write plain text", here
		case isBreak(r) && !(r == '\r' && i+1 < len(text) && text[i+1] == '\n'):
			line, col = line+1, 0
			marks++
		case strings.ContainsRune(",[]{}:-?&*!#", r):
			marks++
		}
		if marks > maxMarks {
			return "the file holds far more values than it can need", "is this the right file?", here
		}
	}
	return "", "", nil
}

func sizeAt(text []byte, i int) int {
	_, size := utf8.DecodeRune(text[i:])
	return size
}

type parser struct {
	src    *source
	faults *faults
}

func (p *parser) convert(y *yaml.Node, depth int) *node {
	n := &node{src: p.src, line: y.Line, col: y.Column, flow: y.Style&yaml.FlowStyle != 0}
	refuse := func(what, mend string) *node {
		p.faults.add(n, "", what, mend)
		n.kind = broken
		return n
	}
	switch {
	case depth > maxDepth:
		return refuse("values are nested too deep", "check the brackets and the indentation")
	case y.Kind == yaml.AliasNode:
		return refuse("an alias (*name) cannot be used here", "write the value out, or use extends: to build on another file")
	case y.Anchor != "":
		return refuse("an anchor (&name) cannot be used here", "write the value without it, or use extends: to build on another file")
	case y.Style&yaml.TaggedStyle != 0:
		return refuse("a tag (!name) cannot be used here", "write the value without it")
	}
	switch y.Kind {
	case yaml.ScalarNode:
		if before, _, found := strings.Cut(y.Value, ":\u00a0"); found {
			n.col += utf8.RuneCountInString(before) + 1
			return refuse(noBreakWhat, noBreakMend)
		}
		n.text = y.Value
		n.plain = y.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
		n.null = n.plain && y.ShortTag() == "!!null"
		n.number = n.plain && y.ShortTag() != "!!str"
	case yaml.SequenceNode:
		n.kind = list
		for _, c := range y.Content {
			n.items = append(n.items, p.convert(c, depth+1))
		}
	case yaml.MappingNode:
		n.kind = mapping
		p.entries(n, y, depth)
	default:
		return refuse("this value cannot be read", "write a number, a word, a list or keys with values")
	}
	return n
}

func (p *parser) entries(n *node, y *yaml.Node, depth int) {
	first, twice := map[string]*node{}, map[string]bool{}
	for i := 0; i+1 < len(y.Content); i += 2 {
		key := p.convert(y.Content[i], depth+1)
		value := p.convert(y.Content[i+1], depth+1)
		value.key = key
		switch {
		case key.kind == broken:
			continue
		case key.kind != scalar:
			p.faults.add(key, "", "a key must be a word or a number, not "+key.describe(), "write key: value")
			continue
		case n.flow && p.rejoin(n.entries, value):
			continue
		case twice[key.text]:
			continue
		case first[key.text] != nil:
			twice[key.text] = true
			p.faults.add(key, "", fmt.Sprintf("key %s is given twice, first on line %d", quote(key.text), first[key.text].line), "keep one of the two")
			continue
		}
		first[key.text] = key
		n.entries = append(n.entries, value)
	}
}
