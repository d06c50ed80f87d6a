package page

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"playout/internal/experiment"
	"playout/internal/explain"
	"playout/internal/report"
	"playout/model"
	"playout/sim"
)

// hostile names try to break out of every place a text may stand in.
const hostile = `</title></script><script>alert(1)</script><img src=x onerror=alert(1)> "'&` + "\u202e\u0000]]>`--><style>*{display:none}</style>{{.}}"

// hostileScenario has such names everywhere, and one of 10,000 characters.
func hostileScenario() *model.Scenario {
	sc := model.AverageScenario()
	sc.Title = hostile
	sc.Teams[0].Name, sc.Teams[1].Name = hostile, strings.Repeat("W", 10_000)
	for t := range sc.Teams {
		for i := range sc.Teams[t].Players {
			sc.Teams[t].Players[i].Name = hostile
		}
	}
	sc.Possessions = 120
	return &sc
}

// laidOut is a report on a few build-ups of the hostile scenario; it is played once.
var laidOut = sync.OnceValues(func() (*Page, error) {
	sc := hostileScenario()
	result, err := sim.Run(context.Background(), sc, sim.Config{})
	if err != nil {
		return nil, err
	}
	stories, err := explain.Collect(context.Background(), sc, nil, explain.Config{Seed: sc.Seed, Possessions: sc.Possessions}, explain.Teller(sc, explain.ToFinalThird))
	if err != nil {
		return nil, err
	}
	e := report.NewExplain(report.ExplainRun{File: hostile, Scenario: sc, Stories: stories, Asked: sc.Possessions, Seed: sc.Seed, Own: true})
	return Run(RunInput{
		Scenario: sc, Summary: report.Summarise(sc, result, report.Run{Version: hostile, Revision: 1}),
		Failures: FailuresOf(e, stories, Filmed(sc)),
		Repeat:   Repeat{Command: "playout report " + hostile, Limits: hostile, Files: []File{{hostile, hostile}}},
	})
})

func runPage(t *testing.T) *Page {
	t.Helper()
	p, err := laidOut()
	if err != nil {
		t.Fatal(err)
	}
	return p
}

var kinds map[string]*Page

// pages are one of every kind; they are made once.
func pages(t *testing.T) map[string]*Page {
	t.Helper()
	if kinds == nil {
		kinds = everyKind(t)
	}
	return kinds
}

func everyKind(t *testing.T) map[string]*Page {
	t.Helper()
	out := map[string]*Page{"run": runPage(t)}
	sc := hostileScenario()
	variant := *sc
	variant.Teams[0].Plan.Tempo = 0.8
	cells := []experiment.Cell{{Name: "a", Scenario: sc}, {Name: "b", Scenario: &variant}}
	r, err := experiment.Play(context.Background(), cells, experiment.Config{Seed: 1, Possessions: 60})
	if err != nil {
		t.Fatal(err)
	}
	figure := experiment.Figures[0]
	c := report.NewCompare(report.CompareRun{Files: []string{hostile, hostile}, Scenarios: []*model.Scenario{sc, &variant}, Results: r, Asked: 60, Figure: figure, Seed: 1})
	out["compare"] = Compare(c, []*model.Scenario{sc, &variant}, Repeat{})
	s := report.NewSweep(report.SweepRun{File: hostile, Title: hostile, Grid: []int{0, 1}, Results: r, Asked: 60, Figure: figure, Seed: 1,
		Axes: []report.Axis{{Path: "attack.plan.tempo", Label: hostile, Unit: "s", Values: []string{"1.5", "0.8"}, Numbers: []float64{0.8, 1.5}, Now: "1.5"}}})
	if out["sweep"], err = Sweep(s, sc, Repeat{}); err != nil {
		t.Fatal(err)
	}
	net, err := experiment.FigureNamed("net_xg")
	if err != nil {
		t.Fatal(err)
	}
	m, err := report.NewMatrix(report.Pairings{Plans: []string{hostile, "b"}, Answers: []string{hostile}, PlanTitles: []string{hostile, hostile}, AnswerTitles: []string{hostile},
		Opponent: hostile, Figure: net, Outcomes: func(plan, _ int) []experiment.Outcome { return r.Outcomes(plan) }}, report.Played{Seed: 1, Variants: 2, Possessions: 60, Asked: 60})
	if err != nil {
		t.Fatal(err)
	}
	out["matrix"] = Matrix(m, []*model.Scenario{sc, &variant}, Repeat{})
	return out
}

