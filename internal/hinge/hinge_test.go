package hinge

import (
	"context"
	"errors"
	"fmt"
	"math"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"playout/internal/experiment"
	"playout/internal/scenario"
	"playout/internal/sensitivity"
	"playout/internal/stats"
)

func open(t *testing.T, name string) *scenario.Base {
	t.Helper()
	b, err := scenario.Open(filepath.Join("..", "..", "scenarios", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestUsualSpans: every usual input of every shipped scenario has a span that holds its
// present value and whose ends the scenario takes.
func TestUsualSpans(t *testing.T) {
	files, err := filepath.Glob("../../scenarios/*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatalf("%d scenarios: %v", len(files), err)
	}
	for _, file := range files {
		b := open(t, filepath.Base(file))
		usual, all := Usual(b), All(b)
		if len(usual) != 17 || len(all) <= 2*len(usual) {
			t.Errorf("%s: %d usual inputs, %d in all", file, len(usual), len(all))
		}
		for _, in := range all {
			if !(in.From < in.To && in.From <= in.Now && in.Now <= in.To) {
				t.Errorf("%s: %s from %g to %g around %g", file, in.Path, in.From, in.To, in.Now)
			}
			if p := in.PerStep(); !(p > 0.05 && p <= 1) {
				t.Errorf("%s: a step of %s is %g of its span", file, in.Path, p)
			}
			for _, u := range []float64{0, 1} {
				if _, err := b.With(scenario.Setting{Path: in.Path, Value: scenario.FormatNumber(in.At(u))}); err != nil {
					t.Error(err)
				}
			}
		}
	}
}

func TestRatioIsEvenInLogarithm(t *testing.T) {
	in := Input{Now: 2, From: 1, To: 4, Step: 2, Ratio: true}
	if in.At(0) != 1 || math.Abs(in.At(0.5)-2) > 1e-12 || math.Abs(in.At(1)-4) > 1e-12 || math.Abs(in.PerStep()-0.5) > 1e-12 || math.Abs(in.home()-0.5) > 1e-12 {
		t.Errorf("at 0, 1/2, 1: %g, %g, %g; a doubling is %g of the span", in.At(0), in.At(0.5), in.At(1), in.PerStep())
	}
}

func TestParse(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	for s, want := range map[string]Input{
		"defence.block.press.height=40:75": {From: 40, To: 75, Now: 58, Step: 5},
		"defence.block.press.height":       {From: 48, To: 68, Now: 58, Step: 5},
		"attack.plan.switching":            {From: 0.9, To: 3.6, Now: 1.8, Step: 2, Ratio: true},
		"attack.plan.switching=0:4":        {From: 0, To: 4, Now: 1.8, Step: 1},
		"attack.players.7.pace":            {From: 40, To: 70, Now: 55, Step: 10},
		" clock = 60 : 90":                 {From: 60, To: 90, Now: 90, Step: 5},
		"clock=60:90":                      {From: 60, To: 90, Now: 90, Step: 5},
	} {
		in, err := Parse(b, s)
		in.Path, in.Label, in.Unit = "", "", ""
		if err != nil || in != want {
			t.Errorf("%s: %+v, %v; want %+v", s, in, err, want)
		}
	}
	for s, says := range map[string]string{
		"defence.block.press.hight=40:75":   "did you mean defence.block.press.height",
		"defence.block.press.height=75:40":  "is no span; write defence.block.press.height=FROM:TO",
		"defence.block.press.height=40":     "is no span",
		"defence.block.press.height=a:b":    "is no span",
		"defence.block.press.height=40:NaN": "is no span",
		"defence.block.press.height=40:300": "300 is outside 0 to 120 m",
		"start.player=1:9":                  "names something",
		"start.from":                        "is no number",
		"clock":                             "has no usual span; write clock=FROM:TO",
	} {
		if _, err := Parse(b, s); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: error %v, want one that says %q", s, err, says)
		}
	}
}

// TestNarrowing: two players whose places may meet are kept apart by narrowing both
// spans, and only those; the design keeps its shape.
func TestNarrowing(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	var inputs []Input
	for _, s := range []string{"attack.structure.build_up.6.x=-26:-22", "attack.structure.build_up.6.y=-2:2",
		"attack.structure.build_up.8.x=-25:-20", "attack.structure.build_up.8.y=-1:4", "attack.plan.tempo"} {
		in, err := Parse(b, s)
		if err != nil {
			t.Fatal(err)
		}
		inputs = append(inputs, in)
	}
	s := &space{base: b, inputs: slices.Clone(inputs)}
	design := sensitivity.Saltelli(5, singles(5), 16, 1)
	cells, err := s.cells(context.Background(), design)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.notes) == 0 {
		t.Fatal("no point of the design was refused: the test needs closer spans")
	}
	for j := range design {
		if len(cells[j]) != len(design[j]) {
			t.Fatal("points were left out")
		}
	}
	if s.inputs[4] != inputs[4] {
		t.Error("a span that is not to blame was narrowed")
	}
	if !strings.Contains(s.notes[0], "was narrowed from") || !strings.Contains(s.notes[0], "stand in one place") {
		t.Errorf("note: %s", s.notes[0])
	}
}

func TestChoose(t *testing.T) {
	size := func(x, mean float64) sensitivity.Effect {
		return sensitivity.Effect{Size: stats.Estimate{Value: x}, Mean: stats.Estimate{Value: mean}}
	}
	got := choose([]sensitivity.Effect{size(1, 0), size(5, 5), size(-2, 0), size(10, 9), size(0, -7), size(0.9, 0)})
	if want := [][]int{{3}, {4}, {1}, {0}, {2, 5}}; !reflect.DeepEqual(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	var many []sensitivity.Effect
	for range 20 {
		many = append(many, size(3, 3))
	}
	if got := choose(many); len(got) != Kept+1 || len(got[Kept]) != 20-Kept {
		t.Errorf("%v", got)
	}
}

// small asks what little can be played in a second.
func small(t *testing.T, workers int) Question {
	f, err := experiment.FigureNamed("final_third")
	if err != nil {
		t.Fatal(err)
	}
	return Question{Figure: f, Seed: 7, Possessions: 5, Points: 5, Workers: workers}
}

// TestIdleInput: what the defence would do with the ball cannot matter when nothing
// is played after a loss, and because cells share their luck its shares are
// exactly 0. The answer does not depend on the number of workers.
func TestIdleInput(t *testing.T) {
	b, err := scenario.OpenBytes("idle.yaml", []byte("after_loss: 0\n"))
	if err != nil {
		t.Fatal(err)
	}
	var inputs []Input
	for _, s := range []string{"attack.plan.tempo=0.5:3", "defence.plan.risk=0:1", "attack.level"} {
		in, err := Parse(b, s)
		if err != nil {
			t.Fatal(err)
		}
		inputs = append(inputs, in)
	}
	one, err := Ask(context.Background(), b, inputs, small(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	idle := one.Shares.Factors[1]
	if idle.First.Value != 0 || idle.Total.Value != 0 || idle.Slope.Value != 0 {
		t.Errorf("an idle input has shares %g and %g", idle.First.Value, idle.Total.Value)
	}
	if one.Played != one.Cost(3) || !one.Whole || one.Effects != nil {
		t.Errorf("%d possessions played, %d announced", one.Played, one.Cost(3))
	}
	three, err := Ask(context.Background(), b, inputs, small(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(one.Shares) != fmt.Sprint(three.Shares) {
		t.Error("the answer depends on the number of workers")
	}
}

// TestCutShort: what was played before the end of the context is told.
func TestCutShort(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	ctx, stop := context.WithCancel(context.Background())
	q := small(t, 1)
	inputs := Usual(b)
	screening := q.Screened() * (len(inputs) + 1) * q.Possessions
	q.Progress = func(done, of int) {
		if done > screening {
			stop()
		}
	}
	s, err := Ask(ctx, b, inputs, q)
	if !errors.Is(err, context.Canceled) || s.Whole {
		t.Fatalf("error %v", err)
	}
	if s.Effects == nil || s.Shares != nil || len(s.Inputs) != len(inputs) || s.Played < screening {
		t.Errorf("played %d: effects %v, shares %v", s.Played, s.Effects != nil, s.Shares)
	}
}
