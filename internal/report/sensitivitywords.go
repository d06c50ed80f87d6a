package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"playout/internal/picture"
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
	case !(s.Variance.Low > 0):
		return []string{fmt.Sprintf("Cannot tell yet: over these spans nothing moves %s by more than the luck of the build-ups could. Ask with more --points or wider spans.", s.what())}
	}
	out := []string{s.hangs(top)}
	for _, h := range top[:min(len(top), 2)] {
		if h.Total.Low > 0 {
			out = append(out, s.direction(h))
		}
	}
	return append(out, s.reach())
}

// what is the figure inside a sentence.
func (s *Sensitivity) what() string { return fmt.Sprintf("%q", s.Label) }

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
	if h.Each.Low <= 0 && h.Each.High >= 0 {
		t := h.Thirds
		return fmt.Sprintf("%s has no clear direction: %s in the lowest third of its span, %s in the middle, %s in the highest.",
			upperFirst(h.name()), fixed(t[0].Value, s.decimals), fixed(t[1].Value, s.decimals), fixed(t[2].Value, s.decimals))
	}
	return fmt.Sprintf("%s, %s: %s per 100 build-ups (%s to %s).", upperFirst(h.name()), h.step(), s.change(h.Each.Value), s.change(h.Each.Low), s.change(h.Each.High))
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

// name is the label inside a sentence: the height of the defence's press, how far ...
func (h *Hanging) name() string {
	if strings.HasPrefix(h.Label, "the ") || strings.HasPrefix(h.Label, "how ") {
		return h.Label
	}
	return "the " + h.Label
}

// step writes the step of an input: +5 m, or twice the odds.
func (h *Hanging) step() string {
	if h.Odds {
		return "odds x" + h.Step.text()
	}
	unit := ""
	switch word, _, _ := strings.Cut(h.Unit, " "); word {
	case "m", "s", "m/s", "m/s^2":
		unit = " " + word
	}
	return "+" + h.Step.text() + unit
}

// wholePercent writes a share of the variance; what chance took below 0 shows as 0.
func wholePercent(n Number) string { return fixed(max(100*n, 0), 0) }

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

func (s *Sensitivity) document() *document {
	d := &document{title: s.Scenario, answer: []string{strings.Join(s.Answer, " ")}, tables: s.tables(), notes: append([]string(nil), s.Notes...)}
	if d.title == "" {
		d.title = "Untitled scenario"
	}
	if s.Partial {
		d.warning = fmt.Sprintf("PARTIAL: interrupted after %s build-ups, with %d of %d points; every figure is of what was played.",
			thousands(s.Possessions), s.Points, s.AskedPoints)
	}
	d.facts = fmt.Sprintf("seed %d, %s build-ups: %d points in the spans, %d of each, and the screening before, version %s, engine revision %d.",
		s.Seed, thousands(s.Possessions), s.Points, s.PerPoint, s.Version, s.Revision)
	if len(s.Inputs) > 0 && s.Inputs[0].Screening == nil {
		d.facts = strings.Replace(d.facts, ", and the screening before", "", 1)
	}
	if s.Points > 0 && s.Points < fewPoints {
		d.notes = append(d.notes, fmt.Sprintf("Only %d points were played: intervals from so few are rough; read nothing into a single figure.", s.Points))
	}
	if s.Noise > 0 && s.Variance.Value > 0 {
		d.notes = append(d.notes, fmt.Sprintf("Of what differs from point to point %.0f%% is the luck of the build-ups; the shares leave it out, but it widens their intervals. "+
			"A share that chance took below 0 shows as 0.", 100*float64(s.Noise/(s.Noise+s.Variance.Value))))
	}
	d.notes = append(d.notes, "The shares hold for the spans that were tried: an input with a wider span weighs more. Inputs are taken to be independent of each other.", caution)
	return d
}

// fewPoints is the number of points below which a bootstrap over them is rough.
const fewPoints = 30

