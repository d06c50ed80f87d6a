package report

import (
	"fmt"
	"strings"
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
	out := []string{"The profile sets every attribute 20 percentiles lower or higher, all at once, in combinations so balanced that what each " +
		"does can be told apart; an effect is per ten percentiles, on average over that range."}
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
		parts = append(parts, "better than "+p.Place.String()+": "+Listed(names, "and"))
	}
	if names := by[worse]; len(names) > 0 {
		parts = append(parts, "worse than "+p.Place.String()+": "+Listed(names, "and"))
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
			first = append(first, p.called(&c))
		}
	}
	if len(first) == 1 {
		return fmt.Sprintf(" %s is ahead of all others.", first[0])
	}
	return fmt.Sprintf(" Who of %s is best cannot be told yet.", Listed(first, "and"))
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
			return fmt.Sprintf("What to look for (by %s, for ten percentiles more): %s.", f.Label, Listed(out, "and"))
		}
	}
	return "What to look for: of no attribute can it be told yet that more of it helps."
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
