package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/internal/experiment"
	"playout/model"
)

// Document is the answer for people.
func (c *Compare) Document() *Document { return c.document() }

func (c *Compare) document() *document {
	d := &document{title: c.title(), answer: c.Answer, facts: c.facts(), notes: c.Notes, tables: []*table{c.scenarioTable()}}
	if c.Partial {
		d.warning, d.notes = c.Notes[0], c.Notes[1:]
	}
	for i := range c.comparisons {
		d.tables = append(d.tables, c.figureTable(i), c.lanesTable(i))
	}
	for i := range c.comparisons {
		d.tables = append(d.tables, c.luckTable(i))
	}
	return d
}

func (c *Compare) title() string {
	if len(c.Scenarios) > 2 {
		return fmt.Sprintf("%d variants against %q", len(c.Scenarios)-1, c.Scenarios[0].Title)
	}
	return fmt.Sprintf("%s (B) against %s (A)", c.Scenarios[1].Title, c.Scenarios[0].Title)
}

// facts is the line that lets the comparison be repeated.
func (c *Compare) facts() string {
	played := thousands(int64(c.Possessions)) + " build-ups of each"
	if c.Partial {
		played = fmt.Sprintf("PARTIAL: %s of %s", thousands(int64(c.Possessions)), thousands(int64(c.Asked))) + " build-ups of each"
	}
	return fmt.Sprintf("seed %d, %s, tick %s s, version %s, engine revision %d.", c.Seed, played, c.TickS.text(), c.Version, c.Revision)
}

func (c *Compare) scenarioTable() *table {
	t := &table{title: "What is compared", head: []string{"", "scenario", "file"}, left: true}
	var differ []string
	for i, s := range c.Scenarios {
		letter := s.Letter
		if i == 0 {
			letter += ", the reference"
		} else {
			differ = append(differ, c.differs(i))
		}
		t.add(letter, cut(s.Title, 40), cut(s.File, 36))
	}
	t.note = strings.Join(differ, " ")
	return t
}

// differs says in which parts a scenario differs from the reference.
func (c *Compare) differs(i int) string {
	s := c.Scenarios[i]
	if len(s.Differs) == 0 {
		return s.Letter + " is the same as A in everything that is played."
	}
	return s.Letter + " differs from A in " + strings.Join(s.Differs, ", ") + "."
}

func (c *Compare) figureTable(i int) *table {
	x := &c.comparisons[i]
	t := c.contrastTable(i, c.Comparisons[i].Variant+" against A", "per 100 build-ups")
	others := len(x.Others) * len(c.comparisons)
	t.note = fmt.Sprintf("Better and worse are for the side on the ball. The first figure is the one asked about and is judged by itself. "+
		"The intervals are those of each figure by itself, not adjusted; the verdicts on the others allow for all %d being judged together (Holm's correction).", others)
	t.add(c.contrastCells(&x.Asked, x.Asked.Figure.Label)...)
	t.gap()
	for k := range x.Others {
		t.add(c.contrastCells(&x.Others[k], x.Others[k].Figure.Label)...)
	}
	return t
}

func (c *Compare) lanesTable(i int) *table {
	x := &c.comparisons[i]
	t := c.contrastTable(i, "By lane of entry, "+c.Comparisons[i].Variant+" against A", "lane (channel)")
	t.note = fmt.Sprintf("Entries: share of all controlled entries, %%; shots and xG per 100 build-ups. The verdicts allow for all %d being judged together.",
		len(x.Lanes)*len(c.comparisons))
	family := ""
	for k := range x.Lanes {
		f := &x.Lanes[k].Figure
		group, lane, _ := strings.Cut(f.Name, "/")
		if family != "" && family != group {
			t.gap()
		}
		family = group
		t.add(c.contrastCells(&x.Lanes[k], laneFamilies[group]+laneWords[lane])...)
	}
	return t
}

// laneFamilies name the figures by lane in a table of lanes.
var laneFamilies = map[string]string{"share_of_entries": "entries, %: ", "shot": "shots: ", "xg": "xG: "}

func (c *Compare) contrastTable(i int, title, first string) *table {
	v := c.Comparisons[i].Variant
	return &table{title: title, head: []string{first, "A", v, v + " - A", intervalHead, "verdict", "build-ups needed"}}
}

func (c *Compare) contrastCells(x *experiment.Contrast, label string) []string {
	d := &x.Difference
	decimals := x.Figure.Decimals
	n := func(v float64) string { return hundredfold(Number(v), decimals) }
	needed := ""
	if x.Needed > 0 {
		needed = count(x.Needed)
	}
	return []string{label, n(x.Reference), n(x.Variant), signedTo(d.Value, decimals), signedSpan(d.Lo, d.Hi, decimals), verdictWord(x), needed}
}

// count is a number of build-ups that are still to be played.
func count(n int64) string {
	if n > model.MaxPossessions {
		return ">" + thousands(model.MaxPossessions)
	}
	return thousands(roundUp(n))
}

// signedTo writes a difference per 100 with its sign.
func signedTo(x float64, decimals int) string {
	text := hundredfold(Number(x), decimals)
	if x > 0 && strings.Trim(text, "0.") != "" && text != "-" {
		return "+" + text
	}
	return text
}

func signedSpan(lo, hi float64, decimals int) string {
	if math.IsInf(lo, 0) || math.IsInf(hi, 0) || math.IsNaN(lo) || math.IsNaN(hi) {
		return "-"
	}
	return signedTo(lo, decimals) + " to " + signedTo(hi, decimals)
}

var compareWords = [...]string{
	experiment.CannotTell: "cannot tell yet", experiment.Better: "better", experiment.Worse: "worse",
	experiment.More: "more", experiment.Fewer: "fewer", experiment.Level: "hardly differs", experiment.Same: "same throughout",
}

func verdictWord(x *experiment.Contrast) string {
	word := compareWords[x.Verdict]
	if x.Little() {
		word += ", a little"
	}
	return word
}

func (c *Compare) luckTable(i int) *table {
	x := &c.comparisons[i]
	t := &table{
		title: "What sharing the luck saves, " + c.Comparisons[i].Variant + " against A",
		note: fmt.Sprintf("Each build-up has the same luck in both. Apart: those in which the figure differs. Gain: how many times as many "+
			"build-ups the same interval would take if each variant had its own luck; %s were used.", thousands(int64(c.Possessions))),
		head: []string{"figure", "build-ups apart", "correlation", "gain", "with own luck"},
	}
	rows := append([]experiment.Contrast{x.Asked}, x.Others...)
	for k := range rows {
		r := &rows[k]
		independent := "-"
		if v := r.Independent(); Number(v).Known() {
			independent = thousands(int64(math.Round(v)))
		}
		t.add(r.Figure.Label, thousands(r.Difference.Apart), fixed(Number(r.Difference.Correlation), 2), gainText(r.Difference.Gain), independent)
	}
	return t
}

func gainText(g float64) string {
	switch {
	case math.IsInf(g, 1):
		return "all agree"
	case math.IsNaN(g):
		return "-"
	}
	return strconv.FormatFloat(g, 'f', 1, 64)
}
