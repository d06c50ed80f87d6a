package search

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"playout/internal/scenario"
	"playout/model"
)

func open(t *testing.T, name string) *scenario.Base {
	t.Helper()
	base, err := scenario.Open("../../scenarios/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return base
}

// allowed is a freedom of numbers, places and words.
func allowed(t *testing.T) *Freedom {
	t.Helper()
	f := NewFreedom(open(t, "narrow-diamond.yaml"))
	for _, err := range []error{
		f.Move("6,8:6@progression,final_third"), f.Move("2:10"),
		f.Number("attack.plan.tempo=0.8:2.5"), f.Number("attack.runs.1.chance=0:0.6"),
		f.Choose("attack.players.10.behaviour=between_lines,offer,support"),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return f
}

// The point of the original changes nothing.
func TestStartIsTheOriginal(t *testing.T) {
	f := allowed(t)
	box, start := f.space()
	if got := f.Changes(start); len(got) != 0 {
		t.Errorf("the start changes %v", got)
	}
	if f.Dimensions() != 9 || len(box.Lo) != 9 || len(box.Hi) != 9 {
		t.Errorf("%d dimensions, box of %d", f.Dimensions(), len(box.Lo))
	}
	for i := range start {
		if !(box.Lo[i] < box.Hi[i] && box.Lo[i] <= start[i] && start[i] <= box.Hi[i]) {
			t.Errorf("coordinate %d: %v in %v to %v", i, start[i], box.Lo[i], box.Hi[i])
		}
	}
}

// Whatever the point, nobody moves further than allowed nor off the pitch, and all
// values lie in their range; what fails the checks of a file is men in one place only.
func TestFreedomHolds(t *testing.T) {
	f := allowed(t)
	original := f.Base().Scenario()
	box, _ := f.space()
	src := rand.New(rand.NewPCG(1, 1))
	for range 60 {
		x := make([]float64, len(box.Lo))
		for i := range x {
			x[i] = box.Lo[i] + (box.Hi[i]-box.Lo[i])*min(max(1.4*src.Float64()-0.2, 0), 1) // walls and corners too
		}
		changes := f.Changes(x)
		for _, c := range changes {
			limit := 6.0
			if strings.HasSuffix(c.Path, ".2") {
				limit = 10
			}
			if c.Place && (c.Size > limit+0.08 || math.Abs(math.Hypot(c.DX, c.DY)-c.Size) > 1e-9) { // a place is rounded to a decimetre
				t.Errorf("%s moves %.2f m", c.Path, c.Size)
			}
		}
		sc, err := f.Base().With(Settings(changes)...)
		if err != nil {
			if !strings.Contains(err.Error(), "one place") {
				t.Error(err)
			}
			continue
		}
		att := &sc.Teams[model.Attack]
		if att.Plan.Tempo < 0.8 || att.Plan.Tempo > 2.5 || att.Runs[0].Chance < 0 || att.Runs[0].Chance > 0.6 {
			t.Errorf("tempo %v, chance %v", att.Plan.Tempo, att.Runs[0].Chance)
		}
		six := att.ByNumber(6)
		if att.Structure.Anchor[model.BuildUp][six] != original.Teams[model.Attack].Structure.Anchor[model.BuildUp][six] {
			t.Error("number 6 moved in a phase that was not named")
		}
		if !reflect.DeepEqual(sc.Teams[model.Defence], original.Teams[model.Defence]) {
			t.Error("the defence changed")
		}
	}
}

// One shift goes for all phases of a move; one too long is cut, one that would leave
// the pitch ends at the line. Worked by hand: number 2 stands at (2, -29) in the
// progression.
func TestMoveByHand(t *testing.T) {
	f := NewFreedom(open(t, "narrow-diamond.yaml"))
	if err := f.Move("2:10@progression"); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		x    []float64
		want string
	}{
		{[]float64{3, 4}, "[5, -25]"},
		{[]float64{8, -8}, "[9.1, -34]"}, // 11.3 m: cut to 10, then to the touchline
		{[]float64{0.04, 0}, ""},         // nobody sees that
	} {
		got := ""
		if changes := f.Changes(c.x); len(changes) > 0 {
			got = changes[0].To
		}
		if got != c.want {
			t.Errorf("%v: %q, want %q", c.x, got, c.want)
		}
	}
}

func TestRefusals(t *testing.T) {
	f := allowed(t)
	for _, c := range []struct {
		allow func(string) error
		text  string
		want  string
	}{
		{f.Number, "attack.plan.tempo", "is not PATH=FROM:TO"},
		{f.Number, "attack.plan.tmpo=1:2", "did you mean attack.plan.tempo"},
		{f.Number, "attack.plan.risk=1:0", "the smaller first"},
		{f.Number, "attack.plan.risk=a:b", "two numbers"},
		{f.Number, "attack.plan.risk=0:2", "can be 0 to 1"},
		{f.Number, "attack.plan.risk=0.5:1", "present value of attack.plan.risk, 0.45, is not in this range"},
		{f.Number, "attack.plan.tempo=1:2", "free already"},
		{f.Number, "attack.structure.progression.6.x=0:10", "free already"},
		{f.Choose, "attack.players.10.behaviour", "is not PATH=WORD,WORD"},
		{f.Choose, "attack.players.9.behaviour=dance", "dance"},
		{f.Choose, "attack.players.3.foot=left", "nothing but the present value"},
		{f.Move, "6", "is not NUMBERS:METRES"},
		{f.Move, "6:x", "is not NUMBERS:METRES"},
		{f.Move, "6:0", "is not NUMBERS:METRES"},
		{f.Move, "77:5", `"77" is no shirt number of the attack; it has 1, 3, 5`},
		{f.Move, "5:5@warm_up", "is no phase"},
		{f.Move, "5:5@build_up,build_up", "named twice"},
		{f.Move, "6:5@progression", "free already"},
	} {
		if err := c.allow(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.text, err, c.want)
		}
	}
}
