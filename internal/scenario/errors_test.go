package scenario

import (
	"strings"
	"testing"
	"unicode"
)

func TestMessageShowsTheLine(t *testing.T) {
	_, err := LoadBytes("plan.yaml", []byte("title: x\n\nattack:\n  plan: {tempo: 9, risk: 7}\n"))
	want := `plan.yaml:4:17: attack, plan, tempo: 9 is outside 0.3 to 6 s on the ball
      plan: {tempo: 9, risk: 7}
                    ^
give a value from 0.3 to 6 s on the ball
(and 1 more)`
	if err == nil || err.Error() != want {
		t.Errorf("got\n%v\nwant\n%s", err, want)
	}
}

// A hostile file must not move the cursor, turn text around or fill the screen.
func TestMessagesAreHarmless(t *testing.T) {
	long := strings.Repeat("x", 100000)
	for _, text := range []string{
		"title: x # \u202e \u0085\n\u2028foo: 1\n",
		"\u202efoo\u2066: 1\n",
		`"\e]0;owned\a": 1`,
		long + ": 1\n",
		"start: {from: " + long + "}",
		"attack: {structure: {build_up: " + long + "}}",
		"attack: {structure: {build_up: {" + strings.Repeat("9", 1000) + ": [0, 0]}}}",
		"defence: {block: " + long + "}",
		"clock: " + strings.Repeat("9", 100000) + "x",
		"clock: 1" + strings.Repeat("0", 100000),
		`title: "` + strings.Repeat("a", 5000) + `\e"`,
		"title: \"" + strings.Repeat("\t", 500) + "\n: x",
	} {
		_, err := LoadBytes("evil\x1b[31m\n.yaml", []byte(text))
		if err == nil {
			t.Errorf("%.40q was accepted", text)
			continue
		}
		checkHarmless(t, err.Error())
	}
}

func checkHarmless(t *testing.T, message string) {
	t.Helper()
	lines := strings.Split(message, "\n")
	if len(lines) > 5 {
		t.Errorf("message of %d lines: %.300q", len(lines), message)
	}
	for _, line := range lines {
		if at := strings.IndexFunc(line, func(r rune) bool {
			return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Zl, unicode.Zp)
		}); at >= 0 {
			t.Errorf("character %q in %.300q", line[at:at+1], line)
		}
		if len(line) > 800 {
			t.Errorf("line of %d bytes: %.200q…", len(line), line)
		}
	}
}

func TestExcerpt(t *testing.T) {
	long := strings.Repeat("0123456789", 50)
	for _, c := range []struct {
		line string
		col  int
		char string // what the caret must point at
	}{
		{"tempo: 9", 8, "9"},
		{"\ttempo: 9", 9, "9"},
		{"näme: ß", 7, "ß"},
		{long, 1, "0"},
		{long, 73, "2"},
		{long, 250, "9"},
		{long, 500, "9"},
	} {
		shown, caret, _ := strings.Cut(excerpt(c.line, c.col), "\n")
		runes := []rune(shown)
		if at := len(caret) - 1; at >= len(runes) || string(runes[at]) != c.char {
			t.Errorf("column %d of %.20q: caret not under %q:\n%s\n%s", c.col, c.line, c.char, shown, caret)
		}
		if len(runes) > excerptWidth+6 {
			t.Errorf("column %d: %d characters shown", c.col, len(runes))
		}
	}
	if got := excerpt("  ", 1); got != "" {
		t.Errorf("a blank line is shown as %q", got)
	}
}

func TestSourceLines(t *testing.T) {
	s := &source{text: []byte("one\ntwo\r\nthree\rfour\u0085five\u2028six\n\n")}
	for i, want := range []string{"one", "two", "three", "four", "five", "six", "", "", ""} {
		if got := s.line(i + 1); got != want {
			t.Errorf("line %d is %q, want %q", i+1, got, want)
		}
	}
	if end := s.end(); end.line != 6 || end.col != 4 {
		t.Errorf("the text ends at %d:%d, want 6:4", end.line, end.col)
	}
}

func TestNearest(t *testing.T) {
	known := []string{"line_height", "length", "width", "GK", "4-4-2-mid"}
	for word, want := range map[string]string{
		"lineHeight": "line_height", "line-height": "line_height", "lenght": "length", "widht": "width",
		"gk": "GK", "4-4-2 mid": "4-4-2-mid", "colour": "", "": "", strings.Repeat("x", 1000): "",
	} {
		if got := Nearest(word, known); got != want {
			t.Errorf("nearest to %.20q is %q, want %q", word, got, want)
		}
	}
}
