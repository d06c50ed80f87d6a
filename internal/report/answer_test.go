package report

import (
	"math"
	"strings"
	"testing"

	"playout/sim"
)

func TestAnswer(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*sim.Tally)
		want   string // in the answer
	}{
		{"clear lane", func(*sim.Tally) {}, "most often by the left wing (31% of entries)."},
		{"two lanes level", func(t *sim.Tally) { t.EntryLane = [5]int64{1020, 480, 450, 470, 1000} },
			"most often by the left wing (30% of entries) or the right wing, too close to call."},
		{"no lane ahead", func(t *sim.Tally) { t.EntryLane = [5]int64{690, 680, 680, 690, 680} }, "with no lane clearly ahead of the others."},
		{"no entries", func(t *sim.Tally) { t.FinalThird, t.EntryLane = 0, [5]int64{} },
			"None of 10,000 build-ups reached the final third under control (at most 0.04 in 100)."},
		{"no shots", func(t *sim.Tally) { t.Shot = 0 }, "None ends in a shot (at most 0.04 in 100)."},
		{"shots", func(*sim.Tally) {}, "6.9 of 100 end in a shot (6.4 to 7.4), worth 0.72 expected goals per 100 build-ups (0.66 to 0.79)."},
		{"end", func(*sim.Tally) {}, "The commonest end is an interception (30 of 100), most often in the middle third; 71 of 100 lose the ball."},
		{"net gain", func(*sim.Tally) {}, "In the 12 s after a loss, set plays left out, the opponent shoots in 3.0 of 100 build-ups (2.7 to 3.4); " +
			"xG for minus xG against: +0.39 per 100 build-ups (+0.31 to +0.47): more made than given up."},
		{"net cost", func(t *sim.Tally) { t.After.Net.X = -39_300_000 }, "-0.39 per 100 build-ups (-0.47 to -0.31): more given up than made."},
		{"open", func(t *sim.Tally) { t.After.Net.X = 4_000_000 }, "+0.04 per 100 build-ups (-0.04 to +0.12): too close to call."},
		{"stalled", func(t *sim.Tally) { t.Ends[sim.EndStalled] = [3]int64{100, 4000, 200} }, "The commonest end is time running out (43 of 100)"},
	} {
		r := testResult()
		c.change(&r.Tally)
		got := strings.Join(Summarise(testScenario(), r, Run{}).Answer, " ")
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %q does not say %q", c.name, got, c.want)
		}
	}
}

func TestNotes(t *testing.T) {
	for _, c := range []struct {
		name      string
		played    int
		reached   bool
		precision float64
		want      string
	}{
		{"partial", 9000, false, 0, "PARTIAL: interrupted after 9,000 of 10,000 build-ups"},
		{"reached", 9000, true, 0.01, "Precision reached: final-third entries are known to 0.93 in 100 (asked: 1)"},
		{"not reached", 10000, false, 0.005, "Precision not reached: final-third entries are known to 0.93 in 100 (asked: 0.5) after 10,000 build-ups; needed: about 35,000."},
		{"out of reach", 10000, false, 1e-7, "more than a run can play"},
		{"limits", 10000, false, 0, "not a forecast of a match"},
	} {
		r := testResult()
		r.Played, r.Reached = c.played, c.reached
		got := strings.Join(Summarise(testScenario(), r, Run{Precision: c.precision}).Notes, " ")
		if !strings.Contains(got, c.want) {
			t.Errorf("%s: %q does not say %q", c.name, got, c.want)
		}
		if c.precision == 0 && strings.Contains(got, "Precision") {
			t.Errorf("%s: a precision nobody asked for: %q", c.name, got)
		}
	}
	small := testResult()
	small.Asked, small.Played = 30, 30
	if got := Summarise(testScenario(), small, Run{}).Notes[0]; !strings.HasPrefix(got, "Only 30 build-ups were played") {
		t.Errorf("a small run opens with %q", got)
	}
}

// With 100 entries, 60 against 40 differ by 0.2 with a standard error of
// sqrt((1 - 0.04)/100) = 0.098: just clear. 59 against 41 are not.
func TestClearlyMore(t *testing.T) {
	if !clearlyMore(rate(60, 100), rate(40, 100)) || clearlyMore(rate(59, 100), rate(41, 100)) {
		t.Error("the line between clear and too close is off")
	}
}

func TestPer100Decimals(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      string
	}{{0.3, 0.4, "34"}, {0.338, 0.346, "34.2"}, {0.3418, 0.3422, "34.20"}, {0.342, 0.342, "34.20"}} {
		r := Rate{Rate: 0.342, Low: Number(c.low), High: Number(c.high)}
		if got := per100(r.Rate, r); got != c.want {
			t.Errorf("interval %v to %v: %s, want %s", c.low, c.high, got, c.want)
		}
	}
	if math.IsNaN(float64(rate(0, 10).Rate)) {
		t.Error("no cases of ten is a rate of 0, not a missing one")
	}
}

func TestRoundUp(t *testing.T) {
	for n, want := range map[int64]int64{1: 1, 99: 99, 100: 100, 101: 110, 34569: 35000} {
		if got := roundUp(n); got != want {
			t.Errorf("roundUp(%d) = %d, want %d", n, got, want)
		}
	}
}

// Without an attack after the loss there is no sentence, no table and no figure.
func TestNothingAfterTheLoss(t *testing.T) {
	sc := testScenario()
	sc.AfterLoss = 0
	s := Summarise(sc, testResult(), Run{})
	text := print(t, s, Table, true)
	if strings.Contains(text, "AFTER THE LOSS") || strings.Contains(text, "TAKES OVER") || strings.Contains(text, "chances against") {
		t.Errorf("tables of what was not played:\n%s", text)
	}
	a := s.AfterLoss
	if a.NetXGPer100.Mean.Known() || a.ChancesAgainst.Shots.Rate.Known() || a.ByRestDefence[0].Value.Shots.Rate.Known() {
		t.Errorf("figures of what was not played: %+v", a)
	}
}
