package experiment

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"playout/model"
)

// flagged are n outcomes, the first k of them with the flag.
func flagged(flag Flags, k, n int) []Outcome {
	out := make([]Outcome, n)
	for i := range out {
		out[i] = Outcome{EntryLane: None, ShotLane: None}
		if i < k {
			out[i].Flags = flag
			if flag == FinalThird {
				out[i].EntryLane = uint8(i % 5)
			}
		}
	}
	return out
}

func compared(t *testing.T, asked string, worth float64, cells ...[]Outcome) []Comparison {
	t.Helper()
	f, err := FigureNamed(asked)
	if err != nil {
		t.Fatal(err)
	}
	return Compare(NewResults(len(cells[0]), cells...), len(cells[0]), f, worth)
}

func (c *Comparison) named(name string) *Contrast {
	for _, list := range [][]Contrast{{c.Asked}, c.Others, c.Lanes} {
		for i := range list {
			if list[i].Figure.Name == name {
				return &list[i]
			}
		}
	}
	return nil
}

func TestVerdicts(t *testing.T) {
	base := flagged(FinalThird, 400, 1000)
	for _, c := range []struct {
		name  string
		cells []Outcome
		worth float64
		want  Verdict
	}{
		{"much more", flagged(FinalThird, 500, 1000), 0, Better},
		{"much less", flagged(FinalThird, 300, 1000), 0, Worse},
		{"nothing", base, 0, Same},
		{"two more", flagged(FinalThird, 402, 1000), 0, Level},
		{"two more, and one is worth having", flagged(FinalThird, 402, 1000), 0.001, CannotTell},
		{"nine more, all one way", flagged(FinalThird, 409, 1000), 0.001, CannotTell},
		{"twelve more, all one way", flagged(FinalThird, 412, 1000), 0.001, Better},
	} {
		got := compared(t, "final_third", c.worth, base, c.cells)[0].Asked
		if got.Verdict != c.want {
			t.Errorf("%s: %v, want %v (%+v)", c.name, got.Verdict, c.want, got)
		}
		if (got.Needed > 0) != (c.want < Level) {
			t.Errorf("%s: %d needed", c.name, got.Needed)
		}
	}
	if got := compared(t, "box", 0, flagged(Box, 10, 1000), flagged(Box, 60, 1000))[0]; got.Asked.Verdict != Better || got.named("final_third").Verdict != Same {
		t.Errorf("box: %v, final third: %v", got.Asked.Verdict, got.named("final_third").Verdict)
	}
	if got := compared(t, "forced_back", 0, flagged(ForcedBack, 10, 1000), flagged(ForcedBack, 60, 1000))[0]; got.Asked.Verdict != Worse {
		t.Errorf("more often forced back: %v", got.Asked.Verdict)
	}
}

// TestNeededIsEnough: with the number of possessions that Needed names and the
// difference as it is, |t| is 1.96 + 0.84.
func TestNeededIsEnough(t *testing.T) {
	a, b := flagged(Shot, 40, 1000), flagged(Shot, 36, 1000)
	for i := range 20 { // pairs that differ both ways
		a[500+i].Flags, b[600+i].Flags = Shot, Shot
	}
	c := compared(t, "shot", 0.001, a, b)[0].Asked
	if c.Verdict != CannotTell {
		t.Fatalf("%+v", c)
	}
	tAt := math.Abs(c.Difference.Value/c.Difference.StdErr) * math.Sqrt(float64(c.Needed)/1000)
	if math.Abs(tAt-2.8016) > 0.001 {
		t.Errorf("t would be %g", tAt)
	}
}

// TestFamilies: the figure asked about is judged by itself, the others together
// over all variants.
func TestFamilies(t *testing.T) {
	got := compared(t, "final_third", 0, flagged(FinalThird, 400, 1000), flagged(FinalThird, 440, 1000), flagged(FinalThird, 400, 1000))
	if len(got) != 2 || got[1].Asked.Verdict != Same {
		t.Fatalf("%+v", got)
	}
	if a := got[0].Asked; math.Abs(a.Adjusted-2*a.P) > 1e-15 {
		t.Errorf("two variants: p = %g, adjusted to %g", a.P, a.Adjusted)
	}
	if l := got[0].Lanes; len(l) != 15 || l[0].Figure.Name != "share_of_entries/left_wing" || l[5].Figure.Name != "shot/left_wing" {
		t.Errorf("lanes: %d, the first %q", len(l), l[0].Figure.Name)
	}
	if n := len(got[0].Others); n != len(Headline)+len(Switching)-1 {
		t.Errorf("%d other figures", n)
	}
}

// TestFalseAlarms compares 15 pairs of batches of possessions of one variant, as if they were
// variants, each batch once: 45 families, each with a chance of 0.05 of a verdict at the most,
// so 2.25 expected. Seven or more have a chance below 0.01 (Poisson; the pairs are independent,
// the three families of a pair nearly so). Fixed seed.
func TestFalseAlarms(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	const pairs, batch = 15, 300
	o := mustPlay(t, pair()[:1], Config{Seed: 11, Possessions: 2 * pairs * batch}).Outcomes(0)
	alarms := 0
	told := func(list []Contrast) {
		if slices.ContainsFunc(list, func(c Contrast) bool { return c.Verdict.Told() }) {
			alarms++
		}
	}
	for i := range pairs {
		both := o[2*i*batch : 2*(i+1)*batch]
		got := compared(t, "final_third", 0, both[:batch], both[batch:])[0]
		told([]Contrast{got.Asked})
		told(got.Others)
		told(got.Lanes)
	}
	if alarms > 6 {
		t.Errorf("%d of %d families have a verdict where there is no difference", alarms, 3*pairs)
	}
}

func TestChanges(t *testing.T) {
	a, b := model.AverageScenario(), model.AverageScenario()
	b.Title, b.Seed, b.Possessions = "other", 9, 5
	b.Teams[0].Name, b.Teams[0].Players[3].Name = "Else", "Someone"
	if c := Changes(&a, &b); c != nil || OnlyDefence(c) {
		t.Errorf("names and seeds: %v", c)
	}
	a.Teams[1].Block.Width, a.Teams[1].Block.Press.Height = 39, 66
	b.Teams[1].Block.Width, b.Teams[1].Block.Press.Height = 35, 50
	b.Teams[1].Players[4].Percentile[model.Tackling] = 70
	c := Changes(&a, &b)
	want := []string{"defence players (5 tackling 50 to 70)", "defence block (width 39 to 35, press height 66 to 50)"}
	var got []string
	for _, c := range c {
		got = append(got, c.String())
	}
	if !OnlyDefence(c) || !reflect.DeepEqual(got, want) {
		t.Errorf("%q", got)
	}
	b.Teams[0].Plan.Tempo = 1
	b.Teams[0].Runs = nil
	b.Clock = 60
	got = nil
	for _, c := range Changes(&a, &b) {
		got = append(got, c.Part)
	}
	if !reflect.DeepEqual(got, []string{"clock", "attack plan", "attack runs", "defence players", "defence block"}) || OnlyDefence(Changes(&a, &b)) {
		t.Errorf("%q", got)
	}
}
