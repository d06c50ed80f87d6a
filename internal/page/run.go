package page

import (
	"fmt"
	"slices"

	"playout/internal/draw"
	"playout/internal/report"
	"playout/model"
)

// RunInput is what a report on one scenario is made from.
type RunInput struct {
	Scenario    *model.Scenario
	Summary     *report.Summary
	Failures    *Failures           // nil: none were looked at
	Sensitivity *report.Sensitivity // nil: not asked
	Repeat      Repeat
}

// Failures is why build-ups fail.
type Failures struct {
	Lead    string
	Tables  []*report.DocumentTable
	More    []*report.DocumentTable // for the appendix
	Moments []Moment
	Flow    *draw.Scene // nil: nothing to draw
}

// Run lays a run out.
func Run(in RunInput) (*Page, error) {
	s, sc := in.Summary, in.Scenario
	doc := s.Document(true)
	left := slices.Clone(doc.Tables())
	take := func(titles ...string) (out []*report.DocumentTable) {
		for _, title := range titles {
			if i := slices.IndexFunc(left, func(t *report.DocumentTable) bool { return t.Title() == title }); i >= 0 {
				out = append(out, left[i])
				left = slices.Delete(left, i, i+1)
			}
		}
		return out
	}
	p := &Page{Title: doc.Title(), Question: question(sc), Warning: doc.Warning(), Answer: s.Answer[0], More: s.Answer[1:], Repeat: in.Repeat}
	p.Repeat.Facts, p.Repeat.Cautions = doc.Facts(), doc.Notes()
	p.Sections = append(p.Sections, Section{ID: "set-up", Title: "The set-up",
		Lead:    "Where both sides mean to stand in each phase. Circles: the side on the ball, playing up the page. Squares: the block.",
		Figures: setUp("", sc), Text: plans(sc)})
	if s.Possessions == 0 {
		return p, nil
	}
	p.Keys = keys(s)
	var rungs []rung
	for _, step := range runSteps {
		r := s.Rates.Get(step.key)
		rungs = append(rungs, rung{step.name, []report.Interval{{Value: 100 * r.Rate, Low: 100 * r.Low, High: 100 * r.High}}})
	}
	p.Sections = append(p.Sections, Section{ID: "ladder", Title: "How far it gets", Lead: steepest(rungs), Figures: []Figure{ladder("ladder", rungs, nil)}, Tables: take("How far it gets")})
	var ways [model.NumLanes]lane
	for l := range ways {
		key := model.Lane(l).String()
		ways[l] = lane{100 * float64(s.EntriesByLane.Get(key).Count) / float64(s.Possessions), known(s.ChancesByLane.Get(key).XGPer100)}
	}
	p.Sections = append(p.Sections, Section{ID: "lanes", Title: "Where it gets in, and what comes of it",
		Figures: []Figure{entries("entries", "Entries and chances by lane", sc.Pitch, ways, mostXG(ways))}, Tables: take("Where it gets in, and what comes of it")})
	p.Sections = append(p.Sections, failures(in, take("How and where it ends"))...)
	p.Sections = append(p.Sections, Section{ID: "block", Title: "What the block does", Tables: take("What the block did", "Who jumps out of the block")})
	risk := Section{ID: "risk", Title: "What a loss costs", Tables: take("After the loss", "Rest defence when the ball is lost")}
	if s.AfterLoss.Seconds > 0 {
		risk.Lead = s.Answer[3]
	} else {
		risk.Lead = "What the opponent makes of a loss was not played (after_loss: 0), so the risk is not known."
	}
	p.Sections = append(p.Sections, risk)
	if in.Sensitivity != nil {
		section, err := sensitivity(in.Sensitivity)
		if err != nil {
			return nil, err
		}
		p.Sections = append(p.Sections, section)
	}
	p.Appendix = left
	if in.Failures != nil {
		p.Appendix = append(p.Appendix, in.Failures.More...)
	}
	return p, nil
}

