package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"playout/internal/experiment"
	"playout/internal/stats"
)

// answer says in a few sentences what a coach should take away.
func (s *Sweep) answer() []string {
	var out []string
	if len(s.Axes) == 1 && s.Axes[0].Numbers != nil && s.shape.Shape != stats.TooFew {
		out = append(out, s.curveSentences()...)
	} else {
		out = append(out, s.extremesSentence())
	}
	return append(out, s.againstSentence())
}

// figureNouns name figures in front of a colon; the others have their label.
var figureNouns = map[string]string{
	"final_third": "final-third entries", "exit_own_third": "exits from the own third", "halfway": "build-ups over halfway",
	"box": "penalty-area entries", "shot": "shots", "goal": "goals", "lost": "balls lost", "forced_back": "build-ups forced back",
	"stalled": "stalled build-ups", "shots_against": "shots against after a loss",
}

// subject is the figure asked about, to open a sentence with.
func (s *Sweep) subject() string {
	if noun := figureNouns[s.asked.Name]; noun != "" {
		return capital(noun)
	}
	return capital(s.asked.Label)
}

func capital(text string) string {
	if text == "" || strings.HasPrefix(text, "xG") {
		return text
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// number writes a figure per 100 build-ups, signed a difference.
func (s *Sweep) number(n Number) string { return fixed(n, s.asked.Decimals) }

func (s *Sweep) signed(n Number) string {
	text := s.number(n)
	if n.Known() && strings.Trim(text, "0.") != "" && !strings.HasPrefix(text, "-") {
		return "+" + text
	}
	return text
}

// valued is a cell's figure with its interval.
func (s *Sweep) valued(i int) string {
	v := s.Cells[i].of()
	return fmt.Sprintf("%s (%s to %s)", s.number(v.Value), s.number(v.Low), s.number(v.High))
}

// at is the cell whose number on the only axis is x.
func (s *Sweep) at(x float64) int {
	for i, n := range s.Axes[0].Numbers {
		if n == x {
			return i
		}
	}
	return 0
}

// place writes a number of the only axis as the user wrote it, and one between
// those with a digit more than their distance has.
func (s *Sweep) place(x float64) string {
	numbers := s.Axes[0].Numbers
	if i := s.at(x); numbers[i] == x {
		return s.Axes[0].Values[i]
	}
	step := (numbers[len(numbers)-1] - numbers[0]) / float64(len(numbers)-1)
	return fixed(Number(x), max(0, int(math.Ceil(-math.Log10(step)+0.5))))
}

func (s *Sweep) curveSentences() []string {
	a, last := &s.Axes[0], len(s.Cells)-1
	by := inSentence(clean(a.Label))
	extreme := func(word string, e stats.Extreme) string {
		text := fmt.Sprintf("%s: %s with %s at %s, %s %s", s.subject(), word, by, s.place(e.At), s.valued(s.at(e.At)), s.asked.Unit)
		if e.From < e.To {
			text += fmt.Sprintf("; from %s to %s it is too close to call which is %s", s.place(e.From), s.place(e.To), word)
		}
		return text + "."
	}
	ends := fmt.Sprintf("from %s at %s to %s at %s", s.valued(0), a.Values[0], s.valued(last), a.Values[last])
	none := "No turning point inside this range was found."
	switch t := s.shape; t.Shape {
	case stats.Peak:
		return []string{extreme("highest", t.Top) + " Towards both ends of the range there are fewer."}
	case stats.Valley:
		return []string{extreme("lowest", t.Bottom) + " Towards both ends of the range there are more."}
	case stats.Both:
		return []string{extreme("highest", t.Top), extreme("lowest", t.Bottom)}
	case stats.Bent:
		before, after := s.bendChanges()
		return []string{fmt.Sprintf("%s: turning point where %s is about %s (%s to %s); from %s up to there the change is %s, from there to %s it is %s.",
			s.subject(), by, s.place(t.Bend.Value), s.place(t.Bend.Lo), s.place(t.Bend.Hi), a.Values[0], s.signed(before), a.Values[last], s.signed(after)),
			fmt.Sprintf("In all: %s, %s.", ends, s.asked.Unit)}
	case stats.Rising:
		return []string{fmt.Sprintf("%s: more as %s goes up, %s, %s. %s", s.subject(), by, ends, s.asked.Unit, none)}
	case stats.Falling:
		return []string{fmt.Sprintf("%s: fewer as %s goes up, %s, %s. %s", s.subject(), by, ends, s.asked.Unit, none)}
	case stats.Uneven:
		return []string{s.extremesSentence() + " " + none}
	}
	return []string{fmt.Sprintf("%s: no change with %s can be told yet, %s, %s; no two of these values can be told apart when all pairs are judged together.",
		s.subject(), by, ends, s.asked.Unit)}
}

// bendChanges are by how much the figure changes up to the bend, and beyond it.
func (s *Sweep) bendChanges() (before, after Number) {
	t, x := &s.shape, s.Axes[0].Numbers
	return per100build(t.Before * (t.Bend.Value - x[0])), per100build(t.After * (x[len(x)-1] - t.Bend.Value))
}

// extremesSentence names the highest and the lowest cells, and those that may be
// them just as well.
func (s *Sweep) extremesSentence() string {
	if len(s.Cells) == 1 {
		return fmt.Sprintf("%s with %s: %s %s.", s.subject(), s.name(0), s.valued(0), s.asked.Unit)
	}
	high, low := 0, 0
	for i := range s.Cells {
		if s.Cells[i].of().Value > s.Cells[high].of().Value {
			high = i
		}
		if s.Cells[i].of().Value < s.Cells[low].of().Value {
			low = i
		}
	}
	if s.alike() {
		return fmt.Sprintf("%s: from %s with %s to %s with %s, %s, but no two of these values can be told apart yet when all pairs are judged together.", s.subject(),
			s.valued(low), s.name(low), s.valued(high), s.name(high), s.asked.Unit)
	}
	return fmt.Sprintf("%s: highest with %s, %s %s%s; lowest with %s, %s%s.", s.subject(),
		s.name(high), s.valued(high), s.asked.Unit, s.rivals(s.highest, high), s.name(low), s.valued(low), s.rivals(s.lowest, low))
}

// mostNamed is how many cells a sentence names.
const mostNamed = 4

// rivals says which other cells may be best just as well.
func (s *Sweep) rivals(set []int, best int) string {
	var names []string
	for _, i := range set {
		if i != best {
			names = append(names, s.name(i))
		}
	}
	switch {
	case set == nil:
		return ""
	case len(names) == 0:
		return ", surely"
	case len(names) > mostNamed:
		return fmt.Sprintf(", too close to call with %d others", len(names))
	}
	return ", too close to call with " + Listed(names, "and")
}

// againstSentence says which cells are told from the scenario as it stands.
func (s *Sweep) againstSentence() string {
	groups := map[string][]string{}
	others := 0
	for i, c := range s.Cells {
		if !c.AsItStands {
			groups[c.Verdict] = append(groups[c.Verdict], s.name(i))
			others++
		}
	}
	stands := "the scenario as it stands"
	if now := s.AsItStands.Values; len(now) == 1 && now[0] != "" {
		stands += " (" + clean(now[0]) + ")"
	}
	if others == 0 {
		return "This is " + stands + "."
	}
	var parts []string
	for _, v := range []experiment.Verdict{experiment.Better, experiment.Worse, experiment.More, experiment.Fewer, experiment.CannotTell} {
		names := groups[v.String()]
		word := map[experiment.Verdict]string{experiment.Better: "better", experiment.Worse: "worse", experiment.More: "more",
			experiment.Fewer: "fewer", experiment.CannotTell: "cannot be told yet"}[v]
		switch {
		case len(names) == 0:
		case len(names) == others && others > 1 && v == experiment.CannotTell:
			parts = append(parts, fmt.Sprintf("none of the %d can be told apart from it yet", others))
		case len(names) == others && others > 1:
			parts = append(parts, fmt.Sprintf("all %d %s", others, word))
		case len(names) > mostNamed:
			parts = append(parts, fmt.Sprintf("%d of %d %s (%s to %s)", len(names), others, word, names[0], names[len(names)-1]))
			if !s.inARow(v.String()) {
				parts[len(parts)-1] = fmt.Sprintf("%d of %d %s", len(names), others, word)
			}
		default:
			parts = append(parts, fmt.Sprintf("%s with %s", word, Listed(names, "and")))
		}
	}
	if level := len(groups[experiment.Level.String()]); level > 0 {
		parts = append(parts, hardlyDiffer(level))
	}
	if same := len(groups[experiment.Same.String()]); same > 0 {
		parts = append(parts, fmt.Sprintf("%d the same throughout", same))
	}
	text := fmt.Sprintf("Against %s, %s %s: %s.", stands, s.number(s.AsItStands.of().Value), s.asked.Unit, strings.Join(parts, "; "))
	if s.alike() && slices.ContainsFunc(s.Cells, func(c SweepCell) bool { return told(c.Verdict) }) {
		text += " That asks each value against this one, not the values against each other: the two need not agree."
	}
	if s.asked.Sense != 0 {
		text += " Better is meant for the side on the ball."
	}
	return text
}

// alike reports whether no two of the values can be told apart when all pairs are judged
// together.
func (s *Sweep) alike() bool {
	return s.shape.Shape == stats.Flat || s.highest != nil && len(s.highest) == len(s.Cells)
}

// inARow reports whether the cells of a verdict follow one another on one axis.
func (s *Sweep) inARow(verdict string) bool {
	if len(s.Axes) != 1 || s.Axes[0].Numbers == nil {
		return false
	}
	runs, in := 0, false
	for _, c := range s.Cells {
		is := c.Verdict == verdict
		if is && !in {
			runs++
		}
		in = is || in && c.AsItStands
	}
	return runs == 1
}

// notes are what a reader has to know.
func (s *Sweep) notes() []string {
	var out []string
	if s.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups of each cell; every figure is of those that were played.",
			thousands(int64(s.Possessions)), thousands(int64(s.Asked))))
	}
	out = append(out, "Verdicts against the scenario as it stands are judged together (Holm's correction): 1 in 20 sweeps without any difference has a false one.")
	if s.Turning.Shape != notLookedFor && s.Turning.Shape != shapeNames[stats.TooFew] {
		out = append(out, "A turning point is stated only where intervals of all differences that hold together, or a test of two lines against one, support it; "+
			"on a curve without one, a false one comes in at most 1 of 20 sweeps. Between the values played nothing is known.")
	}
	if s.Turning.Shape == shapeNames[stats.TooFew] {
		out = append(out, fmt.Sprintf("No turning point was looked for: that takes 3 to %d values and %d build-ups of each.", stats.MostJoint, stats.LeastTurning))
	}
	if s.gain > 0 {
		out = append(out, fmt.Sprintf("All cells have the same luck: with luck of their own, the differences to the scenario as it stands would have needed %.1f times as many build-ups (half of them more, half fewer).", s.gain))
	}
	return append(out, caution)
}
