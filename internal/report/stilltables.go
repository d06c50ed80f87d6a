package report

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

func (s *Still) document(full bool) *document {
	d := &document{title: s.Title, answer: s.Answer, facts: s.facts(), notes: s.Notes}
	options := s.shown()
	title := "What he can do: what he chooses, and the best ball for each man"
	if full {
		options, title = nil, "Everything he can do"
		for i := range s.Options {
			options = append(options, &s.Options[i])
		}
	}
	d.tables = append(d.tables, s.optionTable(title, options), s.takerTable(options))
	return d
}

// facts is the line that lets the answer be repeated.
func (s *Still) facts() string {
	return fmt.Sprintf("shares over %s looks, version %s, engine revision %d.", thousands(int64(s.Looks)), s.Version, s.Revision)
}

// shown are the options that he would choose once in 100 or more, and the best ball for
// every other man.
func (s *Still) shown() []*StillOption {
	var out []*StillOption
	best := s.best()
	for i := range s.Options {
		if o := &s.Options[i]; o.times > 0 || slices.Contains(best, o) {
			out = append(out, o)
		}
	}
	return out
}

// best is the option most often chosen of each kind and for each man.
func (s *Still) best() []*StillOption {
	var out []*StillOption
	seen := map[string]bool{}
	for i := range s.Options {
		o := &s.Options[i]
		key := o.Act
		if o.Player != nil {
			key += strconv.Itoa(*o.Player)
		}
		if o.Act == "keep" && o.To != s.stands() {
			key = "carry"
		}
		if !seen[key] {
			seen[key] = true
			out = append(out, o)
		}
	}
	return out
}

// stands is where the carrier stands.
func (s *Still) stands() [2]float64 {
	p := s.run.Still.Pos[0][s.run.Still.Carrier]
	return [2]float64{p.X, p.Y}
}

func (s *Still) optionTable(title string, options []*StillOption) *table {
	t := &table{
		title: title,
		note: "Most often chosen first. Chosen: times of 100; comes off: of 100. In goals per 100: worth, of having the ball there; risk, what " +
			"losing it there costs times the chance of that; in all, the worth times its chance less the risk. " +
			"Chosen goes by more than that: a loss is feared above its cost, the plan tilts, near and low balls come before far and high ones, " +
			"and behind his back he sees less.",
		texts: 2,
		head:  []string{"option", "where", "chosen", "comes off", "worth", "risk", "in all"},
	}
	for _, o := range options {
		name, where := o.Words, ""
		if o.Act == "pass" {
			where = s.place(o.To)
		}
		if o.Offside {
			where = "OFFSIDE"
		}
		t.add(name, where, briefly(timesText(o.times, o.Share)), brief(o.Chance), goals(o.Worth), goals(o.Risk), goals(o.balance()))
	}
	if n := len(s.Options) - len(options); n > 0 {
		times, rest := 100, 1.0
		for _, o := range options {
			times, rest = times-o.times, rest-o.Share
		}
		t.add(plural(int64(n), "other")+" (--full)", "", briefly(timesText(times, max(rest, 0))), "", "", "", "")
	}
	return t
}

// goals writes goals per 100.
func goals(x float64) string { return hundredfold(Number(x), 2) }

// brief is chanceText for a table.
func brief(p float64) string { return briefly(chanceText(p)) }

func briefly(text string) string {
	return strings.NewReplacer("under ", "<", "over ", ">").Replace(text)
}

// takerTable says who has each pass.
func (s *Still) takerTable(options []*StillOption) *table {
	t := &table{
		title: "Who has the ball",
		note: "Of 100 such balls, by the control model, before the passer's error. Blocked: by the body of the man in front of him; out: of play; open: nobody has it by then; half of these count as coming off. " +
			"A ball out of the air must still be mastered, so fewer come off. The loss: what one there costs, goals per 100.",
		head: []string{"pass", "arrives, s", "team", "their likeliest", "blocked", "out", "open", "the loss"},
		left: true,
	}
	for _, o := range options {
		if o.Detail == nil {
			continue
		}
		ours, theirs := 0.0, append([]StillTake(nil), o.Detail.Defence...)
		for _, k := range o.Detail.Attack {
			ours += k.Chance
		}
		t.add(o.Words, strconv.FormatFloat(o.Detail.Arrives, 'f', 1, 64), brief(ours), likeliest(theirs, 3),
			brief(o.Detail.Blocked), brief(o.Detail.Out), brief(o.Detail.Unclaimed), goals(o.Cost))
	}
	return t
}

// likeliest lists up to n players with a chance of 1 in 100 or more.
func likeliest(list []StillTake, n int) string {
	text := ""
	for range n {
		best := -1
		for i, k := range list {
			if k.Chance >= 0.01 && (best < 0 || k.Chance > list[best].Chance) {
				best = i
			}
		}
		if best < 0 {
			break
		}
		if text != "" {
			text += ", "
		}
		text += fmt.Sprintf("%d (%s)", list[best].Number, chanceText(list[best].Chance))
		list[best].Chance = 0
	}
	return text
}
