package report

import (
	"fmt"
	"io"
	"slices"

	"playout/internal/picture"
)

// acrossTable is how many answers stand beside one another.
const acrossTable = 4

// tables are the payoffs, the plans and the answers.
func (m *Matrix) tables() []*table {
	var out []*table
	for from := 0; from < len(m.Answers); from += acrossTable {
		to := min(from+acrossTable, len(m.Answers))
		t := &table{title: "What each pairing is worth", note: m.Unit + "; plans down, answers across, with half the width of the 95% interval.", head: []string{"plan"}}
		for _, a := range m.Answers[from:to] {
			t.head = append(t.head, cut(a.Name, maxName))
		}
		for i, p := range m.Plans {
			row := []string{cut(p.Name, maxName)}
			for _, v := range m.Payoffs[i][from:to] {
				row = append(row, fmt.Sprintf("%s ± %s", m.number(v.Value), fixed((v.High-v.Low)/2, m.figure.Decimals)))
			}
			t.add(row...)
		}
		out = append(out, t)
	}
	plans := &table{
		title: "Your plans", head: []string{"plan", "at worst", intervalHead, "against", "safest in, %", "best mix, %", intervalHead},
		note: "At worst: against their best answer. Safest in: how often it is the safest when luck is drawn anew. Best mix: how often to play it.",
	}
	for _, s := range m.Plans {
		plans.add(cut(s.Name, maxName), m.number(s.Worst.Value), m.bounds(s.Worst), cut(oneOf(s.Replies), maxName),
			hundredths(s.SafestIn), hundredths(s.Share.Value), span(s.Share.Low, s.Share.High, 100, 0))
	}
	answers := &table{
		title: "Their answers", head: []string{"answer", "gives away", intervalHead, "to", "costs", "best mix, %", intervalHead},
		note: "Gives away: to your best plan against it. Costs: how much more that is than with their best mix. Best mix: how often to play it.",
	}
	for _, s := range m.Answers {
		answers.add(cut(s.Name, maxName), m.number(s.Worst.Value), m.bounds(s.Worst), cut(oneOf(s.Replies), maxName),
			fixed(s.Price.Value, m.figure.Decimals), hundredths(s.Share.Value), span(s.Share.Low, s.Share.High, 100, 0))
	}
	out = append(out, plans, answers)
	if t := m.legend(); t != nil {
		out = append(out, t)
	}
	return out
}

// legend gives the titles that the short names stand for.
func (m *Matrix) legend() *table {
	t := &table{title: "What they are", head: []string{"name", "title"}, units: true}
	for _, s := range append(append([]MatrixSide(nil), m.Plans...), m.Answers...) {
		if s.Title != "" && s.Title != s.Name {
			t.add(cut(s.Name, maxName), cut(s.Title, 70))
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	if m.Players != "" {
		t.note = "Library blocks are played by the players of " + m.Players + "."
	}
	return t
}

// writeCSV writes one figure in a row: the payoffs, then what is known of each side.
func (m *Matrix) writeCSV(w io.Writer) error {
	rows := [][]string{{"figure", "plan", "answer", "value", "low", "high"}}
	add := func(figure, plan, answer string, v Interval) {
		rows = append(rows, []string{figure, guard(plan), guard(answer), v.Value.text(), v.Low.text(), v.High.text()})
	}
	for i, p := range m.Plans {
		for j, a := range m.Answers {
			add("payoff", p.Name, a.Name, m.Payoffs[i][j])
		}
	}
	add("value", "", "", m.Value)
	one := func(x Number) Interval { return Interval{x, missing, missing} }
	for _, s := range m.Plans {
		add("worst", s.Name, "", s.Worst)
		add("safest_in", s.Name, "", one(s.SafestIn))
		add("share", s.Name, "", s.Share)
		add("price", s.Name, "", s.Price)
		add("dominated_in", s.Name, "", one(s.Doubt))
	}
	for _, s := range m.Answers {
		add("worst", "", s.Name, s.Worst)
		add("share", "", s.Name, s.Share)
		add("price", "", s.Name, s.Price)
		add("dominated_in", "", s.Name, one(s.Doubt))
	}
	return writeRows(w, rows)
}

// Picture is the payoffs as a heat table; the best of the row side's worst is framed.
func (m *Matrix) Picture() picture.Drawing {
	g := &picture.Grid{
		Words: picture.Words{
			Title:    m.headline(),
			Subtitle: "What each plan is worth against each answer; framed: the safest plan against their best answer",
			Note:     "Playout, " + m.Run.facts() + " A model's estimate; intervals are in the table.",
		},
		X: "their answer", Y: "your plan", Value: m.figure.Label + ", " + m.Unit, Here: true,
	}
	if m.twoSided() {
		g.Centre = new(float64)
	}
	for _, a := range m.Answers {
		g.Columns = append(g.Columns, a.Name)
	}
	for i := len(m.Plans) - 1; i >= 0; i-- { // the first row is drawn at the bottom
		p := m.Plans[i]
		g.Rows = append(g.Rows, p.Name)
		var row []picture.Interval
		for j, v := range m.Payoffs[i] {
			row = append(row, picture.Interval{Value: float64(v.Value), Lo: float64(v.Low), Hi: float64(v.High)})
			if p.Safest && m.Answers[j].Name == p.Replies[0] {
				g.HereRow, g.HereColumn = len(g.Rows)-1, j
			}
		}
		g.Values, g.Unclear = append(g.Values, row), append(g.Unclear, m.unclear[i])
	}
	if slices.ContainsFunc(g.Unclear, func(row []bool) bool { return slices.Contains(row, true) }) {
		g.Subtitle += "; in brackets: cannot be told from it"
	}
	return g
}

// headline is the finding in a line.
func (m *Matrix) headline() string {
	switch {
	case len(m.Plans) == 1 || len(m.Answers) == 1:
		return "Plans against answers: " + m.figure.Label
	case m.Pure:
		return fmt.Sprintf("Always %s against always %s: neither side gains by mixing", oneOf(certain(m.Plans)), oneOf(certain(m.Answers)))
	}
	var out []string
	for _, a := range m.Answers {
		if a.Share.Value >= used {
			out = append(out, fmt.Sprintf("%s in %s", a.Name, hundredths(a.Share.Value)))
		}
	}
	return "They should play " + Listed(out, "and") + " of 100 build-ups"
}
