package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/page"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/model"
	"playout/scenarios"
	"playout/sim"
)

// matrixOptions are the flags of playout matrix.
type matrixOptions struct {
	experimentOptions
	plans, answers  []string
	figure, picture string
}

// maxSide is how many plans, or answers, a matrix may have.
const maxSide = 20

func newMatrixCmd() *cobra.Command {
	o := &matrixOptions{experimentOptions: newExperimentOptions()}
	cmd := &cobra.Command{
		Use:   "matrix --plans FILE,... --answers BLOCK|FILE,...",
		Short: "Play plans against the opponent's answers: which is safest, how to mix",
		Long: `Matrix plays every plan against every answer with the same luck, and prints what
each pairing is worth, the safest plan, the best answer to each, what never pays,
and how often each side should do what (the equilibrium of the zero-sum game).

A plan is a scenario file: its team on the ball, its start and its pitch count. An
answer is a scenario file whose defence counts, or a block of the library (playout
blocks), played by the defenders of the first plan's file.

The payoff is xG for minus xG against (--figure net_xg); any figure of which more
is good or bad for the side on the ball will do. Intervals of the mixes and of the
value come from 1,000 games solved again with other luck: the same build-ups drawn
anew in all pairings at once.

What one side gains the other loses, by assumption. Teams do not mix at random: a
share says how often a thing may be done before the other side can live off it.

Ctrl-C stops and prints the answer so far, marked PARTIAL, or puts it into the
file of --output. Exit status: 0 whole answer, 1 no answer, 2 wrong use, 130
partial answer.`,
		Example: `  playout matrix --plans patient.yaml,direct.yaml --answers press.yaml,stay.yaml
  playout matrix --plans plan.yaml --answers 4-4-2-low,4-4-2-mid,4-4-2-high
  playout matrix --plans a.yaml,b.yaml --answers 5-3-2-low,press.yaml --picture matrix.svg`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return usagef("playout matrix takes no arguments such as %q: name your files with --plans, theirs with --answers", args[0])
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return o.matrix(cmd) },
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.StringSliceVar(&o.plans, "plans", nil, "scenario `files` whose attacks are the plans")
	f.StringSliceVar(&o.answers, "answers", nil, "library `blocks`, or scenario files whose defences are the answers")
	f.StringVar(&o.figure, "figure", "net_xg", "the `name` of the figure that is the payoff (playout help metrics)")
	o.addTo(cmd, "build-ups of each pairing (default: the first plan's)")
	addPicture(cmd, &o.picture)
	return keepsParts(cmd, cellsFixed)
}

// judged is a figure with a good and a bad direction.
func judged(name string) (experiment.Figure, error) {
	f, err := experiment.FigureNamed(name)
	switch {
	case err != nil:
		return f, usagef("--figure: %w", err)
	case f.Sense == 0:
		return f, usagef("--figure: of %s more is neither good nor bad; choose another, such as net_xg, xg, final_third or lost", name)
	}
	return f, nil
}

func (o *matrixOptions) matrix(cmd *cobra.Command) error {
	figure, err := judged(o.figure)
	if err != nil {
		return err
	}
	s := sessionOf(cmd)
	p, cells, err := o.pairings(s)
	if err != nil {
		return err
	}
	p.Figure = figure
	run := report.Played{Seed: cells[0].Scenario.Seed, Variants: len(cells), Asked: int64(cells[0].Scenario.Possessions), Version: version(), Revision: sim.Revision}
	if o.seed.set {
		run.Seed = o.seed.value
	}
	if o.possessions.set {
		run.Asked = int64(o.possessions.value)
	}
	if run.Asked < 2 {
		return usagef("%q asks for one build-up, and from one nothing can be told; give --possessions", o.plans[0])
	}
	if err := checkSize(len(cells), int(run.Asked)); err != nil {
		return err
	}
	if err := prepareOutput(cmd, &o.output, s.files()); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, s.files()); err != nil {
		return err
	}
	results, err := o.playing(cmd, func(ctx context.Context, progress func(done, of int)) (*experiment.Results, error) {
		return s.play(ctx, cells, experiment.Config{Seed: run.Seed, Possessions: int(run.Asked), Workers: int(o.workers.value), Progress: progress})
	})
	if err != nil {
		return err
	}
	run.Possessions, run.Partial = int64(results.Paired()), !results.Complete()
	p.Outcomes = func(plan, answer int) []experiment.Outcome {
		return results.Outcomes(plan*len(p.Answers) + answer)[:results.Paired()]
	}
	matrix, err := report.NewMatrix(p, run)
	if err != nil {
		return err
	}
	if r := reportingOf(cmd); r != nil {
		var against []*model.Scenario // each plan against the first answer, then the first plan against the others
		var names []string
		for i := range cells {
			if plan, answer := i/len(p.Answers), i%len(p.Answers); plan == 0 || answer == 0 {
				against, names = append(against, cells[i].Scenario), append(names, cells[i].Name)
			}
		}
		return r.deliver(cmd, o.output, run.Partial, against, names, func(again page.Repeat) (*page.Page, error) {
			var first []*model.Scenario
			for i := range p.Plans {
				first = append(first, cells[i*len(p.Answers)].Scenario)
			}
			return page.Matrix(matrix, first, again), nil
		})
	}
	var text bytes.Buffer
	if err := matrix.Write(&text, report.Format(o.format.name)); err != nil {
		return err
	}
	if err := drawTo(o.picture, matrix.Picture()); err != nil {
		return err
	}
	if err := deliver(cmd, o.output, text.Bytes()); err != nil {
		return err
	}
	if run.Partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}

