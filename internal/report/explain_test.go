package report

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/internal/explain"
	"playout/model"
	"playout/sim"
)

// passes are stories of one pass each, from lane y by a man to another; the first k of
// n fail.
func passes(n, k int, man, to int8, y float64) []explain.Story {
	out := make([]explain.Story, n)
	for i := range out {
		s := explain.Spell{Player: man, Aim: to, Pressed: -1, Left: explain.ByPass, Stop: r2.Vec{Y: y}, Target: r2.Vec{X: 10, Y: y}, Flight: sim.Ground}
		out[i] = explain.Story{ID: i, Result: explain.Worked, Lane: model.LaneOf(y), Spells: []explain.Spell{s}}
		if i < k {
			out[i].Result, out[i].Cause, out[i].Place = explain.Failed, explain.CutMidfield, s.Stop
		}
	}
	return out
}

func explained(stories ...[]explain.Story) *Explain {
	sc := model.AverageScenario()
	run := ExplainRun{File: "plan.yaml", Scenario: &sc, Own: true}
	for _, s := range stories {
		run.Stories = append(run.Stories, s...)
	}
	run.Asked = len(run.Stories)
	return NewExplain(run)
}

// The advice changes with the numbers: another receiver, another lane, nothing.
func TestAdviceFollowsTheNumbers(t *testing.T) {
	advice := func(e *Explain) string { return e.Causes[0].Advice }
	a := advice(explained(passes(200, 40, 3, 7, 0), passes(200, 3, 3, 6, 0)))
	b := advice(explained(passes(200, 3, 3, 7, 0), passes(200, 40, 3, 6, 0)))
	if !strings.Contains(a, "20 of 100 passes to 8 ") || !strings.Contains(a, "look for 7 ") || !strings.Contains(a, " to other midfielders: ") {
		t.Errorf("receiver 8: %s", a)
	}
	if !strings.Contains(b, "20 of 100 passes to 7 ") || !strings.Contains(b, "look for 8 ") {
		t.Errorf("receiver 7: %s", b)
	}
	c := advice(explained(passes(200, 40, 3, 7, 30), passes(200, 3, 3, 7, 0)))
	if !strings.Contains(c, "20 of 100 passes in the left wing, in 1.5 of 100 elsewhere") || !strings.Contains(c, "play through the centre (1.5)") {
		t.Errorf("left wing: %s", c)
	}
	d := advice(explained(passes(200, 10, 3, 7, 30), passes(200, 10, 3, 7, 0)))
	if !strings.Contains(d, "Nothing stands out in 20 cases") {
		t.Errorf("nothing: %s", d)
	}
}

// Every format holds the same shares; hostile names are words and nothing else.
func TestExplainFormats(t *testing.T) {
	sc := model.AverageScenario()
	sc.Title = "<script>alert(1)</script>\u202e=1+1 " + strings.Repeat("long ", 2000)
	for i := range sc.Teams[model.Attack].Players {
		sc.Teams[model.Attack].Players[i].Name = "=HYPERLINK(\"x\")|<b>\x1b[31m"
	}
	stories, err := explain.Collect(context.Background(), &sc, nil, explain.Config{Seed: 2, Possessions: 40}, explain.Teller(&sc, explain.ToFinalThird))
	if err != nil {
		t.Fatal(err)
	}
	e := NewExplain(ExplainRun{File: "a|b.yaml", Scenario: &sc, Stories: stories, Asked: 40})
	out := map[Format]string{}
	for _, f := range Formats {
		var b bytes.Buffer
		if err := e.Write(&b, f); err != nil {
			t.Fatal(err)
		}
		out[f] = b.String()
		if strings.ContainsAny(out[f], "\x1b\u202e") {
			t.Errorf("%s lets control characters through", f)
		}
	}
	for line := range strings.Lines(out[Table]) {
		if width(strings.TrimSuffix(line, "\n")) > maxColumns {
			t.Errorf("wider than %d columns: %s", maxColumns, line)
		}
	}
	if strings.Contains(out[Markdown], "<script") {
		t.Error("markdown holds markup of a name")
	}
	rows, err := csv.NewReader(strings.NewReader(out[CSV])).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsRune("=+@", rune(cell[0])) {
				t.Errorf("a cell a spreadsheet would run: %s", cell)
			}
		}
	}
	var object map[string]any
	if err := json.Unmarshal([]byte(out[JSON]), &object); err != nil || object["possessions"] != 40.0 {
		t.Errorf("JSON: %v build-ups, %v", object["possessions"], err)
	}
	sum := int64(0)
	for _, c := range e.Causes {
		sum += c.Rate.Count
	}
	if failed := e.Results.Get("failed").Count; sum != failed {
		t.Errorf("causes add up to %d of %d", sum, failed)
	}
	svg := string(e.Picture().SVG(""))
	if strings.Contains(svg, "<script") || strings.Contains(svg, "\x1b") {
		t.Error("the picture holds markup of a name")
	}
}

// Words of the flow's picture neither overlap nor leave it.
func TestFlowPicture(t *testing.T) {
	sc := model.AverageScenario()
	stories, err := explain.Collect(context.Background(), &sc, nil, explain.Config{Seed: 2, Possessions: 60}, explain.Teller(&sc, explain.ToFinalThird))
	if err != nil {
		t.Fatal(err)
	}
	e := NewExplain(ExplainRun{Scenario: &sc, Stories: stories, Asked: 60})
	var boxes []draw.Box
	for st := explain.ThirdStage; st < explain.NumStages; st++ {
		x := flowSide + flowStep*float64(st)
		for _, n := range e.flowNodes(st) {
			box, words := e.flowLabel(st, &n, x, 100)
			for _, other := range boxes {
				if box.Meets(other) {
					t.Errorf("%q stands on other words", words)
				}
			}
			boxes = append(boxes, box)
		}
	}
	if !bytes.Equal(e.Picture().SVG(""), e.Picture().SVG("")) {
		t.Error("two pictures differ")
	}
	if png, err := e.Picture().PNG(draw.Light, 1); err != nil || len(png) == 0 {
		t.Error(err)
	}
}
