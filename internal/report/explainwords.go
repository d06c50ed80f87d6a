package report

import (
	"fmt"
	"slices"
	"strings"

	"playout/internal/explain"
	"playout/model"
	"playout/sim"
)

var causeWords = map[string]string{
	explain.Offside.String():       "offside",
	explain.Stalled.String():       "stalled (time ran out)",
	explain.ForcedBack.String():    "forced back",
	explain.BadTouch.String():      "bad touch",
	explain.LostInAir.String():     "lost in the air",
	explain.OutOfPlay.String():     "pass out of play",
	explain.BlockFirst.String():    "block there first",
	explain.CutFirst.String():      "cut out, first line",
	explain.CutMidfield.String():   "cut out, midfield line",
	explain.CutLast.String():       "cut out, last line",
	explain.Isolated.String():      "receiver isolated",
	explain.LostInDuel.String():    "lost in a duel",
	explain.LooseBallLost.String(): "loose ball lost",
}

// CauseWords are the words of a cause in the tables.
func CauseWords(c explain.Cause) string { return causeWords[c.String()] }

// causeNouns name a cause inside a sentence.
var causeNouns = map[string]string{
	explain.Offside.String():       "the man is offside",
	explain.Stalled.String():       "the time runs out",
	explain.ForcedBack.String():    "the build-up is forced back for good",
	explain.BadTouch.String():      "a touch gets away",
	explain.LostInAir.String():     "a high ball is lost in the air",
	explain.OutOfPlay.String():     "a pass goes out of play",
	explain.BlockFirst.String():    "the block is there first",
	explain.CutFirst.String():      "a pass is cut out by the first line",
	explain.CutMidfield.String():   "a pass is cut out by the midfield line",
	explain.CutLast.String():       "a pass is cut out by the last line",
	explain.Isolated.String():      "the man on the ball is isolated",
	explain.LostInDuel.String():    "a duel is lost with company near",
	explain.LooseBallLost.String(): "a loose ball is lost",
}

var actionWords = map[string]string{
	explain.ShortPass.String():  "short pass",
	explain.LongPass.String():   "long pass",
	explain.HighPass.String():   "high pass",
	explain.SwitchPass.String(): "switch",
	explain.CrossPass.String():  "cross",
	explain.OnTheBall.String():  "on the ball",
	explain.ShotTaken.String():  "shot",
}

var resultWords = map[string]string{
	explain.Stopped.String(): "stopped, own restart",
	explain.Failed.String():  "failed",
}

var goalVerbs = [explain.NumGoals]string{"reach the final third under control", "reach the penalty area", "end in a shot"}

// worked names the result by what was to be reached.
func (e *Explain) worked() string {
	return [explain.NumGoals]string{"final third reached", "penalty area reached", "shot"}[e.goal]
}

func (e *Explain) answer() []string {
	if e.Possessions == 0 {
		return []string{"No build-up was played, so there is nothing to explain."}
	}
	works, fails := e.Results.Get(explain.Worked.String()), e.Results.Get(explain.Failed.String())
	first := fmt.Sprintf("Of 100 build-ups %s %s (%s to %s) and %s fail before (%s to %s); the rest are stopped and keep the ball.",
		per100(works.Rate, works), goalVerbs[e.goal], per100(works.Low, works), per100(works.High, works),
		per100(fails.Rate, fails), per100(fails.Low, fails), per100(fails.High, fails))
	out := []string{first}
	if len(e.Causes) > 0 {
		c := &e.Causes[0]
		text := fmt.Sprintf("Most often %s: %s of 100 failures (%s to %s), %s%s.", causeNouns[c.Cause],
			per100(c.Share.Rate, c.Share), per100(c.Share.Low, c.Share), per100(c.Share.High, c.Share), e.rival(), place(c))
		out = append(out, text)
		if c.Factor != nil {
			out = append(out, c.Advice)
		}
	}
	return []string{strings.Join(out, " ")}
}