// pairings reads the plans and answers and makes the cells, plan by plan.
func (o *matrixOptions) pairings(s *session) (p report.Pairings, cells []experiment.Cell, err error) {
	for _, side := range []struct {
		flag  string
		names []string
	}{{"--plans", o.plans}, {"--answers", o.answers}} {
		switch {
		case len(side.names) == 0:
			return p, nil, usagef("%s names nothing; for example: playout matrix --plans a.yaml,b.yaml --answers 4-4-2-mid,press.yaml", side.flag)
		case len(side.names) > maxSide:
			return p, nil, usagef("%s names %d; %d is the most", side.flag, len(side.names), maxSide)
		}
		for i, name := range side.names {
			switch {
			case name == "":
				return p, nil, usagef("%s has an empty name; take one of its commas away", side.flag)
			case slices.Contains(side.names[:i], name):
				return p, nil, usagef("%s names %q twice; keep one of the two", side.flag, name)
			}
		}
	}
	var plans, answers []*model.Scenario
	for _, file := range o.plans {
		sc, err := s.scenario(file)
		if err != nil {
			return p, nil, err
		}
		plans = append(plans, sc)
		p.PlanTitles = append(p.PlanTitles, sc.Title)
	}
	for _, name := range o.answers {
		sc, block, err := o.answer(s, name, plans[0])
		if err != nil {
			return p, nil, err
		}
		if block {
			p.Opponent = plans[0].Teams[model.Defence].Name
		}
		answers = append(answers, sc)
		p.AnswerTitles = append(p.AnswerTitles, sc.Title)
	}
	p.Plans, p.Answers = shortNames(o.plans), shortNames(o.answers)
	for i, plan := range plans {
		for j, answer := range answers {
			sc := model.Meet(plan, answer)
			if plan.Pitch != answer.Pitch {
				return p, nil, fmt.Errorf("%s and %s play on pitches of different size; give both the same", o.plans[i], o.answers[j])
			}
			if faults := sc.Validate(); len(faults) > 0 {
				return p, nil, fmt.Errorf("%s does not fit against %s: %w", o.plans[i], o.answers[j], faults[0])
			}
			cells = append(cells, experiment.Cell{Name: p.Plans[i] + " against " + p.Answers[j], Scenario: sc})
		}
	}
	return p, cells, nil
}

// answer is the scenario whose defence an answer names: a library block, played by the
// defenders of plan, or a file.
func (o *matrixOptions) answer(s *session, name string, plan *model.Scenario) (sc *model.Scenario, block bool, err error) {
	if slices.Contains(scenarios.BlockNames(), name) {
		library, err := scenario.LoadBytes(name, []byte("defence: {block: "+name+"}"))
		if err != nil {
			return nil, false, err
		}
		with := *plan
		with.Title = name
		with.Teams[model.Defence] = plan.Teams[model.Defence].InBlock(library.Teams[model.Defence].Block)
		return &with, true, nil
	}
	if filepath.Ext(name) == "" && name != "-" && !strings.ContainsRune(name, filepath.Separator) {
		if _, err := s.read(name); err != nil {
			return nil, false, usagef("--answers: %q is neither a library block nor a file; %s", name, scenario.NearBlock(name))
		}
	}
	sc, err = s.scenario(name)
	return sc, false, err
}

// shortNames are the names of files without directory and extension, or as they are
// where two would be the same.
func shortNames(files []string) []string {
	short := func(name string) string {
		base := filepath.Base(name)
		if ext := filepath.Ext(base); ext == ".yaml" || ext == ".yml" {
			base = strings.TrimSuffix(base, ext)
		}
		return base
	}
	count := map[string]int{}
	for _, name := range files {
		count[short(name)]++
	}
	out := make([]string, len(files))
	for i, name := range files {
		out[i] = name
		if count[short(name)] == 1 {
			out[i] = short(name)
		}
	}
	return out
}
