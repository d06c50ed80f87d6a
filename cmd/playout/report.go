package main

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/explain"
	"playout/internal/hinge"
	"playout/internal/page"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// reportOptions are the flags of playout report on one scenario.
type reportOptions struct {
	runOptions
	sensitivity whole
}

func newReportCmd() *cobra.Command {
	o := &reportOptions{runOptions: newRunOptions(), sensitivity: whole{min: 4, max: maxPoints}}
	cmd := &cobra.Command{
		Use:   "report FILE -o report.html",
		Short: "Write a report to hand over: one file with pictures",
		Long: `Report plays the scenario in FILE ("-": standard input) and writes one HTML file
that needs nothing else: the question, the set-up of both sides in each phase, the
answer, how far it gets, entries and chances by lane, why it fails with the scenes
most typical of that, the block, what a loss costs, the limits of the model and all
it takes to repeat it. It opens in any browser, on a phone as well, and prints to A4
(the browser's print makes a PDF).

With --sensitivity it also finds out what the answer hangs on, which takes some
345,000 build-ups; --sensitivity=512 looks from 512 places instead of 128.

report compare, report sweep and report matrix do the same for these experiments,
with their flags. A report on an explanation's scenes looks at the first ` + fmt.Sprint(explain.DefaultPossessions) + `
build-ups.

--format md writes Markdown with the pictures as SVG beside it. --pictures DIR
writes every picture into a directory; --pictures DIR/ladder.png one of them.

Exit status: 0 whole report, 1 none, 2 wrong use, 130 partial.`,
		Example: `  playout report plan.yaml -o report.html
  playout report plan.yaml -o report.html --sensitivity
  playout report compare plan.yaml variant.yaml -o report.html
  playout report sweep plan.yaml --vary attack.plan.tempo=0.8:2.8:0.4 -o tempo.html
  playout report matrix --plans a.yaml,b.yaml --answers 4-4-2-low,press.yaml -o m.html`,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.report(cmd, args[0]) },
	}
	o.addTo(cmd)
	f := cmd.Flags()
	f.Var(&o.sensitivity, "sensitivity", "also find out what the answer hangs on, looking from so many `places`")
	f.Lookup("sensitivity").NoOptDefVal = fmt.Sprint(defaultPoints)
	asReport(cmd)
	for _, sub := range []*cobra.Command{newCompareCmd(), newSweepCmd(), newMatrixCmd()} {
		name := sub.Name()
		sub.Short = "Report on what playout " + name + " finds"
		sub.Long = "Report " + name + " plays what playout " + name + " plays and writes a report as playout report does.\nWhat it does and what the flags mean: playout " + name + " --help."
		sub.Example = ""
		cmd.AddCommand(asReport(sub))
	}
	return cmd
}

func (o *reportOptions) report(cmd *cobra.Command, file string) error {
	if err := o.check(); err != nil {
		return err
	}
	base, err := scenario.Open(file)
	if err != nil {
		return err
	}
	own := *base.Scenario()
	sc := &own
	o.lay(sc)
	if err := prepareOutput(cmd, &o.output, base.Files()); err != nil {
		return err
	}
	result, err := o.play(cmd, sc)
	if err != nil {
		return err
	}
	in := page.RunInput{Scenario: sc, Summary: o.summarise(sc, result)}
	partial := result.Partial()
	if !partial {
		if in.Failures, err = o.failures(cmd, file, sc, base.Scenario().Seed); err != nil {
			return err
		}
		partial = in.Failures == nil
	}
	if o.sensitivity.set && !partial {
		if in.Sensitivity, err = o.hangsOn(cmd, base, sc.Seed); err != nil {
			return err
		}
		partial = in.Sensitivity.Partial
	}
	return reportingOf(cmd).deliver(cmd, o.output, partial, []*model.Scenario{sc}, []string{file}, func(again page.Repeat) (*page.Page, error) {
		in.Repeat = again
		return page.Run(in)
	})
}

// experiment are the flags that the parts of a report hand on.
func (o *reportOptions) experiment() experimentOptions {
	e := newExperimentOptions()
	e.workers, e.quiet = o.workers, o.quiet
	return e
}

// failures explains the first build-ups; nil when that was interrupted.
func (o *reportOptions) failures(cmd *cobra.Command, file string, sc *model.Scenario, seed uint64) (*page.Failures, error) {
	filmed := explainOptions{experimentOptions: o.experiment()}
	cfg := explain.Config{Seed: sc.Seed, Possessions: min(explain.DefaultPossessions, sc.Possessions), Workers: int(o.workers.value)}
	var stories []explain.Story
	err := filmed.filming(cmd, cfg.Possessions, func(ctx context.Context, progress func(int)) (err error) {
		cfg.Progress = progress
		stories, err = explain.Collect(ctx, sc, nil, cfg, explain.Teller(sc, explain.ToFinalThird))
		return err
	})
	switch {
	case errors.Is(err, errInterrupted):
		return nil, nil
	case err != nil:
		return nil, err
	}
	e := report.NewExplain(report.ExplainRun{
		File: file, Scenario: sc, Stories: stories, Goal: explain.ToFinalThird, Asked: cfg.Possessions,
		Seed: cfg.Seed, Own: cfg.Seed == seed, Version: version(), Revision: sim.Revision,
	})
	return page.FailuresOf(e, stories, page.Filmed(sc)), nil
}

// hangsOn asks what the usual inputs do to the final-third entries.
func (o *reportOptions) hangsOn(cmd *cobra.Command, base *scenario.Base, seed uint64) (*report.Sensitivity, error) {
	s := sensitivityOptions{experimentOptions: o.experiment()}
	inputs, err := s.inputs(base)
	if err != nil {
		return nil, err
	}
	study, err := s.play(cmd, base, inputs, hinge.Question{
		Figure: experiment.Figures[0], Seed: seed, Possessions: defaultPerPoint, Points: int(o.sensitivity.value), Workers: int(o.workers.value),
	})
	if err != nil {
		return nil, err
	}
	return report.DescribeSensitivity(base.Scenario().Title, study, version(), sim.Revision), nil
}
