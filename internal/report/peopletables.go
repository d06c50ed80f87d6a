package report

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"playout/internal/picture"
)

// mostTraits is the longest table of a profile; csv and json hold all.
const mostTraits = 25

func (p *People) tables() []*table {
	var out []*table
	columns := func(t *table) {
		for _, f := range p.figures {
			t.head = append(t.head, f.Name, intervalHead)
		}
		if len(out) == 0 { // what the columns are is said once
			t.note += p.legend()
		}
	}
	cells := func(values []Interval, extra int) []string {
		var row []string
		for k, v := range values {
			d := p.figures[k].Decimals + extra
			row = append(row, signedText(float64(v.Value), d), signedText(float64(v.Low), d)+" to "+signedText(float64(v.High), d))
		}
		return row
	}
	if len(p.Candidates) > 0 {
		t := &table{title: "The candidates", head: []string{"player", "place", "position", "foot"}, note: "More or less than " + p.Place.String() + ", with the same luck. "}
		columns(t)
		for _, c := range p.Candidates {
			row := []string{cut(p.called(&c), maxName), placeText(c.From, c.To), c.Position, c.Foot}
			if c.Now {
				row = append(row, "now", "-", "now", "-")
			} else {
				row = append(row, cells(c.Differences, 0)...)
			}
			t.add(row...)
		}
		out = append(out, t)
	}
	if len(p.Feet) > 0 {
		t := &table{title: "The strong foot alone", head: []string{"foot"}, note: "The man who has the place, with another strong foot. "}
		columns(t)
		for _, r := range p.Feet {
			t.add(append([]string{r.Foot}, cells(r.Differences, 0)...)...)
		}
		out = append(out, t)
	}
	if len(p.Profile) > 0 {
		t := &table{title: "What the place asks for", head: []string{"attribute", "now"}, note: "What ten percentiles more of each would change; a star: it can be told from no change, all attributes judged together. "}
		if p.several() {
			t.title, t.head = "What the places ask for", []string{"attribute", "player", "now"}
		}
		columns(t)
		for i, r := range p.Profile {
			if i == mostTraits {
				t.note += fmt.Sprintf("The first %d of %d.", mostTraits, len(p.Profile))
				break
			}
			row := []string{strings.ReplaceAll(r.Attribute, "_", " ")}
			if p.several() {
				row = append(row, cut(r.Player.String(), maxName))
			}
			row = append(row, fixed(r.Now, 0))
			effects := cells(r.Effects, 1)
			for k, told := range r.Told {
				if told {
					effects[2*k] += "*"
				}
			}
			t.add(append(row, effects...)...)
		}
		out = append(out, t)
	}
	return out
}

// legend says what the two columns of figures are.
func (p *People) legend() string {
	a, b := p.figures[0], p.figures[1]
	return fmt.Sprintf("%s: %s, %s; %s: %s, %s. ", a.Name, a.Label, a.Unit, b.Name, b.Label, b.Unit)
}

// placeText is a place, or the places somebody may have.
func placeText(from, to int) string {
	if from == to {
		return strconv.Itoa(from)
	}
	return fmt.Sprintf("%d-%d", from, to)
}

func (p *People) writeCSV(w io.Writer) error {
	rows := [][]string{{"table", "player", "what", "figure", "value", "low", "high", "verdict", "from", "to"}}
	for _, c := range p.Candidates {
		place := []string{strconv.Itoa(c.From), strconv.Itoa(c.To)}
		for k, f := range p.Figures {
			v := c.Values[k]
			rows = append(rows, append([]string{"candidate", guard(c.Name), "value", f, v.Value.text(), v.Low.text(), v.High.text(), ""}, place...))
			if !c.Now {
				v = c.Differences[k]
				rows = append(rows, append([]string{"candidate", guard(c.Name), "difference", f, v.Value.text(), v.Low.text(), v.High.text(), c.Verdicts[k]}, place...))
			}
		}
	}
	for _, r := range p.Feet {
		for k, f := range p.Figures {
			v := r.Differences[k]
			rows = append(rows, []string{"foot", guard(p.Place.String()), r.Foot, f, v.Value.text(), v.Low.text(), v.High.text(), r.Verdicts[k], "", ""})
		}
	}
	for _, r := range p.Profile {
		for k, f := range p.Figures {
			v := r.Effects[k]
			verdict := cannotTell
			if r.Told[k] {
				verdict = "told"
			}
			rows = append(rows, []string{"profile", guard(r.Player.String()), r.Attribute, f, v.Value.text(), v.Low.text(), v.High.text(), verdict, "", ""})
		}
	}
	return writeRows(w, rows)
}

// Picture is the candidates ranked, or the profile when there are none.
func (p *People) Picture() picture.Drawing {
	f := p.figures[0]
	zero := 0.0
	rows := &picture.Rows{Bars: true, Level: &zero}
	drawn := func(v Interval) picture.Interval {
		return picture.Interval{Value: float64(v.Value), Lo: float64(v.Low), Hi: float64(v.High)}
	}
	var values []picture.Interval
	for i, c := range p.Candidates {
		rows.Names = append(rows.Names, fmt.Sprintf("%s  %s", placeText(c.From, c.To), p.called(&c)))
		if c.Now {
			rows.Marked = i + 1
			values = append(values, picture.Interval{Value: 0, Lo: math.NaN(), Hi: math.NaN()})
			continue
		}
		values = append(values, drawn(c.Differences[0]))
	}
	rows.Words = picture.Words{Title: p.title(), Note: "Playout, " + p.Run.facts() + " A model's estimate, not a forecast."}
	rows.Subtitle = "Difference to the man in bold, who has the place; before the name the places he may have: who shares places cannot be told apart"
	rows.X = f.Label + ", " + f.Unit
	if len(p.Candidates) == 0 {
		for i, t := range p.Profile {
			if i < mostTraits {
				rows.Names, values = append(rows.Names, p.traitName(t)), append(values, drawn(t.Effects[0]))
			}
		}
		rows.Title, rows.Subtitle = "What the place of "+p.Place.String()+" asks for", "What ten percentiles more of an attribute change, with the 95% interval"
		rows.Note = "Playout, " + p.facts()
	}
	rows.Series = []picture.Series{{Values: values}}
	return rows
}
