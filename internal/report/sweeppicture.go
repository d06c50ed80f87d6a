package report

import (
	"errors"
	"fmt"
	"strings"

	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/internal/stats"
)

// Picture draws the sweep: a curve over one axis of numbers, rows over one of
// words, a grid over two.
func (s *Sweep) Picture() (picture.Drawing, error) {
	words := picture.Words{Title: s.headline(), Subtitle: s.subtitle(),
		Note: "Playout, " + s.facts() + " A model's estimate, to compare ideas with, not a forecast of a match; the intervals cover chance in the model alone."}
	if s.Partial {
		words.Title = "PARTIAL: " + words.Title
	}
	switch {
	case len(s.Axes) == 1 && s.Axes[0].Numbers != nil:
		return s.curves(words), nil
	case len(s.Axes) == 1:
		return s.pictureRows(words), nil
	case len(s.Axes) == 2:
		return s.grid(words), nil
	}
	return nil, errors.New("a picture shows one or two values that vary, not more")
}

// headline is the answer in a line.
func (s *Sweep) headline() string {
	if s.Turning.Shape == notLookedFor || s.shape.Shape == stats.TooFew || s.shape.Shape == stats.Uneven {
		return s.extremesHeadline()
	}
	subject := s.subject()
	from, to := s.Axes[0].Values[0], s.Axes[0].Values[len(s.Axes[0].Values)-1]
	span := func(e stats.Extreme) string {
		if e.From == e.To {
			return "at " + s.place(e.At)
		}
		return fmt.Sprintf("at %s (%s to %s)", s.place(e.At), s.place(e.From), s.place(e.To))
	}
	switch t := s.shape; t.Shape {
	case stats.Peak:
		return fmt.Sprintf("%s: highest %s", subject, span(t.Top))
	case stats.Valley:
		return fmt.Sprintf("%s: lowest %s", subject, span(t.Bottom))
	case stats.Both:
		return fmt.Sprintf("%s: highest %s, lowest %s", subject, span(t.Top), span(t.Bottom))
	case stats.Bent:
		before, after := s.bendChanges()
		return fmt.Sprintf("%s: %s up to about %s, then %s", subject, s.signed(before), s.place(t.Bend.Value), s.signed(after))
	case stats.Rising:
		return fmt.Sprintf("%s: rises from %s to %s, no turning point found", subject, from, to)
	case stats.Falling:
		return fmt.Sprintf("%s: falls from %s to %s, no turning point found", subject, from, to)
	}
	return fmt.Sprintf("%s: no difference found from %s to %s", subject, from, to)
}

// extremesHeadline names the highest and the lowest as far as they are known.
func (s *Sweep) extremesHeadline() string {
	var parts []string
	for _, side := range []struct {
		word string
		set  []int
	}{{"highest", s.highest}, {"lowest", s.lowest}} {
		if len(side.set) == 0 || len(side.set) > 3 || len(side.set) == len(s.Cells) {
			continue
		}
		var names []string
		for _, i := range side.set {
			names = append(names, s.name(i))
		}
		parts = append(parts, side.word+" with "+strings.Join(names, " or "))
	}
	if len(parts) == 0 {
		low, high := s.Cells[0].of().Value, s.Cells[0].of().Value
		for i := range s.Cells {
			low, high = min(low, s.Cells[i].of().Value), max(high, s.Cells[i].of().Value)
		}
		return fmt.Sprintf("%s: %s to %s, too close to call which is highest or lowest", s.subject(), s.number(low), s.number(high))
	}
	return s.subject() + ": " + strings.Join(parts, "; ")
}

func (s *Sweep) subtitle() string {
	switch {
	case len(s.Axes) == 2 && s.standsAt >= 0:
		return s.title() + ". The framed cell is the scenario as it stands; in brackets: cannot be told from it yet."
	case len(s.Axes) == 2:
		return fmt.Sprintf("%s. In brackets: cannot be told yet from the scenario as it stands, which has %s.", s.title(), s.number(s.AsItStands.of().Value))
	case s.Axes[0].Numbers != nil:
		return s.title() + ". The band is the 95% interval of each value; between the points nothing was played."
	}
	return s.title() + ". Bars are 95% intervals; the dashed line is the scenario as it stands."
}

func (v SweepValue) interval() picture.Interval {
	return picture.Interval{Value: float64(v.Value), Lo: float64(v.Low), Hi: float64(v.High)}
}

func (s *Sweep) curves(words picture.Words) picture.Drawing {
	line := picture.Line{X: s.Axes[0].Numbers}
	for i := range s.Cells {
		line.Y = append(line.Y, s.Cells[i].of().interval())
	}
	c := &picture.Curves{Words: words, X: s.Axes[0].words(), Y: s.subject() + ", " + s.asked.Unit, Lines: []picture.Line{line}}
	if now := Number(s.now()); now.Known() {
		c.Marks = append(c.Marks, picture.Mark{At: float64(now), Text: "as it stands"})
	}
	mark := func(e stats.Extreme, text string) {
		c.Marks = append(c.Marks, picture.Mark{At: e.From, To: e.To, Text: text})
	}
	switch t := s.shape; t.Shape {
	case stats.Peak:
		mark(t.Top, "highest")
	case stats.Valley:
		mark(t.Bottom, "lowest")
	case stats.Both:
		mark(t.Top, "highest")
		mark(t.Bottom, "lowest")
	case stats.Bent:
		c.Marks = append(c.Marks, picture.Mark{At: t.Bend.Lo, To: t.Bend.Hi, Text: "turns"})
	}
	if s.asked.Name == "net_xg" {
		zero := 0.0
		c.Level = &zero
	}
	return c
}

// mostRows is how many rows a picture has; the rest stay in the table.
const mostRows = 60

func (s *Sweep) pictureRows(words picture.Words) picture.Drawing {
	r := &picture.Rows{Words: words, X: s.subject() + ", " + s.asked.Unit, Marked: s.standsAt + 1}
	var values []picture.Interval
	for i := range s.Cells[:min(len(s.Cells), mostRows)] {
		r.Names = append(r.Names, s.name(i))
		values = append(values, s.Cells[i].of().interval())
	}
	r.Series = []picture.Series{{Values: values}}
	now := float64(s.AsItStands.of().Value)
	r.Level = &now
	return r
}

func (s *Sweep) grid(words picture.Words) picture.Drawing {
	g := &picture.Grid{Words: words, X: s.Axes[0].words(), Y: s.Axes[1].words(), Value: s.subject() + ", " + s.asked.Unit,
		Columns: s.Axes[0].Values, Rows: s.Axes[1].Values}
	for j := range g.Rows {
		var row []picture.Interval
		var unclear []bool
		for i := range g.Columns {
			c := &s.Cells[i*len(g.Rows)+j]
			row = append(row, c.of().interval())
			unclear = append(unclear, !c.AsItStands && !told(c.Verdict))
			if c.AsItStands {
				g.Here, g.HereRow, g.HereColumn = true, j, i
			}
		}
		g.Values, g.Unclear = append(g.Values, row), append(g.Unclear, unclear)
	}
	if s.asked.Name == "net_xg" {
		zero := 0.0
		g.Centre = &zero
	}
	return g
}

// told reports whether a verdict says which way the difference goes.
func told(verdict string) bool {
	for _, v := range []experiment.Verdict{experiment.Better, experiment.Worse, experiment.More, experiment.Fewer} {
		if verdict == v.String() {
			return true
		}
	}
	return false
}
