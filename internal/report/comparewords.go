package report

import (
	"fmt"
	"math"
	"strings"

	"playout/internal/experiment"
	"playout/model"
)

// answer says for every variant what comes of it beside the reference.
func (c *Compare) answer() []string {
	if c.Possessions < 2 {
		return []string{"Too few build-ups were played to compare anything."}
	}
	var out []string
	for i := range c.comparisons {
		out = append(out, strings.Join([]string{c.verdictSentence(i), c.valuesSentence(i), c.othersSentence(i)}, " "))
	}
	return out
}

// doing says what a build-up that counts does, for the figures that are yes or no.
var doing = map[string]string{
	"final_third": "reach the final third under control", "exit_own_third": "get out of the own third", "halfway": "get over halfway",
	"box": "reach the penalty area", "shot": "end in a shot", "goal": "end in a goal", "lost": "lose the ball",
	"forced_back": "are forced back 10 m or more", "stalled": "run out of time", "shots_against": "are followed by a shot against",
}

// valuesSentence gives the figure asked about for both, and the difference.
func (c *Compare) valuesSentence(i int) string {
	x := &c.comparisons[i].Asked
	v, f := c.Comparisons[i].Variant, &x.Figure
	d := &x.Difference
	n := func(v float64) string { return hundredfold(Number(v), f.Decimals) }
	values := fmt.Sprintf("%s (%s): %s with %s, %s with A", f.Label, f.Unit, n(x.Variant), v, n(x.Reference))
	if verb := doing[f.Name]; verb != "" {
		values = fmt.Sprintf("of 100 build-ups %s %s with %s, %s with A", n(x.Variant), verb, v, n(x.Reference))
	}
	if x.Verdict == experiment.Same {
		return capital(values) + "."
	}
	return fmt.Sprintf("%s; difference %s (%s).", capital(values), signedTo(d.Value, f.Decimals), signedSpan(d.Lo, d.Hi, f.Decimals))
}

// verdictSentence is the answer in one sentence, with what it would take where it is open.
func (c *Compare) verdictSentence(i int) string {
	x := &c.comparisons[i].Asked
	says := c.verdict(i)
	if x.Verdict != experiment.CannotTell {
		return says
	}
	says = strings.TrimSuffix(says, ".")
	switch {
	case x.Needed > model.MaxPossessions:
		says += ": at the present difference no number of build-ups that can be played would tell"
	case x.Needed > 0:
		says += fmt.Sprintf(": at the present difference it would take about %s build-ups of each, %s more",
			count(x.Needed), count(max(x.Needed-x.Difference.N, 1)))
	}
	return says + "."
}

// verdict is the answer alone, short enough for a title.
func (c *Compare) verdict(i int) string {
	x := &c.comparisons[i].Asked
	v := c.Comparisons[i].Variant
	d := &x.Difference
	switch x.Verdict {
	case experiment.Better, experiment.Worse:
		text := fmt.Sprintf("%s is %s than A for the side on the ball", v, compareWords[x.Verdict])
		if experiment.OnlyDefence(c.changes[i+1]) {
			text += fmt.Sprintf(", and so %s for the side in the block, which alone differs", compareWords[opposite(x.Verdict)])
		}
		if x.Little() {
			text += ", but by too little to be worth having"
		}
		return text + "."
	case experiment.More, experiment.Fewer:
		return fmt.Sprintf("%s has %s than A; which is better is for you to say.", v, compareWords[x.Verdict])
	case experiment.Same:
		return fmt.Sprintf("%s and A agree in every build-up played.", v)
	case experiment.Level:
		most := hundredfold(Number(max(math.Abs(d.Lo), math.Abs(d.Hi))), x.Figure.Decimals+1)
		return fmt.Sprintf("Between %s and A there is no difference worth having: it is within ±%s %s.", v, most, x.Figure.Unit)
	}
	if x.Figure.Sense == 0 {
		return fmt.Sprintf("Whether %s has more or fewer than A cannot be told yet.", v)
	}
	return fmt.Sprintf("Whether %s is better or worse than A cannot be told yet.", v)
}

func opposite(v experiment.Verdict) experiment.Verdict {
	if v == experiment.Better {
		return experiment.Worse
	}
	return experiment.Better
}

