package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"playout/internal/explain"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/sim"
)

// explainOptions are the flags of playout explain.
type explainOptions struct {
	experimentOptions
	goal, focus, picture string
	search               whole
	win                  float64
}

// maxFilmed is how many build-ups may be explained at once: about 2 kB are kept of each.
const maxFilmed = 1_000_000

func newExplainCmd() *cobra.Command {
	o := &explainOptions{experimentOptions: newExperimentOptions()}
	cmd := &cobra.Command{
		Use:   "explain FILE",
		Short: "Say why build-ups fail, what works, and which scene to look at",
		Long: `Explain plays the scenario in FILE and reads every build-up off its film: why it
failed (one cause each, ranked, with 95% intervals), what goes with each cause, the
scene most typical of it, what works, and how the build-ups flow from the start
through thirds, lanes and the key action to their end.

A build-up works when it reaches the final third under control (--goal box or
shot: the penalty area, a shot). A typical scene is the one whose distances to all
others of its cause add up to the least, not the prettiest: look at it with playout
replay FILE --possession NUMBER.

With --focus it looks at the races of the ball against the block instead: switches
of play, passes to an overlap or underlap, passes forward into the centre, or the
block's press. It says how many are won, where the block was, and what would have
to change for half of them to be won: tempo, the speed of passes, men who pin the
last line, starting width, one at a time, found by playing variants with the same
luck (up to 25 variants of --search build-ups each).

Definitions: playout help metrics. Ctrl-C stops and prints the answer so far, marked
PARTIAL, or puts it into the file of --output. Exit status: 0 whole answer, 1 no
answer, 2 wrong use, 130 partial answer.`,
		Example: `  playout explain plan.yaml --picture flow.svg
  playout explain plan.yaml --goal shot --format markdown
  playout explain late-switch.yaml --focus switch --picture race.svg`,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.explain(cmd, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringVar(&o.goal, "goal", "final_third", "what a build-up has to reach: `final_third`, box or shot")
	f.StringVar(&o.focus, "focus", "", "look at one kind of `race`: switch, overlap, underlap, centre or press")
	f.Float64Var(&o.win, "win", explain.Half, "the share of races that --focus looks for a way to win")
	o.search.min, o.search.max = 2, maxFilmed
	f.Var(&o.search, "search", fmt.Sprintf("build-ups of each variant in the search of --focus (default: %d or --possessions, whichever is less)", explain.DefaultSearch))
	o.addTo(cmd, fmt.Sprintf("build-ups to play (default: %d)", explain.DefaultPossessions))
	addPicture(cmd, &o.picture)
	return cmd
}

func (o *explainOptions) explain(cmd *cobra.Command, file string) error {
	goal, err := explain.GoalNamed(o.goal)
	if err != nil {
		return usagef("--goal: %w", err)
	}
	var focus explain.Focus
	if cmd.Flags().Changed("focus") {
		if focus, err = explain.FocusNamed(o.focus); err != nil {
			return usagef("--focus: %w", err)
		}
		if cmd.Flags().Changed("goal") {
			return usagef("--goal is for whole build-ups, --focus looks at races instead; leave one of them out")
		}
	} else if o.search.set || cmd.Flags().Changed("win") {
		return usagef("--search and --win go with --focus; give it too, or leave them out")
	}
	if !(o.win > 0 && o.win < 1) {
		return usagef("--win is %v; it is a share between 0 and 1, such as 0.5", o.win)
	}
	base, err := scenario.Open(file)
	if err != nil {
		return err
	}
	if err := prepareOutput(cmd, &o.output, base.Files()); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, base.Files()); err != nil {
		return err
	}
	cfg := explain.Config{Seed: base.Scenario().Seed, Possessions: explain.DefaultPossessions, Workers: int(o.workers.value)}
	if o.seed.set {
		cfg.Seed = o.seed.value
	}
	if o.possessions.set {
		if o.possessions.value > maxFilmed {
			return usagef("--possessions is %d; explain keeps the story of every build-up, of at most %d", o.possessions.value, maxFilmed)
		}
		cfg.Possessions = int(o.possessions.value)
	}
	if o.focus != "" {
		return o.races(cmd, base, focus, cfg)
	}
	return o.causes(cmd, base, goal, cfg)
}

// causes explains whole build-ups.
func (o *explainOptions) causes(cmd *cobra.Command, base *scenario.Base, goal explain.Goal, cfg explain.Config) error {
	sc := base.Scenario()
	var stories []explain.Story
	err := o.filming(cmd, cfg.Possessions, func(ctx context.Context, progress func(int)) (err error) {
		cfg.Progress = progress
		stories, err = explain.Collect(ctx, sc, nil, cfg, explain.Teller(sc, goal))
		return err
	})
	if err := partial(err, len(stories)); err != nil {
		return err
	}
	e := report.NewExplain(report.ExplainRun{
		File: base.File(), Scenario: sc, Stories: stories, Goal: goal, Asked: cfg.Possessions,
		Seed: cfg.Seed, Own: cfg.Seed == sc.Seed, Version: version(), Revision: sim.Revision,
	})
	var text bytes.Buffer
	if err := e.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	drawn := sceneTo(o.picture, e.Picture()) // an answer stands without its picture
	return errors.Join(deliver(cmd, o.output, text.Bytes()), drawn, err)
}

// races explains one kind of race.
func (o *explainOptions) races(cmd *cobra.Command, base *scenario.Base, focus explain.Focus, cfg explain.Config) error {
	sc := base.Scenario()
	levers, err := explain.LeversOf(base)
	if err != nil {
		return err
	}
	search := cfg
	search.Possessions = min(explain.DefaultSearch, cfg.Possessions)
	if o.search.set {
		search.Possessions = int(o.search.value)
	}
	run := report.RaceRun{
		File: base.File(), Scenario: sc, Focus: focus, Asked: cfg.Possessions, Search: search.Possessions, Levers: levers, Target: o.win,
		Seed: cfg.Seed, Own: cfg.Seed == sc.Seed, Version: version(), Revision: sim.Revision,
	}
	err = o.filming(cmd, cfg.Possessions+explain.Cells(len(levers))*search.Possessions, func(ctx context.Context, progress func(int)) (err error) {
		cfg.Progress, search.Progress = progress, progress
		run.Races, err = explain.Collect(ctx, sc, nil, cfg, explain.Runner(focus, sc.Pitch))
		if err != nil {
			return err
		}
		run.Changes, err = explain.Changes(ctx, base, levers, focus, o.win, search)
		return err
	})
	if err := partial(err, len(run.Races)); err != nil {
		return err
	}
	run.Partial = err != nil
	r := report.NewRace(run)
	var text bytes.Buffer
	if err := r.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	drawn := drawTo(o.picture, r.Picture()) // an answer stands without its picture
	return errors.Join(deliver(cmd, o.output, text.Bytes()), drawn, err)
}

// filming plays with a progress line of at most so many build-ups. A run that is cut
// short ends with errInterrupted.
func (o *explainOptions) filming(cmd *cobra.Command, most int, play func(ctx context.Context, progress func(int)) error) error {
	progress := func(int) {}
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	if show != nil {
		done := 0
		progress = func(more int) {
			done += more
			show(done, most)
		}
	}
	err := play(ctx, progress)
	if err != nil && ctx.Err() != nil && errors.Is(err, ctx.Err()) {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return err
}

// partial lets a run that was cut short pass as long as something was played.
func partial(err error, played int) error {
	switch {
	case errors.Is(err, errInterrupted) && played == 0:
		return fmt.Errorf("%w before the first build-up was over; there is nothing to report", errInterrupted)
	case errors.Is(err, errInterrupted):
		return nil
	}
	return err
}