// rival says that the second cause cannot be told from the first.
func (e *Explain) rival() string {
	if len(e.Causes) > 1 && !clearlyMore(e.Causes[0].Share, e.Causes[1].Share) {
		return "though " + causeWords[e.Causes[1].Cause] + " may be as common, "
	}
	return ""
}

func place(c *Cause) string {
	return fmt.Sprintf("most often in the %s, %s (%s of them)", thirdWords[c.Third], laneWords[c.Lane], percent(c.There.Rate))
}

func (e *Explain) notes() []string {
	var out []string
	if e.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups; every figure is of those that were played.", thousands(e.Possessions), thousands(e.Asked)))
	}
	if e.Possessions > 0 && e.Possessions < few {
		out = append(out, fmt.Sprintf("Only %d build-ups were played: read the intervals, not the shares.", e.Possessions))
	}
	return append(out,
		"Each build-up that fails has one cause: the first of the list in playout help metrics that fits. What goes with a cause need not bring it about: try it with playout compare.",
		caution)
}

// advise says what goes with a cause most, and what to do instead.
func advise(run ExplainRun, c explain.Cause, cases int64) (*Factor, string) {
	team := &run.Scenario.Teams[model.Attack]
	var trades [11]model.Group
	for i := range trades {
		trades[i] = team.Players[i].Position.Group()
	}
	f, least := explain.Foremost(explain.Factors(run.Stories, c, &trades))
	if f == nil {
		return nil, fmt.Sprintf("Nothing stands out in %s of it: no man, place, pressure or time on the ball goes with it more than chance allows.", plural(cases, "case"))
	}
	named := func(f *explain.Factor) string { return valueWords(f, team) }
	out := &Factor{
		Kind: f.Kind.String(), Value: valueKey(f, team), Among: among(f), Under: share(int64(f.K), int64(f.N)), Others: share(int64(f.Others), int64(f.Rest)),
	}
	instead := ""
	if least != nil {
		out.Instead, out.InsteadK = valueKey(least, team), share(int64(least.K), int64(least.N))
		instead = fmt.Sprintf("%s (%s)", named(least), rated(least.Rate()))
	}
	return out, fmt.Sprintf("It happens in %s of 100 %s, in %s of 100 %s: %s.",
		rated(f.Rate()), condition(f, c, named(f)), rated(f.OtherRate()), otherwise(f), remedy(run, f, instead))
}

func plural(n int64, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return thousands(n) + " " + noun + "s"
}

// rated writes a rate as cases in 100, so that small ones do not vanish.
func rated(p float64) string {
	if p < 0.1 {
		return fixed(Number(100*p), 1)
	}
	return fixed(Number(100*p), 0)
}

// valueWords name the value of a condition, valueKey the same for JSON.
func valueWords(f *explain.Factor, t *model.Team) string {
	switch f.Kind {
	case explain.ByMan, explain.ToMan:
		p := &t.Players[f.Value]
		return who(p.Number, clean(p.Name), p.Position.String())
	case explain.FromLane:
		return laneWords[model.Lane(f.Value).String()]
	}
	return ""
}

func valueKey(f *explain.Factor, t *model.Team) string {
	switch f.Kind {
	case explain.ByMan, explain.ToMan:
		return fmt.Sprint(t.Players[f.Value].Number)
	case explain.FromLane:
		return model.Lane(f.Value).String()
	}
	return "yes"
}

// among is the trade of the others whom a man is held against; empty for what is no man.
func among(f *explain.Factor) string {
	if f.Kind <= explain.ToMan {
		return f.Trade.String()
	}
	return ""
}

// trial is what a cause is counted in.
func trial(c explain.Cause, f *explain.Factor) string {
	if explain.AboutPass(c) || f.Kind == explain.ToMan {
		return "passes"
	}
	return "spells on the ball"
}

