package hinge

import (
	"cmp"
	"context"
	"math"
	"slices"

	"playout/internal/experiment"
	"playout/internal/scenario"
	"playout/internal/sensitivity"
)

// Question is what is asked and at what cost.
type Question struct {
	Figure      experiment.Figure
	Seed        uint64
	Possessions int // of every point
	Points      int // rows of the design that shares the variance out
	Workers     int
	Progress    func(done, of int) // possessions; may be nil
	// Play is experiment.Play, or what keeps parts besides; nil: experiment.Play.
	Play     func(context.Context, []experiment.Cell, experiment.Config) (*experiment.Results, error)
	Narrowed func(note string) // told of spans that are narrowed, before they are played; may be nil
}

// Kept is how many inputs at most are looked at one by one after screening.
const Kept = 6

// Screened is how many rows screen the inputs: a quarter of the others', at least 4.
func (q *Question) Screened() int { return max(q.Points/4, 4) }

// Cost is how many possessions the question takes at most, with so many inputs.
func (q *Question) Cost(inputs int) int {
	if !screens(inputs) {
		return q.Points * (inputs + 2) * q.Possessions
	}
	return (q.Screened()*(inputs+1) + q.Points*(Kept+3)) * q.Possessions
}

// screens reports whether so many inputs are screened first.
func screens(inputs int) bool { return inputs > Kept+1 }

// Study is the answer. Figures are per 100 possessions.
type Study struct {
	Question
	Inputs  []Input
	Notes   []string             // spans that had to be narrowed
	Effects []sensitivity.Effect // by input; nil when there was no screening
	Stars   int                  // rows of the screening that were played
	Factors [][]int              // inputs judged one by one, and last those judged together
	// Shares are those of the factors; nil when the study was cut short before them.
	Shares *sensitivity.Decomposition
	Played int // possessions, of rows that are whole
	Whole  bool
}

// fewest is the least number of rows from which anything is said.
const fewest = 4

// Ask plays the study. When the context ends first, the error comes with what the
// rows that are whole tell.
func Ask(ctx context.Context, base *scenario.Base, inputs []Input, q Question) (*Study, error) {
	if q.Play == nil {
		q.Play = experiment.Play
	}
	space := &space{base: base, inputs: slices.Clone(inputs), tell: q.Narrowed}
	s := &Study{Question: q}
	total := q.Cost(len(inputs))
	defer func() { s.Inputs, s.Notes = space.inputs, space.notes }()
	play := func(design [][]sensitivity.Point, first int) ([][][]float64, error) {
		rows, err := space.cells(ctx, design)
		if err != nil {
			return nil, err
		}
		cfg := experiment.Config{Seed: q.Seed, First: first * q.Possessions, Possessions: q.Possessions, Workers: q.Workers}
		before := s.Played
		cfg.Progress = func(done, _ int) {
			if q.Progress != nil {
				q.Progress(before+done, total)
			}
		}
		y := make([][][]float64, len(rows))
		err = experiment.PlayRows(ctx, rows, cfg, q.Play, func(row int, o [][]experiment.Outcome) {
			y[row] = values(o, q.Figure)
			s.Played += len(rows[row]) * q.Possessions
		})
		return y, err
	}
	first := 0
	s.Factors = singles(len(inputs))
	if screens(len(inputs)) {
		design := sensitivity.Stars(len(inputs), q.Screened(), q.Seed)
		y, err := play(design, first)
		design, y = whole(design, y)
		s.Stars = len(y)
		if len(y) >= fewest {
			s.Effects = sensitivity.Effects(design, y)
			s.Factors = choose(s.Effects)
		}
		if err != nil {
			return s, err
		}
		first = q.Screened()
		total = s.Played + q.Points*(len(s.Factors)+2)*q.Possessions
	}
	design := sensitivity.Saltelli(len(inputs), s.Factors, q.Points, q.Seed+1)
	y, err := play(design, first)
	design, y = whole(design, y)
	if len(y) >= fewest {
		d := sensitivity.Indices(design, s.Factors, y, q.Seed)
		s.Shares = &d
	}
	s.Whole = err == nil
	return s, err
}

// values are the figure's values per 100 possessions, by cell and possession.
func values(outcomes [][]experiment.Outcome, f experiment.Figure) [][]float64 {
	out := make([][]float64, len(outcomes))
	for c, o := range outcomes {
		out[c] = make([]float64, len(o))
		for i := range o {
			out[c][i] = 100 * f.Of(&o[i])
		}
	}
	return out
}

// whole keeps the rows of a design that were played, in their order.
func whole(design [][]sensitivity.Point, y [][][]float64) ([][]sensitivity.Point, [][][]float64) {
	var d [][]sensitivity.Point
	var v [][][]float64
	for j := range y {
		if y[j] != nil {
			d, v = append(d, design[j]), append(v, y[j])
		}
	}
	return d, v
}

// few is the strength, as a share of the largest, below which an input is not worth
// looking at by itself.
const few = 0.1

// strength is what inputs are chosen by: the mean size of the effects, or the size of
// their mean if that is larger. Where an effect has one direction both are the same,
// and of the mean noise takes less away.
func strength(e sensitivity.Effect) float64 { return max(e.Size.Value, math.Abs(e.Mean.Value)) }

// choose makes factors of the inputs that screening found to matter, the strongest first,
// and one of all others together, so that what leaving them aside costs is known.
func choose(effects []sensitivity.Effect) [][]int {
	order := ByStrength(effects)
	var out [][]int
	for len(out) < Kept && (len(out) == 0 || strength(effects[order[len(out)]]) >= few*strength(effects[order[0]])) {
		out = append(out, []int{order[len(out)]})
	}
	rest := order[len(out):]
	slices.Sort(rest)
	return append(out, rest)
}

// ByStrength are the inputs, the strongest first.
func ByStrength(effects []sensitivity.Effect) []int {
	order := make([]int, len(effects))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(strength(effects[j]), strength(effects[i])) })
	return order
}

func singles(inputs int) [][]int {
	out := make([][]int, inputs)
	for i := range out {
		out[i] = []int{i}
	}
	return out
}

// Spread is the standard deviation of the figure over the spans, per 100
// possessions, without the luck of the possessions.
func (s *Study) Spread() float64 { return math.Sqrt(max(s.Shares.Variance.Value, 0)) }
