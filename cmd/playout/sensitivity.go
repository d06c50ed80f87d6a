package main

import (
	"bytes"
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/hinge"
	"playout/internal/picture"
	"playout/internal/report"
	"playout/internal/scenario"
	"playout/sim"
)

// What a sensitivity plays unless told otherwise: with the usual inputs some 345,000
// build-ups.
const (
	defaultPoints   = 128
	defaultPerPoint = 200
	maxPoints       = 2048 // their scenarios are kept: some 200 MB
)

// sensitivityOptions are the flags of playout sensitivity.
type sensitivityOptions struct {
	experimentOptions
	figure, picture string
	over            []string
	points          whole
}

func newSensitivityCmd() *cobra.Command {
	o := &sensitivityOptions{experimentOptions: newExperimentOptions(), points: whole{min: 4, max: maxPoints}}
	cmd := &cobra.Command{
		Use:   "sensitivity FILE",
		Short: "Find out what the result hangs on",
		Long: `Sensitivity varies many values of the scenario in FILE ("-": standard input) at
once, each within a span around what the file says, and tells which of them move a
figure most, which way and by how much. When there are more than ` + fmt.Sprint(hinge.Kept+1) + ` it screens them
first; the ` + fmt.Sprint(hinge.Kept) + ` strongest are then looked at one by one, the others together.

Without --over it asks the usual inputs. Their spans are judgements of what one can
be unsure of, or change, from match to match:

` + usualSpans() + `
A level is the percentile of all qualities that players do not say themselves. --over
PATH=FROM:TO names an input and its span, --over PATH takes its usual span, --over all
asks the values above for both teams, the lanes of their plans and the chances of
their runs. A span that breaks a rule of the scenario together with another is narrowed,
and the answer says so.

What is played: a quarter of --points rows of a point for every input and one more, to
screen; then --points rows of up to ` + fmt.Sprint(hinge.Kept+3) + ` points; --possessions build-ups of each point. By
default that is some 345,000 for the usual inputs: one to two minutes on two processors. Four
times the points halve the intervals.

Ctrl-C prints what there is, marked PARTIAL, or puts it into the file of --output;
with --parts the same command goes on from there. Exit status: 0 whole
answer, 1 no answer, 2 wrong use, 130 partial answer.`,
		Example: `  playout sensitivity plan.yaml
  playout sensitivity plan.yaml --figure net_xg --points 512
  playout sensitivity plan.yaml --over defence.block.press.height=40:75 \
      --over defence.block.width=28:44 --over attack.plan.tempo
  playout sensitivity plan.yaml --picture hangs-on.svg`,
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error { return o.run(cmd, args[0]) },
	}
	o.addTo(cmd, fmt.Sprintf("build-ups of each point (default: %d)", defaultPerPoint))
	f := cmd.Flags()
	f.Var(&o.points, "points", fmt.Sprintf("places in the spans to look from (default: %d)", defaultPoints))
	f.StringVar(&o.figure, "figure", experiment.Figures[0].Name, "the `name` of the figure asked about (playout help metrics)")
	f.StringArrayVar(&o.over, "over", nil, "`PATH=FROM:TO` or PATH, an input; repeatable; or all (default: the usual inputs)")
	f.StringVar(&o.picture, "picture", "", "draw the ranking into this .svg or .png `file`")
	for flag, complete := range map[string]cobra.CompletionFunc{"over": completeVary, "figure": completeFigure} {
		if err := cmd.RegisterFlagCompletionFunc(flag, complete); err != nil {
			panic(err)
		}
	}
	return keepsParts(cmd, cellsDepend)
}

// usualSpans lists them for the help text.
func usualSpans() string {
	var b strings.Builder
	for _, line := range hinge.UsualSpans() {
		b.WriteString("  " + line + "\n")
	}
	return b.String()
}

func (o *sensitivityOptions) run(cmd *cobra.Command, file string) error {
	figure, err := experiment.FigureNamed(o.figure)
	if err != nil {
		return usageError{err}
	}
	kept := sessionOf(cmd)
	base, err := scenario.OpenFrom(file, kept.read)
	if err != nil {
		return err
	}
	inputs, err := o.inputs(base)
	if err != nil {
		return err
	}
	q := hinge.Question{Figure: figure, Seed: base.Scenario().Seed, Possessions: defaultPerPoint, Points: defaultPoints, Workers: int(o.workers.value)}
	if o.seed.set {
		q.Seed = o.seed.value
	}
	if o.possessions.set {
		q.Possessions = int(o.possessions.value)
	}
	if o.points.set {
		q.Points = int(o.points.value)
	}
	if err := checkSize(q.Points*(len(inputs)+2), q.Possessions); err != nil {
		return err
	}
	if err := prepareOutput(cmd, &o.output, base.Files()); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, base.Files()); err != nil {
		return err
	}
	q.Play = kept.play
	study, err := o.play(cmd, base, inputs, q)
	if err != nil {
		return err
	}
	return o.tell(cmd, report.DescribeSensitivity(base.Scenario().Title, study, version(), sim.Revision))
}

// inputs are those the user names, or the usual ones.
func (o *sensitivityOptions) inputs(base *scenario.Base) ([]hinge.Input, error) {
	if len(o.over) == 0 {
		return hinge.Usual(base), nil
	}
	var out []hinge.Input
	for _, s := range o.over {
		if s == "all" {
			out = append(out, hinge.All(base)...)
			continue
		}
		in, err := hinge.Parse(base, s)
		if err != nil {
			return nil, usageError{fmt.Errorf("--over: %w", err)}
		}
		out = append(out, in)
	}
	if path := hinge.Twice(out); path != "" {
		return nil, usagef("--over names %s twice; keep one of the two", path)
	}
	if len(out) < 2 {
		return nil, usagef("--over names one input, which all hangs on then; name at least two, or leave --over out")
	}
	return out, nil
}

func (o *sensitivityOptions) play(cmd *cobra.Command, base *scenario.Base, inputs []hinge.Input, q hinge.Question) (*hinge.Study, error) {
	if !o.quiet {
		if newProgress(cmd.ErrOrStderr()) != nil { // a terminal
			fmt.Fprintf(cmd.ErrOrStderr(), "%d inputs, up to %d build-ups\n", len(inputs), q.Cost(len(inputs)))
		}
		q.Narrowed = func(note string) { fmt.Fprintln(cmd.ErrOrStderr(), note) }
	}
	var study *hinge.Study
	err := o.untilCut(cmd, func(ctx context.Context, progress func(done, of int)) (bool, error) {
		q.Progress = progress
		var err error
		study, err = hinge.Ask(ctx, base, inputs, q)
		return study != nil && (study.Effects != nil || study.Shares != nil), err
	})
	return study, err
}

func (o *sensitivityOptions) tell(cmd *cobra.Command, s *report.Sensitivity) error {
	var answer bytes.Buffer
	if err := s.Write(&answer, report.Format(o.format.name)); err != nil {
		return err
	}
	if err := deliver(cmd, o.output, answer.Bytes()); err != nil {
		return err
	}
	if err := o.draw(s); err != nil {
		return err
	}
	if s.Partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}

func (o *sensitivityOptions) draw(s *report.Sensitivity) error {
	if o.picture == "" {
		return nil
	}
	rows, err := s.Picture()
	if err != nil {
		return err
	}
	image, err := picture.Encode(o.picture, rows)
	if err != nil {
		return err
	}
	return writeOutput("picture", o.picture, image)
}
