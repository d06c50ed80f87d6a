package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"

	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/model"
	"playout/sim"
)

// common are the outcomes of a cell with a chance of the controlled entry, and
// common luck: a possession that gets there with a small chance gets there with a
// larger one.
func common(n int, chance float64, against int32) []experiment.Outcome {
	rng := rand.New(rand.NewPCG(1, 1))
	out := make([]experiment.Outcome, n)
	for i := range out {
		out[i] = experiment.Outcome{EntryLane: experiment.None, ShotLane: experiment.None, Method: experiment.None, Source: experiment.None,
			LostIn: experiment.None, End: sim.EndIntercepted, XGAgainst: against}
		if rng.Float64() < chance {
			out[i].Flags, out[i].EntryLane = experiment.FinalReached|experiment.FinalThird, uint8(model.LeftWing)
		}
	}
	return out
}

// sweepOf is a sweep whose cells have the given chances; chances[0] is that of
// the scenario as it stands.
func sweepOf(t *testing.T, n int, chances []float64, grid []int, axes ...Axis) *Sweep {
	t.Helper()
	var cells [][]experiment.Outcome
	for i, chance := range chances {
		cells = append(cells, common(n, chance, int32(100*i)))
	}
	r := experiment.NewResults(n, cells...)
	return NewSweep(SweepRun{File: "plan.yaml", Title: "A plan", Axes: axes, Grid: grid, Results: r, Asked: n,
		Figure: experiment.Headline[0], Seed: 3, Version: "test", Revision: 1})
}

func pressAxis(now string, k int) Axis {
	a := Axis{Path: "defence.block.press.height", Label: "height of the defence's press", Unit: "m from its own goal line", Now: now}
	for i := range k {
		a.Values = append(a.Values, fmt.Sprint(40+5*i))
		a.Numbers = append(a.Numbers, float64(40+5*i))
	}
	return a
}

// curve is a sweep over k heights; the scenario as it stands is none of them.
func curve(t *testing.T, n, k int, f func(i float64) float64) *Sweep {
	chances, grid := []float64{f(3.6)}, []int{}
	for i := range k {
		chances = append(chances, f(float64(i)))
		grid = append(grid, i+1)
	}
	return sweepOf(t, n, chances, grid, pressAxis("58", k))
}

