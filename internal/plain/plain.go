// Package plain makes texts of unknown origin safe to show: the titles and names
// of a scenario file, which may hold anything.
package plain

import (
	"strings"
	"unicode"

	"github.com/olekukonko/tablewriter/pkg/twwidth"
)

// MaxText caps a cleaned text, in runes: long enough for any honest title.
const MaxText = 200

// Clean makes a text from a scenario file safe to print: one line, no control
// characters, no invisible ones that reorder or hide text, at most MaxText runes.
func Clean(s string) string {
	s = Long(s)
	if runes := []rune(s); len(runes) > MaxText {
		s = string(runes[:MaxText-1]) + "…"
	}
	return s
}

// Long is Clean for texts that may be longer than MaxText.
func Long(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r), unicode.In(r, unicode.Zl, unicode.Zp):
			return ' '
		case unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co), r&0xFFFE == 0xFFFE: // the last two of a plane are no characters
			return -1
		}
		return r
	}, s)
	return strings.Join(strings.Fields(s), " ")
}

// Width is how many columns a text takes on a terminal.
func Width(s string) int { return twwidth.WidthWithOptions(s, twwidth.Options{}) }

// marks is how many combining marks a letter may carry in a cut text.
const marks = 2

// Cut shortens a text to a number of columns and drops piles of combining marks.
func Cut(s string, columns int) string {
	short := Width(s) <= columns
	var b strings.Builder
	used, piled := 0, 0
	for _, r := range s {
		w := Width(string(r))
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

// Wrap breaks a text into lines of at most the given number of columns.
func Wrap(s string, columns int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		word = Cut(word, columns)
		if line != "" && Width(line)+1+Width(word) > columns {
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
