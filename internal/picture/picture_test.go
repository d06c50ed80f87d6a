package picture

import (
	"bytes"
	"encoding/xml"
	"flag"
	"image/png"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/recorder"
)

var keep = flag.String("keep", "", "directory to put the pictures into, to look at them")

// around makes an interval of a half-width.
func around(x, half float64) Interval { return Interval{x, x - half, x + half} }

func samples() map[string]Drawing {
	zero := 0.0
	var x []float64
	var a, b, c []Interval
	for i := range 13 {
		h := 40 + 5*float64(i)
		x = append(x, h)
		a = append(a, around(51-0.012*(h-64)*(h-64), 1.1))
		b = append(b, around(14+0.05*(h-40), 0.8))
		c = append(c, around(14.6+0.05*(h-40), 0.8))
	}
	c[4] = Interval{math.NaN(), math.NaN(), math.NaN()}
	c[7] = Interval{16, math.Inf(-1), math.Inf(1)}
	grid := &Grid{Words: Words{"Narrow and low lets the most build-ups through", "Final-third entries per 100 build-ups; in brackets: cannot be told from the framed cell", "Seed 1, 4,000 build-ups a cell."},
		X: "height of the defence's press, m from its own goal line", Y: "width of the defence's block, m", Value: "entries per 100 build-ups",
		Columns: []string{"40", "50", "60", "70", "80", "90"}, Rows: []string{"28", "32", "36", "40"}, Here: true, HereRow: 1, HereColumn: 2}
	signed := &Grid{Words: Words{Title: "Signed"}, X: "answers", Y: "plans", Value: "net xG per 100", Columns: []string{"press", "stay compact", "a rather long answer of the opponent"}, Rows: []string{"A", "B"}, Centre: &zero,
		Values: [][]Interval{{around(0.8, 0.1), around(-0.4, 0.1), around(0, 0.2)}, {around(0.2, 0.1), around(math.NaN(), 0), around(-1.1, 0.2)}}}
	for i := range grid.Rows {
		var row []Interval
		var unclear []bool
		for j := range grid.Columns {
			row = append(row, around(40+float64(3*i+2*j), 1))
			unclear = append(unclear, i+j == 3)
		}
		grid.Values, grid.Unclear = append(grid.Values, row), append(grid.Unclear, unclear)
	}
	hostile := `</text><script>alert("1")</script>&` + "\x00\u202e" + strings.Repeat("unbroken", 40)
	return map[string]Drawing{
		"curve": &Curves{Words: Words{"A press near 64 m lets the most build-ups through", "Of 100 build-ups, how many reach the final third under control; the band is the 95% interval", "Seed 1, 4,000 build-ups a cell, common luck. A model's estimate, to compare ideas with, not a forecast of a match."},
			X: "height of the defence's press, m from its own goal line", Y: "build-ups in 100 that reach the final third",
			Lines: []Line{{"", x, a}}, Marks: []Mark{{At: 58, Text: "as it stands"}, {At: 60, To: 70, Text: "highest"}}},
		"marks": &Curves{Words: Words{"Marks near each other and at both edges", "", "Seed 1."}, X: "height, m", Y: "per 100 build-ups", Lines: []Line{{"", x, a}},
			Marks: []Mark{{At: x[0], Text: "as it stands"}, {At: x[0], To: x[0] + 1, Text: "turns"}, {At: x[len(x)-1] - 1, To: x[len(x)-1], Text: "highest"}, {At: x[len(x)-1], Text: "as it stands"}}},
		"curves": &Curves{Words: Words{Title: "Three curves"}, X: "height, m", Y: "per 100 build-ups",
			Lines: []Line{{"final third", x, a}, {"shot", x, b}, {"shot, the other plan", x, c}}, Level: &zero},
		"one cell": &Curves{Words: Words{Title: "One cell"}, X: "m", Y: "%", Lines: []Line{{"", []float64{3}, []Interval{around(0, 0)}}}},
		"points": &Rows{Words: Words{"The low blocks let more through", "Difference to the block as it stands; a bar across zero: cannot tell yet", "Seed 1."}, X: "entries per 100 build-ups more or fewer",
			Names: []string{"4-4-2-mid", "4-5-1-low", "5-3-2-high", hostile}, Series: []Series{{"", []Interval{around(-2, 1.4), around(4, 1.5), around(-7, 1.2), around(0.3, 1)}}}, Level: &zero, Marked: 1},
		"bars": &Rows{Words: Words{Title: "What the result hangs on"}, X: "share of the variance", Bars: true,
			Names:  []string{"height of the defence's press", "the attack's time on the ball", "width of the defence's block"},
			Series: []Series{{"by itself", []Interval{around(0.5, 0.08), around(0.2, 0.05), around(-0.01, 0.04)}}, {"with others", []Interval{around(0.6, 0.09), around(0.3, 0.06), around(0.05, 0.04)}}}},
		"grid":    grid,
		"signed":  signed,
		"hostile": &Curves{Words: Words{hostile, hostile, hostile}, X: hostile, Y: hostile, Lines: []Line{{hostile, x, a}, {hostile, x, b}}, Marks: []Mark{{At: 60, Text: hostile}}},
	}
}

