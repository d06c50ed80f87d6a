package experiment

import (
	"context"
	"math"
)

// LookEvery is the number of possessions of every cell between two looks of
// PlayUntil.
const LookEvery = 1000

// PlayUntil plays as Play does, and stops once the difference of the figure between
// the first cell and each of the others is known to plus or minus precision, at 95 %.
// It looks after every LookEvery possessions, so what is played does not depend on
// Workers. It looks at the width of the interval and not at where it lies, which
// leaves the interval what it is but for a trifle (Chow and Robbins 1965, Ann. Math.
// Statist. 36, 457-462).
func PlayUntil(ctx context.Context, cells []Cell, cfg Config, f Figure, precision float64) (r *Results, reached bool, err error) {
	all := &Results{outcomes: make([][]Outcome, len(cells)), possessions: cfg.Possessions}
	step := cfg
	if cfg.Progress != nil {
		step.Progress = func(done, _ int) { cfg.Progress(all.played()+done, len(cells)*cfg.Possessions) }
	}
	for n := 0; n < cfg.Possessions; n += step.Possessions {
		step.First, step.Possessions = cfg.First+n, min(LookEvery, cfg.Possessions-n)
		r, err := Play(ctx, cells, step)
		for c := range cells {
			all.outcomes[c] = append(all.outcomes[c], r.Outcomes(c)...)
		}
		if err != nil || !r.Complete() {
			return all, false, err
		}
		if all.known(f) <= precision {
			return all, true, nil
		}
	}
	return all, false, nil
}

func (r *Results) played() int {
	n := 0
	for _, o := range r.outcomes {
		n += len(o)
	}
	return n
}

// known is the half-width of the widest interval of a difference from the first
// cell. Cells that have not yet parted in enough possessions are not known at all.
func (r *Results) known(f Figure) float64 {
	widest := 0.0
	for c := 1; c < len(r.outcomes); c++ {
		d := Difference(r.outcomes[0], r.outcomes[c], f)
		if d.Apart < fewApart {
			return math.Inf(1)
		}
		widest = max(widest, (d.Hi-d.Lo)/2)
	}
	return widest
}
