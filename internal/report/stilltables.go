package report

import (
	"fmt"
	"strconv"
)

func (s *Still) document(full bool) *document {
	d := &document{title: s.Title, answer: s.Answer, facts: s.facts(), notes: s.Notes}
	options := s.best()
	title := "What he can do, the best ball for each man"
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
		note: "Most often chosen first. Chosen: times of 100; comes off: of 100. In goals per 100: what having the ball there is worth; what losing it " +
			"there costs; risk, the cost times the chance of a failure; and in all, the worth times the chance less the risk.",
		texts: 2,
		head:  []string{"option", "where", "chosen", "comes off", "worth", "cost", "risk", "in all"},
	}
	goals := func(x float64) string { return strconv.FormatFloat(100*x, 'f', 2, 64) }
	for _, o := range options {
		name, where := o.Words, ""
		if o.Act == "pass" {
			where = s.place(o.To)
		}
		if o.Offside {
			where = "OFFSIDE"
		}
		t.add(name, where, hundredths(o.Share), hundredths(o.Chance), goals(o.Worth), goals(o.Cost), goals(o.Risk), goals(o.balance()))
	}
	return t
}

// takerTable says who has each pass.
func (s *Still) takerTable(options []*StillOption) *table {
	t := &table{
		title: "Who has the ball",
		note:  "Of 100 such balls, by the control model, before the passer's error. Blocked: by the body of the man in front of him; out: of play; open: nobody has it by then.",
		head:  []string{"pass", "arrives, s", "team", "their likeliest", "blocked", "out", "open"},
		left:  true,
	}
	for _, o := range options {
		if o.Detail == nil {
			continue
		}
		ours, theirs := 0.0, append([]StillTake(nil), o.Detail.Defence...)
		for _, k := range o.Detail.Attack {
			ours += k.Chance
		}
		t.add(o.Words, strconv.FormatFloat(o.Detail.Arrives, 'f', 1, 64), hundredths(ours), likeliest(theirs, 3),
			hundredths(o.Detail.Blocked), hundredths(o.Detail.Out), hundredths(o.Detail.Unclaimed))
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
		text += fmt.Sprintf("%d (%s)", list[best].Number, hundredths(list[best].Chance))
		list[best].Chance = 0
	}
	return text
}