func TestSweepAnswers(t *testing.T) {
	for _, c := range []struct {
		name  string
		s     *Sweep
		shape string
		says  []string
	}{
		{"peak", curve(t, 4000, 9, func(i float64) float64 { return 0.5 - 0.01*(i-4)*(i-4) }), "maximum",
			[]string{"Final-third entries: highest with the height of the defence's press at 60, 49.", "Towards both ends of the range there are fewer.", "Against the scenario as it stands (58)"}},
		{"valley", curve(t, 4000, 9, func(i float64) float64 { return 0.3 + 0.01*(i-4)*(i-4) }), "minimum", []string{"lowest with the height of the defence's press at 60"}},
		{"bend", curve(t, 4000, 9, func(i float64) float64 { return 0.3 + 0.04*min(i, 4) }), "bend",
			[]string{"turning point where the height of the defence's press is about 60 (55 to 65); from 40 up to there the change is +1"}},
		{"rising", curve(t, 4000, 9, func(i float64) float64 { return 0.3 + 0.02*i }), "rising", []string{"more as the height of the defence's press goes up", "No turning point inside this range was found."}},
		{"falling", curve(t, 4000, 9, func(i float64) float64 { return 0.5 - 0.02*i }), "falling", []string{"fewer as the height of the defence's press goes up"}},
		{"flat", curve(t, 4000, 9, func(i float64) float64 { return 0.5 }), "no_difference_found", []string{"no change with the height of the defence's press can be told yet", "9 the same throughout"}},
		{"alike, but not as it stands", sweepOf(t, 4000, []float64{0.35, 0.41, 0.4102, 0.4104}, []int{1, 2, 3}, pressAxis("58", 3)), "no_difference_found",
			[]string{"no two of these values can be told apart when all pairs are judged together", "all 3 better", "the two need not agree"}},
		{"an article of its own", sweepOf(t, 100, []float64{0.4, 0.35, 0.45}, []int{1, 2}, Axis{Path: "attack.plan.tempo", Label: "the attack's time on the ball", Values: []string{"1", "2"}, Numbers: []float64{1, 2}, Now: "1.5"}),
			"too_few", []string{"none of the 2 can be told apart from it yet"}},
		{"one that rises", sweepOf(t, 4000, []float64{0.4, 0.2, 0.3, 0.4, 0.5, 0.6}, []int{1, 2, 3, 4, 5}, Axis{Path: "attack.plan.tempo", Label: "the attack's time on the ball", Values: []string{"1", "2", "3", "4", "5"}, Numbers: []float64{1, 2, 3, 4, 5}}),
			"rising", []string{"more as the attack's time on the ball goes up"}},
		{"few", curve(t, 100, 9, func(i float64) float64 { return 0.5 - 0.01*(i-4)*(i-4) }), "too_few", []string{"highest with"}},
		{"one", curve(t, 1000, 1, func(i float64) float64 { return 0.5 }), "too_few", []string{"Final-third entries with 40: 4"}},
		{"words", sweepOf(t, 4000, []float64{0.4, 0.3, 0.5, 0.5}, []int{1, 0, 2, 3}, Axis{Path: "defence.block", Label: "the defence's block", Values: []string{"low", "mid", "high", "man"}, Now: "mid"}),
			"not_looked_for", []string{"highest with high", "too close to call with man", "lowest with low, 29.2", ", surely", "better with high and man", "worse with low"}},
	} {
		if c.s.Turning.Shape != c.shape {
			t.Errorf("%s: %s, want %s", c.name, c.s.Turning.Shape, c.shape)
		}
		text := strings.Join(c.s.Answer, " ")
		for _, want := range c.says {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %s\nlacks %q", c.name, text, want)
			}
		}
		for _, f := range Formats {
			var b bytes.Buffer
			if err := c.s.Write(&b, f); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(b.String()) {
				if f == Table && width(strings.TrimSuffix(line, "\n")) > maxColumns {
					t.Errorf("%s: wider than %d: %s", c.name, maxColumns, line)
				}
			}
		}
		if _, err := c.s.Picture(); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// gridSweep has widths across and tempi down.
func gridSweep(t *testing.T) *Sweep {
	return sweepOf(t, 2000, []float64{0.4, 0.3, 0.405, 0.5, 0.45, 0.35}, []int{1, 2, 0, 3, 4, 5},
		Axis{Path: "defence.block.width", Label: "width", Unit: "m", Values: []string{"28", "32", "36"}, Numbers: []float64{28, 32, 36}, Now: "32"},
		Axis{Path: "attack.plan.tempo", Label: "tempo", Unit: "s", Values: []string{"1", "2"}, Numbers: []float64{1, 2}, Now: "1"})
}

func TestSweepGrid(t *testing.T) {
	s := gridSweep(t)
	var b bytes.Buffer
	if err := s.Write(&b, Table); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1      *29.1   39.1  *44.0", "highest with width 32, tempo 2", "* told from it"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("lacks %q:\n%s", want, b.String())
		}
	}
	d, err := s.Picture()
	if err != nil {
		t.Fatal(err)
	}
	g := d.(*picture.Grid)
	if want := "Final-third entries: highest with width 32, tempo 2; lowest with width 28, tempo 1"; g.Title != want {
		t.Errorf("title %q, want %q", g.Title, want)
	}
	if !g.Here || g.HereColumn != 1 || g.HereRow != 0 || !g.Unclear[1][0] || g.Unclear[0][0] {
		t.Errorf("%+v", g)
	}
}

