package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"reflect"
	"runtime"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/page"
	"playout/internal/picture"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// sweepPossessions is how many build-ups of each cell a sweep plays when it is
// not told: a rate of a half is then known to plus or minus 1.5 in 100, and the
// differences better.
const sweepPossessions = 4000

// sweepOptions are the flags of playout sweep.
type sweepOptions struct {
	experimentOptions
	vary            []string
	figure, picture string
	paths           bool
}

func newSweepCmd() *cobra.Command {
	o := &sweepOptions{experimentOptions: newExperimentOptions()}
	cmd := &cobra.Command{
		Use:   "sweep FILE --vary PATH=FROM:TO:STEP",
		Short: "Let a value of the scenario go from here to there and see what it does",
		Long: `Sweep plays the scenario in FILE with other values in it and prints how a figure
changes with them: with its 95% interval, the difference to the scenario as it
stands, and where it turns, if the build-ups played support a turning point.

A value is named by its path, in the keys of the scenario file: defence.block.width,
attack.plan.tempo, attack.players.7.pace (by shirt number), attack.runs.2.chance
(by place in the list), attack.structure.build_up.6.x; a library block
(defence.block) or a shape (attack.structure.build_up) is a word. --paths lists
them all with what they are now and what they may be; the shell completes them
(playout completion --help).

    --vary defence.block.press.height=40:100:5     numbers from, to, step
    --vary defence.block=4-4-2-mid,4-5-1-low       a list of words or numbers

Two or more --vary make a grid of all combinations. Every cell is played with the
same luck, build-up by build-up, so that differences show sooner than the values'
own intervals suggest. --picture draws one value as a curve with its interval as a
band, words as rows, two values as a grid.

A maximum or minimum is stated only where both ends of the range are surely below
(above) another value, by intervals of all differences that hold together; a bend
only where two lines fit surely better than one. On a curve without a turning
point a false one comes in at most one sweep of twenty.

Ctrl-C stops and prints the answer so far, marked PARTIAL, or puts it into the
file of --output. Exit status: 0 whole answer, 1 no answer, 2 wrong use, 130
partial answer.`,
		Example: `  playout sweep plan.yaml --vary defence.block.press.height=40:100:5 --picture press.svg
  playout sweep plan.yaml --vary defence.block.width=28:40:4 --vary attack.plan.tempo=1,1.5,2
  playout sweep plan.yaml --vary defence.block=4-4-2-low,4-4-2-mid,4-4-2-high --figure net_xg
  playout sweep plan.yaml --paths`,
		Args:              oneFile,
		ValidArgsFunction: completeFile,
		RunE:              func(cmd *cobra.Command, args []string) error { return o.sweep(cmd, args[0]) },
	}
	o.format = newFormFlag(sweepForms)
	o.addTo(cmd, fmt.Sprintf("build-ups of each cell (default: %d)", sweepPossessions))
	f := cmd.Flags()
	f.StringArrayVar(&o.vary, "vary", nil, "a value and what it becomes: `path=from:to:step` or path=a,b,c; may be repeated")
	f.StringVar(&o.figure, "figure", "final_third", "the `name` of the figure asked about (playout help metrics)")
	f.StringVar(&o.picture, "picture", "", "draw it into this `file`, .svg or .png")
	f.BoolVar(&o.paths, "paths", false, "list the paths of the scenario and play nothing")
	for flag, complete := range map[string]cobra.CompletionFunc{"vary": completeVary, "figure": completeFigure} {
		if err := cmd.RegisterFlagCompletionFunc(flag, complete); err != nil {
			panic(err)
		}
	}
	return keepsParts(cmd, cellsFixed)
}

// grid is what a sweep plays.
type grid struct {
	axes  []report.Axis
	cells []experiment.Cell // the scenario as it stands first
	index []int             // the cell of each combination, the last axis changing fastest
}

