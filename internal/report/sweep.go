package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"playout/internal/experiment"
	"playout/internal/stats"
	"playout/sim"
)

// Axis is one value of the scenario that a sweep varies.
type Axis struct {
	Path    string    `json:"path"`
	Label   string    `json:"label"`
	Unit    string    `json:"unit"`
	Values  []string  `json:"values"` // in the order asked for
	Numbers []float64 `json:"-"`      // the same as numbers, ascending; nil: words
	Now     string    `json:"now"`    // in the scenario as it stands; empty: not said by a single value
}

// words are what stands on an axis or in a table.
func (a *Axis) words() string {
	if a.Unit == "" {
		return clean(a.Label)
	}
	return clean(a.Label) + ", " + a.Unit
}

// SweepRun is what was played. Cell 0 of the results is the scenario as it
// stands. Grid gives the cell of each combination of values, the last axis
// changing fastest.
type SweepRun struct {
	File, Title string
	Axes        []Axis
	Grid        []int
	Results     *experiment.Results
	Asked       int // possessions of each cell that were to be played
	Figure      experiment.Figure
	Seed        uint64
	Version     string
	Revision    int
}

// Sweep is how the figures of a scenario change with some of its values, in the
// order in which it is written as JSON. Keys are stable: fields may be added, but
// none is renamed or changes its meaning. Values are in the unit beside them.
type Sweep struct {
	File        string      `json:"file"`
	Title       string      `json:"title"`
	Seed        uint64      `json:"seed"`        // of all; may exceed 2^53
	Possessions int         `json:"possessions"` // of each cell
	Asked       int         `json:"asked"`       // to be played of each
	Partial     bool        `json:"partial"`     // interrupted
	Version     string      `json:"version"`
	Revision    int         `json:"revision"`
	TickS       Number      `json:"tick_s"`
	Figure      string      `json:"figure"` // the figure asked about
	Answer      []string    `json:"answer"`
	Notes       []string    `json:"notes"`
	Axes        []Axis      `json:"axes"`
	Turning     Turning     `json:"turning"`
	AsItStands  SweepCell   `json:"as_it_stands"`
	Cells       []SweepCell `json:"cells"` // the last axis changes fastest

	asked    experiment.Figure
	shape    stats.Turning
	highest  []int // cells that may have the highest value, nil: not looked for
	lowest   []int
	standsAt int                 // index of the cell that is the scenario as it stands, -1: none
	gain     float64             // median over the cells, 0: unknown
	figures  []experiment.Figure // the one asked about first
}

// Turning is where the figure turns over the values of a single axis of numbers.
type Turning struct {
	Shape   string   `json:"shape"` // see playout help json
	Maximum *Extreme `json:"maximum"`
	Minimum *Extreme `json:"minimum"`
	Bend    *Bend    `json:"bend"`
}

// Extreme is the highest or lowest place, and the range of those that may be it.
type Extreme struct {
	At   Number `json:"at"`
	From Number `json:"from"`
	To   Number `json:"to"`
}

// Bend is where the slope changes, with its interval; slopes are per unit of the axis.
type Bend struct {
	At     Number `json:"at"`
	Low    Number `json:"low"`
	High   Number `json:"high"`
	Before Number `json:"slope_before"`
	After  Number `json:"slope_after"`
}

// SweepCell is one combination of values.
type SweepCell struct {
	Values     []string           `json:"values"`       // by axis
	AsItStands bool               `json:"as_it_stands"` // the scenario of the file
	Verdict    string             `json:"verdict"`      // on the figure asked about, against the scenario as it stands
	Figures    Object[SweepValue] `json:"figures"`
}

// SweepValue is a figure in a cell and its paired difference to the scenario as it
// stands.
type SweepValue struct {
	Value          Number `json:"value"`
	Low            Number `json:"low"`
	High           Number `json:"high"`
	Difference     Number `json:"difference"`
	DifferenceLow  Number `json:"difference_low"`
	DifferenceHigh Number `json:"difference_high"`
	Gain           Number `json:"gain"`
}

var shapeNames = map[stats.Shape]string{
	stats.TooFew: "too_few", stats.Flat: "no_difference_found", stats.Uneven: "uneven", stats.Rising: "rising",
	stats.Falling: "falling", stats.Bent: "bend", stats.Peak: "maximum", stats.Valley: "minimum", stats.Both: "maximum_and_minimum",
}

// notLookedFor is the shape of a sweep over words or several axes.
const notLookedFor = "not_looked_for"

