package report

import (
	"fmt"
	"strings"
)

// Document is the answer for people.
func (s *Sensitivity) Document() *Document { return s.document() }

func (s *Sensitivity) document() *document {
	d := &document{title: s.Scenario, answer: []string{strings.Join(s.Answer, " ")}, tables: s.tables(), notes: append([]string(nil), s.Notes...)}
	if d.title == "" {
		d.title = "Untitled scenario"
	}
	if s.Partial {
		d.warning = fmt.Sprintf("PARTIAL: interrupted after %s build-ups, with %d of %d places looked at closely; every figure is of what was played.",
			thousands(s.Possessions), s.Points, s.AskedPoints)
	}
	screened := ""
	if s.Screened > 0 {
		screened = fmt.Sprintf(" %d places screened, then", s.Screened)
	}
	d.facts = fmt.Sprintf("seed %d, %s build-ups, %d of each point:%s %d places looked at closely, version %s, engine revision %d.",
		s.Seed, thousands(s.Possessions), s.PerPoint, screened, s.Points, s.Version, s.Revision)
	if s.Points > 0 && s.Points < fewPoints {
		d.notes = append(d.notes, fmt.Sprintf("Only %d places were looked at closely: intervals from so few are rough; read nothing into a single figure.", s.Points))
	}
	if s.Noise > 0 && s.Variance.Value > 0 {
		d.notes = append(d.notes, fmt.Sprintf("Of what differs from point to point %.0f%% is the luck of the build-ups; the shares leave it out, but it widens their intervals. "+
			"A share that chance took below 0 or above 100 shows as that.", 100*float64(s.Noise/(s.Noise+s.Variance.Value))))
	}
	d.notes = append(d.notes, "The shares hold for the spans that were tried: an input with a wider span weighs more. Inputs are taken to be independent of each other.", caution)
	return d
}

// fewPoints is the number of points below which a bootstrap over them is rough.
const fewPoints = 30

func (s *Sensitivity) tables() []*table {
	var out []*table
	if top := s.judged(); len(top) > 0 {
		shares := &table{title: "What it hangs on",
			note: "with others: the share of what moves the figure that would be left if all other inputs were known. " +
				"alone: the share that would go if this one were known. With others is more where inputs act on each other; alone comes out larger by chance only.",
			head: []string{"input", "with others, %", intervalHead, "alone, %", intervalHead}}
		ways := &table{title: "Which way", head: []string{"input", "tried", "step", "change per 100", intervalHead}}
		along := &table{title: "Along the span", note: s.Label + ", " + s.Unit + ", with the input in a third of its span and all others anywhere.",
			head: []string{"input", "lowest third", "middle", "highest third"}}
		for _, h := range top {
			shares.add(h.Label, wholePercent(h.Total.Value), percentSpan(h.Total), wholePercent(h.First.Value), percentSpan(h.First))
			ways.add(h.Label, h.tried(), h.step(), s.change(h.Each.Value), s.changes(h.Each))
			cells := []string{h.Label}
			for _, t := range h.Thirds {
				cell := fixed(t.Value, s.decimals)
				if t.Low.Known() && t.High.Known() {
					cell += " (" + span(t.Low, t.High, 1, s.decimals) + ")"
				}
				cells = append(cells, cell)
			}
			along.add(cells...)
		}
		if s.Rest != nil {
			shares.add(fmt.Sprintf("the %d others together", len(s.Rest.Paths)),
				wholePercent(s.Rest.Total.Value), percentSpan(s.Rest.Total), wholePercent(s.Rest.First.Value), percentSpan(s.Rest.First))
		}
		if s.Variance.Low > 0 {
			out = append(out, shares)
		}
		out = append(out, ways, along)
	}
	if len(s.Inputs) > 0 && s.Inputs[0].Screening != nil {
		t := &table{title: "Screening", note: "Change from the lower to the upper end of the span, per 100 build-ups; size: the same whatever its sign.",
			head: []string{"input", "tried", "change", intervalHead, "size"}}
		for _, h := range s.Inputs {
			t.add(h.Label, h.tried(), s.change(h.Screening.Change.Value), s.changes(h.Screening.Change), fixed(max(h.Screening.Size.Value, 0), s.decimals))
		}
		out = append(out, t)
	}
	return out
}

func (s *Sensitivity) changes(v Interval) string {
	if !v.Low.Known() || !v.High.Known() {
		return "-"
	}
	return s.change(v.Low) + " to " + s.change(v.High)
}

// tried is the span.
func (h *Hanging) tried() string { return fmt.Sprintf("%.4g to %.4g", float64(h.From), float64(h.To)) }
