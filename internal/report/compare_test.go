package report

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"playout/internal/experiment"
	"playout/model"
	"playout/sim"
)

// invented are n outcomes that no engine has played: entries with chance p, one in
// four of them with a shot.
func invented(seed uint64, n int, p float64) []experiment.Outcome {
	r := rand.New(rand.NewPCG(seed, 1))
	out := make([]experiment.Outcome, n)
	for i := range out {
		o := &out[i]
		*o = experiment.Outcome{End: sim.EndOutOurs, EntryLane: experiment.None, ShotLane: experiment.None,
			Method: experiment.None, Source: experiment.None, LostIn: experiment.None}
		u, lane, shot, xg := r.Float64(), uint8(r.IntN(5)), r.Float64(), int32(r.IntN(300_000))
		if u < p {
			o.Flags |= experiment.FinalThird | experiment.ExitOwnThird | experiment.Halfway
			o.EntryLane = lane
			if shot < 0.25 {
				o.Flags |= experiment.Shot | experiment.Box
				o.ShotLane, o.XG = lane, xg
			}
		} else {
			o.End = sim.EndTackled
		}
		if u > 0.95 {
			o.Flags |= experiment.ShotAgainst
			o.XGAgainst = xg
		}
	}
	return out
}

// testCompare compares a variant that gets in more often and one that is as good as
// the same, with files that differ in all that is warned of.
func testCompare() *Compare {
	a, b, c := model.AverageScenario(), model.AverageScenario(), model.AverageScenario()
	a.Title, b.Title, c.Title = "Plan", "Quicker | bolder", ""
	b.Teams[0].Plan.Tempo = 1
	b.Seed, b.Possessions, b.Clock, b.AfterLoss, b.Start.Kind = 2, 500, 60, 0, model.FromKeeper
	c.Teams[1].Block.Width = 39
	f, _ := experiment.FigureNamed("final_third")
	return NewCompare(CompareRun{
		Files: []string{"plan.yaml", "b.yaml", "c.yaml"}, Scenarios: []*model.Scenario{&a, &b, &c},
		Results: experiment.NewResults(1000, invented(1, 1000, 0.4), invented(1, 1000, 0.5), invented(1, 990, 0.401)),
		Asked:   1000, Figure: f, Seed: 1, Precision: 0.01, Version: "v0.0.0-test", Revision: 1,
	})
}

func TestCompareGolden(t *testing.T) {
	for file, format := range map[string]Format{"compare.txt": Table, "compare.md": Markdown, "compare.csv": CSV, "compare.json": JSON} {
		var b bytes.Buffer
		if err := testCompare().Write(&b, format); err != nil {
			t.Fatal(err)
		}
		golden(t, file, b.Bytes())
		if format == JSON && !json.Valid(b.Bytes()) {
			t.Error("no valid JSON")
		}
	}
}

// TestCompareAnswers holds the first sentence for each verdict.
func TestCompareAnswers(t *testing.T) {
	base := invented(3, 2000, 0.4)
	for _, c := range []struct {
		name    string
		p       float64
		seed    uint64
		worth   float64
		figure  string
		defence bool
		want    string
	}{
		{"more", 0.5, 3, 0, "final_third", false, "B is better than A for the side on the ball."},
		{"fewer", 0.3, 3, 0, "final_third", false, "B is worse than A for the side on the ball."},
		{"for the block", 0.3, 3, 0, "final_third", true, "B is worse than A for the side on the ball, and so better for the side in the block, which alone differs."},
		{"lost less", 0.5, 3, 0, "lost", false, "B is better than A for the side on the ball."},
		{"a little", 0.5, 3, 0.3, "final_third", false, "B is better than A for the side on the ball, but by too little to be worth having."},
		{"nothing", 0.4, 3, 0, "final_third", false, "B and A agree in every build-up played."},
		{"next to nothing", 0.402, 3, 0, "final_third", false, "Between B and A there is no difference worth having: it is within ±0."},
		{"other luck", 0.4, 4, 0, "final_third", false, "Whether B is better or worse than A cannot be told yet: at the present difference it would take about"},
		{"neither is good", 0.4, 4, 0, "final_third/centre", false, "Whether B has more or fewer than A cannot be told yet: at the present difference it would take about"},
	} {
		a, b := model.AverageScenario(), model.AverageScenario()
		b.Teams[1].Block.Width = 35
		if !c.defence {
			b.Teams[0].Plan.Tempo = 1
		}
		f, err := experiment.FigureNamed(c.figure)
		if err != nil {
			t.Fatal(err)
		}
		got := NewCompare(CompareRun{Files: []string{"a", "b"}, Scenarios: []*model.Scenario{&a, &b}, Asked: 2000, Figure: f, Worth: c.worth,
			Results: experiment.NewResults(2000, base, invented(c.seed, 2000, c.p))})
		if !strings.HasPrefix(got.Answer[0], c.want) {
			t.Errorf("%s: %s\nwant %s", c.name, got.Answer[0], c.want)
		}
		if r, err := got.Picture(); err != nil || strings.Contains(r.Title, "at the present difference") {
			t.Errorf("%s: the title has room for the verdict alone: %q, %v", c.name, r.Title, err)
		}
	}
	one := NewCompare(CompareRun{Files: []string{"a", "b"}, Scenarios: make2(), Asked: 5, Results: experiment.NewResults(5, base[:1], base[:1]), Figure: experiment.Headline[0]})
	if !one.Partial || !strings.HasPrefix(one.Answer[0], "Too few") {
		t.Errorf("one build-up: %q", one.Answer)
	}
	for _, f := range Formats {
		if err := one.Write(&bytes.Buffer{}, f); err != nil {
			t.Errorf("one build-up as %s: %v", f, err)
		}
	}
}

// TestComparePicture: the title of the picture names the figure that the verdict is on.
func TestComparePicture(t *testing.T) {
	r, err := testCompare().Picture()
	if err != nil {
		t.Fatal(err)
	}
	if want := capital(r.Names[0]) + ": B is "; !strings.HasPrefix(r.Title, want) {
		t.Errorf("title %q, want %q first", r.Title, want)
	}
}

func make2() []*model.Scenario {
	a, b := model.AverageScenario(), model.AverageScenario()
	return []*model.Scenario{&a, &b}
}
