package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"playout/internal/reference"
)

// Validation is the engine held against the figures of the real game.
type Validation struct {
	Possessions int
	Seed        uint64
	Version     string
	Revision    int
	Checks      []reference.Check
}

// Write prints the validation. JSON and CSV hold the figures only: a list of
// {figure, engine, low, high, reference, ref_low, ref_high, inside, source}.
func (v *Validation) Write(w io.Writer, f Format) error {
	switch f {
	case Table:
		return v.writeText(w, wrapped, (*table).writeTerminal)
	case Markdown:
		return v.writeText(w, marked, (*table).writeMarkdown)
	case CSV:
		return v.writeCSV(w)
	case JSON:
		return writeJSON(w, v.rows())
	}
	return fmt.Errorf("report: unknown format %q", f)
}

// validationRow is a figure in JSON and CSV.
type validationRow struct {
	Figure    string `json:"figure"`
	Engine    Number `json:"engine"`
	Low       Number `json:"low"`
	High      Number `json:"high"`
	Reference Number `json:"reference"`
	RefLow    Number `json:"ref_low"`
	RefHigh   Number `json:"ref_high"`
	Inside    bool   `json:"inside"`
	Source    string `json:"source"`
}

// rows are the figures that have enough cases.
func (v *Validation) rows() []validationRow {
	out := []validationRow{}
	for i := range v.Checks {
		c := &v.Checks[i]
		if c.Enough() {
			out = append(out, validationRow{
				c.Name, Number(c.Engine.Value), Number(c.Engine.Low), Number(c.Engine.High),
				Number(c.Value), Number(c.Low), Number(c.High), c.Inside(), c.Source,
			})
		}
	}
	return out
}

func (v *Validation) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	lines := [][]string{{"figure", "engine", "low", "high", "reference", "ref_low", "ref_high", "inside", "source"}}
	for _, r := range v.rows() {
		lines = append(lines, []string{
			r.Figure, r.Engine.text(), r.Low.text(), r.High.text(), r.Reference.text(), r.RefLow.text(), r.RefHigh.text(),
			fmt.Sprint(r.Inside), guard(r.Source),
		})
	}
	return out.WriteAll(lines)
}

// wrapped and marked write a paragraph for a terminal and in Markdown.
func wrapped(text string) string { return strings.Join(wrap(text, maxColumns), "\n") + "\n" }

func marked(text string) string { return escapeMarkdown(text) + "\n" }

func (v *Validation) writeText(w io.Writer, paragraph func(string) string, write func(*table, io.Writer) error) error {
	var b strings.Builder
	put := func(text string) { b.WriteString(paragraph(text) + "\n") }
	put("The engine against data: league-average players against a spread of ordinary blocks.")
	put(validationLead)
	for _, t := range v.tables() {
		if err := write(t, &b); err != nil {
			return err
		}
		b.WriteByte('\n')
	}
	for _, text := range v.summary() {
		put(text)
	}
	put("Sources: " + strings.Join(v.sources(), "; ") + ".")
	for _, text := range validationCautions {
		put(text)
	}
	b.WriteString(paragraph(fmt.Sprintf("Run: seed %d, %s possessions, version %s, engine revision %d.",
		v.Seed, thousands(int64(v.Possessions)), v.Version, v.Revision)))
	_, err := io.WriteString(w, b.String())
	return err
}

const validationLead = "engine: measured by the definitions of the data, with its 95% interval. spread: from the lowest to the highest " +
	"of three competitions or of the matches; with a star it is a judgement or from one match. A figure is inside when the engine's value lies within the spread; " +
	"it reaches the spread when only its interval does; when it is out, the verdict says how far beyond the spread, as a share of the value of the data."

var validationCautions = []string{
	"What this does not show: that the engine is right about your teams. The event figures are one season of three men's first " +
		"divisions, the tracking figures eight matches of one league and under five minutes of another match, the speed of passes two matches more; " +
		"the spread of a figure from one match is unknown. A figure inside its spread may be right for a wrong reason, and the parameters were fitted to these very tables.",
	"Event data see no movement off the ball and no pressure, and record the end of a pass where the next event happens. The tables of " +
		"passes, switches, crosses and lost balls hold all possessions of a match, the engine plays those that begin in the own third; completion for any third is " +
		"weighed by the reference's passes in each. Corners and free kicks near goal are not played, nor is what follows a shot or the " +
		"opponent's first possession.",
}

