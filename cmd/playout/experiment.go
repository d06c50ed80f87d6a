package main

import (
	"context"
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/model"
)

// experimentOptions are the flags that every experiment has.
type experimentOptions struct {
	possessions, seed, workers whole
	format                     formFlag
	output                     string
	quiet                      bool
}

func newExperimentOptions() experimentOptions {
	return experimentOptions{
		possessions: whole{min: 2, max: model.MaxPossessions},
		seed:        whole{max: math.MaxUint64},
		workers:     whole{min: 1, max: maxWorkers},
		format:      newFormFlag(answerForms),
	}
}

// addTo adds the flags to a command. possessions says what is played when
// --possessions is not given, and of what.
func (o *experimentOptions) addTo(cmd *cobra.Command, possessions string) {
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(&o.possessions, "possessions", possessions)
	f.Var(&o.seed, "seed", "names the luck (default: the file's)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	addOutput(cmd, &o.format, &o.output)
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
}

// maxOutcomes is how many possessions of all cells together may be kept: 1.6 GB.
const maxOutcomes = 50_000_000

// checkSize refuses an experiment that would not fit into memory.
func checkSize(cells, possessions int) error {
	if possessions > maxOutcomes/max(cells, 1) {
		return usagef("%d times %d build-ups are more than the %d an experiment can keep; give --possessions %d or fewer",
			cells, possessions, maxOutcomes, maxOutcomes/max(cells, 1))
	}
	return nil
}

// playing plays with a progress line until it is done or the user cuts it short,
// which is no error as long as there is something to report. The progress that
// play is handed may be nil.
func (o *experimentOptions) playing(cmd *cobra.Command, play func(ctx context.Context, progress func(done, of int)) (*experiment.Results, error)) (*experiment.Results, error) {
	var r *experiment.Results
	err := o.untilCut(cmd, func(ctx context.Context, progress func(done, of int)) (something bool, err error) {
		r, err = play(ctx, progress)
		return r != nil && r.Paired() > 0, err
	})
	if err != nil {
		return nil, err
	}
	return r, nil
}

// untilCut is playing for what has results of its own: play says whether there is
// something to report.
func (o *experimentOptions) untilCut(cmd *cobra.Command, play func(ctx context.Context, progress func(done, of int)) (something bool, err error)) error {
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	something, err := play(ctx, show)
	switch {
	case err == nil:
		return nil
	case ctx.Err() == nil || !errors.Is(err, ctx.Err()):
		return err
	case !something:
		return fmt.Errorf("%w before the first build-ups were over; there is nothing to report", errInterrupted)
	}
	return nil
}
