package report

import (
	"errors"
	"fmt"
	"math"

	"playout/internal/picture"
)

// Picture ranks the inputs by their shares, or by their screening when nothing else
// was played.
func (s *Sensitivity) Picture() (*picture.Rows, error) {
	if len(s.Inputs) == 0 {
		return nil, errors.New("there is nothing to draw: too little was played")
	}
	note := fmt.Sprintf("%s. Seed %d, %s build-ups. A model's estimate, to compare ideas with, not a forecast.", s.Scenario, s.Seed, thousands(s.Possessions))
	if s.Partial {
		note = "PARTIAL. " + note
	}
	r := &picture.Rows{Words: picture.Words{Title: fmt.Sprintf("What %s hangs on", s.what()), Note: note}}
	top := s.judged()
	if len(top) == 0 {
		s.screeningRows(r)
		return r, nil
	}
	r.Subtitle = "Share of what moves the figure when all inputs vary at once over their spans, with 95% intervals"
	r.X, r.Bars, r.Series = "share, %", true, []picture.Series{{Name: "with others"}, {Name: "alone"}}
	add := func(name string, v ...Interval) {
		r.Names = append(r.Names, name)
		for k := range v {
			of := func(n Number) float64 { return 100 * math.Min(math.Max(float64(n), 0), 1) }
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

func (s *Sensitivity) screeningRows(r *picture.Rows) {
	zero := 0.0
	r.Subtitle = "Screening: change from the lower to the upper end of the input's span, with 95% intervals"
	r.X, r.Level, r.Series = "change per 100 build-ups", &zero, []picture.Series{{}}
	for _, h := range s.Inputs {
		c := h.Screening.Change
		r.Names = append(r.Names, h.Label)
		r.Series[0].Values = append(r.Series[0].Values, picture.Interval{Value: float64(c.Value), Lo: float64(c.Low), Hi: float64(c.High)})
	}
}
