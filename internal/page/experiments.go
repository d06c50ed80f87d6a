package page

import (
	"fmt"
	"strings"

	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/internal/report"
	"playout/model"
)

// Experiment is an answer of an experiment that can be laid out.
type Experiment interface{ Document() *report.Document }

// laid is the page of an experiment as far as all have it in common.
func laid(e Experiment, kind, question string, repeat Repeat) *Page {
	doc := e.Document()
	p := &Page{Title: doc.Title(), Question: question, Warning: doc.Warning(), Repeat: repeat}
	answer := strings.Join(doc.Answer(), " ")
	p.Answer, p.More = firstSentence(answer)
	p.Repeat.Facts, p.Repeat.Cautions = doc.Facts(), doc.Notes()
	return p
}

// firstSentence parts a text after its first sentence.
func firstSentence(text string) (first string, rest []string) {
	for i := 0; i+2 < len(text); i++ {
		if text[i] == '.' && text[i+1] == ' ' && text[i+2] >= 'A' && text[i+2] <= 'Z' {
			return text[:i+1], []string{text[i+2:]}
		}
	}
	return text, nil
}

// Compare lays a comparison out.
func Compare(c *report.Compare, scenarios []*model.Scenario, repeat Repeat) *Page {
	p := laid(c, "Comparison", fmt.Sprintf("Is another plan better than %q, by how much, and how sure is that?", c.Scenarios[0].Title), repeat)
	doc := c.Document()
	tables := doc.Tables()
	p.Sections = append(p.Sections, Section{ID: "compared", Title: tables[0].Title(), Tables: tables[:1]})
	for i := range c.Comparisons {
		x := &c.Comparisons[i]
		letters := []string{x.Reference, x.Variant}
		all := append([]report.Contrast{x.Asked}, x.Others...)
		var rungs []rung
		for _, step := range compareSteps {
			for k := range all {
				if f := &all[k]; f.Figure == step.key {
					rungs = append(rungs, rung{step.name, []report.Interval{alone(f.Reference), alone(f.Variant)}})
				}
			}
		}
		name := strings.ToLower(x.Variant)
		l := ladder("ladder-"+name, rungs, letters)
		l.Title = fmt.Sprintf("How far they get: %s (filled) and %s (hollow)", letters[0], letters[1])
		l.Caption = "Of 100 build-ups of each, with the same luck. The intervals of the differences are in the table."
		figures := []Figure{l}
		before, after := contrastLanes(all, x.Lanes, false), contrastLanes(all, x.Lanes, true)
		most := mostXG(before, after)
		for k, letter := range letters {
			which, lanes := i+1, after
			if k == 0 {
				which, lanes = 0, before
			}
			figures = append(figures, entries(fmt.Sprintf("entries-%s-%s", name, strings.ToLower(letter)), letter+": entries and chances by lane",
				scenarios[which].Pitch, lanes, most))
		}
		p.Sections = append(p.Sections, Section{ID: "versus-" + name, Title: fmt.Sprintf("%s against %s", letters[1], letters[0]), Figures: figures,
			Tables: tables[1+2*i : 3+2*i]})
	}
	for i, sc := range scenarios {
		p.Sections = append(p.Sections, setUpSection(report.Letter(i), sc))
	}
	p.Sections = append(p.Sections, Section{ID: "luck", Title: "What sharing the luck saves", Tables: tables[1+2*len(c.Comparisons):]})
	return p
}

// alone is a value whose interval is not shown.
func alone(n report.Number) report.Interval { return report.Interval{Value: n, Low: n, High: n} }

// contrastLanes are the lanes of the reference or of the variant; all holds how many
// entries there are.
func contrastLanes(all, rows []report.Contrast, variant bool) [model.NumLanes]lane {
	var out [model.NumLanes]lane
	of := func(r *report.Contrast) report.Number {
		if variant {
			return r.Variant
		}
		return r.Reference
	}
	entries := 0.0 // per 100 build-ups
	for i := range all {
		if all[i].Figure == "final_third" {
			entries = known(of(&all[i]))
		}
	}
	for i := range rows {
		r := &rows[i]
		value := of(r)
		family, key, _ := strings.Cut(r.Figure, "/")
		for l := range out {
			if model.Lane(l).String() != key {
				continue
			}
			switch family {
			case "share_of_entries":
				out[l].entries = entries * known(value) / 100
			case "xg":
				out[l].xg = known(value)
			}
		}
	}
	return out
}

func setUpSection(letter string, sc *model.Scenario) Section {
	id := strings.ToLower(letter)
	return Section{ID: "set-up-" + id, Title: "The set-up of " + letter + ": " + named(sc.Title, "untitled"),
		Lead:    "Circles: the side on the ball, playing up the page. Squares: the block.",
		Figures: setUp(id, sc), Text: plans(sc)}
}

// Sweep lays a sweep out.
func Sweep(s *report.Sweep, sc *model.Scenario, repeat Repeat) (*Page, error) {
	var what []string
	for _, a := range s.Axes {
		what = append(what, fmt.Sprintf("%s (%s, %s to %s)", named(a.Label, a.Path), a.Path, a.Values[0], a.Values[len(a.Values)-1]))
	}
	f, err := experiment.FigureNamed(s.Figure)
	if err != nil {
		return nil, err
	}
	p := laid(s, "Sweep", fmt.Sprintf("What does %s do to this figure: %s?", strings.Join(what, " and "), f.Label), repeat)
	section := Section{ID: "sweep", Title: "What it does", Tables: s.Document().Tables()}
	if len(s.Axes) <= 2 {
		drawing, err := s.Picture()
		if err != nil {
			return nil, err
		}
		section.Figures = []Figure{drawn("sweep-picture", drawing)}
	}
	p.Sections = append(p.Sections, section, setUpSection("", sc))
	p.Sections[1].ID, p.Sections[1].Title = "set-up", "The scenario as it stands"
	return p, nil
}

// Matrix lays plans against answers out. plans and answers are the scenarios whose
// attacks and defences meet.
func Matrix(m *report.Matrix, plansOf []*model.Scenario, repeat Repeat) *Page {
	p := laid(m, "Plans against answers", "Which plan is safest against what the opponent can answer with, and how should each side mix?", repeat)
	p.Sections = append(p.Sections, Section{ID: "matrix", Title: "What each plan is worth against each answer",
		Figures: []Figure{drawn("matrix-picture", m.Picture())}, Tables: m.Document().Tables()})
	for i, sc := range plansOf {
		s := setUpSection(fmt.Sprintf("plan-%d", i+1), sc)
		s.Title = "The set-up of plan " + named(m.Plans[i].Name, fmt.Sprint(i+1)) + ", against the first answer"
		p.Sections = append(p.Sections, s)
	}
	return p
}

func drawn(name string, d picture.Drawing) Figure {
	return Figure{Name: name, Drawing: d, Desc: "The same figures as in the first table below, drawn."}
}