func htmlOf(t *testing.T, p *Page) string {
	t.Helper()
	text, err := p.HTML()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// within lists what an element may hold, for those elements of the page that are
// picky, by the content models of the HTML standard (WHATWG, sections 4.3 to 4.11).
var within = map[string][]string{
	"ul": {"li"}, "ol": {"li"}, "table": {"caption", "thead", "tbody"}, "thead": {"tr"}, "tbody": {"tr"}, "tr": {"th", "td"},
	"p": {"bdi", "a", "span"}, "h1": {"bdi"}, "h2": {"bdi"}, "h3": {"bdi"}, "caption": {"bdi"}, "pre": {}, "title": {}, "style": {},
	"summary": {"bdi"}, "bdi": {}, "th": {"bdi"}, "td": {"bdi"}, "span": {}, "a": {"bdi"},
}

// Every page is well formed, also as XML, nests as HTML allows, has unique ids and no
// link that leads nowhere or outside, and every drawing has a title and a description.
func TestPagesAreValid(t *testing.T) {
	for name, p := range pages(t) {
		text := htmlOf(t, p)
		d := xml.NewDecoder(strings.NewReader(text))
		d.Entity = xml.HTMLEntity
		ids, wanted := map[string]bool{}, []string{}
		var open []string
		svgs, figures := 0, 0
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				line, column := d.InputPos()
				t.Fatalf("%s: line %d, column %d: %v", name, line, column, err)
			}
			switch e := token.(type) {
			case xml.StartElement:
				tag := e.Name.Local
				if len(open) > 0 && !slices.Contains(open, "svg") {
					parent := open[len(open)-1]
					if may, picky := within[parent]; picky && !slices.Contains(may, tag) {
						t.Errorf("%s: <%s> stands in <%s>", name, tag, parent)
					}
				}
				if slices.Contains([]string{"script", "img", "iframe", "object", "link", "base", "form", "foreignObject", "image", "use", "animate"}, tag) {
					t.Errorf("%s: there is a <%s>", name, tag)
				}
				open = append(open, tag)
				if tag == "svg" {
					svgs++
				}
				if tag == "figure" {
					figures++
				}
				for _, a := range e.Attr {
					switch key := a.Name.Local; {
					case key == "id":
						if ids[a.Value] {
							t.Errorf("%s: id %q is there twice", name, a.Value)
						}
						ids[a.Value] = true
					case key == "aria-labelledby":
						wanted = append(wanted, strings.Fields(a.Value)...)
					case key == "href":
						if !strings.HasPrefix(a.Value, "#") {
							t.Errorf("%s: a link leads outside: %q", name, a.Value)
						}
						wanted = append(wanted, strings.TrimPrefix(a.Value, "#"))
					case key == "style" || strings.HasPrefix(key, "on") || key == "src":
						t.Errorf("%s: <%s> has %s=%q", name, tag, key, a.Value)
					}
				}
			case xml.EndElement:
				open = open[:len(open)-1]
			}
		}
		for _, id := range wanted {
			if !ids[id] {
				t.Errorf("%s: nothing has the id %q", name, id)
			}
		}
		titles, descs := strings.Count(text, "<title id="), strings.Count(text, "<desc id=")
		if svgs == 0 || svgs != figures || titles != svgs || descs != svgs || strings.Contains(text, "<desc ></desc>") {
			t.Errorf("%s: %d drawings in %d figures have %d titles and %d descriptions", name, svgs, figures, titles, descs)
		}
	}
}

// Nothing is fetched, and no name becomes markup or turns the text around.
func TestPagesNeedNothingAndTakeNoOrders(t *testing.T) {
	for name, p := range pages(t) {
		text := htmlOf(t, p)
		for _, bad := range []string{"http:", "https:", "//", "url(", "@import", "<script", "<img", "*{display:none}</style>", "\u202e", "\x00"} {
			if i := strings.Index(text, bad); i >= 0 {
				t.Errorf("%s has %q: %q", name, bad, text[max(i-60, 0):min(i+60, len(text))])
			}
		}
		if strings.Contains(text, strings.Repeat("W", 300)) {
			t.Errorf("%s: a name of 10,000 characters was not cut", name)
		}
		if !strings.Contains(text, "&lt;script&gt;") {
			t.Errorf("%s: the hostile title is not there, so nothing was tested", name)
		}
		if !strings.Contains(text, `content="default-src &#39;none&#39;; style-src &#39;sha256-`) {
			t.Errorf("%s has no policy", name)
		}
	}
}