// tables are one table for each reference table, or for each of its parts when most
// of its names have one.
func (v *Validation) tables() []*table {
	balance := map[string]int{} // names of the table with a part, less those without
	for i := range v.Checks {
		if c := &v.Checks[i]; hasPart(c) {
			balance[c.Table()]++
		} else {
			balance[c.Table()]--
		}
	}
	var out []*table
	byTitle := map[string]*table{}
	for i := range v.Checks {
		c := &v.Checks[i]
		title := c.Table()
		if hasPart(c) && balance[title] > 0 {
			title += "/" + strings.Split(c.Name, "/")[1]
		}
		t := byTitle[title]
		if t == nil {
			t = &table{title: title, head: []string{"figure", "engine", intervalHead, "data", "spread", "verdict"}, verbatim: true}
			byTitle[title] = t
			out = append(out, t)
		}
		t.add(append([]string{strings.TrimPrefix(c.Name, title+"/")}, cells(c)...)...)
	}
	return out
}

// hasPart reports whether a name has a part between its table and its figure.
func hasPart(c *reference.Check) bool { return strings.Count(c.Name, "/") >= 2 }

// cells are the figures and the verdict of a check.
func cells(c *reference.Check) []string {
	d := decimalsFor(c.Value)
	out := []string{"-", "-", fixed(Number(c.Value), d), span(Number(c.Low), Number(c.High), 1, d), "too few"}
	if c.Judged {
		out[3] += "*"
	}
	if !c.Enough() {
		return out
	}
	out[0], out[1] = fixed(Number(c.Engine.Value), d), span(Number(c.Engine.Low), Number(c.Engine.High), 1, d)
	out[4] = "inside"
	switch {
	case c.Inside():
	case c.Reaches():
		out[4] = "reaches"
	default:
		out[4] = "out " + beyond(c)
	}
	return out
}

// beyond is how far a figure is out of its spread, as a share of its value.
func beyond(c *reference.Check) string {
	if x := 100 * c.Beyond(); math.Abs(x) >= 0.5 {
		return fmt.Sprintf("%+.0f%%", x)
	}
	return "<1%"
}

// decimalsFor shows three digits of a value, and no more than four decimals.
func decimalsFor(x float64) int {
	if x == 0 {
		return 2
	}
	return min(max(2-int(math.Floor(math.Log10(math.Abs(x)))), 0), 4)
}

// summary counts the verdicts and names the figures that are far off.
func (v *Validation) summary() []string {
	judged, inside, reaches := 0, 0, 0
	few := 0
	var far []string
	for i := range v.Checks {
		c := &v.Checks[i]
		if !c.Enough() {
			few++
			continue
		}
		judged++
		if c.Inside() {
			inside++
		}
		if c.Reaches() {
			reaches++
		}
		if math.Abs(c.Beyond()) > reference.FarOff {
			far = append(far, c.Name+" ("+beyond(c)+")")
		}
	}
	out := []string{fmt.Sprintf("%d of %d figures lie inside the spread; the intervals of %d reach it.", inside, judged, reaches)}
	if len(far) > 0 {
		out = append(out, fmt.Sprintf("Further than a quarter of their value outside it, %d: %s.", len(far), strings.Join(far, ", ")))
	} else {
		out = append(out, "None lies further than a quarter of its value outside it.")
	}
	if few > 0 {
		out = append(out, fmt.Sprintf("Too few cases to judge: %d, marked so; more possessions bring some of them in.", few))
	}
	return out
}

// sources are the data behind the figures, each once.
func (v *Validation) sources() []string {
	var out []string
	for _, s := range reference.Sources {
		if slices.ContainsFunc(v.Checks, func(c reference.Check) bool { return strings.Contains(c.Source, s.Tag) }) {
			out = append(out, s.Text)
		}
	}
	return out
}