// TestSweepNumbers reads JSON, CSV and Parquet back: they agree, and the
// difference is that of the values.
func TestSweepNumbers(t *testing.T) {
	s := gridSweep(t)
	var object struct {
		Cells []struct {
			Values  []string
			Verdict string
			Figures map[string]map[string]float64
		}
		AsItStands struct {
			Figures map[string]map[string]float64
		} `json:"as_it_stands"`
	}
	var b bytes.Buffer
	if err := s.Write(&b, JSON); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b.Bytes(), &object); err != nil {
		t.Fatal(err)
	}
	now := object.AsItStands.Figures["final_third"]["value"]
	for _, c := range object.Cells {
		v := c.Figures["final_third"]
		if math.Abs(v["difference"]-(v["value"]-now)) > 1e-6 || v["difference_low"] > v["difference"] {
			t.Errorf("%v: %v against %v", c.Values, v, now)
		}
	}
	b.Reset()
	if err := s.Write(&b, CSV); err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var file, again bytes.Buffer
	if err := s.Write(&file, Parquet); err != nil {
		t.Fatal(err)
	}
	if err := gridSweep(t).Write(&again, Parquet); err != nil || !bytes.Equal(file.Bytes(), again.Bytes()) {
		t.Errorf("parquet differs from one time to the next (%v)", err)
	}
	type row struct {
		Width   *float64 `parquet:"defence.block.width,optional"`
		Figure  *string  `parquet:"figure,optional"`
		Value   *float64 `parquet:"value,optional"`
		Stands  bool     `parquet:"as_it_stands"`
		Verdict *string  `parquet:"verdict,optional"`
	}
	rows, err := parquet.Read[row](bytes.NewReader(file.Bytes()), int64(file.Len()))
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != len(lines)-1 || len(rows) != 6*len(experiment.Headline) {
		t.Fatalf("%d rows in parquet, %d lines of csv", len(rows), len(lines))
	}
	for i, r := range rows {
		line := lines[i+1]
		if fmt.Sprint(*r.Width) != line[0] || *r.Figure != line[4] || fmt.Sprint(r.Stands) != line[2] || (r.Verdict == nil) != (line[13] == "") {
			t.Errorf("row %d: %+v, csv %v", i, r, line)
		}
		if r.Value != nil && Number(*r.Value).text() != line[6] {
			t.Errorf("row %d: %v, csv %s", i, *r.Value, line[6])
		}
	}
}

// TestSweepPictures: a title that says what was found, words for every axis.
func TestSweepPictures(t *testing.T) {
	for want, s := range map[string]*Sweep{
		"Final-third entries: highest at 60":                     curve(t, 4000, 9, func(i float64) float64 { return 0.5 - 0.01*(i-4)*(i-4) }),
		"Final-third entries: no difference found from 40 to 80": curve(t, 4000, 9, func(float64) float64 { return 0.4 }),
	} {
		d, err := s.Picture()
		if err != nil {
			t.Fatal(err)
		}
		c := d.(*picture.Curves)
		if c.Title != want || c.X != "height of the defence's press, m from its own goal line" || len(c.Marks) == 0 {
			t.Errorf("%q, %q, %v; want %q", c.Title, c.X, c.Marks, want)
		}
		if _, err := picture.Encode("x.svg", d); err != nil {
			t.Error(err)
		}
	}
}

// BenchmarkNewSweep is what a sweep of 13 values costs beyond playing its 56,000
// build-ups, which takes a minute of one processor: tables, turning point, picture.
func BenchmarkNewSweep(b *testing.B) {
	var cells [][]experiment.Outcome
	run := SweepRun{Axes: []Axis{pressAxis("58", 13)}, Asked: 4000, Figure: experiment.Headline[0]}
	cells = append(cells, common(4000, 0.45, 0))
	for i := range 13 {
		cells = append(cells, common(4000, 0.3+0.02*float64(min(i, 6)), 0))
		run.Grid = append(run.Grid, i+1)
	}
	for b.Loop() {
		run.Results = experiment.NewResults(4000, cells...)
		d, err := NewSweep(run).Picture()
		if err != nil {
			b.Fatal(err)
		}
		if _, err := picture.Encode("x.png", d); err != nil {
			b.Fatal(err)
		}
	}
}