// One page, the same bytes.
func TestSameBytes(t *testing.T) {
	for name, p := range pages(t) {
		if a, b := htmlOf(t, p), htmlOf(t, p); a != b {
			t.Errorf("%s differs from itself", name)
		}
	}
	again := everyKind(t)
	for name, p := range pages(t) {
		if htmlOf(t, p) != htmlOf(t, again[name]) {
			t.Errorf("%s differs when it is made again", name)
		}
	}
}

// The report of a run holds what it is for.
func TestRunHoldsItsParts(t *testing.T) {
	p := runPage(t)
	var ids []string
	for _, s := range p.Sections {
		ids = append(ids, s.ID)
		if len(s.Figures)+len(s.Tables) == 0 {
			t.Errorf("section %s is empty", s.ID)
		}
	}
	if want := []string{"set-up", "ladder", "lanes", "losses", "why", "flow-of-play", "block", "risk"}; !slices.Equal(ids, want) {
		t.Errorf("sections %v, want %v", ids, want)
	}
	if p.Answer == "" || len(p.Keys) != 4 {
		t.Errorf("answer %q, %d key figures", p.Answer, len(p.Keys))
	}
	titles := map[string]int{}
	for _, list := range append([][]*report.DocumentTable{p.Appendix}, p.Sections[1].Tables, p.Sections[2].Tables, p.Sections[3].Tables, p.Sections[6].Tables, p.Sections[7].Tables) {
		for _, table := range list {
			titles[table.Title()]++
		}
	}
	sc := hostileScenario()
	r, err := sim.Run(context.Background(), sc, sim.Config{})
	if err != nil {
		t.Fatal(err)
	}
	for _, table := range report.Summarise(sc, r, report.Run{}).Document(true).Tables() {
		if titles[table.Title()] != 1 {
			t.Errorf("the table %q stands %d times in the report", table.Title(), titles[table.Title()])
		}
	}
}

// Every figure is a file as SVG, well formed, and as PNG.
func TestFiguresAsFiles(t *testing.T) {
	names := map[string]bool{}
	for name, p := range pages(t) {
		for i, f := range p.Figures() {
			if !regexp.MustCompile(`^[a-z][a-z0-9-]*$`).MatchString(f.Name) {
				t.Errorf("%s: %q is no name of a file", name, f.Name)
			}
			names[f.Name] = true
			svg, err := f.Encode(f.Name + ".svg")
			if err != nil {
				t.Fatal(err)
			}
			d := xml.NewDecoder(bytes.NewReader(svg))
			for {
				if _, err := d.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%s: %v", f.Name, err)
				}
			}
			if i == 0 {
				png, err := f.Encode(f.Name + ".png")
				if err != nil || !bytes.HasPrefix(png, []byte("\x89PNG")) {
					t.Errorf("%s: no PNG: %v", f.Name, err)
				}
			}
			if _, err := f.Encode(f.Name + ".gif"); err == nil {
				t.Error("a picture may be a .gif")
			}
		}
	}
	if len(names) < 10 {
		t.Errorf("only %d figures", len(names))
	}
}

// Markdown shows hostile text as text, and every picture.
func TestMarkdown(t *testing.T) {
	p := runPage(t)
	files := map[string]string{}
	for _, f := range p.Figures() {
		files[f.Name] = f.Name + ".svg"
	}
	text, err := p.Markdown(files)
	if err != nil {
		t.Fatal(err)
	}
	fence := regexp.MustCompile("(?ms)^(`{3,})\n.*?^`{3,}$")
	outside := fence.ReplaceAllString(string(text), "")
	if strings.Contains(outside, "<script") || strings.Contains(outside, "<img") {
		t.Error("a name became markup")
	}
	for name := range files {
		if !strings.Contains(outside, "](<"+name+".svg>)") {
			t.Errorf("the picture %s is not shown", name)
		}
	}
}
