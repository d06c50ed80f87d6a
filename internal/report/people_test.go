package report

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/model"
)

// testPeople puts two candidates, who get into the final third with these chances, into
// the place of the right winger, who does in 40 of 100. A right foot makes it 45. Of his
// attributes only take-on counts in the profile: one in 100 more for ten percentiles.
func testPeople(t *testing.T, side model.Side, figure string, chances ...float64) *People {
	t.Helper()
	sc := testScenario()
	team := &sc.Teams[side]
	const index = 10
	team.Players[index].Name, team.Players[index].Foot = "Sol Ettermoor", model.LeftFoot
	f, err := experiment.FigureNamed(figure)
	if err != nil {
		t.Fatal(err)
	}
	net, _ := experiment.FigureNamed("net_xg")
	r := PeopleRun{Scenario: sc, Side: side, Index: index, Figures: [2]experiment.Figure{f, net}, Feet: []model.Foot{model.RightFoot, model.BothFeet}}
	all := []float64{0.4}
	r.People = []model.Player{team.Players[index]}
	for i, p := range chances {
		man := team.Players[index]
		man.Name = []string{"Rafe | Ollenby", "=SUM(A1)", "Third"}[i]
		man.Position = model.CF
		r.People, all = append(r.People, man), append(all, p)
	}
	all = append(all, 0.45, 0.4)
	r.Cells = func(i int) []experiment.Outcome { return invented(1, 1000, all[i]) }
	r.Traits = experiment.Traits(team, []int{index})
	for _, c := range experiment.ProfileCells(sc, side, r.Traits) {
		x := c.Scenario.Teams[side].Players[index].Percentile[model.TakeOn]
		r.Runs = append(r.Runs, invented(2, 400, 0.4+(x-50)/1000))
	}
	r.Played = Played{Seed: 1, Variants: len(all), Possessions: 1000, Asked: 1000, Version: "v0.0.0-test", Revision: 1}
	r.Profile = r.Played
	r.Profile.Variants, r.Profile.Possessions, r.Profile.Asked = len(r.Runs), 400, 400
	return NewPeople(r)
}

// TestPeopleNameless: a man in the place without a name goes by his number, wherever
// the candidates are named.
func TestPeopleNameless(t *testing.T) {
	p := testPeople(t, model.Attack, "final_third", 0.401)
	for i := range p.Candidates {
		if p.Candidates[i].Now {
			p.Candidates[i].Name = ""
		}
	}
	p.Place.Name = ""
	var text bytes.Buffer
	if err := p.Write(&text, Table); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(text.String(), "\n  number 11 ") || !strings.Contains(p.leaders(), "number 11") {
		t.Errorf("he has no name in his row or in %q:\n%s", p.leaders(), text.String())
	}
	if names := p.Picture().(*picture.Rows).Names; !slices.ContainsFunc(names, func(s string) bool { return strings.HasSuffix(s, "number 11") }) {
		t.Errorf("he has no name in the picture: %q", names)
	}
}

func TestPeopleGolden(t *testing.T) {
	p := testPeople(t, model.Attack, "final_third", 0.5, 0.401)
	for file, format := range map[string]Format{"people.txt": Table, "people.md": Markdown, "people.csv": CSV, "people.json": JSON} {
		var b bytes.Buffer
		if err := p.Write(&b, format); err != nil {
			t.Fatal(err)
		}
		golden(t, file, b.Bytes())
	}
}

func TestPeopleAnswers(t *testing.T) {
	for _, c := range []struct {
		name    string
		side    model.Side
		figure  string
		chances []float64
		want    []string
	}{
		{"one better, one like him", model.Attack, "final_third", []float64{0.5, 0.401}, []string{
			"better than 11 Sol Ettermoor: Rafe | Ollenby +", "Rafe | Ollenby is ahead of all others.",
			"with a right foot it would be better by final third, under control, +", "What to look for (by final third, under control, for ten percentiles more): take on +",
		}},
		{"two better, not apart", model.Attack, "final_third", []float64{0.5, 0.501}, []string{"Who of Rafe | Ollenby and =SUM(A1) is best cannot be told yet."}},
		{"one worse", model.Attack, "final_third", []float64{0.3}, []string{"worse than 11 Sol Ettermoor: Rafe | Ollenby -", "Sol Ettermoor is ahead of all others."}},
		{"none told", model.Attack, "final_third", []float64{0.402}, []string{"no candidate can be told from 11 Sol Ettermoor yet"}},
		{"losses turn it round", model.Attack, "lost", []float64{0.3}, []string{"worse than 11 Sol Ettermoor"}},
		{"for the defence less is better", model.Defence, "final_third", []float64{0.3}, []string{"better than 11 Sol Ettermoor: Rafe | Ollenby -"}},
		{"nobody on the list", model.Attack, "final_third", nil, []string{"The strong foot alone: ", "What to look for"}},
	} {
		p := testPeople(t, c.side, c.figure, c.chances...)
		text := strings.Join(p.Answer, " ")
		for _, want := range c.want {
			if !strings.Contains(text, want) {
				t.Errorf("%s: no %q in: %s", c.name, want, text)
			}
		}
		for _, name := range []string{"a.svg", "a.png"} {
			if _, err := picture.Encode(name, p.Picture()); err != nil {
				t.Errorf("%s: %v", c.name, err)
			}
		}
	}
}

// Those who cannot be told apart share places; the best stands first.
func TestPeoplePlaces(t *testing.T) {
	p := testPeople(t, model.Attack, "final_third", 0.5, 0.405, 0.3)
	for i, want := range []Candidate{{Name: "Rafe | Ollenby", From: 1, To: 1}, {Name: "=SUM(A1)", From: 2, To: 3}, {Name: "Sol Ettermoor", From: 2, To: 3, Now: true}, {Name: "Third", From: 4, To: 4}} {
		got := p.Candidates[i]
		if got.Name != want.Name || got.From != want.From || got.To != want.To || got.Now != want.Now {
			t.Errorf("row %d: %+v", i, got)
		}
	}
}

// A formula in a name stays a text in a spreadsheet.
func TestPeopleCSVGuardsNames(t *testing.T) {
	var b bytes.Buffer
	if err := testPeople(t, model.Attack, "final_third", 0.5, 0.401).Write(&b, CSV); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "candidate,'=SUM(A1),") {
		t.Error("the name =SUM(A1) is not guarded")
	}
}