// condition names the trials under a condition, otherwise the others.
func condition(f *explain.Factor, c explain.Cause, value string) string {
	t := trial(c, f)
	switch f.Kind {
	case explain.ByMan:
		return t + " by " + value
	case explain.ToMan:
		return t + " to " + value
	case explain.FromLane:
		return t + " in the " + value
	case explain.UnderPressure:
		return t + " with a defender within 2 m"
	case explain.HeldLong:
		return fmt.Sprintf("%s of %.0f s or more%s", t, explain.LongHold, map[bool]string{true: " on the ball"}[t == "passes"])
	case explain.ThroughAir:
		return t + " through the air"
	}
	return fmt.Sprintf("%s of %.0f m or more", t, explain.LongFrom)
}

func otherwise(f *explain.Factor) string {
	switch f.Kind {
	case explain.ByMan:
		return "by other " + f.Trade.String() + "s"
	case explain.ToMan:
		return "to other " + f.Trade.String() + "s"
	case explain.FromLane:
		return "elsewhere"
	case explain.UnderPressure:
		return "without"
	case explain.ThroughAir:
		return "along the ground"
	}
	return "shorter ones"
}

// remedy is what the numbers suggest.
func remedy(run ExplainRun, f *explain.Factor, instead string) string {
	switch f.Kind {
	case explain.ByMan:
		return "give him a nearer way out" + orElse(", or let more go through ", instead)
	case explain.ToMan:
		return "free him before he is looked for" + orElse(", or look for ", instead)
	case explain.FromLane:
		return "get out of there sooner" + orElse(", or play through the ", instead)
	case explain.UnderPressure:
		pressed, let := pressedAndLet(run.Stories)
		return fmt.Sprintf("play before he is there: he takes %s s, the ball is let go after %s s (medians of spells under pressure)", fixed(pressed, 1), fixed(let, 1))
	case explain.HeldLong:
		return fmt.Sprintf("let it go sooner: %s of all spells last that long", percent(longHolds(run.Stories)))
	case explain.ThroughAir:
		return fmt.Sprintf("keep it on the ground: %s of all passes go through the air", percent(highPasses(run.Stories)))
	}
	return "go there in two shorter passes"
}

func orElse(words, instead string) string {
	if instead == "" {
		return ""
	}
	return words + instead
}

// pressedAndLet are the medians of the time until a defender is within 2 m and until
// the ball is let go, s, of the spells in which one was.
func pressedAndLet(stories []explain.Story) (pressed, let Number) {
	var p, l []float64
	eachSpell(stories, func(s *explain.Spell) {
		if s.Pressed >= 0 {
			p, l = append(p, float64(s.Pressed)*sim.TickSeconds), append(l, s.Seconds())
		}
	})
	return Number(median(p)), Number(median(l))
}

func longHolds(stories []explain.Story) Number {
	k, n := int64(0), int64(0)
	eachSpell(stories, func(s *explain.Spell) {
		n++
		if s.Seconds() >= explain.LongHold {
			k++
		}
	})
	return ratio(k, n)
}

func highPasses(stories []explain.Story) Number {
	k, n := int64(0), int64(0)
	eachSpell(stories, func(s *explain.Spell) {
		if s.Left == explain.ByPass {
			n++
			if s.Flight != sim.Ground {
				k++
			}
		}
	})
	return ratio(k, n)
}

func eachSpell(stories []explain.Story, do func(*explain.Spell)) {
	for i := range stories {
		for j := range stories[i].Spells {
			do(&stories[i].Spells[j])
		}
	}
}

// median of the values; NaN without any. It is the lower of the two in the middle.
func median(x []float64) float64 { return quantile(x, 0.5) }

// quantile is the smallest value with at least a share q of the values at or below it
// (type 1 of Hyndman and Fan 1996); NaN without values.
func quantile(x []float64, q float64) float64 {
	if len(x) == 0 {
		return float64(missing)
	}
	x = slices.Sorted(slices.Values(x))
	i := 0
	for float64(i+1) < q*float64(len(x))-1e-9 {
		i++
	}
	return x[i]
}
