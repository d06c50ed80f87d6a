package scenario

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
	"time"
)

// No file up to the limit takes long or much memory. The bounds are several
// times what was measured (0.4 s, 130 MB), so that a slow machine passes.
func TestNoFileIsCostly(t *testing.T) {
	const maxTime, maxMemory = 5 * time.Second, 500 << 20
	fill := func(s string) string { return strings.Repeat(s, (maxBytes-100)/len(s)) }
	marks := func(s string) string { return strings.Repeat(s, maxMarks/2) }
	numbered := func(format string, n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, format, i)
		}
		return b.String()
	}
	for name, text := range map[string]string{
		"lists in lists":       fill("["),
		"mappings in mappings": fill("{"),
		"dashes":               fill("- "),
		"question marks":       fill("? "),
		"spaces":               fill(" "),
		"line breaks":          fill("\n"),
		"one word":             fill("a"),
		"escapes":              `title: "` + fill(`\u0041`) + `"`,
		"unprintable":          "title: '" + fill("\u202e") + "'",
		"combining":            fill("e\u0301\u0301"),
		"separators":           fill("\u2028"),
		"comments":             marks("#\n"),
		"values":               "title: [" + marks("1,") + "]",
		"empty lists":          "title: [" + strings.Repeat("[],", maxMarks/3-9) + "]",
		"unknown keys":         numbered("k%d: 1\n", maxMarks/2-9),
		"unknown near keys":    numbered("lenght%d: 1\n", maxMarks/2-9),
		"anchors":              numbered("k%d: &a\n", maxMarks/3-9),
		"one key":              marks("a:\n"),
		"tags":                 "title: [" + strings.Repeat("!a b,", maxMarks/2-9) + "]",
		"places":               "attack: {structure: {build_up: {" + numbered("%d: [0,0],", maxMarks/5) + "}}}",
		"slots":                "attack: {block: {slots: {" + numbered("%d: {},", maxMarks/5) + "}}}",
		"runs":                 "attack: {runs: [" + strings.Repeat("{run: overlap},", maxMarks/4-9) + "]}",
		"players":              "attack: {players: [" + strings.Repeat("{},", maxMarks/3-9) + "]}",
		"digits":               "clock: " + fill("9"),
		"zeros":                "clock: 0." + fill("0") + "1",
		"exponent":             "clock: 1e" + fill("9"),
		"indentation":          numberedIndent(1400),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		start := time.Now()
		_, err := LoadBytes("x.yaml", []byte(text))
		took := time.Since(start)
		runtime.ReadMemStats(&after)
		used := after.TotalAlloc - before.TotalAlloc
		t.Logf("%-20s %8v %5d MB", name, took.Round(time.Millisecond), used>>20)
		if took > maxTime || used > maxMemory {
			t.Errorf("%s: %v and %d MB", name, took, used>>20)
		}
		if err == nil {
			t.Errorf("%s: accepted", name)
			continue
		}
		checkHarmless(t, err.Error())
	}
}

func numberedIndent(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}