// known is a number, 0 where there is none.
func known(n report.Number) float64 {
	if !n.Known() {
		return 0
	}
	return float64(n)
}

// keys are the figures a reader wants first.
func keys(s *report.Summary) []Key {
	rate := func(key, label string) Key {
		r := s.Rates.Get(key)
		return Key{number(100 * float64(r.Rate)), label, fmt.Sprintf("%s to %s", number(100*float64(r.Low)), number(100*float64(r.High)))}
	}
	out := []Key{
		rate("final_third_entry", "of 100 reach the final third under control"),
		rate("shot", "of 100 end in a shot"),
		rate("turnover", "of 100 lose the ball"),
	}
	if n := s.AfterLoss.NetXGPer100; s.AfterLoss.Seconds > 0 && n.Mean.Known() {
		out = append(out, Key{fmt.Sprintf("%+.1f", float64(n.Mean)), "xG for minus xG against, per 100", fmt.Sprintf("%+.1f to %+.1f", float64(n.Low), float64(n.High))})
	}
	return out
}

// steepest names the step at which most build-ups end.
func steepest(rungs []rung) string {
	before, name, most := 100.0, "", 0.0
	last := "the start"
	var from string
	for _, r := range rungs[:4] { // beyond the penalty area it is finishing
		v := float64(r.values[0].Value)
		if before-v > most {
			most, name, from = before-v, r.name, last
		}
		before, last = v, r.name
	}
	if name == "" {
		return ""
	}
	return fmt.Sprintf("Most are held up between %s and %s: %s of 100 get no further.", from, name, number(most))
}

// failures says where the ball is lost and why.
func failures(in RunInput, ends []*report.DocumentTable) []Section {
	s := in.Summary
	var lost [model.NumThirds][model.NumLanes]float64
	for t := range lost {
		for l := range lost[t] {
			lost[t][l] = 100 * known(s.LossesByZone.Get(model.Third(t).String()).Get(model.Lane(l).String()).Rate)
		}
	}
	out := []Section{{ID: "losses", Title: "How and where it ends", Lead: s.Answer[2],
		Figures: []Figure{losses("losses-map", in.Scenario.Pitch, lost)}, Tables: ends}}
	if f := in.Failures; f != nil {
		why := Section{ID: "why", Title: "Why it fails, and what that looks like", Lead: f.Lead, Tables: f.Tables, Text: []string{stillLegend}}
		for i := range f.Moments {
			why.Figures = append(why.Figures, f.Moments[i].still(in.Scenario))
		}
		out = append(out, why)
		if f.Flow != nil {
			out = append(out, Section{ID: "flow-of-play", Title: "From the start to the end", Figures: []Figure{{Name: f.Flow.ID, Title: "From the start to the end",
				Caption: "The broader a band, the more build-ups go that way.", Desc: f.Flow.Desc, Scene: f.Flow, Wide: true}}})
		}
	}
	return out
}

const stillLegend = "How to read the scenes: each is the moment that decided a build-up, the one most like all others of its kind. Straight arrows are passes and wavy ones carries of the last 8 s, later ones darker; a dotted line leads to where a pass was meant to go; the short lines behind the players are their last 1.5 s; the defender who decides it has a second square. To watch one move: playout replay FILE --possession NUMBER."

// sensitivity is what the answer hangs on.
func sensitivity(s *report.Sensitivity) (Section, error) {
	doc := s.Document()
	out := Section{ID: "sensitivity", Title: "What the answer hangs on", Lead: sentences(append([]string{doc.Warning()}, doc.Answer()...)...), Tables: doc.Tables(),
		Text: append([]string{"Played for this section: " + doc.Facts()}, s.Notes...)}
	if len(s.Inputs) == 0 {
		return out, nil
	}
	rows, err := s.Picture()
	if err != nil {
		return out, err
	}
	out.Figures = []Figure{{Name: "hangs-on", Title: "Ranked", Drawing: rows, Desc: "The same as the first table of this section, drawn."}}
	return out, nil
}
