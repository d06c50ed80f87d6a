package report

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"playout/internal/evolution"
	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/internal/scenario"
	"playout/internal/search"
	"playout/internal/stats"
)

// searched is a search made up by hand: 500 fresh build-ups, a lead of lead +- 0.02
// per build-up in a figure that is wanted more or less of.
func searched(t *testing.T, figure string, lead float64, verdict experiment.Verdict) *search.Result {
	t.Helper()
	f, err := experiment.FigureNamed(figure)
	if err != nil {
		t.Fatal(err)
	}
	base, err := scenario.OpenBytes("plan", []byte("title: A plan"))
	if err != nil {
		t.Fatal(err)
	}
	about := func(x, half float64, n int64) stats.Estimate {
		return stats.Estimate{Value: x, StdErr: half / 2, Lo: x - half, Hi: x + half, Level: 0.95, N: n}
	}
	r := &search.Result{
		Config: search.Config{Figure: f, Budget: 5000, Seed: 7}, Title: "A plan", Freedom: search.NewFreedom(base),
		Search: &evolution.Found{
			Lead: about(0.08, 0.05, 100), Looks: 100, Finalists: 8, Spent: 4000, Used: 900,
			Generations: []evolution.Generation{
				{Spent: 1000, Looks: 44, Points: 18, Best: about(0.31, 0.2, 44), Half: about(0.1, 0.1, 44), Spread: 0.3},
				{Spent: 2000, Looks: 44, Points: 18, Dropped: 2, Best: about(0.2, 0.2, 44), Half: about(0.1, 0.1, 44), Spread: 0.2},
			},
		},
		Tried: 36, First: 900, Fresh: 500, Judged: 500,
		Changes: []search.Change{
			{Path: "attack.structure.build_up.6", Label: "number 6, build-up", Unit: "m", From: "[-24, 0]", To: "[-21, -4]", Size: 5, DX: 3, DY: -4, Place: true},
			{Path: "attack.plan.tempo", Label: "the attack's time on the ball", Unit: "s", From: "1.3", To: "0.95", Size: -0.35},
			{Path: "defence.block", Label: "the defence's block", From: "4-4-2-mid", To: "4-4-2-low"},
		},
	}
	r.Comparison.Asked = experiment.Contrast{Figure: f, Reference: 0.4, Variant: 0.4 + lead, Verdict: verdict, Needed: 12345,
		Difference: experiment.Paired{Estimate: about(lead, 0.02, 500), Correlation: 0.2, Gain: 1.2, Apart: 200}}
	return r
}

func written(t *testing.T, s *Search, f Format, full bool) string {
	t.Helper()
	var b bytes.Buffer
	if err := s.Write(&b, f, full); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}

func TestSearchSaysWhatItFound(t *testing.T) {
	for _, c := range []struct {
		figure  string
		lead    float64
		verdict experiment.Verdict
		want    string
	}{
		{"final_third", 0.05, experiment.Better, "A better structure was found. Of 100 build-ups 45.0 reach the final third under control in place of 40.0; difference +5.0 (+3.0 to +7.0), on 500 fresh build-ups that the search had not seen."},
		{"lost", -0.05, experiment.Better, "A better structure was found. Of 100 build-ups 35.0 lose the ball in place of 40.0; difference -5.0 (-7.0 to -3.0)"},
		{"final_third", -0.05, experiment.Worse, "No better structure found within the freedom allowed: what the search settled on is worse."},
		{"final_third", 0.01, experiment.CannotTell, "No better structure found within the freedom allowed: what the search settled on cannot be told from the original. Of 100 build-ups 41.0 reach the final third under control in place of 40.0; difference +1.0 (-1.0 to +3.0), on 500 fresh build-ups that the search had not seen. To tell a difference this small takes about 13,000 build-ups of each."},
		{"net_xg", 0.001, experiment.Level, "there is no difference worth having. xG for minus xG against (xG per 100 build-ups): 40.10 in place of 40.00"},
	} {
		r := searched(t, c.figure, c.lead, c.verdict)
		text := written(t, NewSearch(r, "", "v1"), Table, false)
		if !strings.Contains(text, c.want) {
			t.Errorf("%s %s:\n%s\nwant\n%s", c.figure, c.verdict, text, c.want)
		}
		if better := c.verdict == experiment.Better; r.Better() != better || better == strings.Contains(text, "has not shown that there is nothing") {
			t.Errorf("%s %s: better is %v", c.figure, c.verdict, r.Better())
		}
	}
}

// The search's own figures stand beside what fresh luck says, with the sign of the
// figure turned back where less is better.
func TestSearchShowsItsOptimism(t *testing.T) {
	s := NewSearch(searched(t, "lost", -0.05, experiment.Better), "found.yaml", "v1")
	text := written(t, s, Table, true)
	for _, want := range []string{
		"Of 36 variants tried the luckiest showed -31.0 (-51.0 to -11.0), on 44 build-ups; this one, picked from 8 finalists, showed -8.0 (-13.0 to -3.0) on 100 build-ups, and -5.0 on fresh luck.",
		"number 6, build-up [-24, 0] [-21, -4] 5.0 m: 3.0 up, 4.0 right",
		"the attack's time on the ball, s 1.3 0.95 -0.35",
		"the defence's block 4-4-2-mid 4-4-2-low",
		"2 2,000 18 2 44 -20.0 -40.0 to 0.0 -10.0 20",
		"build-ups 900 to 1,399 of each to judge",
		`Only "ball lost" was asked to be lower`,
		"The variant is in found.yaml.", "playout matrix",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("missing %q in\n%s", want, text)
		}
	}
}

func TestSearchWithoutAJudgement(t *testing.T) {
	r := searched(t, "final_third", 0.05, experiment.Better)
	r.Stopped, r.Partial, r.Judged, r.Comparison = true, true, 0, experiment.Comparison{}
	r.Search.Looks, r.Search.Lead = 0, stats.Estimate{Value: math.NaN()}
	s := NewSearch(r, "", "v1")
	for _, f := range []Format{Table, Markdown, CSV, JSON} {
		written(t, s, f, true)
	}
	text := written(t, s, Table, false)
	if !strings.Contains(text, "PARTIAL: interrupted after 4,000 of 5,000 build-ups") || !strings.Contains(text, "there was no time to play it on fresh luck") || s.Better {
		t.Error(text)
	}
	r.Changes = nil
	if text := written(t, NewSearch(r, "", "v1"), Table, false); !strings.Contains(text, "the search came back to the original.") {
		t.Error(text)
	}
	if _, err := picture.Encode("x.svg", s.Picture()); err != nil {
		t.Error(err)
	}
}
