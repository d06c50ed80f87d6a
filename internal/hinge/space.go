package hinge

import (
	"context"
	"fmt"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"playout/internal/experiment"
	"playout/internal/scenario"
	"playout/internal/sensitivity"
	"playout/model"
)

// space turns points of the unit cube into scenarios.
type space struct {
	base   *scenario.Base
	inputs []Input
	notes  []string // what was narrowed, and why
	tell   func(note string)
}

// at is the scenario of a point.
func (s *space) at(p sensitivity.Point) (*model.Scenario, error) {
	settings := make([]scenario.Setting, len(s.inputs))
	for i := range s.inputs {
		settings[i] = scenario.Setting{Path: s.inputs[i].Path, Value: scenario.FormatNumber(s.inputs[i].At(p[i]))}
	}
	return s.base.With(settings...)
}

// cells builds the scenarios of a design. Where values of two inputs do not go together
// the spans of those are narrowed, and all is built anew: the design keeps its
// shape, which leaving points out would not.
func (s *space) cells(ctx context.Context, design [][]sensitivity.Point) ([][]experiment.Cell, error) {
	var why error
	before := append([]Input(nil), s.inputs...)
	for range narrowings {
		cells, at, err := s.build(ctx, design)
		if err == nil {
			s.note(before, why)
			return cells, nil
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		why = err
		s.narrow(s.blame(at))
	}
	return nil, fmt.Errorf("the spans do not go together: %w; give narrower ones with --over PATH=FROM:TO", why)
}

// narrowings, each by a tenth of the span, before the spans are refused.
const narrowings = 12

// build makes the scenarios, many rows at once, or returns the first point that is
// none.
func (s *space) build(ctx context.Context, design [][]sensitivity.Point) ([][]experiment.Cell, sensitivity.Point, error) {
	rows, faults := make([][]experiment.Cell, len(design)), make([]error, len(design))
	var wg sync.WaitGroup
	var next atomic.Int64
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for j := next.Add(1) - 1; j < int64(len(design)); j = next.Add(1) - 1 {
				rows[j], faults[j] = s.row(ctx, design[j], int(j))
			}
		})
	}
	wg.Wait()
	for j, err := range faults {
		if err != nil {
			return nil, design[j][len(rows[j])], err
		}
	}
	return rows, nil, nil
}

// row makes the cells of a row up to the first point that is no scenario.
func (s *space) row(ctx context.Context, points []sensitivity.Point, j int) ([]experiment.Cell, error) {
	var cells []experiment.Cell
	for c, p := range points {
		sc, err := s.at(p)
		if err == nil {
			err = ctx.Err()
		}
		if err != nil {
			return cells, err
		}
		cells = append(cells, experiment.Cell{Name: fmt.Sprintf("row %d, point %d", j+1, c+1), Scenario: sc})
	}
	return cells, nil
}

// home is the place in an input's span that lies nearest to the present value.
func (in *Input) home() float64 {
	x := min(max(in.Now, in.From), in.To)
	if in.Ratio {
		return math.Log(x/in.From) / math.Log(in.To/in.From)
	}
	return (x - in.From) / (in.To - in.From)
}

// blame finds the inputs that are to blame for a point that is no scenario: those
// which mend it when they alone go home; all, when none does.
func (s *space) blame(p sensitivity.Point) []int {
	var guilty, all []int
	for i := range s.inputs {
		mended := append(sensitivity.Point(nil), p...)
		mended[i] = s.inputs[i].home()
		if _, err := s.at(mended); err == nil {
			guilty = append(guilty, i)
		}
		all = append(all, i)
	}
	if len(guilty) == 0 {
		return all
	}
	return guilty
}

// narrow brings the ends of spans a tenth nearer to home.
func (s *space) narrow(which []int) {
	for _, i := range which {
		in := &s.inputs[i]
		home := in.home()
		from, to := in.At(0.1*home), in.At(1-0.1*(1-home))
		in.From, in.To = tidy(from), tidy(to)
	}
}

// note says which spans are narrower than they were.
func (s *space) note(before []Input, why error) {
	for i := range s.inputs {
		if in := &s.inputs[i]; in.From != before[i].From || in.To != before[i].To {
			note := fmt.Sprintf("The span of %s was narrowed from %.4g to %.4g down to %.4g to %.4g: %v.",
				in.Path, before[i].From, before[i].To, in.From, in.To, why)
			s.notes = append(s.notes, note)
			if s.tell != nil {
				s.tell(note)
			}
		}
	}
}
