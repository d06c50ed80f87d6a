package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/internal/experiment"
	"playout/internal/picture"
)

// document lays the answer out for people.
func (s *Search) document(full bool) *document {
	d := &document{title: s.Scenario, answer: s.Answer, facts: s.facts(), notes: s.Notes}
	if s.Partial {
		d.warning, d.notes = s.Notes[0], s.Notes[1:]
	}
	if len(s.Changes) > 0 {
		d.tables = append(d.tables, s.changeTable())
		if s.Asked != nil {
			d.tables = append(d.tables, s.figureTable())
		}
	}
	if full {
		d.tables = append(d.tables, s.progressTable())
	}
	return d
}

func (s *Search) facts() string {
	text := fmt.Sprintf("seed %d, %s build-ups to search (%s variants; free numbers: %d)", s.Seed, thousands(int64(s.Searched)), thousands(int64(s.Tried)), s.Free)
	if s.Fresh > 0 {
		text += fmt.Sprintf(", build-ups %s to %s of each to judge", thousands(int64(s.First)), thousands(int64(s.First+s.Fresh-1)))
	}
	return fmt.Sprintf("%s, tick %s s, version %s, engine revision %d.", text, s.TickS.text(), s.Version, s.Revision)
}

func (s *Search) changeTable() *table {
	t := &table{title: "What changes", head: []string{"", "from", "to", "by"}}
	if !s.Better {
		t.title = "What the search settled on"
	}
	for _, c := range s.Changes {
		name, by := c.Label, ""
		switch {
		case c.Up.Known():
			t.note = "Places are metres from the centre spot: up the pitch, then to the left."
			by = fmt.Sprintf("%.1f m: %s, %s", c.By, way(c.Up, "up", "back"), way(c.ToLeft, "left", "right"))
		case c.By.Known():
			by = signedTo(float64(c.By)/100, max(decimalsOf(c.From), decimalsOf(c.To)))
		}
		if unit := name + ", " + c.Unit; c.Unit != "" && !c.Up.Known() && width(unit) <= widestChange {
			name = unit
		}
		t.add(cut(name, widestChange), cut(c.From, 20), cut(c.To, 20), by)
	}
	return t
}

// widestChange is the widest name of a change, in columns; its unit is left out
// where it does not fit.
const widestChange = 44

// decimalsOf is how many decimals a number is written with.
func decimalsOf(text string) int {
	_, fraction, _ := strings.Cut(text, ".")
	return len(fraction)
}

// way writes a shift along one axis.
func way(d Number, ahead, behind string) string {
	if d < 0 {
		ahead = behind
	}
	return fmt.Sprintf("%.1f %s", math.Abs(float64(d)), ahead)
}

func (s *Search) figureTable() *table {
	x := &s.result.Comparison
	t := &table{title: "On fresh luck", head: []string{"per 100 build-ups", "original", "found", "difference", intervalHead, "verdict"},
		note: fmt.Sprintf("%s build-ups of each that the search had not seen, with the same luck. Better and worse are for the side on the ball. The first figure "+
			"is the one searched for and is judged by itself; the verdicts on the others allow for all %d being judged together (Holm's correction).",
			thousands(int64(s.Fresh)), len(x.Others))}
	row := func(c *experiment.Contrast) {
		f, d := &c.Figure, &c.Difference
		t.add(f.Label, hundredfold(Number(c.Reference), f.Decimals), hundredfold(Number(c.Variant), f.Decimals),
			signedTo(d.Value, f.Decimals), signedSpan(d.Lo, d.Hi, f.Decimals), verdictWord(c))
	}
	row(&x.Asked)
	t.gap()
	for i := range x.Others {
		row(&x.Others[i])
	}
	return t
}

func (s *Search) progressTable() *table {
	d := s.figure.Decimals
	t := &table{title: "How the search went", head: []string{"generation", "build-ups", "variants", "dropped", "of each", "best", intervalHead, "better half", "spread, %"},
		note: "Difference from the original per 100 build-ups of the best variant and of the mean of the better half, both picked for being " +
			"best and so optimistic. Dropped: given up early. Of each: build-ups of each that stayed. Spread: how widely variants still scatter, in parts of the range allowed."}
	of := func(n Number) float64 { return float64(n) / 100 }
	for i, g := range s.Progress {
		t.add(strconv.Itoa(i+1), thousands(int64(g.Spent)), strconv.Itoa(g.Variants), strconv.Itoa(g.Dropped), thousands(int64(g.BuildUps)),
			signedTo(of(g.Best.Difference), d), signedSpan(of(g.Best.Low), of(g.Best.High), d), signedTo(of(g.Half.Difference), d), fixed(g.Spread, 0))
	}
	return t
}

// Picture draws how the search went, and beside it what fresh luck says of where it
// settled.
func (s *Search) Picture() picture.Drawing {
	var best, half, fresh picture.Line
	best.Name, half.Name, fresh.Name = "best variant", "better half", "found, on fresh luck"
	interval := func(l Lead) picture.Interval {
		return picture.Interval{Value: float64(l.Difference), Lo: float64(l.Low), Hi: float64(l.High)}
	}
	bare := func(l Lead) picture.Interval {
		return picture.Interval{Value: float64(l.Difference), Lo: math.NaN(), Hi: math.NaN()}
	}
	for _, g := range s.Progress {
		best.X, best.Y = append(best.X, float64(g.Spent)), append(best.Y, bare(g.Best))
		half.X, half.Y = append(half.X, float64(g.Spent)), append(half.Y, bare(g.Half))
	}
	c := &picture.Curves{
		Words: picture.Words{
			Title:    cut(s.Scenario, 70) + ": how the search went",
			Subtitle: "Best variant and better half of each generation are picked for being best, and so too good. Only fresh luck counts (95% band).",
			Note:     "Playout, " + s.facts() + " A model's estimate, not a forecast.",
		},
		X: "build-ups played", Y: fmt.Sprintf("%s, difference from the original (%s)", s.figure.Label, s.figure.Unit),
		Lines: []picture.Line{best, half}, Level: new(0.0),
	}
	if s.Asked != nil {
		at := interval(Lead{s.Asked.Difference, s.Asked.Low, s.Asked.High})
		fresh.X = []float64{best.X[0], best.X[len(best.X)-1]}
		fresh.Y = []picture.Interval{at, at}
		if fresh.X[0] == fresh.X[1] {
			fresh.X, fresh.Y = fresh.X[:1], fresh.Y[:1]
		}
		c.Lines = append(c.Lines, fresh)
	}
	return c
}
