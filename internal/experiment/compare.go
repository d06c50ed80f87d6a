package experiment

import (
	"math"

	"playout/internal/stats"
)

// Verdict is what can be said of a difference.
type Verdict uint8

// Verdicts. Better and worse are for the side on the ball; more and fewer stand
// where neither is good in itself.
const (
	CannotTell Verdict = iota // the interval leaves open which is larger
	Better
	Worse
	More
	Fewer
	Level // whatever the difference is, it is too small to be worth having
	Same  // the figure agrees in every possession
)

var verdictNames = [...]string{"cannot_tell_yet", "better", "worse", "more", "fewer", "no_difference_worth_having", "same"}

func (v Verdict) String() string { return verdictNames[v] }

// Told reports whether the verdict says which way the difference goes.
func (v Verdict) Told() bool { return v >= Better && v <= Fewer }

// alpha is the chance of a wrong verdict that a family of figures may have.
const alpha = 0.05

// fewApart is the number of possessions that have to differ for the interval, which
// takes the mean of the differences to be normal, to be trusted with a verdict;
// common practice, no source.
const fewApart = 10

// WorthShare is the share of the reference's value that a difference must have to
// be worth having, unless the user says otherwise; a convention of this program.
const WorthShare = 0.05

// Contrast is a figure of a variant beside that of the reference.
type Contrast struct {
	Figure             Figure
	Reference, Variant float64 // means, or shares
	Difference         Paired  // variant - reference
	P                  float64 // two-sided, of no difference
	Adjusted           float64 // P after Holm, within the family
	Verdict            Verdict
	Worth              float64 // a difference up to this is not worth having; 0: any is
	Needed             int64   // possessions that tell a difference as large as this one four times out of five; 0 for Level and Same
}

// Little reports whether a difference that can be told is too small to be worth having.
func (c *Contrast) Little() bool { return c.Verdict.Told() && c.within() }

func (c *Contrast) within() bool {
	return c.Worth > 0 && c.Difference.Lo >= -c.Worth && c.Difference.Hi <= c.Worth
}

// Independent is how many possessions of each variant would give the same interval
// if the two did not share their luck; NaN where there is no telling.
func (c *Contrast) Independent() float64 { return c.Difference.Gain * float64(c.Difference.N) }

// Comparison is a variant against the reference. The figure asked about is judged
// by itself: it was chosen before the possessions were played. The others are
// judged together, and so are those by lane, each family over all variants of the
// comparison, by Holm's procedure.
type Comparison struct {
	Asked  Contrast
	Others []Contrast // the other headline figures and the switches
	Lanes  []Contrast // share of entries, shots and xG by lane of entry
}

// Compare contrasts every cell from the second on with the first, over the first n
// possessions. worth is the difference of the figure asked about that is worth
// having; 0 stands for WorthShare of the reference's value, which goes for all
// other figures.
func Compare(r *Results, n int, asked Figure, worth float64) []Comparison {
	ref := r.Outcomes(0)[:n]
	var out []Comparison
	for c := 1; c < len(r.outcomes); c++ {
		v := r.Outcomes(c)[:n]
		cmp := Comparison{Asked: contrast(ref, v, asked)}
		if worth > 0 {
			cmp.Asked.Worth = worth
		}
		for _, f := range Headline {
			if f.Name != asked.Name {
				cmp.Others = append(cmp.Others, contrast(ref, v, f))
			}
		}
		for _, f := range Switching {
			if f.Name != asked.Name {
				f.Sense = 0 // who switches less has fewer of each: neither better nor worse by itself
				cmp.Others = append(cmp.Others, contrast(ref, v, f))
			}
		}
		for _, f := range Entries {
			cmp.Lanes = append(cmp.Lanes, shareContrast(ref, v, f))
		}
		for _, f := range concat(Shots, XG) {
			if f.Name == asked.Name {
				continue
			}
			cmp.Lanes = append(cmp.Lanes, contrast(ref, v, f))
		}
		out = append(out, cmp)
	}
	var first, others, lanes []*Contrast
	for i := range out {
		first = append(first, &out[i].Asked)
		for k := range out[i].Others {
			others = append(others, &out[i].Others[k])
		}
		for k := range out[i].Lanes {
			lanes = append(lanes, &out[i].Lanes[k])
		}
	}
	for _, family := range [][]*Contrast{first, others, lanes} {
		judge(family)
	}
	return out
}

func contrast(a, b []Outcome, f Figure) Contrast {
	c := Contrast{Figure: f, Reference: Mean(a, f).Value, Variant: Mean(b, f).Value, Difference: Difference(a, b, f)}
	of := c.Reference
	if f.Name == "net_xg" { // it may be next to nothing where much is made and given up
		of = Mean(a, expectedGoals).Value
	}
	c.Worth = WorthShare * math.Abs(of)
	return c
}

// shareContrast is of the share of the controlled entries that come by a lane.
func shareContrast(a, b []Outcome, lane Figure) Contrast {
	f := lane
	f.Name, f.Unit = "share_of_entries/"+lane.Name[len("final_third/"):], "% of entries"
	return Contrast{
		Figure:    f,
		Reference: Share(a, lane, Headline[0]).Value, Variant: Share(b, lane, Headline[0]).Value,
		Difference: ShareDifference(a, b, lane, Headline[0]),
	}
}

// judge gives the verdicts of figures that are judged together.
func judge(family []*Contrast) {
	p := make([]float64, len(family))
	for i, c := range family {
		p[i] = stats.PValue(c.Difference.Estimate)
	}
	adjusted := stats.Holm(p)
	left := 0 // hypotheses that stand
	for i, c := range family {
		c.P, c.Adjusted = p[i], adjusted[i]
		if !(c.Adjusted <= alpha) {
			left++
		}
	}
	for _, c := range family {
		c.Verdict = c.verdict()
		if d := c.Difference; c.Verdict < Level && d.Value != 0 && d.StdErr > 0 {
			together := max(left, 1) // among how many it has to stand out
			if c.Verdict.Told() {
				together = left + 1
			}
			enough := float64(d.N) * fewApart / float64(d.Apart)
			c.Needed = max(stats.NeededToTell(d.Estimate, 1-alpha/float64(together)), int64(math.Ceil(enough)))
		}
	}
}

func (c *Contrast) verdict() Verdict {
	d := c.Difference
	switch {
	case d.N < 2 || math.IsNaN(d.StdErr):
		return CannotTell
	case d.Value == 0 && d.StdErr == 0:
		return Same
	case c.Adjusted <= alpha && d.Apart >= fewApart:
		up := d.Value > 0
		switch {
		case c.Figure.Sense == 0 && up:
			return More
		case c.Figure.Sense == 0:
			return Fewer
		case up == (c.Figure.Sense > 0):
			return Better
		}
		return Worse
	case c.within():
		return Level
	}
	return CannotTell
}
