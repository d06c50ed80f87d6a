package report

import (
	"errors"
	"fmt"
	"strings"

	"playout/internal/picture"
)

// Picture shows by how much every variant differs from the reference in the figures
// of which a build-up either counts or does not; xG, whose differences are much
// smaller numbers, stays in the tables. The title names the figure asked about, which
// the verdict is on.
func (c *Compare) Picture() (*picture.Rows, error) {
	if c.Possessions < 2 {
		return nil, errors.New("there is nothing to draw: too little was played")
	}
	zero := 0.0
	r := &picture.Rows{
		Words: picture.Words{
			Title:    capital(c.Comparisons[0].Asked.Label) + ": " + strings.TrimSuffix(c.verdict(0), "."),
			Subtitle: c.versus() + ": difference per 100 build-ups, each with its own 95% interval",
			Note: fmt.Sprintf("Seed %d, %s build-ups of each with the same luck. A model's estimate, to compare ideas with, not a forecast.",
				c.Seed, thousands(int64(c.Possessions))),
		},
		X: "more or less than A, per 100 build-ups", Level: &zero, Marked: 1,
	}
	for i, v := range c.Comparisons {
		s := picture.Series{Name: fmt.Sprintf("%s: %s", v.Variant, c.Scenarios[i+1].Title)}
		add := func(x Contrast) {
			if i == 0 {
				r.Names = append(r.Names, x.Label)
			}
			s.Values = append(s.Values, picture.Interval{Value: float64(x.Difference), Lo: float64(x.Low), Hi: float64(x.High)})
		}
		add(v.Asked)
		for k, x := range v.Others {
			if c.comparisons[i].Others[k].Figure.Rate {
				add(x)
			}
		}
		r.Series = append(r.Series, s)
	}
	if c.Partial {
		r.Note = "PARTIAL. " + r.Note
	}
	return r, nil
}

// versus names who is compared with whom; several variants are named in the legend.
func (c *Compare) versus() string {
	if len(c.Scenarios) == 2 {
		return fmt.Sprintf("B, %s, against A, %s", c.Scenarios[1].Title, c.Scenarios[0].Title)
	}
	return "Variants against A, " + c.Scenarios[0].Title
}
