package main

import (
	"bytes"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/page"
	"playout/internal/report"
	"playout/sim"
)

// compareOptions are the flags of playout compare.
type compareOptions struct {
	experimentOptions
	figure, picture  string
	precision, worth halfWidth
}

func newCompareCmd() *cobra.Command {
	o := &compareOptions{experimentOptions: newExperimentOptions()}
	cmd := &cobra.Command{
		Use:   "compare REFERENCE FILE...",
		Short: "Say whether a plan is better than another, and how sure that is",
		Long: `Compare plays the first scenario, the reference, and each of the others with the
same luck, build-up by build-up, and prints by how much they differ: every
headline figure with the 95% interval of the difference, the same by lane, and
a verdict: better, worse, cannot tell yet (and how many build-ups it would take).
Better and worse are for the side on the ball.

The figure asked about (--figure) is judged by itself. All the others are judged
together: the more figures, the larger a difference has to be for a verdict, so
that chance gives even one wrong verdict among them in at most one comparison of
twenty (Holm's correction). The intervals shown are those of each figure alone.

The last table says what sharing the luck saves: how many build-ups the same
interval would take if every variant had luck of its own.

With --precision 0.01 it stops once the difference in the figure asked about is
known to plus or minus one in 100 build-ups; this is looked at after every 1,000.

Ctrl-C stops and prints the answer so far, marked PARTIAL, or puts it into the
file of --output. Exit status: 0 whole answer, 1 no answer, 2 wrong use, 130
partial answer.`,
		Example: `  playout compare plan.yaml variant.yaml
  playout compare late-switch.yaml quick-switch.yaml --figure shot --precision 0.005
  playout compare plan.yaml b.yaml c.yaml --format json --output answer.json`,
		Args: severalFiles,
		RunE: func(cmd *cobra.Command, args []string) error { return o.compare(cmd, args) },
	}
	o.addTo(cmd, "build-ups of each variant (default: the reference's)")
	f := cmd.Flags()
	f.StringVar(&o.figure, "figure", "final_third", "the `name` of the figure asked about (playout help metrics)")
	f.Var(&o.precision, "precision", "stop once its difference is known to plus or minus this")
	f.Var(&o.worth, "worth", "the difference in it that is worth having (default: 5% of the reference's value)")
	addPicture(cmd, &o.picture)
	return keepsParts(cmd, cellsFixed)
}

// severalFiles insists on two arguments or more.
func severalFiles(cmd *cobra.Command, args []string) error {
	switch {
	case len(args) < 2:
		return usagef("%s takes two files or more, the reference first, not %d; for example: %s plan.yaml variant.yaml", cmd.CommandPath(), len(args), cmd.CommandPath())
	case len(args) > report.MaxCompared:
		return usagef("%s takes at most %d files, not %d", cmd.CommandPath(), report.MaxCompared, len(args))
	}
	return nil
}

func (o *compareOptions) compare(cmd *cobra.Command, files []string) error {
	figure, err := experiment.FigureNamed(o.figure)
	if err != nil {
		return usagef("--figure: %w", err)
	}
	run := report.CompareRun{
		Files: files, Figure: figure, Worth: float64(o.worth), Precision: float64(o.precision),
		Version: version(), Revision: sim.Revision,
	}
	s := sessionOf(cmd)
	if o.precision > 0 {
		if err := s.dependsBy("--precision"); err != nil {
			return err
		}
	}
	var cells []experiment.Cell
	for _, file := range files {
		sc, err := s.scenario(file)
		if err != nil {
			return err
		}
		run.Scenarios = append(run.Scenarios, sc)
		cells = append(cells, experiment.Cell{Name: file, Scenario: sc})
	}
	first := run.Scenarios[0]
	run.Seed, run.Asked = first.Seed, first.Possessions
	if o.seed.set {
		run.Seed = o.seed.value
	}
	if o.possessions.set {
		run.Asked = int(o.possessions.value)
	}
	if run.Asked < 2 {
		return usagef("%q asks for one build-up, and from one no difference can be told; give --possessions", files[0])
	}
	if err := checkSize(len(cells), run.Asked); err != nil {
		return err
	}
	if err := prepareOutput(cmd, &o.output, s.files()); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, s.files()); err != nil {
		return err
	}
	run.Results, err = o.playing(cmd, func(ctx context.Context, progress func(done, of int)) (*experiment.Results, error) {
		cfg := experiment.Config{Seed: run.Seed, Possessions: run.Asked, Workers: int(o.workers.value), Progress: progress}
		if o.precision == 0 {
			return s.play(ctx, cells, cfg)
		}
		return s.playBy(ctx, cells, cfg, func(cfg experiment.Config) (r *experiment.Results, err error) {
			r, run.Reached, err = experiment.PlayUntil(ctx, cells, cfg, figure, run.Precision)
			return r, err
		})
	})
	if err != nil {
		return err
	}
	answer := report.NewCompare(run)
	if r := reportingOf(cmd); r != nil {
		return r.deliver(cmd, o.output, answer.Partial, run.Scenarios, files, func(again page.Repeat) (*page.Page, error) {
			return page.Compare(answer, run.Scenarios, again), nil
		})
	}
	var text bytes.Buffer
	if err := answer.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	if o.picture != "" {
		drawing, err := answer.Picture()
		if err != nil {
			return err
		}
		if err := drawTo(o.picture, drawing); err != nil {
			return err
		}
	}
	if err := deliver(cmd, o.output, text.Bytes()); err != nil {
		return err
	}
	if answer.Partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}
