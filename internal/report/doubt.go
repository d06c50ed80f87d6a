package report

import (
	"fmt"
	"math"

	"playout/internal/stats"
	"playout/sim"
)

// ParameterDoubt holds, for a run in which the engine's parameters were drawn anew
// for every sim.DrawEvery build-ups, the intervals that cover not knowing them.
type ParameterDoubt struct {
	On    bool            `json:"on"`
	Draws int64           `json:"draws"` // full ones, of sim.DrawEvery build-ups
	Rates Object[Doubted] `json:"rates"` // empty when off, and below stats.MinGroups draws
	Means Object[Doubted] `json:"means"` // the same
}

// Doubted is the interval of a figure over chance and parameters, and how much of
// the variance comes from which. Shares are from 0 to 1.
type Doubted struct {
	Low                Number `json:"low"`
	High               Number `json:"high"`
	ChanceHalfWidth    Number `json:"chance_half_width"` // of the interval of chance alone
	ChanceShare        Number `json:"chance_share"`
	ParameterShare     Number `json:"parameter_share"`
	ParameterShareLow  Number `json:"parameter_share_low"` // 95 % interval; 0: chance could explain it all
	ParameterShareHigh Number `json:"parameter_share_high"`
}

func doubted(s stats.Split, unit float64) Doubted {
	of := func(x float64) Number { return Number(x * unit) }
	return Doubted{
		Low: of(s.Lo), High: of(s.Hi), ChanceHalfWidth: of(s.Chance), ChanceShare: Number(1 - s.GroupShare),
		ParameterShare: Number(s.GroupShare), ParameterShareLow: Number(s.GroupLo), ParameterShareHigh: Number(s.GroupHi),
	}
}

// doubt splits the rates and means for which the run tallied its draws.
func doubt(r *sim.Result) ParameterDoubt {
	d := ParameterDoubt{On: r.Doubt, Draws: r.Draws.XG.N}
	if d.Draws < stats.MinGroups {
		return d
	}
	t, g := &r.Tally, &r.Draws
	for _, f := range []struct {
		key    string
		count  int64
		groups stats.Groups
	}{
		{"own_third_exit", t.ExitOwnThird, g.ExitOwnThird},
		{"halfway", t.Halfway, g.Halfway},
		{"final_third_entry", t.FinalThird, g.FinalThird},
		{"final_third_reached", t.FinalReached, g.FinalReached},
		{"box_entry", t.Box, g.Box},
		{"shot", t.Shot, g.Shot},
		{"goal", t.Goal, g.Goal},
		{"turnover", t.Turnover, g.Turnover},
		{"stalled", t.Stalled, g.Stalled},
		{"forced_back", t.ForcedBack, g.ForcedBack},
	} {
		split, _ := stats.SplitProportion(f.count, t.Possessions, f.groups, level)
		d.Rates = append(d.Rates, Field[Doubted]{f.key, doubted(split, 1)})
	}
	xg, _ := stats.SplitMean(float64(t.XG.X), float64(t.XG.XX), t.XG.N, g.XG, sim.DrawXGUnit/sim.XGUnit, level)
	d.Means = Object[Doubted]{{"xg", doubted(xg, sim.XGUnit)}}
	return d
}

// split reports whether the run says what comes of the parameters.
func (d *ParameterDoubt) split() bool { return len(d.Rates) > 0 }

// unclear reports whether chance could explain all that the draws differ by.
func (d Doubted) unclear() bool { return d.ParameterShareLow == 0 }

// widest is the rate with the widest interval the run knows: over chance and
// parameters where it has one, else over chance.
func (s *Summary) widest(key string) Rate {
	r := s.Rates.Get(key)
	if s.ParameterDoubt.split() {
		d := s.ParameterDoubt.Rates.Get(key)
		r.Low, r.High = d.Low, d.High
	}
	return r
}

// widestMean is the same for a mean.
func (s *Summary) widestMean(key string) Mean {
	m := s.Means.Get(key)
	if s.ParameterDoubt.split() {
		d := s.ParameterDoubt.Means.Get(key)
		m.Low, m.High = d.Low, d.High
	}
	return m
}

// doubtSentence says how much of the interval of entries is chance and how much
// is not knowing the parameters.
func doubtSentence(s *Summary) string {
	if !s.ParameterDoubt.split() {
		return fmt.Sprintf("What comes of not knowing the engine's parameters cannot be told from %d of their draws: it takes %d, which is %s build-ups; the intervals cover chance alone.",
			s.ParameterDoubt.Draws, stats.MinGroups, thousands(stats.MinGroups*sim.DrawEvery))
	}
	d := s.ParameterDoubt.Rates.Get("final_third_entry")
	switch {
	case !d.ParameterShare.Known():
		return "No draw of the engine's parameters changed how often it gets there."
	case d.unclear():
		return fmt.Sprintf("The intervals cover chance and not knowing the engine's parameters; which of the two makes that of the final third cannot be told from %s build-ups, though more may tell: the parameters make up to %s%% of its variance.",
			thousands(s.Possessions), portion(d.ParameterShareHigh))
	}
	return fmt.Sprintf("Of the variance behind the interval of the final third %s%% is chance of the draw, which more build-ups narrow, and %s%% (%s to %s) not knowing the engine's parameters, which they do not.",
		portion(d.ChanceShare), portion(d.ParameterShare), portion(d.ParameterShareLow), portion(d.ParameterShareHigh))
}

// portion writes a share in per cent; only 0 and 1 themselves are 0 and 100.
func portion(n Number) string {
	x := float64(n)
	switch {
	case x > 0 && x < 0.005:
		return "<1"
	case x < 1 && x > 0.995:
		return ">99"
	}
	return hundredfold(Number(math.Round(x*100)/100), 0)
}

// doubtHead are the columns that doubt about the parameters adds to the ladder.
var doubtHead = []string{"by chance", "chance, %", "parameters, %"}

const doubtNote = "The interval covers chance and not knowing the parameters. Then: how wide chance alone would make it, and how its variance splits; a range where it cannot be told."

// cells are those of doubtHead.
func (d Doubted) cells() []string {
	half := "± " + hundredfold(d.ChanceHalfWidth, 1)
	switch {
	case !d.ParameterShare.Known():
		return []string{half, "-", "-"}
	case d.unclear():
		return []string{half, portion(1-d.ParameterShareHigh) + " to 100", "0 to " + portion(d.ParameterShareHigh)}
	}
	return []string{half, portion(d.ChanceShare),
		fmt.Sprintf("%s (%s to %s)", portion(d.ParameterShare), portion(d.ParameterShareLow), portion(d.ParameterShareHigh))}
}

// coverage says what the intervals of the run cover.
func (d *ParameterDoubt) coverage() string {
	if !d.split() {
		return "The intervals cover chance in the model alone."
	}
	return "The intervals of the answer's rates and of how far it gets cover chance and what the calibration leaves open about the parameters, " +
		"given the model and the figures it was fitted to; all others cover chance in the model alone."
}
