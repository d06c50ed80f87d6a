package report

import (
	"fmt"
	"strconv"
	"strings"

	"playout/model"
	"playout/sim"
)

// AfterLoss is the risk of the plan: what the opponent makes of the balls lost,
// in his first possession and within Seconds. Without that (Seconds is 0) every
// figure is null.
type AfterLoss struct {
	Seconds         Number               `json:"seconds"`
	ChancesAgainst  Chance               `json:"chances_against"` // of build-ups
	XGAgainstPer100 Mean                 `json:"xg_against_per_100"`
	NetXGPer100     Mean                 `json:"net_xg_per_100"` // xG for minus xG against, build-up by build-up
	Takeovers       Object[Rate]         `json:"takeovers"`      // of losses
	ByZone          Object[Object[Risk]] `json:"by_zone"`        // third of the pitch, then part of its width
	ByRestDefence   Object[Risk]         `json:"by_rest_defence"`
	Ends            Object[Rate]         `json:"ends"` // of the attacks played, as the opponent sees them
}

// Risk is what losses of one kind led to.
type Risk struct {
	Losses int64  `json:"losses"` // with those after which nothing is played
	Shots  Rate   `json:"shots"`  // of the attacks played
	Goals  Rate   `json:"goals"`
	XG     Mean   `json:"xg"`
	Per100 Number `json:"losses_per_100"`
}

func afterLoss(t *sim.Tally, seconds float64) AfterLoss {
	a, possessions := t.After, t.Possessions
	if seconds == 0 {
		a, possessions = sim.AfterTally{}, 0
	}
	risk := func(s sim.AfterSum) Risk {
		return Risk{s.Lost, rate(s.Shots, s.Played), rate(s.Goals, s.Played), mean(s.XG, sim.XGUnit), scaled(s.Lost, possessions, 100)}
	}
	rest := Object[Risk]{}
	for n, s := range a.Rest {
		rest = append(rest, Field[Risk]{strconv.Itoa(n), risk(s)})
	}
	takeovers := Object[Rate]{}
	for k := sim.WonInPlay; k < sim.NumTakeovers; k++ {
		takeovers = append(takeovers, Field[Rate]{k.String(), rate(a.By[k].Lost, a.All.Lost)})
	}
	return AfterLoss{
		Seconds:         Number(seconds),
		ChancesAgainst:  chance(a.All.Shots, a.Against.X, a.All.Goals, possessions),
		XGAgainstPer100: mean(a.Against, 100*sim.XGUnit),
		NetXGPer100:     mean(a.Net, 100*sim.XGUnit),
		Takeovers:       takeovers,
		ByZone: object(model.NumThirds, func(k model.Third) Object[Risk] {
			return object(sim.NumWidths, func(b sim.Width) Risk { return risk(a.Where[k][b]) })
		}),
		ByRestDefence: rest,
		Ends:          object(sim.NumEnds, func(e sim.End) Rate { return rate(a.Ends[e], a.All.Played) }),
	}
}

// afterSentence says what the losses cost and whether the plan is worth it.
func afterSentence(s *Summary) string {
	shots := s.AfterLoss.ChancesAgainst.Shots
	doubt := ""
	if s.ParameterDoubt.On {
		doubt = ", both by chance alone"
	}
	return fmt.Sprintf("In the %s s after a loss, set plays left out, the opponent shoots in %s of 100 build-ups (%s to %s); xG for minus xG against: %s%s.",
		s.AfterLoss.Seconds.text(), per100(shots.Rate, shots), per100(shots.Low, shots), per100(shots.High, shots), verdict(s.AfterLoss.NetXGPer100), doubt)
}

// verdict reads a net xG in words.
func verdict(net Mean) string {
	words := "too close to call"
	switch {
	case !net.Low.Known():
		return signed(net.Mean) + " per 100 build-ups"
	case net.Low > 0:
		words = "more made than given up"
	case net.High < 0:
		words = "more given up than made"
	}
	return fmt.Sprintf("%s per 100 build-ups (%s to %s): %s", signed(net.Mean), signed(net.Low), signed(net.High), words)
}

// signed writes a number with its sign, a nought without one.
func signed(n Number) string {
	text := fixed(n, 2)
	if n > 0 && strings.Trim(text, "0.") != "" {
		return "+" + text
	}
	return text
}

// afterTable shows what losses led to, by their place and by who was behind the
// ball.
func (s *Summary) afterTable() *table {
	a := &s.AfterLoss
	t := &table{
		title: "After the loss",
		head:  []string{"per 100 attacks played", "losses", "played", "shots", intervalHead, "goals", "xG", intervalHead},
		note: fmt.Sprintf("Per 100 build-ups the opponent has %s shots (%s) and %s xG (%s) in the %s s after a loss. xG for minus xG against: %s. Corners, free kicks and throw-ins near goal count as losses but are not played. How many are goal-side of the ball goes with where it is lost: few are behind a ball lost deep.",
			fixed(a.ChancesAgainst.ShotsPer100, 1), interval(a.ChancesAgainst.Shots),
			fixed(a.XGAgainstPer100.Mean, 2), span(a.XGAgainstPer100.Low, a.XGAgainstPer100.High, 1, 2),
			a.Seconds.text(), verdict(a.NetXGPer100)),
	}
	row := func(name string, r Risk) {
		t.add(name, thousands(r.Losses), thousands(r.Shots.Of), hundredfold(r.Shots.Rate, 1), interval(r.Shots), hundredfold(r.Goals.Rate, 1),
			hundredfold(r.XG.Mean, 2), span(max(r.XG.Low, 0), r.XG.High, 100, 2))
	}
	for _, third := range a.ByZone {
		for _, f := range third.Value {
			row(thirdWords[third.Key]+", "+widthWords[f.Key], f.Value)
		}
	}
	t.gap()
	for i, f := range a.ByRestDefence {
		name := f.Key + " in rest defence"
		if i == len(a.ByRestDefence)-1 {
			name = f.Key + " or more"
		}
		if f.Value.Losses > 0 {
			row(name, f.Value)
		}
	}
	return t
}

// takeoverTable shows how the opponent comes to the ball.
func (s *Summary) takeoverTable() *table {
	t := &table{title: "How the opponent takes over", head: []string{"by", "losses", "share, %", intervalHead}}
	for _, f := range s.AfterLoss.Takeovers {
		t.add(takeoverWords[f.Key], thousands(f.Value.Count), hundredfold(f.Value.Rate, 1), interval(f.Value))
	}
	return t
}