// TestEncode: the same bytes every time, SVG that is well-formed XML, PNG that
// decodes.
func TestEncode(t *testing.T) {
	for name, d := range samples() {
		for _, ext := range []string{".svg", ".PNG"} {
			got, err := Encode(name+ext, d)
			if err != nil {
				t.Fatalf("%s%s: %v", name, ext, err)
			}
			again, err := Encode(name+ext, samples()[name])
			if err != nil || !bytes.Equal(got, again) {
				t.Errorf("%s%s differs from one time to the next (%v)", name, ext, err)
			}
			if *keep != "" {
				if err := os.WriteFile(filepath.Join(*keep, name+strings.ToLower(ext)), got, 0o666); err != nil {
					t.Fatal(err)
				}
			}
			if ext == ".PNG" {
				if _, err := png.Decode(bytes.NewReader(got)); err != nil {
					t.Errorf("%s: %v", name, err)
				}
				continue
			}
			if bytes.Contains(got, []byte("<script")) {
				t.Errorf("%s: the title became markup", name)
			}
			dec := xml.NewDecoder(bytes.NewReader(got))
			for {
				if _, err := dec.Token(); err == io.EOF {
					break
				} else if err != nil {
					t.Fatalf("%s: %v", name, err)
				}
			}
		}
	}
}

// TestWordsApart: no two words of a picture overlap and none leaves the page.
func TestWordsApart(t *testing.T) {
	for name, d := range samples() {
		w, h := d.size()
		p := compose(draw.NewCanvas(&recorder.Canvas{}, w, h), d)
		if len(p.boxes) < 4 {
			t.Errorf("%s: only %d words", name, len(p.boxes))
		}
		for i, a := range p.boxes {
			if a.Min.X < 0 || a.Min.Y < 0 || a.Max.X > w+0.5 || a.Max.Y > h {
				t.Errorf("%s: word %d at %v leaves the page", name, i, a)
			}
			for j, b := range p.boxes[:i] {
				if a.Min.X < b.Max.X-0.5 && b.Min.X < a.Max.X-0.5 && a.Min.Y < b.Max.Y-0.5 && b.Min.Y < a.Max.Y-0.5 {
					t.Errorf("%s: words %d and %d overlap: %v, %v", name, j, i, b, a)
				}
			}
		}
	}
}

