package scenario

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Error is what is wrong with a file: the first fault in the order of the
// files and their lines, ready to be shown.
type Error struct {
	File         string
	Line, Column int    // 1-based, columns in characters; 0 when it concerns the file as a whole
	What, Mend   string // what is wrong, how to mend it
	Excerpt      string // the line, cut to fit a screen, and a caret below; "" without a line
	More         int    // further faults
}

// Error is the message for people: place and fault, the line, how to mend it.
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(clipPath(e.File))
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d:%d", e.Line, e.Column)
	}
	b.WriteString(": " + e.What)
	if e.Excerpt != "" {
		b.WriteString("\n" + e.Excerpt)
	}
	if e.Mend != "" {
		b.WriteString("\n" + e.Mend)
	}
	if e.More > 0 {
		fmt.Fprintf(&b, "\n(and %d more)", e.More)
	}
	return b.String()
}

// source is a file being read.
type source struct {
	name   string
	text   []byte
	begins string // how a file of this kind begins
	rank   int    // place in the chain of variants, the file that extends nothing first
}

func (s *source) start() *node { return &node{src: s} }

// isBreak tells the characters at which YAML begins a new line.
func isBreak(r rune) bool {
	return r == '\n' || r == '\r' || r == 0x85 || r == 0x2028 || r == 0x2029
}

// line returns line n (from 1) without its end, "" beyond the last.
func (s *source) line(n int) string {
	text := string(s.text)
	for {
		end := strings.IndexFunc(text, isBreak)
		if n == 1 || end < 0 {
			break
		}
		if strings.HasPrefix(text[end:], "\r\n") {
			end++
		}
		_, size := utf8.DecodeRuneInString(text[end:])
		text = text[end+size:]
		n--
	}
	if n > 1 {
		return ""
	}
	if end := strings.IndexFunc(text, isBreak); end >= 0 {
		text = text[:end]
	}
	return text
}

// end is the place behind the last character that is no space.
func (s *source) end() *node {
	at := &node{src: s, line: 1, col: 1}
	var before rune
	for _, r := range strings.TrimRightFunc(string(s.text), unicode.IsSpace) {
		switch {
		case before == '\r' && r == '\n':
		case isBreak(r):
			at.line, at.col = at.line+1, 1
		default:
			at.col++
		}
		before = r
	}
	return at
}

// fault is a mistake and the node that shows where it is.
type fault struct {
	at               *node
	path, what, mend string
}

type faults []fault

func (f *faults) add(at *node, path, what, mend string) {
	*f = append(*f, fault{at, path, what, mend})
}

// on reports whether there is a fault on a path that ends in key.
func (f faults) on(key string) bool {
	return slices.ContainsFunc(f, func(x fault) bool { return strings.HasSuffix(x.path, key) })
}

// err turns the faults into one error, nil when there are none. One place
// counts once: what follows from a mistake is not a second mistake. root puts
// the paths into words.
func (f faults) err(root *node) error {
	if len(f) == 0 {
		return nil
	}
	at := func(x fault) *node { return x.at.mark() }
	slices.SortStableFunc(f, func(a, b fault) int {
		p, q := at(a), at(b)
		return cmp.Or(cmp.Compare(p.src.rank, q.src.rank), cmp.Compare(p.line, q.line), cmp.Compare(p.col, q.col))
	})
	f = slices.CompactFunc(f, func(a, b fault) bool {
		p, q := at(a), at(b)
		return p.src == q.src && p.line == q.line && p.col == q.col
	})
	first := at(f[0])
	e := &Error{File: first.src.name, Line: first.line, Column: first.col, What: f[0].what, Mend: f[0].mend, More: len(f) - 1}
	if f[0].path != "" {
		e.What = root.say(f[0].path) + ": " + e.What
	}
	if first.line > 0 {
		e.Excerpt = excerpt(first.src.line(first.line), first.col)
	}
	return e
}

// Widths of what is shown, in characters.
const (
	excerptWidth = 100
	clipWidth    = 40
	pathWidth    = 200
)

// excerpt shows a line with a caret under column col, both indented by four.
func excerpt(line string, col int) string {
	if strings.TrimSpace(line) == "" {
		return ""
	}
	text := []rune(clean(line))
	col = min(max(col, 1), len(text)+1)
	lead, tail := "", ""
	if from := col - 1 - excerptWidth*2/3; len(text) > excerptWidth && from > 0 {
		text, col, lead = text[from:], col-from+1, "…"
	}
	if len(text) > excerptWidth {
		text, tail = text[:excerptWidth], "…"
	}
	shown := strings.TrimRight(string(text), " ")
	return "    " + lead + shown + tail + "\n    " + strings.Repeat(" ", col-1) + "^"
}

// clean replaces everything that could move the cursor of a terminal or turn
// its text around, one character for one.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unicode.IsPrint(r):
			return r
		}
		return unicode.ReplacementChar
	}, s)
}

// clip cleans a word and cuts it to a length that leaves a message readable.
func clip(s string) string { return cut(s, clipWidth) }

// clipPath does the same for the names of files.
func clipPath(s string) string { return cut(s, pathWidth) }

func cut(s string, width int) string {
	if utf8.RuneCountInString(s) > width {
		s = string([]rune(s)[:width]) + "…"
	}
	return clean(s)
}

func quote(s string) string { return `"` + clip(s) + `"` }