func (s *Sensitivity) tables() []*table {
	var out []*table
	if top := s.judged(); len(top) > 0 {
		shares := &table{title: "What it hangs on",
			note: "with others: the share of what moves the figure that would be left if all other inputs were known. " +
				"alone: the share that would go if this one were known. With others is more where inputs act on each other; alone comes out larger by chance only.",
			head: []string{"input", "with others, %", intervalHead, "alone, %", intervalHead}}
		ways := &table{title: "Which way", head: []string{"input", "tried", "step", "change per 100", intervalHead}}
		along := &table{title: "Along the span", note: s.Label + ", " + s.Unit + ", with the input in a third of its span and all others anywhere.",
			head: []string{"input", "lowest third", "middle", "highest third"}}
		for _, h := range top {
			shares.add(h.Label, wholePercent(h.Total.Value), percentSpan(h.Total), wholePercent(h.First.Value), percentSpan(h.First))
			ways.add(h.Label, h.tried(), h.step(), s.change(h.Each.Value), s.changes(h.Each))
			cells := []string{h.Label}
			for _, t := range h.Thirds {
				cell := fixed(t.Value, s.decimals)
				if t.Low.Known() && t.High.Known() {
					cell += " (" + span(t.Low, t.High, 1, s.decimals) + ")"
				}
				cells = append(cells, cell)
			}
			along.add(cells...)
		}
		if s.Rest != nil {
			shares.add(fmt.Sprintf("the %d others together", len(s.Rest.Paths)),
				wholePercent(s.Rest.Total.Value), percentSpan(s.Rest.Total), wholePercent(s.Rest.First.Value), percentSpan(s.Rest.First))
		}
		if s.Variance.Low > 0 {
			out = append(out, shares)
		}
		out = append(out, ways, along)
	}
	if len(s.Inputs) > 0 && s.Inputs[0].Screening != nil {
		t := &table{title: "Screening", note: "Change from the lower to the upper end of the span, per 100 build-ups; size: the same whatever its sign.",
			head: []string{"input", "tried", "change", intervalHead, "size"}}
		for _, h := range s.Inputs {
			t.add(h.Label, h.tried(), s.change(h.Screening.Change.Value), s.changes(h.Screening.Change), fixed(max(h.Screening.Size.Value, 0), s.decimals))
		}
		out = append(out, t)
	}
	return out
}

func (s *Sensitivity) changes(v Interval) string {
	if !v.Low.Known() || !v.High.Known() {
		return "-"
	}
	return s.change(v.Low) + " to " + s.change(v.High)
}

// tried is the span.
func (h *Hanging) tried() string { return fmt.Sprintf("%.4g to %.4g", float64(h.From), float64(h.To)) }

// Picture ranks the inputs by their shares. There is none without shares.
func (s *Sensitivity) Picture() (*picture.Rows, error) {
	top := s.judged()
	if len(top) == 0 {
		return nil, fmt.Errorf("there are no shares to draw: too little was played")
	}
	r := &picture.Rows{
		Words: picture.Words{Title: fmt.Sprintf("What %s hangs on", s.what()),
			Subtitle: "Share of what moves the figure when all inputs vary at once over their spans, with 95% intervals",
			Note:     fmt.Sprintf("%s. Seed %d, %s build-ups. A model's estimate, to compare ideas with, not a forecast.", s.Scenario, s.Seed, thousands(s.Possessions))},
		X: "share, %", Bars: true,
		Series: []picture.Series{{Name: "with others"}, {Name: "alone"}},
	}
	add := func(name string, v ...Interval) {
		r.Names = append(r.Names, name)
		for k := range v {
			of := func(n Number) float64 { return 100 * math.Max(float64(n), 0) }
			r.Series[k].Values = append(r.Series[k].Values, picture.Interval{Value: of(v[k].Value), Lo: of(v[k].Low), Hi: of(v[k].High)})
		}
	}
	for _, h := range top {
		add(h.Label, h.Total, h.First)
	}
	if s.Rest != nil {
		add(fmt.Sprintf("the %d others together", len(s.Rest.Paths)), s.Rest.Total, s.Rest.First)
	}
	return r, nil
}