// TestMarksReadApart: words of marks that stand side by side are not read as one, and
// none is lost.
func TestMarksReadApart(t *testing.T) {
	x := []float64{0, 10}
	y := []Interval{{1, 0, 2}, {1, 0, 2}}
	for turn := 0.0; turn <= 10; turn += 0.5 {
		c := &Curves{Words: Words{Title: "t"}, X: "m", Y: "n", Lines: []Line{{"", x, y}},
			Marks: []Mark{{At: 5, Text: "as it stands"}, {At: turn, To: min(turn+1, 10), Text: "turns"}}}
		w, h := c.size()
		p := compose(draw.NewCanvas(&recorder.Canvas{}, w, h), c)
		var stands, turns *box
		for i := range p.boxes {
			switch b := &p.boxes[i]; {
			case math.Abs(float64(b.Size().X-quiet.Width("as it stands"))) < 0.01:
				stands = b
			case math.Abs(float64(b.Size().X-quiet.Width("turns"))) < 0.01:
				turns = b
			}
		}
		if stands == nil || turns == nil {
			t.Fatalf("turning at %v, a mark has lost its words", turn)
		}
		gap := max(turns.Min.X-stands.Max.X, stands.Min.X-turns.Max.X)
		if stands.Min.Y == turns.Min.Y && gap < markApart-0.01 {
			t.Errorf("turning at %v, the words are %v apart in one row", turn, gap)
		}
	}
}

func TestRefusals(t *testing.T) {
	nothing := []Interval{{math.NaN(), 0, 0}}
	for what, d := range map[string]Drawing{
		"no value":        &Curves{Lines: []Line{{"", []float64{1}, nothing}}},
		"no curve":        &Curves{},
		"lengths":         &Curves{Lines: []Line{{"", []float64{1, 2}, nothing}}},
		"descending":      &Curves{Lines: []Line{{"", []float64{2, 1}, []Interval{around(1, 1), around(1, 1)}}}},
		"rows":            &Rows{Names: []string{"a"}, Series: []Series{{"", nil}}},
		"no rows":         &Rows{},
		"too many rows":   &Rows{Names: make([]string, mostRows+1)},
		"too many curves": &Curves{Lines: make([]Line, mostLines+1)},
		"ragged grid":     &Grid{Columns: []string{"a"}, Rows: []string{"b"}, Values: [][]Interval{nil}},
		"empty grid":      &Grid{},
	} {
		if _, err := Encode("x.svg", d); err == nil {
			t.Errorf("%s: drawn", what)
		}
	}
	for _, name := range []string{"x.pdf", "x", "", "svg"} {
		if err := Check(name); err == nil {
			t.Errorf("%q is taken", name)
		}
	}
}

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		n      int
		want   string
	}{
		{38, 102, 8, "40 50 60 70 80 90 100"},
		{-1.1, 0.9, 6, "−1.00 −0.75 −0.50 −0.25 0.00 0.25 0.50 0.75"},
		{0, 1, 4, "0.0 0.2 0.4 0.6 0.8 1.0"},
		{0.001, 0.0052, 4, "0.001 0.002 0.003 0.004 0.005"},
		{3, 3, 4, "3"},
		{-2e6, 3e6, 5, "−2000000 −1000000 0 1000000 2000000 3000000"},
	} {
		if _, got := ticks(c.lo, c.hi, c.n); strings.Join(got, " ") != c.want {
			t.Errorf("%v to %v: %v, want %s", c.lo, c.hi, got, c.want)
		}
	}
}

// TestTones: series stay apart in grey, by lightness or by their dash and marker.
func TestTones(t *testing.T) {
	grey := func(n int) float64 {
		c := tone(n)
		return 0.299*float64(c.R) + 0.587*float64(c.G) + 0.114*float64(c.B)
	}
	for n := 1; n < 3; n++ {
		if math.Abs(grey(n)-grey(n-1)) < 20 {
			t.Errorf("tones %d and %d are one grey", n-1, n)
		}
	}
	for x := 0.0; x < 1; x += 0.25 {
		a, b := mix(light, deep, x), mix(light, deep, x+0.25)
		if !(a.R > b.R && a.G > b.G) {
			t.Errorf("tones of a grid do not darken from %v", x)
		}
	}
	if len(dashes) != mostLines || len(tones) != mostLines {
		t.Errorf("%d dashes for %d curves", len(dashes), mostLines)
	}
}
