package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
)

// rank sorts by value, the largest first; what has none goes last.
func rank(order []int, value func(int) float64) {
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(value(j), value(i)) })
}

// judged are the inputs with a share of their own.
func (s *Sensitivity) judged() []Hanging {
	n := 0
	for n < len(s.Inputs) && s.Inputs[n].Total.Value.Known() {
		n++
	}
	return s.Inputs[:n]
}

// answer says what the figure hangs on, which way, and how much it moves in all.
func (s *Sensitivity) answer() []string {
	top := s.judged()
	switch {
	case len(s.Inputs) == 0:
		return []string{"Too little was played to say anything."}
	case len(top) == 0:
		first := s.Inputs[0]
		return []string{fmt.Sprintf("Only the screening was played. In it %s moved %s most: by %s per 100 build-ups over its whole span (%s to %s).",
			first.name(), s.what(), s.change(first.Screening.Change.Value), s.change(first.Screening.Change.Low), s.change(first.Screening.Change.High))}
	case !(s.Variance.Low > 0), !s.anyShare(top):
		return s.undecided(top)
	}
	out := []string{s.hangs(top)}
	for _, h := range top[:min(len(top), 2)] {
		if h.Total.Low > 0 {
			out = append(out, s.direction(h))
		}
	}
	return append(out, s.reach())
}

// anyShare reports whether at least one share is surely more than nothing.
func (s *Sensitivity) anyShare(top []Hanging) bool {
	clear := func(v Interval) bool { return !v.Low.Known() || v.Low > 0 }
	return s.Rest != nil && clear(s.Rest.Total) || slices.ContainsFunc(top, func(h Hanging) bool { return clear(h.Total) })
}

// undecided is the answer when the variance of the figure, or each share of it, could
// be 0: the shares mean nothing then, though some directions may be clear.
func (s *Sensitivity) undecided(top []Hanging) []string {
	var clear []Hanging
	for _, h := range top {
		if h.directed() {
			clear = append(clear, h)
		}
	}
	if len(clear) == 0 {
		return []string{fmt.Sprintf("Cannot tell yet: over these spans nothing moves %s by more than the luck of the build-ups could. Ask with more --points or wider spans.", s.what())}
	}
	// The further apart the figure is in the outer thirds of the span, the earlier.
	slices.SortStableFunc(clear, func(a, b Hanging) int { return cmp.Compare(b.apart(), a.apart()) })
	out := []string{fmt.Sprintf("Cannot tell yet how much of %s hangs on what: too much of what was seen is the luck of the build-ups. Ask with more --points. Some directions are clear.", s.what())}
	for _, h := range clear[:min(len(clear), 2)] {
		out = append(out, s.direction(h))
	}
	return out
}

// directed reports whether more of the input moves the figure one way beyond doubt.
func (h *Hanging) directed() bool { return h.Each.Low > 0 || h.Each.High < 0 }

func (h *Hanging) apart() float64 { return math.Abs(float64(h.Thirds[2].Value - h.Thirds[0].Value)) }

// what is the figure inside a sentence.
func (s *Sensitivity) what() string {
	if noun := figureNouns[s.Figure]; noun != "" {
		return noun
	}
	return s.Label
}

// hangs is the first sentence.
func (s *Sensitivity) hangs(top []Hanging) string {
	first, rest := top[0], Interval{Value: missing}
	if s.Rest != nil {
		rest = s.Rest.Total
	}
	name := func(h Hanging) string { return fmt.Sprintf("%s (%s)", h.name(), percents(h.Total)) }
	// The first share in the sentence says what it is a share of.
	lead := func(share Interval) string { return fmt.Sprintf("(%s, of what moves %s)", percents(share), s.what()) }
	leader := first.name() + " " + lead(first.Total)
	clear := len(top) == 1 || first.Total.Low > top[1].Total.High
	switch {
	case rest.Value > first.Total.Value:
		return fmt.Sprintf("It hangs on many things: the %d lesser inputs together count for more %s than the first, %s.",
			len(s.Rest.Paths), lead(rest), name(first))
	case clear && first.Total.Value >= 0.8:
		return "Nearly all hangs on " + leader + "."
	case clear && first.Total.Value >= 0.5:
		return "Most hangs on " + leader + "."
	case clear:
		return "More hangs on " + leader + " than on anything else."
	case len(top) > 2 && top[2].Total.High > first.Total.Low:
		return fmt.Sprintf("It hangs on several things: %s, %s and %s come first, too close to call in which order.", leader, name(top[1]), name(top[2]))
	}
	return fmt.Sprintf("It hangs most on %s or %s: too close to call which.", leader, name(top[1]))
}

// direction says which way an input moves the figure, per step.
func (s *Sensitivity) direction(h Hanging) string {
	if !h.directed() {
		t := h.Thirds
		return fmt.Sprintf("%s has no clear direction: %s in the lowest third of its span, %s in the middle, %s in the highest.",
			capital(h.name()), fixed(t[0].Value, s.decimals), fixed(t[1].Value, s.decimals), fixed(t[2].Value, s.decimals))
	}
	return fmt.Sprintf("%s, %s: %s per 100 build-ups (%s to %s).", capital(h.name()), h.step(), s.change(h.Each.Value), s.change(h.Each.Low), s.change(h.Each.High))
}

// reach says how much all inputs at once move the figure.
func (s *Sensitivity) reach() string {
	text := fmt.Sprintf("Over all the spans at once it is %s per 100 build-ups on average; two in three combinations lie within about %s of that.",
		fixed(s.Mean.Value, s.decimals), fixed(Number(math.Sqrt(float64(s.Variance.Value))), s.decimals))
	if s.Together.Low > 0.1 {
		text += fmt.Sprintf(" About %.0f%% comes of inputs that act on each other.", 100*float64(s.Together.Value))
	}
	return text
}

func (s *Sensitivity) change(n Number) string {
	text := fixed(n, s.decimals)
	if n > 0 && strings.Trim(text, "0.") != "" {
		return "+" + text
	}
	return text
}

// name is the label inside a sentence.
func (h *Hanging) name() string { return inSentence(h.Label) }

// inSentence is the label of a value where a noun stands: the height of the
// defence's press, the attack's time on the ball, how far ...
func inSentence(label string) string {
	if strings.HasPrefix(label, "the ") || strings.HasPrefix(label, "how ") {
		return label
	}
	return "the " + label
}

// step writes the step of an input: +5 m, or twice the odds.
func (h *Hanging) step() string {
	if h.Odds {
		return "odds x" + h.Step.text()
	}
	unit := ""
	if strings.HasPrefix(h.Unit, "m per m") {
		return "+" + h.Step.text() + " m per m"
	}
	switch word, _, _ := strings.Cut(h.Unit, " "); word {
	case "m", "s", "m/s", "m/s^2":
		unit = " " + word
	}
	return "+" + h.Step.text() + unit
}

// wholePercent writes a share of the variance; what chance took below 0 or above 100 shows as that.
func wholePercent(n Number) string { return fixed(min(max(100*n, 0), 100), 0) }

func percents(v Interval) string {
	if !v.Low.Known() || !v.High.Known() {
		return wholePercent(v.Value) + "%"
	}
	return wholePercent(v.Value) + "%, " + wholePercent(v.Low) + " to " + wholePercent(v.High)
}

func percentSpan(v Interval) string {
	if !v.Low.Known() || !v.High.Known() {
		return "-"
	}
	return wholePercent(v.Low) + " to " + wholePercent(v.High)
}
