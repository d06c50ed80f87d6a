package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// maxWorkers is more than any machine can use.
const maxWorkers = 1024

// runOptions are the flags of playout run.
type runOptions struct {
	possessions, seed, workers whole
	precision                  halfWidth
	format                     formFlag
	output                     string
	doubt, full, quiet         bool
}

func newRunOptions() runOptions {
	return runOptions{
		possessions: whole{min: 1, max: model.MaxPossessions},
		seed:        whole{max: math.MaxUint64},
		workers:     whole{min: 1, max: maxWorkers},
		format:      newFormFlag(answerForms),
	}
}

// addTo adds the flags to a command that runs one scenario.
func (o *runOptions) addTo(cmd *cobra.Command) {
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(&o.possessions, "possessions", "build-ups to play (default: the file's)")
	f.Var(&o.seed, "seed", "names the luck (default: the file's)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	f.Var(&o.precision, "precision", "stop once final-third entries are known to plus or minus this")
	f.BoolVar(&o.doubt, "parameter-doubt", false, "let the intervals cover not knowing the engine's parameters")
	addOutput(cmd, &o.format, &o.output)
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
}

func newRunCmd() *cobra.Command {
	o := newRunOptions()
	cmd := &cobra.Command{
		Use:   "run FILE",
		Short: "Play a scenario and print what came of it",
		Long: `Run plays the scenario in FILE ("-": standard input) and prints how far its
build-ups get, through which lanes, how they end and what the block does, with
95% intervals. One scenario, seed and version give the same figures with any
number of workers.

With --precision 0.01 the run stops once the 95% interval of the controlled
final-third entries is no wider than one build-up in 100 either way; this is
looked at after every 1,000 build-ups.

With --parameter-doubt every 200 build-ups are played with their own draw of the
engine's parameters from what their calibration leaves open. The intervals of the
answer's rates and of how far it gets then cover that too, and the answer says how
much is chance of the draw and how much is not knowing the parameters. What the
model leaves out is in neither.

Ctrl-C stops the run and prints the answer so far, marked PARTIAL, or puts it into
the file of --output. Exit status: 0 whole answer, 1 no answer, 2 wrong use,
130 partial answer.

What the figures mean: playout help metrics. What they leave out: playout help
limits.`,
		Example: `  playout run plan.yaml
  playout run plan.yaml --precision 0.005 --full
  playout run plan.yaml --parameter-doubt --possessions 20000
  playout run plan.yaml --format json --output answer.json`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd, args[0]) },
	}
	o.addTo(cmd)
	cmd.Flags().BoolVar(&o.full, "full", false, "print every table (csv and json always hold everything)")
	return cmd
}

// oneFile insists on exactly one argument.
func oneFile(cmd *cobra.Command, args []string) error {
	if len(args) != 1 {
		return usagef("%s takes one file, not %d; for example: %s plan.yaml", cmd.CommandPath(), len(args), cmd.CommandPath())
	}
	return nil
}

func (o *runOptions) run(cmd *cobra.Command, file string) error {
	if err := o.check(); err != nil {
		return err
	}
	sc, files, err := scenario.LoadFiles(file)
	if err != nil {
		return err
	}
	o.lay(sc)
	if err := prepareOutput(cmd, &o.output, files); err != nil {
		return err
	}
	result, err := o.play(cmd, sc)
	if err != nil {
		return err
	}
	summary := o.summarise(sc, result)
	var answer bytes.Buffer
	if err := summary.Write(&answer, report.Format(o.format.name), o.full); err != nil {
		return err
	}
	if err := deliver(cmd, o.output, answer.Bytes()); err != nil {
		return err
	}
	if result.Partial() {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}

// check refuses flags that do not go together.
func (o *runOptions) check() error {
	if o.doubt && o.precision > 0 {
		return usagef("--precision and --parameter-doubt do not go together: more build-ups narrow chance alone, not the doubt about the parameters; give --possessions instead of --precision")
	}
	return nil
}

// lay puts what the flags say over a scenario.
func (o *runOptions) lay(sc *model.Scenario) {
	if o.possessions.set {
		sc.Possessions = int(o.possessions.value)
	}
	if o.seed.set {
		sc.Seed = o.seed.value
	}
}

func (o *runOptions) summarise(sc *model.Scenario, result *sim.Result) *report.Summary {
	return report.Summarise(sc, result, report.Run{Precision: float64(o.precision), Version: version(), Revision: sim.Revision})
}

// play runs the scenario with a progress line. A run cut short is no error as
// long as it has something to report.
func (o *runOptions) play(cmd *cobra.Command, sc *model.Scenario) (*sim.Result, error) {
	cfg := sim.Config{Workers: int(o.workers.value), Precision: float64(o.precision)}
	if o.doubt {
		cfg.Uncertainty = model.DefaultUncertainty()
	}
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	cfg.Progress = show
	result, err := sim.Run(ctx, sc, cfg)
	switch {
	case err == nil:
		return result, nil
	case ctx.Err() == nil || !errors.Is(err, ctx.Err()):
		return nil, fmt.Errorf("playing the scenario: %w", err)
	case result == nil || result.Played == 0:
		return nil, fmt.Errorf("%w before the first build-up was over; there is nothing to report", errInterrupted)
	}
	return result, nil
}