// othersSentence sums up the other figures and names those that speak against the
// verdict.
func (c *Compare) othersSentence(i int) string {
	x := &c.comparisons[i]
	var better, worse, moved []string
	open, level, same := 0, 0, 0
	for k := range x.Others {
		o := &x.Others[k]
		switch o.Verdict {
		case experiment.Better:
			better = append(better, o.Figure.Label)
		case experiment.Worse:
			worse = append(worse, o.Figure.Label)
		case experiment.More, experiment.Fewer:
			moved = append(moved, o.Figure.Label)
		case experiment.CannotTell:
			open++
		case experiment.Same:
			same++
		default:
			level++
		}
	}
	var parts []string
	list := func(word string, names []string, spell bool) {
		switch {
		case len(names) == 0:
		case spell:
			parts = append(parts, fmt.Sprintf("%d %s (%s)", len(names), word, strings.Join(names, ", ")))
		default:
			parts = append(parts, fmt.Sprintf("%d %s", len(names), word))
		}
	}
	v := x.Asked.Verdict
	list("better", better, v != experiment.Better)
	list("worse", worse, v != experiment.Worse)
	list("changed", moved, false)
	if level > 0 {
		parts = append(parts, hardlyDiffer(level))
	}
	if same > 0 {
		parts = append(parts, fmt.Sprintf("%d the same throughout", same))
	}
	if open > 0 {
		parts = append(parts, fmt.Sprintf("%d cannot be told yet", open))
	}
	return fmt.Sprintf("Of the %d other figures: %s.", len(x.Others), strings.Join(parts, ", "))
}

// hardlyDiffer counts those without a difference worth having, in the tables' words.
func hardlyDiffer(n int) string {
	if n == 1 {
		return "1 hardly differs"
	}
	return fmt.Sprintf("%d hardly differ", n)
}

// notes are what a reader has to know: doubts first.
func (c *Compare) notes(scenarios []*model.Scenario) []string {
	var out []string
	if c.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups of each; every figure is of those that were played.",
			thousands(int64(c.Possessions)), thousands(int64(c.Asked))))
	}
	for i := range scenarios[1:] {
		out = append(out, c.pairNotes(scenarios, i+1)...)
	}
	if c.Possessions > 0 && c.Possessions < few {
		out = append(out, fmt.Sprintf("Only %d build-ups of each were played: read the intervals.", c.Possessions))
	}
	if c.Precision.Known() && c.Possessions > 1 {
		out = append(out, c.precisionNote())
	}
	out = append(out, fmt.Sprintf("A difference is called worth having from one twentieth of A's value on, unless --worth says otherwise. "+
		"Build-ups needed: so many of each would show a difference as large as this one in four of five such comparisons. "+
		"The chance of even one wrong verdict is at most 5%% for the figure asked about, for the %d others and for the lanes.", len(c.comparisons[0].Others)*len(c.comparisons)))
	return append(out, caution)
}

// pairNotes warn of files that differ in more than an idea.
func (c *Compare) pairNotes(scenarios []*model.Scenario, i int) []string {
	var out []string
	a, b, letter := scenarios[0], scenarios[i], Letter(i)
	if len(c.changes[i]) == 0 {
		out = append(out, fmt.Sprintf("%s and A are the same in everything that is played: there is nothing to compare.", letter))
	}
	if a.Seed != b.Seed {
		out = append(out, fmt.Sprintf("The files of A and %s name different seeds (%d and %d): both are played with seed %d, or they would not share their luck.", letter, a.Seed, b.Seed, c.Seed))
	}
	if a.Possessions != b.Possessions {
		out = append(out, fmt.Sprintf("The files of A and %s name different numbers of build-ups (%s and %s): both play the same, %s.",
			letter, thousands(int64(a.Possessions)), thousands(int64(b.Possessions)), thousands(int64(c.Asked))))
	}
	for _, ch := range c.changes[i] {
		if why := unequal[ch.Part]; why != "" {
			out = append(out, fmt.Sprintf("A and %s differ in %s: %s.", letter, ch, why))
		}
	}
	return out
}

// unequal says what a difference outside the two teams means.
var unequal = map[string]string{
	"pitch":      "the thirds and lanes lie elsewhere, so the figures count different places",
	"start":      "the build-ups begin differently, so what is compared is the start as much as the plan",
	"clock":      "the one with more time has more build-ups that get somewhere and fewer that stall",
	"after_loss": "shots and xG against are counted over different times and are not comparable",
}

func (c *Compare) precisionNote() string {
	widest := 0.0
	for i := range c.comparisons {
		d := &c.comparisons[i].Asked.Difference
		widest = max(widest, (d.Hi-d.Lo)/2)
	}
	word := "Precision not reached"
	if c.PrecisionReached {
		word = "Precision reached"
	}
	return fmt.Sprintf("%s: the difference asked about is known to %.2g per 100 build-ups (asked: %.2g) after %s build-ups of each.",
		word, 100*widest, 100*float64(c.Precision), thousands(int64(c.Possessions)))
}
