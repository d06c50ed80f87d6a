package scenario

import (
	"errors"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"
)

// plainWords says in plain words what the YAML reader means. The first entry
// whose text is part of the reader's message counts.
var plainWords = []struct{ message, what, mend string }{
	{"mapping values are not allowed", "a colon where none can be", "check the indentation of this line and the one before; put text with a colon in quotes"},
	{"did not find expected ',' or ']'", "a comma is missing, or the list is not closed", "put a comma between the entries and ] at the end"},
	{"did not find expected ',' or '}'", "a comma is missing, or the braces are not closed", "put a comma between the entries and } at the end"},
	{"could not find expected ':'", "a key without a colon", "write key: value, with a space after the colon"},
	{"did not find expected key", "this line does not fit the lines before it", "check its indentation: keys of one mapping begin in the same column"},
	{"did not find expected '-' indicator", "this line does not fit the list before it", "check its indentation: begin each entry of a list with a dash in the same column"},
	{"found unexpected end of stream", "a quote is opened and never closed", "close it, or take it away"},
	{"found unexpected document indicator", "a quote is opened and never closed", "close it, or take it away"},
	{"unknown escape character", "a backslash that means nothing", "use single quotes around text with a backslash"},
	{"exceeded max depth", "values are nested too deep", "check the brackets and the indentation"},
	{"unknown anchor", "an alias (*name) cannot be used here", "write the value out, or use extends: to build on another file"},
	{"did not find expected <document start>", "text after the end of the scenario", "check the indentation, and that every line is key: value"},
	{"did not find expected node content", "a value is missing here", "check the brackets and commas"},
	{"block sequence entries are not allowed", "a list cannot begin here", "put the dash on a line of its own under the key"},
	{"found character that cannot start any token", "a value cannot begin with this character", "put the text in quotes"},
	{"content after document-end", "text after the end of the scenario", "check the indentation, and that every line is key: value"},
	{"found a comment without preceding whitespace", "a # right behind a value", "put a space before a comment, and text with # in quotes"},
	{"tab character", "a tab where only spaces can be", "use spaces"},
	{"mapping keys are not allowed", "a key cannot begin here", "check the indentation; put text that begins with ? in quotes"},
	{"alphabetic or numeric character", "an anchor (&name) or alias (*name) cannot be used here", "put text that begins with & or * in quotes"},
	{"block scalar", "text in a block (| or >) is not needed here", "write it on one line, in quotes where it holds : or #"},
	{"tag", "a tag (!name) cannot be used here", "write the value without it; put text that begins with ! in quotes"},
	{"directive", "lines that begin with % have no place here", "remove the line, or put the text in quotes"},
}

// What is said of a no-break space, which looks like a space and parts no key from its
// value.
const (
	noBreakWhat = "a no-break space behind the colon"
	noBreakMend = "write a plain space in its place"
)

// noBreak finds the first no-break space behind a colon in lines from to to.
func noBreak(src *source, from, to int) *node {
	for n := max(from, 1); n <= to; n++ {
		line := src.line(n)
		if before, _, found := strings.Cut(line, ":\u00a0"); found && !strings.Contains(before, "#") {
			return &node{src: src, line: n, col: utf8.RuneCountInString(before) + 2}
		}
	}
	return nil
}

// syntax reports an error of the YAML reader.
func syntax(src *source, err error, faults *faults) {
	var load *yaml.LoadError
	if !errors.As(err, &load) {
		faults.add(src.start(), "", "this is not YAML: "+cut(err.Error(), excerptWidth), "check brackets, quotes and indentation")
		return
	}
	at := &node{src: src, line: max(load.Mark.Line, 1), col: max(load.Mark.Column, 1)}
	if open := load.ContextMark; open.Line > 0 && open.Line != at.line && begunBefore(load.Message) {
		at.line, at.col = open.Line, max(open.Column, 1)
	}
	if end := src.end(); at.line > end.line {
		faults.add(end, "", "the file ends in the middle of a value", "close what is open: brackets, braces or quotes")
		return
	}
	if line := src.line(at.line); strings.Contains(load.Message, "cannot start any token") || strings.Contains(load.Message, "tab") {
		if indent := line[:len(line)-len(strings.TrimLeft(line, " \t"))]; strings.Contains(indent, "\t") {
			at.col = strings.Index(indent, "\t") + 1
			faults.add(at, "", "a tab in the indentation", "indent with spaces")
			return
		}
	}
	// The reader may stop a line after the one with the mistake.
	if space := noBreak(src, at.line-1, at.line); space != nil {
		faults.add(space, "", noBreakWhat, noBreakMend)
		return
	}
	for _, w := range plainWords {
		if strings.Contains(load.Message, w.message) || strings.Contains(load.ContextMsg, w.message) {
			faults.add(at, "", w.what, w.mend)
			return
		}
	}
	faults.add(at, "", "this is not YAML: "+cut(load.Message, excerptWidth), "check brackets, quotes and indentation")
}

// begunBefore tells the messages that are clearer at the place where the
// bracket, quote or key stands that was not ended.
func begunBefore(message string) bool {
	return strings.Contains(message, "end of stream") || strings.Contains(message, "document indicator") ||
		strings.Contains(message, "',' or") || strings.Contains(message, "expected ':'")
}