func (o *sweepOptions) sweep(cmd *cobra.Command, file string) error {
	kept := sessionOf(cmd)
	base, err := scenario.OpenFrom(file, kept.read)
	if err != nil {
		return err
	}
	if o.paths {
		return listPaths(cmd, base)
	}
	figure, err := experiment.FigureNamed(o.figure)
	if err != nil {
		return usagef("--figure: %w", err)
	}
	if err := o.checkOutputs(cmd, base.Files()); err != nil {
		return err
	}
	g, err := o.grid(base)
	if err != nil {
		return err
	}
	run := report.SweepRun{
		File: file, Title: base.Scenario().Title, Axes: g.axes, Grid: g.index, Figure: figure,
		Seed: base.Scenario().Seed, Asked: sweepPossessions, Version: version(), Revision: sim.Revision,
	}
	if o.seed.set {
		run.Seed = o.seed.value
	}
	if o.possessions.set {
		run.Asked = int(o.possessions.value)
	}
	if err := checkSize(len(g.cells), run.Asked); err != nil {
		return err
	}
	run.Results, err = o.playing(cmd, func(ctx context.Context, progress func(done, of int)) (*experiment.Results, error) {
		return kept.play(ctx, g.cells, experiment.Config{Seed: run.Seed, Possessions: run.Asked, Workers: int(o.workers.value), Progress: progress})
	})
	if err != nil {
		return err
	}
	answer := report.NewSweep(run)
	if r := reportingOf(cmd); r != nil {
		sc := base.Scenario()
		return r.deliver(cmd, o.output, answer.Partial, []*model.Scenario{sc}, []string{file}, func(again page.Repeat) (*page.Page, error) {
			return page.Sweep(answer, sc, again)
		})
	}
	return o.deliver(cmd, answer)
}

// checkOutputs looks at where the answer is to go before anything is played.
func (o *sweepOptions) checkOutputs(cmd *cobra.Command, inputs []string) error {
	if err := prepareOutput(cmd, &o.output, inputs); err != nil {
		return err
	}
	if report.Format(o.format.name) == report.Parquet && o.output == "" {
		return usagef("--format parquet is no text to print; give --output and a file")
	}
	if !cmd.Flags().Changed("picture") {
		return nil
	}
	if len(o.vary) > 2 {
		return usagef("--picture shows one or two values that vary, not %d; leave it out, or vary fewer", len(o.vary))
	}
	return preparePicture(cmd, o.picture, o.output, inputs)
}

// grid makes the cells of all combinations.
func (o *sweepOptions) grid(base *scenario.Base) (*grid, error) {
	if len(o.vary) == 0 {
		return nil, usagef("nothing varies; give --vary, for example --vary defence.block.press.height=40:100:10 (--paths lists what there is)")
	}
	g := &grid{}
	combinations := 1
	for _, text := range o.vary {
		a, err := vary(base, text)
		if err != nil {
			return nil, err
		}
		for _, b := range g.axes {
			if a.Path == b.Path {
				return nil, usagef("--vary %s is given twice; write all its values in one", a.Path)
			}
		}
		g.axes = append(g.axes, a)
		combinations *= len(a.Values)
		if combinations > mostCells {
			return nil, usagef("these are %d combinations or more; a sweep plays at most %d: take larger steps or vary less", combinations, mostCells)
		}
	}
	if err := g.fill(base, combinations); err != nil {
		return nil, usagef("--vary %w", err)
	}
	return g, nil
}

// fill makes the scenarios, several at once, and finds the one that stands in the
// file.
func (g *grid) fill(base *scenario.Base, combinations int) error {
	made := make([]*model.Scenario, combinations)
	errs := make([]error, combinations)
	var wg sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wg.Go(func() {
			for i := w; i < combinations; i += workers {
				made[i], errs[i] = base.With(g.settings(i)...)
			}
		})
	}
	wg.Wait()
	if err := errors.Join(firstOf(errs)); err != nil {
		return err
	}
	stands := base.Scenario()
	g.cells = []experiment.Cell{{Name: "as it stands", Scenario: stands}}
	for i, sc := range made {
		if reflect.DeepEqual(sc, stands) {
			g.index = append(g.index, 0)
			continue
		}
		g.index = append(g.index, len(g.cells))
		var name []string
		for _, s := range g.settings(i) {
			name = append(name, s.String())
		}
		g.cells = append(g.cells, experiment.Cell{Name: strings.Join(name, " "), Scenario: sc})
	}
	return nil
}

func firstOf(errs []error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// settings are those of a combination.
func (g *grid) settings(i int) []scenario.Setting {
	out := make([]scenario.Setting, len(g.axes))
	for k := len(g.axes) - 1; k >= 0; k-- {
		a := &g.axes[k]
		out[k] = scenario.Setting{Path: a.Path, Value: a.Values[i%len(a.Values)]}
		i /= len(a.Values)
	}
	return out
}

// deliver draws and prints. Both are made before either is written.
func (o *sweepOptions) deliver(cmd *cobra.Command, s *report.Sweep) error {
	var text bytes.Buffer
	if err := s.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	if o.picture != "" {
		drawing, err := s.Picture()
		if err != nil {
			return err
		}
		image, err := picture.Encode(o.picture, drawing)
		if err != nil {
			return err
		}
		if err := writeOutput("picture", o.picture, image); err != nil {
			return err
		}
	}
	if err := deliver(cmd, o.output, text.Bytes()); err != nil {
		return err
	}
	if s.Partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}
