package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/picture"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/internal/search"
	"playout/model"
)

// searchBudget is how many build-ups a search plays when it is not told: about two
// minutes on two cores.
const searchBudget = 400_000

// searchOptions are the flags of playout search.
type searchOptions struct {
	free, choose, move    []string
	figure                string
	budget, seed, workers whole
	format                formFlag
	output, write         string
	picture               string
	full, quiet           bool
}

func newSearchCmd() *cobra.Command {
	o := &searchOptions{
		budget:  whole{value: searchBudget, min: 1, max: model.MaxPossessions},
		seed:    whole{max: math.MaxUint64},
		workers: whole{min: 1, max: maxWorkers},
		format:  newFormFlag(answerForms),
	}
	cmd := &cobra.Command{
		Use:   "search FILE",
		Short: "Look for a better structure within the freedom you allow",
		Long: `Search changes the scenario in FILE within the freedom you allow and looks for
a variant with more (or, of what one wants little of, less) of one figure:

  --move 6,8:5              players 6 and 8 of the attack may each stand up to
                            5 m from where they do, shifted the same way in all
                            phases
  --move 2,3:6@final_third  only in the phases named (several: with commas)
  --free PATH=FROM:TO       a number of the scenario, a run's chance too:
                            attack.runs.1.chance=0:0.6
  --choose PATH=WORD,WORD   one of several words; as it is stays a choice

Variants are drawn by an evolution strategy (CMA-ES). Those of a generation
share their luck with the original; those that are clearly not among the better
half are given up early. At the end the likeliest race for the best. Chance alone
makes the best of many look good, so the last fifth of the budget is kept apart:
on build-ups that the search has not seen, what it settled on is played against
the original, and only they decide. When they do not show it to be better, the
answer says so and no file is written.

The default figure, net_xg, counts what a lost ball costs. final_third is
blurred less by chance, so a search sees more with it, but it does not mind
losses. The opponent's block does not adapt to what is found: see playout
matrix.

A place that the checks of a scenario refuse (two men within 1 m) is drawn anew;
a shift beyond the line of the pitch ends there. The same file, flags and
version give the same answer with any number of workers.

Ctrl-C ends the search; the best so far is then judged, on as many fresh
build-ups as its part of the budget gives, and marked PARTIAL, in the file of
--output too. A second Ctrl-C cuts that short too. Exit status: 0 whole answer,
1 no answer, 2 wrong use, 130 partial answer.`,
		Example: `  playout search plan.yaml --move 6,8,10:6 --free attack.plan.tempo=0.8:2.5
  playout search plan.yaml --move 2,3:8@progression,final_third --write found.yaml
  playout search plan.yaml --free attack.runs.1.chance=0:0.6 --figure final_third`,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.run(cmd, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringArrayVar(&o.move, "move", nil, "players who may move: `NUMBERS:METRES[@PHASES]`; may be repeated")
	f.StringArrayVar(&o.free, "free", nil, "a number that may change: `PATH=FROM:TO`; may be repeated")
	f.StringArrayVar(&o.choose, "choose", nil, "a word that may change: `PATH=WORD,WORD`; may be repeated")
	f.StringVar(&o.figure, "figure", "net_xg", "the `name` of the figure that is to be better (playout help metrics)")
	f.Var(&o.budget, "budget", fmt.Sprintf("build-ups to play in all (default: %d)", searchBudget))
	f.Var(&o.seed, "seed", "names the luck (default: the file's)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	f.StringVar(&o.write, "write", "", "if it is better, write the variant to this `file`, which extends FILE")
	addOutput(cmd, &o.format, &o.output)
	f.StringVar(&o.picture, "picture", "", "draw how the search went into this .svg or .png `file`")
	f.BoolVar(&o.full, "full", false, "print how the search went (csv and json always hold it)")
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
	for flag, complete := range map[string]cobra.CompletionFunc{"free": completeVary, "choose": completeVary, "figure": completeFigure} {
		if err := cmd.RegisterFlagCompletionFunc(flag, complete); err != nil {
			panic(err)
		}
	}
	return keepsParts(cmd, cellsDepend)
}

func (o *searchOptions) run(cmd *cobra.Command, file string) error {
	figure, err := experiment.FigureNamed(o.figure)
	if err != nil {
		return usagef("--figure: %w", err)
	}
	kept := sessionOf(cmd)
	base, err := scenario.OpenFrom(file, kept.read)
	if err != nil {
		return err
	}
	freedom, err := o.freedom(base)
	if err != nil {
		return err
	}
	if least := search.Least(freedom); o.budget.value < uint64(least) {
		return usagef("--budget %d is too small to look at %d free numbers; give at least %d, better a hundred times that",
			o.budget.value, freedom.Dimensions(), least)
	}
	if err := prepareOutput(cmd, &o.output, base.Files()); err != nil {
		return err
	}
	if err := o.prepareFiles(cmd, base); err != nil {
		return err
	}
	cfg := search.Config{Figure: figure, Budget: int(o.budget.value), Seed: base.Scenario().Seed, Workers: int(o.workers.value), Play: kept.play}
	if o.seed.set {
		cfg.Seed = o.seed.value
	}
	found, err := o.search(cmd, freedom, cfg)
	if err != nil {
		return err
	}
	written, err := o.writeVariant(found)
	if err != nil {
		return err
	}
	answer := report.NewSearch(found, written, version())
	var text bytes.Buffer
	if err := answer.Write(&text, report.Format(o.format.name), o.full); err != nil {
		return err
	}
	if o.picture != "" {
		image, err := picture.Encode(o.picture, answer.Picture())
		if err == nil {
			err = writeOutput("picture", o.picture, image)
		}
		if err != nil {
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

// freedom is what the flags allow.
func (o *searchOptions) freedom(base *scenario.Base) (*search.Freedom, error) {
	f := search.NewFreedom(base)
	for _, kind := range []struct {
		flag  string
		texts []string
		allow func(string) error
	}{{"move", o.move, f.Move}, {"free", o.free, f.Number}, {"choose", o.choose, f.Choose}} {
		for _, text := range kind.texts {
			if err := kind.allow(text); err != nil {
				return nil, usagef("--%s: %w", kind.flag, err)
			}
		}
	}
	if f.Dimensions() == 0 {
		return nil, usagef("nothing is free to change; allow something, such as --move 6,8:5 or --free attack.plan.tempo=0.8:2")
	}
	return f, nil
}

// search searches with a progress line. The first Ctrl-C ends the search and lets
// what it found be judged, the second ends that.
func (o *searchOptions) search(cmd *cobra.Command, f *search.Freedom, cfg search.Config) (*search.Result, error) {
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	cfg.Progress = show
	judging, cancel := context.WithCancel(context.WithoutCancel(ctx))
	defer cancel()
	unhook := context.AfterFunc(ctx, func() {
		again, stopAgain := untilInterrupted(context.WithoutCancel(ctx))
		context.AfterFunc(again, cancel)
		context.AfterFunc(judging, stopAgain)
	})
	defer unhook()
	found, err := search.Run(ctx, judging, f, cfg)
	switch {
	case err == nil:
		return found, nil
	case ctx.Err() != nil && errors.Is(err, ctx.Err()):
		return nil, fmt.Errorf("%w before the first generation was over; there is nothing to report", errInterrupted)
	}
	return nil, fmt.Errorf("searching: %w", err)
}
