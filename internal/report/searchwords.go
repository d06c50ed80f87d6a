package report

import (
	"fmt"
	"strconv"
	"strings"

	"playout/internal/search"
	"playout/model"
)

// answer says in two sentences whether something better was found, and how far the
// search's own figures could be trusted.
func (s *Search) answer() []string {
	out := []string{s.verdictSentence()}
	if s.Fresh > 1 {
		out = append(out, s.luckSentence())
	}
	return out
}

func (s *Search) verdictSentence() string {
	none := "No better structure found within the freedom allowed: "
	switch search.Verdict(s.Verdict) {
	case search.Original:
		return none + "the search came back to the original."
	case search.Unjudged:
		return "Whether what the search settled on is better cannot be said: it was not played on fresh luck."
	}
	f := s.Figures[0]
	d := s.decimals()
	facts := fmt.Sprintf("%s: %s %s in place of %s, %s, on %s fresh build-ups that the search had not seen",
		s.figure.Label, fixed(100*f.Found, d), s.figure.Unit, fixed(100*f.Original, d), spoken(f.Lead, d), thousands(int64(s.Fresh)))
	switch search.Verdict(s.Verdict) {
	case search.Better:
		return "A better structure was found. " + capital(facts) + "."
	case search.Worse:
		return none + "what the search settled on is worse. " + capital(facts) + "."
	}
	return none + "what the search settled on cannot be told from the original. " + capital(facts) + "." + s.moreNeeded()
}

// capital begins a sentence with a label.
func capital(s string) string {
	if strings.HasPrefix(s, "xG") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// moreNeeded says what it would take to tell a difference as large as the one seen.
func (s *Search) moreNeeded() string {
	l := s.result.Lead()
	if l.Value*s.result.Config.Sign() <= 0 {
		return ""
	}
	half := (l.Hi - l.Lo) / 2
	need := roundUp(int64(float64(s.Fresh) * half * half / (l.Value * l.Value)))
	if need > model.MaxPossessions {
		return " It would take more than can be played to tell a difference this small from chance."
	}
	return fmt.Sprintf(" If it is as large as it looks, about %s build-ups of each would tell.", thousands(need))
}

// luckSentence sets the luckiest lead of the search beside what it is worth.
func (s *Search) luckSentence() string {
	d, l := s.decimals(), s.Luckiest
	text := fmt.Sprintf("Among %s variants tried, the luckiest differed by %s from the original while searching, on %s build-ups; the same one on fresh luck: %s.",
		thousands(int64(s.Tried)), spoken(l.Searching, d), thousands(int64(l.BuildUps)), spoken(l.Fresh, d))
	if s.result.Config.Sign()*float64(l.Searching.Difference-l.Fresh.Difference) > 0 {
		text += " The rest was the luck of being picked from many; only fresh build-ups count."
	}
	return text
}

// document lays the answer out for people.
func (s *Search) document(full bool) *document {
	title := s.Scenario
	if title == "" {
		title = "Untitled scenario"
	}
	d := &document{title: title, answer: s.Answer, facts: s.facts(), notes: s.notes()}
	if s.Partial {
		d.warning = fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups; this is the best so far, on %s fresh build-ups.",
			thousands(int64(s.Searched+3*s.Fresh)), thousands(int64(s.Budget)), thousands(int64(s.Fresh)))
	}
	if len(s.Changes) > 0 {
		d.tables = append(d.tables, s.changeTable())
	}
	if s.Fresh > 0 && len(s.Changes) > 0 {
		d.tables = append(d.tables, s.figureTable())
	}
	if full {
		d.tables = append(d.tables, s.progressTable())
	}
	return d
}

func (s *Search) changeTable() *table {
	t := &table{title: "What changes", note: "Places are metres from the centre spot: up the pitch, to the left.",
		head: []string{"", "from", "to", "by"}}
	if search.Verdict(s.Verdict) != search.Better {
		t.title = "What the search settled on"
	}
	for _, c := range s.result.Changes {
		name := c.Label
		by := ""
		switch {
		case c.Place:
			by = fmt.Sprintf("%.1f m: %s, %s", c.Size, way(c.DX, "up", "back"), way(c.DY, "left", "right"))
		case c.Size != 0:
			by = plus(Number(c.Size), decimalsFor(c.Size))
		}
		if c.Unit != "" && !c.Place {
			name += ", " + c.Unit
		}
		t.add(cut(name, 44), cut(c.From, 20), cut(c.To, 20), by)
	}
	return t
}

// way writes a shift along one axis.
func way(d float64, ahead, behind string) string {
	if d < 0 {
		return fmt.Sprintf("%.1f %s", -d, behind)
	}
	return fmt.Sprintf("%.1f %s", d, ahead)
}

func (s *Search) figureTable() *table {
	t := &table{title: "On fresh luck", head: []string{"per 100 build-ups", "original", "found", "difference", intervalHead},
		note: fmt.Sprintf("%s build-ups of each, which the search had not seen, both under the same luck. The search looked at the first row only; of the %d others about one interval in twenty leaves out 0 by chance.",
			thousands(int64(s.Fresh)), len(s.Figures)-1)}
	for i, f := range searchFigures(s.figure) {
		v := s.Figures[i]
		t.add(f.Label, fixed(100*v.Original, f.Decimals), fixed(100*v.Found, f.Decimals), plus(100*v.Difference, f.Decimals),
			fmt.Sprintf("%s to %s", plus(100*v.Low, f.Decimals), plus(100*v.High, f.Decimals)))
		if i == 0 {
			t.gap()
		}
	}
	return t
}

func (s *Search) progressTable() *table {
	d := s.decimals()
	t := &table{title: "How the search went", head: []string{"generation", "build-ups", "variants", "dropped", "of each", "best", intervalHead, "better half", "spread, %"},
		note: "Difference from the original per 100 build-ups of the best variant and of the mean of the better half, both picked for being " +
			"best and so optimistic. Dropped: variants given up early. Spread: how widely variants are still scattered, in the range allowed."}
	for i, g := range s.Progress {
		t.add(strconv.Itoa(i+1), thousands(int64(g.Spent)), strconv.Itoa(g.Variants), strconv.Itoa(g.Dropped), thousands(int64(g.BuildUps)),
			plus(100*g.Best.Difference, d), fmt.Sprintf("%s to %s", plus(100*g.Best.Low, d), plus(100*g.Best.High, d)),
			plus(100*g.Half.Difference, d), fixed(100*g.Spread, 0))
	}
	return t
}

func (s *Search) facts() string {
	return fmt.Sprintf("seed %d, %s build-ups to search in %s variants (%d numbers free), build-ups %s to %s to judge; version %s, engine revision %d.",
		s.Seed, thousands(int64(s.Searched)), thousands(int64(s.Tried)), s.Free, thousands(int64(s.First)),
		thousands(int64(s.First+max(s.Fresh-1, 0))), s.Version, s.Revision)
}

func (s *Search) notes() []string {
	out := []string{fmt.Sprintf("Only %q was asked to be %s: look at the other figures before you believe a change, and at whether it makes sense on grass. "+
		"The opponent does not answer: his block stays as the file has it, where a real one would adapt. Play what was found against several blocks with playout matrix.",
		s.figure.Label, map[string]string{"more": "higher", "less": "lower"}[s.Wanted])}
	if s.Written != "" {
		out = append(out, "The variant is in "+s.Written+".")
	} else if search.Verdict(s.Verdict) != search.Better {
		out = append(out, "A search that finds nothing has not shown that there is nothing: a larger --budget, fewer free values or a figure that chance blurs less (final_third) see more.")
	}
	return append(out, caution)
}
