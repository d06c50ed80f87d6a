package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"playout/internal/reference"
	"playout/internal/report"
	"playout/sim"
)

// validatePossessions is how many possessions validate plays when it is not told.
const validatePossessions = 30000

// validateOptions are the flags of playout validate.
type validateOptions struct {
	possessions, seed, workers whole
	format                     formFlag
	output                     string
	quiet                      bool
}

func newValidateCmd() *cobra.Command {
	o := &validateOptions{
		possessions: whole{value: validatePossessions, min: uint64(reference.Least), max: 10_000_000},
		seed:        whole{value: 1, max: math.MaxUint64},
		workers:     whole{min: 1, max: maxWorkers},
		format:      newFormFlag(answerForms),
	}
	cmd := &cobra.Command{
		Use:   "validate",
		Short: "Hold the engine against data of the real game",
		Long: `Validate plays league-average players against a spread of ordinary blocks (high,
middle and low, five shapes) and prints the engine's figures beside those of
open data: event data of 1,140 matches and open tracking data. The definitions
are those of the data; every figure carries its 95% interval, the spread of the
competitions or matches, and a verdict.

Inside means that the engine's value lies within the spread. It does not mean
that the engine is right about your teams; the text under the tables says what
the comparison cannot show.

JSON is a list of {figure, engine, low, high, reference, ref_low, ref_high,
inside, source}. Ctrl-C stops and prints nothing. The same seed and version give
the same figures with any number of workers.`,
		Example: `  playout validate
  playout validate --format markdown --output validation.md
  playout validate --possessions 100000 --format json`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, _ []string) error { return o.validate(cmd) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(&o.possessions, "possessions", fmt.Sprintf("build-ups to play in all (default: %d)", validatePossessions))
	f.Var(&o.seed, "seed", "names the luck (default: 1)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	addOutput(cmd, &o.format, &o.output)
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
	return cmd
}

func (o *validateOptions) validate(cmd *cobra.Command) error {
	if err := prepareOutput(cmd, &o.output, nil); err != nil {
		return err
	}
	cfg := reference.Config{
		Possessions: int(o.possessions.value), Seed: o.seed.value, Workers: int(o.workers.value), Intervals: true,
	}
	values, err := o.measure(cmd, cfg)
	if err != nil {
		return err
	}
	v := report.Validation{
		Possessions: cfg.Played(), Seed: cfg.Seed,
		Version: version(), Revision: sim.Revision, Checks: reference.Compare(values),
	}
	var answer bytes.Buffer
	if err := v.Write(&answer, report.Format(o.format.name)); err != nil {
		return err
	}
	return deliver(cmd, o.output, answer.Bytes())
}

// measure plays with a progress line. A run cut short gives no values.
func (o *validateOptions) measure(cmd *cobra.Command, cfg reference.Config) (map[string]reference.Value, error) {
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	cfg.Progress = show
	values, err := reference.Measure(ctx, cfg)
	switch {
	case err == nil:
		return values, nil
	case ctx.Err() != nil && errors.Is(err, ctx.Err()):
		return nil, fmt.Errorf("%w before all was played; there is nothing to report", errInterrupted)
	}
	return nil, fmt.Errorf("measuring the engine: %w", err)
}
