package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"playout/internal/experiment"
)

// Write prints the sweep.
func (s *Sweep) Write(w io.Writer, f Format) error {
	if f == Parquet {
		return s.writeParquet(w)
	}
	return writeAs(w, f, s.document, s.writeCSV, s)
}

// Document is the answer for people.
func (s *Sweep) Document() *Document { return s.document() }

func (s *Sweep) document() *document {
	d := &document{title: s.title(), answer: s.Answer, facts: s.facts(), notes: s.Notes}
	if s.Partial {
		d.warning, d.notes = s.Notes[0], s.Notes[1:]
	}
	if len(s.Axes) == 2 && len(s.Axes[0].Values) <= mostColumns {
		d.tables = append(d.tables, s.gridTable())
	} else {
		d.tables = append(d.tables, s.figureTable())
	}
	d.tables = append(d.tables, s.othersTable())
	return d
}

func (s *Sweep) title() string {
	if s.Title == "" {
		return "Untitled scenario"
	}
	return s.Title
}

// mostColumns is how many values a grid shows beside one another.
const mostColumns = 9

// comparedWords stand in tables.
var comparedWords = map[string]string{
	experiment.CannotTell.String(): "cannot tell yet", experiment.Better.String(): "better", experiment.Worse.String(): "worse",
	experiment.More.String(): "more", experiment.Fewer.String(): "fewer", experiment.Level.String(): "hardly differs", experiment.Same.String(): "same throughout",
}

// axes says in a line what the columns of values are.
func (s *Sweep) axesNote() string {
	var parts []string
	for i, a := range s.Axes {
		text := a.words()
		if len(s.Axes) > 1 {
			text = column(i) + ": " + text
		}
		parts = append(parts, text)
	}
	return capital(strings.Join(parts, "; ")) + "."
}

// column names an axis in a table of several.
func column(i int) string { return string(rune('A' + i)) }

// heads are the columns of values.
func (s *Sweep) heads() []string {
	if len(s.Axes) == 1 {
		return []string{"value"}
	}
	var out []string
	for i := range s.Axes {
		out = append(out, column(i))
	}
	return out
}

func shownValues(values []string) []string {
	var out []string
	for _, v := range values {
		out = append(out, cut(clean(v), maxName))
	}
	return out
}

// figureTable lists the figure asked about, cell by cell.
func (s *Sweep) figureTable() *table {
	t := &table{title: s.asked.Label, note: capital(s.asked.Unit) + ". " + s.axesNote() + " Differences are to the scenario as it stands, build-up by build-up.",
		head: append(s.heads(), "figure", "95% interval", "difference", "95% interval", "verdict"), units: true}
	row := func(values []string, c *SweepCell) {
		v := c.of()
		difference := []string{"", "", "as it stands"}
		if !c.AsItStands {
			difference = []string{s.signed(v.Difference), s.signed(v.DifferenceLow) + " to " + s.signed(v.DifferenceHigh), comparedWords[c.Verdict]}
		}
		t.add(append(append(values, s.number(v.Value), s.number(v.Low)+" to "+s.number(v.High)), difference...)...)
	}
	if s.standsAt < 0 {
		row(s.standing(), &s.AsItStands)
	}
	for i := range s.Cells {
		row(shownValues(s.Cells[i].Values), &s.Cells[i])
	}
	return t
}

// standing are the values of the scenario as it stands in a table.
func (s *Sweep) standing() []string {
	out := shownValues(s.AsItStands.Values)
	for i, v := range out {
		if v == "" {
			out[i] = "as it stands"
		}
	}
	return out
}

// gridTable sets the first axis across and the second down.
func (s *Sweep) gridTable() *table {
	t := &table{title: s.asked.Label, head: append([]string{"B \\ A"}, shownValues(s.Axes[0].Values)...),
		note: fmt.Sprintf("%s. %s The scenario as it stands has %s; * told from it.", capital(s.asked.Unit), s.axesNote(), s.number(s.AsItStands.of().Value))}
	down := len(s.Axes[1].Values)
	for j, value := range shownValues(s.Axes[1].Values) {
		row := []string{value}
		for i := range s.Axes[0].Values {
			c := &s.Cells[i*down+j]
			text := s.number(c.of().Value)
			if told(c.Verdict) {
				text = "*" + text
			}
			row = append(row, text)
		}
		t.add(row...)
	}
	return t
}

// others are the further figures that stand in the table.
var others = []string{"final_third", "box", "shot", "xg", "lost", "shots_against", "net_xg"}

var otherHeads = map[string]string{"final_third": "final third", "box": "penalty area", "shot": "shots", "xg": "xG", "lost": "lost",
	"shots_against": "shots against", "net_xg": "xG for - against"}

// othersTable lists further figures without their intervals.
func (s *Sweep) othersTable() *table {
	t := &table{title: "Further figures", note: "Per 100 build-ups, without their intervals, which csv and json give. The more figures, the more of them differ by chance.", head: s.heads()}
	var shown []experiment.Figure
	for _, name := range others {
		for _, f := range s.figures[1:] {
			if f.Name == name {
				shown = append(shown, f)
				t.head = append(t.head, otherHeads[name])
			}
		}
	}
	row := func(values []string, c *SweepCell) {
		for _, f := range shown {
			values = append(values, fixed(c.Figures.Get(f.Name).Value, f.Decimals))
		}
		t.add(values...)
	}
	if s.standsAt < 0 {
		row(s.standing(), &s.AsItStands)
	}
	for i := range s.Cells {
		row(shownValues(s.Cells[i].Values), &s.Cells[i])
	}
	return t
}

// sweepRow is one figure of one cell, as CSV and Parquet have it.
type sweepRow struct {
	values              []string
	asItStands, inSweep bool
	figure              experiment.Figure
	v                   SweepValue
	verdict             string // of the figure asked about
}

// rows are all figures of all cells; the scenario as it stands comes first when
// it is none of them.
func (s *Sweep) rows() []sweepRow {
	var out []sweepRow
	add := func(c *SweepCell, inSweep bool) {
		for i, f := range c.Figures {
			r := sweepRow{values: c.Values, asItStands: c.AsItStands, inSweep: inSweep, figure: s.figures[i], v: f.Value}
			if i == 0 && !c.AsItStands {
				r.verdict = c.Verdict
			}
			out = append(out, r)
		}
	}
	if s.standsAt < 0 {
		add(&s.AsItStands, false)
	}
	for i := range s.Cells {
		add(&s.Cells[i], true)
	}
	return out
}

func (s *Sweep) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	var head []string
	for _, a := range s.Axes {
		head = append(head, a.Path)
	}
	lines := [][]string{append(head, "as_it_stands", "in_sweep", "figure", "unit", "value", "low", "high",
		"difference", "difference_low", "difference_high", "gain", "verdict", "build_ups")}
	for _, r := range s.rows() {
		var line []string
		for _, v := range r.values {
			if _, err := strconv.ParseFloat(v, 64); err != nil {
				v = guard(v)
			}
			line = append(line, v)
		}
		lines = append(lines, append(line, strconv.FormatBool(r.asItStands), strconv.FormatBool(r.inSweep), r.figure.Name, r.figure.Unit,
			r.v.Value.text(), r.v.Low.text(), r.v.High.text(), r.v.Difference.text(), r.v.DifferenceLow.text(), r.v.DifferenceHigh.text(),
			r.v.Gain.text(), r.verdict, strconv.Itoa(s.Possessions)))
	}
	return out.WriteAll(lines)
}
