package report

import (
	"strings"
	"unicode"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
)

// maxText caps a cleaned text, in runes: long enough for any honest title.
const maxText = 200

// clean makes a text from a scenario file safe to print: one line, no control
// characters, no invisible ones that reorder or hide text, at most maxText runes.
func clean(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.In(r, unicode.Zl, unicode.Zp):
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co):
			return -1
		}
		return r
	}, s)
	s = strings.Join(strings.Fields(s), " ")
	if runes := []rune(s); len(runes) > maxText {
		s = string(runes[:maxText-1]) + "…"
	}
	return s
}

// width is how many columns a text takes on a terminal.
func width(s string) int { return twwidth.WidthWithOptions(s, twwidth.Options{}) }

// marks is how many combining marks a letter may carry in a cut text.
const marks = 2

// cut shortens a text to a number of columns and drops piles of combining marks.
func cut(s string, columns int) string {
	short := width(s) <= columns
	var b strings.Builder
	used, piled := 0, 0
	for _, r := range s {
		w := width(string(r))
		if w == 0 {
			if piled++; piled > marks {
				continue
			}
		} else {
			piled = 0
		}
		if !short && used+w > columns-1 {
			b.WriteString("…")
			break
		}
		b.WriteRune(r)
		used += w
	}
	return b.String()
}

// wrap breaks a text into lines of at most the given number of columns.
func wrap(s string, columns int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		word = cut(word, columns)
		if line != "" && width(line)+1+width(word) > columns {
			lines = append(lines, line)
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
