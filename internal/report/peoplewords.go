package report

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"playout/internal/picture"
)

func (p *People) title() string {
	return fmt.Sprintf("Who for the place of %s (%s, %s)", p.Place, p.Place.Position, p.Side)
}

func (p *People) warning() string {
	if text := p.Run.warning(); text != "" {
		return text
	}
	if p.ProfileRuns.Partial {
		return "PARTIAL: interrupted while the profile was played; " + p.ProfileRuns.played() + "."
	}
	return ""
}

// played says how far the profile came.
func (p *Played) played() string {
	return fmt.Sprintf("%s of %s build-ups of each of its variants are in it", thousands(p.Possessions), thousands(p.Asked))
}

func (p *People) facts() string {
	return fmt.Sprintf("%s The profile: %s build-ups of each of %d variants.", p.Run.facts(), thousands(p.ProfileRuns.Possessions), p.ProfileRuns.Variants)
}

// cautions are what a reader may take for more than it is.
func (p *People) cautions() []string {
	out := []string{"The profile moves every attribute 20 percentiles down and up, all at once by a plan in which each stands half the time " +
		"with every setting of the others; an effect is per ten percentiles, on average over that range."}
	if len(p.Candidates) > 0 {
		out = append(out, "What the shortlist does not say of a candidate is taken from the man who has the place, his way of playing off the ball "+
			"included. Percentiles are opinions or estimates themselves: a difference here is no surer than they are.")
	}
	return out
}

// sentences say what was found: who, which foot, what to look for.
func (p *People) sentences() []string {
	var out []string
	if len(p.Candidates) > 0 {
		out = append(out, p.who(0), p.who(1))
	}
	if text := p.foot(); text != "" {
		out = append(out, text)
	}
	if len(p.Profile) > 0 {
		out = append(out, p.wanted())
	}
	return out
}

// who says which candidates are better or worse by figure k, and who leads.
func (p *People) who(k int) string {
	f := p.figures[k]
	by := map[string][]string{}
	var nearest *Candidate
	for i := range p.Candidates {
		c := &p.Candidates[i]
		if c.Now {
			continue
		}
		text := c.Name + " " + c.Differences[k].signed(f)
		by[c.Verdicts[k]] = append(by[c.Verdicts[k]], text)
		if nearest == nil {
			nearest = c
		}
	}
	var parts []string
	if names := by[better]; len(names) > 0 {
		parts = append(parts, "better than "+p.Place.String()+": "+listed(names, "and"))
	}
	if names := by[worse]; len(names) > 0 {
		parts = append(parts, "worse than "+p.Place.String()+": "+listed(names, "and"))
	}
	text := fmt.Sprintf("By %s (%s), ", f.Label, f.Unit)
	if len(parts) == 0 {
		text += fmt.Sprintf("no candidate can be told from %s yet", p.Place)
		if k == 0 && nearest.Needed > 0 {
			text += fmt.Sprintf("; the first of them, %s at %s, would take about %s build-ups", nearest.Name, nearest.Differences[0].signed(f), about(nearest.Needed))
		}
		return text + "."
	}
	text += strings.Join(parts, "; ") + "."
	if k == 0 {
		text += p.leaders()
	}
	return text
}

// leaders says whether the best is clear of the others.
func (p *People) leaders() string {
	var first []string
	for _, c := range p.Candidates {
		if c.From == 1 {
			first = append(first, c.Name)
		}
	}
	if len(first) == 1 {
		return fmt.Sprintf(" %s is ahead of all others.", first[0])
	}
	return fmt.Sprintf(" Who of %s is best cannot be told yet.", listed(first, "and"))
}

// foot says what another strong foot would change.
func (p *People) foot() string {
	var out []string
	for _, r := range p.Feet {
		for k, v := range r.Verdicts {
			if v != cannotTell {
				out = append(out, fmt.Sprintf("%s it would be %s by %s, %s", footWords[r.Foot], v, p.figures[k].Label, r.Differences[k].signed(p.figures[k])))
			}
		}
	}
	if len(p.Feet) == 0 {
		return ""
	}
	if len(out) == 0 {
		return "The strong foot alone: no difference can be told yet."
	}
	return "The strong foot alone: " + strings.Join(out, "; ") + "."
}

var footWords = map[string]string{"left": "with a left foot", "right": "with a right foot", "both": "with two good feet"}

// wantedNamed is how many attributes are named in the answer.
const wantedNamed = 4

// wanted names the attributes that help most, by the first figure for which any can be told.
func (p *People) wanted() string {
	for k, f := range p.figures {
		var out []string
		for _, t := range p.sorted(k) {
			if t.Told[k] && float64(t.Effects[k].Value)*p.good[k] > 0 && len(out) < wantedNamed {
				out = append(out, fmt.Sprintf("%s %s", p.traitName(t), t.Effects[k].signedBy(f.Decimals+1)))
			}
		}
		if len(out) > 0 {
			return fmt.Sprintf("What to look for, by %s for ten percentiles more: %s.", f.Label, listed(out, "and"))
		}
	}
	return "What to look for: no attribute's effect can be told from none yet."
}

// sorted are the traits by what they do to figure k, the most helpful first.
func (p *People) sorted(k int) []TraitRow {
	out := append([]TraitRow(nil), p.Profile...)
	sortFalling(out, func(t TraitRow) float64 { return p.good[k] * float64(t.Effects[k].Value) })
	return out
}

// traitName names a trait, with the player where there are several.
func (p *People) traitName(t TraitRow) string {
	name := strings.ReplaceAll(t.Attribute, "_", " ")
	if p.several() {
		return name + " of " + t.Player.String()
	}
	return name
}

func (p *People) several() bool {
	for _, t := range p.Profile {
		if t.Player != p.Place {
			return true
		}
	}
	return false
}

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
			row := []string{cut(c.Name, maxName), placeText(c.From, c.To), c.Position, c.Foot}
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
		t := &table{title: "What the place asks for", head: []string{"attribute", "now"}, note: "What ten percentiles more change; a star: told from none, all attributes judged together. "}
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
		rows.Names = append(rows.Names, fmt.Sprintf("%s  %s", placeText(c.From, c.To), c.Name))
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