// NewSweep computes what the cells have and differ by.
func NewSweep(run SweepRun) *Sweep {
	n := run.Results.Paired()
	s := &Sweep{
		File: clean(run.File), Title: clean(run.Title), Seed: run.Seed, Possessions: n, Asked: run.Asked, Partial: n < run.Asked,
		Version: run.Version, Revision: run.Revision, TickS: Number(sim.TickSeconds),
		Figure: run.Figure.Name, Axes: run.Axes, asked: run.Figure, standsAt: slices.Index(run.Grid, 0),
	}
	compared := experiment.Compare(run.Results, n, run.Figure, 0)
	figures := []experiment.Figure{run.Figure}
	for _, f := range experiment.Headline {
		if f.Name != run.Figure.Name {
			figures = append(figures, f)
		}
	}
	s.figures = figures
	s.AsItStands = s.cell(run.Results, 0, nil)
	s.AsItStands.Values = make([]string, len(run.Axes))
	for i, a := range run.Axes {
		s.AsItStands.Values[i] = a.Now
	}
	var gains []float64
	for i, c := range run.Grid {
		var x *experiment.Comparison
		if c > 0 {
			x = &compared[c-1]
			if g := x.Asked.Difference.Gain; !math.IsNaN(g) && !math.IsInf(g, 0) {
				gains = append(gains, g)
			}
		}
		cell := s.cell(run.Results, c, x)
		cell.Values = s.valuesOf(i)
		s.Cells = append(s.Cells, cell)
	}
	if len(gains) > 0 {
		slices.Sort(gains)
		s.gain = gains[len(gains)/2]
	}
	s.look(run, n)
	s.Answer, s.Notes = s.answer(), s.notes()
	return s
}

// valuesOf are the values of a combination.
func (s *Sweep) valuesOf(i int) []string {
	out := make([]string, len(s.Axes))
	for a := len(s.Axes) - 1; a >= 0; a-- {
		k := len(s.Axes[a].Values)
		out[a] = s.Axes[a].Values[i%k]
		i /= k
	}
	return out
}

// cell reads the figures of a cell; x is what it differs by, nil for the
// scenario as it stands.
func (s *Sweep) cell(r *experiment.Results, c int, x *experiment.Comparison) SweepCell {
	out := SweepCell{AsItStands: x == nil, Verdict: experiment.Same.String()}
	if x != nil {
		out.Verdict = x.Asked.Verdict.String()
	}
	reference, o := r.Outcomes(0)[:s.Possessions], r.Outcomes(c)[:s.Possessions]
	for _, f := range s.figures {
		e, d := experiment.Mean(o, f), experiment.Difference(reference, o, f)
		v := SweepValue{Value: per100build(e.Value), Low: per100build(e.Lo), High: per100build(e.Hi),
			Difference: per100build(d.Value), DifferenceLow: per100build(d.Lo), DifferenceHigh: per100build(d.Hi), Gain: Number(d.Gain)}
		if x == nil {
			v.Gain = missing
		}
		out.Figures = append(out.Figures, Field[SweepValue]{f.Name, v})
	}
	return out
}

func per100build(x float64) Number { return Number(x * 100) }

// look finds the turning point, and the cells that may be highest and lowest.
func (s *Sweep) look(run SweepRun, n int) {
	s.Turning.Shape = notLookedFor
	if len(run.Grid) < 2 || len(run.Grid) > stats.MostJoint || n < stats.LeastTurning {
		if len(s.Axes) == 1 && s.Axes[0].Numbers != nil {
			s.Turning.Shape = shapeNames[stats.TooFew]
		}
		return
	}
	j := experiment.Together(run.Results, run.Grid, n, run.Figure)
	critical := j.Critical(level)
	s.highest, s.lowest = j.Best(+1, critical), j.Best(-1, critical)
	if len(s.Axes) != 1 || s.Axes[0].Numbers == nil {
		return
	}
	s.shape = stats.Turn(s.Axes[0].Numbers, j)
	s.Turning.Shape = shapeNames[s.shape.Shape]
	place := func(e stats.Extreme) *Extreme { return &Extreme{Number(e.At), Number(e.From), Number(e.To)} }
	switch t := s.shape; t.Shape {
	case stats.Peak:
		s.Turning.Maximum = place(t.Top)
	case stats.Valley:
		s.Turning.Minimum = place(t.Bottom)
	case stats.Both:
		s.Turning.Maximum, s.Turning.Minimum = place(t.Top), place(t.Bottom)
	case stats.Bent:
		s.Turning.Bend = &Bend{Number(t.Bend.Value), Number(t.Bend.Lo), Number(t.Bend.Hi), per100build(t.Before), per100build(t.After)}
	}
}

// of is the figure asked about in a cell.
func (c *SweepCell) of() SweepValue { return c.Figures[0].Value }

// name is what a cell is called in a sentence.
func (s *Sweep) name(i int) string {
	values := s.Cells[i].Values
	if len(values) == 1 {
		return clean(values[0])
	}
	var out []string
	for k, v := range values {
		key := s.Axes[k].Path
		key = strings.ReplaceAll(key[strings.LastIndex(key, ".")+1:], "_", " ")
		out = append(out, key+" "+clean(v))
	}
	return strings.Join(out, ", ")
}

// now is the number of the only axis in the scenario as it stands, NaN when it is
// none.
func (s *Sweep) now() float64 {
	x, err := strconv.ParseFloat(s.Axes[0].Now, 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

// facts is the line that lets the run be repeated.
func (s *Sweep) facts() string {
	played := thousands(int64(s.Possessions)) + " build-ups"
	if s.Partial {
		played = "PARTIAL: " + thousands(int64(s.Possessions)) + " of " + thousands(int64(s.Asked)) + " build-ups"
	}
	return fmt.Sprintf("seed %d, %s of each cell with the same luck, tick %s s, version %s, engine revision %d.",
		s.Seed, played, s.TickS.text(), s.Version, s.Revision)
}
