package report

import (
	"math"
	"strings"
	"testing"

	"playout/internal/stats"
)

// The split of the final-third rate by hand: 10,000 build-ups, 50 draws, rate
// 0.342, spread 0.05 between draws. Parameters 0.05² (1 + 1/50) = 0.00255, chance
// (0.342 · 0.658 - 0.0025)/10,000 = 0.00002225: 0.9 % and 99.1 %. The interval takes
// the spread at its upper quartile: F is (0.2225 + 200 · 0.0025)/0.2225 = 3.247 and
// its lower quartile 0.857 (Wilson and Hilferty's approximation), which makes
// (3.247/0.857 - 1)/200 · 0.2225 = 0.00310 of 0.0025; on the logit scale
// ± 1.96 · √(0.00310 · 1.02 + 0.00002) / 0.2250 = ± 0.492.
func TestDoubtByHand(t *testing.T) {
	s := doubtSummary()
	d := s.ParameterDoubt.Rates.Get("final_third_entry")
	near := func(what string, got Number, want, tol float64) {
		t.Helper()
		if !(math.Abs(float64(got)-want) <= tol) {
			t.Errorf("%s = %g, want %g", what, float64(got), want)
		}
	}
	near("chance share", d.ChanceShare, 0.00865, 0.00002)
	near("parameter share", d.ParameterShare, 0.99135, 0.00002)
	centre := math.Log(0.342 / 0.658)
	near("low", d.Low, 1/(1+math.Exp(-centre+0.492)), 0.001)
	near("high", d.High, 1/(1+math.Exp(-centre-0.492)), 0.001)
	near("half-width by chance", d.ChanceHalfWidth, 1.96*math.Sqrt(0.342*0.658/10000), 0.0001)
	for _, f := range s.ParameterDoubt.Rates {
		r := s.Rates.Get(f.Key)
		if f.Value.Low > r.Low || f.Value.High < r.High || r.Of == 0 {
			t.Errorf("%s: %v to %v is narrower than by chance alone, %v to %v", f.Key, f.Value.Low, f.Value.High, r.Low, r.High)
		}
	}
	if len(s.ParameterDoubt.Rates) != len(s.Rates) {
		t.Errorf("%d of %d rates are split", len(s.ParameterDoubt.Rates), len(s.Rates))
	}
	xg, plain := s.ParameterDoubt.Means.Get("xg"), s.Means.Get("xg")
	near("xG: half-width by chance", xg.ChanceHalfWidth, float64(plain.High-plain.Low)/2, 1e-12)
	// 0.002² (1.02) to (12·10⁻⁴ - 0.00723² - 0.002²)/10,000
	near("xG: parameter share", xg.ParameterShare, 4.08e-6/(4.08e-6+1.14373e-7), 0.002)
	if goal := s.ParameterDoubt.Rates.Get("goal"); !goal.unclear() {
		t.Errorf("goals differ by chance alone, yet their split is clear: %+v", goal)
	}
}

// What the words say about the draws depends on what the run can tell.
func TestDoubtSentence(t *testing.T) {
	few := doubtResult()
	few.Draws.XG.N = stats.MinGroups - 1
	even := doubtResult()
	even.Draws.FinalThird = groupsOf(even.Tally.FinalThird, even.Tally.FinalThird, 0)
	none := doubtResult()
	none.Tally.FinalThird, none.Draws.FinalThird = 0, stats.Groups{N: 50, Of: 10_000}
	for want, r := range map[string]*Summary{
		"1% is chance of the draw, which more build-ups narrow, and 99% (":                      doubtSummary(),
		"cannot be told from 19 of their draws: it takes 20":                                    Summarise(testScenario(), few, Run{}),
		"cannot be told from 10,000 build-ups, though more may tell: the parameters make up to": Summarise(testScenario(), even, Run{}),
		"No draw of the engine's parameters changed":                                            Summarise(testScenario(), none, Run{}),
	} {
		if got := strings.Join(r.Answer, " "); !strings.Contains(got, want) {
			t.Errorf("%q lacks %q", got, want)
		}
	}
	if text := strings.Join(testSummary().Answer, " ") + strings.Join(testSummary().Notes, " "); strings.Contains(text, "arameters") {
		t.Errorf("a plain run speaks of parameters: %q", text)
	}
}

func TestPortion(t *testing.T) {
	for in, want := range map[float64]string{0: "0", 0.001: "<1", 0.005: "1", 0.5: "50", 0.994: "99", 0.999: ">99", 1: "100"} {
		if got := portion(Number(in)); got != want {
			t.Errorf("portion(%g) = %s, want %s", in, got, want)
		}
	}
}
