package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"playout/internal/draw"
	"playout/internal/explain"
	"playout/internal/replay"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// replayOptions are the flags of playout replay.
type replayOptions struct {
	possession, possessions, seed, workers whole
	typical                                string
	best                                   bool
	format                                 formFlag
	output                                 string
	quiet                                  bool
}

func newReplayCmd() *cobra.Command {
	o := &replayOptions{
		possession:  whole{max: model.MaxPossessions - 1},
		possessions: whole{min: 1, max: model.MaxPossessions},
		seed:        whole{max: math.MaxUint64},
		workers:     whole{min: 1, max: maxWorkers},
		format:      newFormFlag(replayForms),
	}
	cmd := &cobra.Command{
		Use:   "replay FILE",
		Short: "Show one build-up: in words, as a film, as pictures for slides",
		Long: `Replay plays one build-up of the scenario in FILE ("-": standard input) as
playout run played it, and shows it: every event with its time and place, each
pass with its chance when it was chosen, who left his place to press, the passes
forward that were open and left, how it ended and what the opponent made of it.

Which one: --possession N by its number, from 0; --typical CAUSE the one most
typical of a cause of failure, --best the one that worked best, both of the first
2,000 (--possessions). The causes are those of playout explain.

The account is printed. --output FILE makes, by the ending of its name,
  .txt   the account
  .html  a page that plays, stops and goes from event to event, without a network
  .svg   a picture that moves by itself
  .gif   the same for slides, about 1 MB for 20 s
  .png   its key moments side by side

One build-up shows how something can happen, not how often: playout run counts.`,
		Example: `  playout replay plan.yaml --possession 12
  playout replay plan.yaml --typical block-first --output lost.html
  playout replay plan.yaml --best --output best.gif`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.replay(cmd, args[0]) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.Var(&o.possession, "possession", "the build-up's number, from 0 (default: 0)")
	f.StringVar(&o.typical, "typical", "", "show the build-up most typical of this `cause` of failure")
	f.BoolVar(&o.best, "best", false, "show the build-up that worked best")
	f.Var(&o.possessions, "possessions", "build-ups to choose from (default: the file's, for --typical and --best 2000)")
	f.Var(&o.seed, "seed", "names the luck (default: the file's)")
	f.Var(&o.workers, "workers", "build-ups played at once (default: one for each processor)")
	addOutput(cmd, &o.format, &o.output)
	f.BoolVar(&o.quiet, "quiet", false, "no progress line")
	return cmd
}

func (o *replayOptions) replay(cmd *cobra.Command, file string) error {
	if chosen := cmd.Flags().Changed; o.best && (o.possession.set || chosen("typical")) || o.possession.set && chosen("typical") {
		return usagef("--possession, --typical and --best each name a build-up; give one of them")
	}
	var cause explain.Cause
	if cmd.Flags().Changed("typical") {
		var err error
		if cause, err = explain.CauseNamed(o.typical); err != nil {
			if near := nearCause(o.typical); near != "" {
				return usagef("--typical: there is no cause %q; did you mean %s?", o.typical, near)
			}
			return usagef("--typical: %w", err)
		}
	}
	sc, files, err := scenario.LoadFiles(file)
	if err != nil {
		return err
	}
	if o.seed.set {
		sc.Seed = o.seed.value
	}
	searched := explain.DefaultPossessions
	if o.possessions.set {
		sc.Possessions = int(o.possessions.value)
		searched = sc.Possessions
	}
	id := int(o.possession.value)
	if id >= sc.Possessions {
		return usagef("--possession is %d, but %q plays %d build-ups, numbered 0 to %d; give one of these, or more with --possessions", id, file, sc.Possessions, sc.Possessions-1)
	}
	if err := prepareOutput(cmd, &o.output, files); err != nil {
		return err
	}
	if (o.format.name == "gif" || o.format.name == "png") && !cmd.Flags().Changed("output") {
		return usagef("a picture is not printed unasked; name a file with --output, or pass it on with --output -")
	}
	if o.best || cmd.Flags().Changed("typical") {
		found, err := o.find(cmd, sc, searched, cause)
		if err != nil {
			return err
		}
		id = found.ID
	}
	story := replay.New(sc, sim.Record(sc, nil, id), version())
	shown, err := o.show(story)
	if err != nil {
		return err
	}
	return deliver(cmd, o.output, shown)
}

// nearCause is the name of the cause that another was probably meant to be, or whose words
// in the answer of playout explain these are; else "".
func nearCause(said string) string {
	var names, words []string
	for c := range explain.NumCauses {
		names, words = append(names, c.String()), append(words, report.CauseWords(c))
	}
	if near := scenario.Nearest(said, words); near != "" {
		return names[slices.Index(words, near)]
	}
	return scenario.Nearest(said, names)
}

// find looks for the typical or the best build-up with a progress line.
func (o *replayOptions) find(cmd *cobra.Command, sc *model.Scenario, possessions int, cause explain.Cause) (*explain.Story, error) {
	cfg := explain.Config{Seed: sc.Seed, Possessions: possessions, Workers: int(o.workers.value)}
	ctx, show, end := attended(cmd, o.quiet)
	defer end()
	if show != nil {
		done := 0
		cfg.Progress = func(add int) {
			done += add
			show(done, possessions)
		}
	}
	var found *explain.Story
	var err error
	if o.best {
		found, err = explain.Best(ctx, sc, nil, cfg)
	} else {
		found, err = explain.Typical(ctx, sc, nil, cfg, cause)
	}
	if errors.Is(err, context.Canceled) {
		return nil, fmt.Errorf("%w before the build-up was found; there is nothing to show", errInterrupted)
	}
	return found, err
}

// show makes the story in the format asked for.
func (o *replayOptions) show(story *replay.Story) ([]byte, error) {
	switch o.format.name {
	case "svg":
		return story.SVG(), nil
	case "html":
		return story.HTML()
	case "gif":
		return story.GIF()
	case "png":
		return story.Strip().PNG(draw.Light, 1)
	}
	return story.Text(), nil
}
