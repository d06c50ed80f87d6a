package plain

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestClean(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"High press", "High press"},
		{"  two \t lines\r\nhere ", "two lines here"},
		{"\x1b[31mred\x1b[0m", "[31mred[0m"},
		{"a\u202eb\u2066c\u200bd\ufeffe", "abcde"},
		{"a\u2028b\u00a0c", "a b c"},
		{"bad \xff byte", "bad \uFFFD byte"},
		{"a\uFFFEb\uFFFFc", "abc"},
		{"Łódź 守備", "Łódź 守備"},
	} {
		if got := Clean(c.in); got != c.want {
			t.Errorf("Clean(%q) = %q, want %q", c.in, got, c.want)
		}
	}
	if n := utf8.RuneCountInString(Clean(strings.Repeat("x", 10000))); n != MaxText {
		t.Errorf("a long text keeps %d runes, want %d", n, MaxText)
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		in      string
		columns int
		want    string
	}{
		{"short", 5, "short"},
		{"longer", 5, "long…"},
		{"守備守備", 5, "守備…"},
		{"e" + strings.Repeat("\u0301", 9), 5, "e\u0301\u0301"},
	} {
		if got := Cut(c.in, c.columns); got != c.want {
			t.Errorf("Cut(%q, %d) = %q, want %q", c.in, c.columns, got, c.want)
		}
	}
}

func TestWrap(t *testing.T) {
	got := strings.Join(Wrap("one two three incredibly four", 9), "/")
	if want := "one two/three/incredib…/four"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if Wrap("", 10) != nil {
		t.Error("an empty text has lines")
	}
}
