package main

import (
	"bytes"

	"github.com/spf13/cobra"

	"playout/internal/page"
	"playout/internal/report"
	"playout/internal/still"
	"playout/scenarios"
	"playout/sim"
)

// stillOptions are the flags of playout still.
type stillOptions struct {
	format                 formFlag
	output, picture        string
	full, upright, example bool
}

func newStillCmd() *cobra.Command {
	o := &stillOptions{format: newFormFlag(answerForms)}
	cmd := &cobra.Command{
		Use:   "still FILE",
		Short: "Judge every option of the man on the ball in a still",
		Long: `Still reads where twenty-two players stand at one moment and who has the ball,
and says of everything he can do how likely it comes off, what it is worth, what
a failure costs, who is likely to cut it out, and how often he would choose it.
--picture draws it, with the control surface: how likely his side has a ball that
he plays to each place.

The file can be typed from a picture. --example prints one to start from:

    ball: 8                       # shirt number of who has it
    attack:  {1: [-45, 0], 2: [-10, 28], ...}
    defence: {1: [44, 0], ...}

Places are metres from the centre spot in one frame for both teams: the side on
the ball attacks +x, and +y is its left. Who moves is {at: [19, -27], running: goal}
(or own_goal, left, right, ball, a place [x, y]; speed: 7 in m/s, else 6) or has a
velocity: [vx, vy]. ball: {player: 8, facing: own_goal} says which way he faces,
foot: left which foot a man plays with, pitch: {length: 100, width: 64} the size.

scenario: plan.yaml takes players, plans and the pitch from a scenario, relative
to the still; the numbers are then those of its players. Without it everybody is
average for where he stands. The carrier has had the ball for a second.

JSON holds all numbers to their last digit, enough to compute the control model
again: playout help json.`,
		Example: `  playout still --example > still.yaml
  playout still still.yaml --picture still.svg
  playout still still.yaml --format json --output still.json`,
		Args: func(cmd *cobra.Command, args []string) error {
			if o.example {
				return noArguments(cmd, args)
			}
			return oneFile(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.example {
				return printText(cmd, scenarios.Still)
			}
			return o.judge(cmd, args[0])
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	addOutput(cmd, &o.format, &o.output)
	addPicture(cmd, &o.picture)
	f.BoolVar(&o.upright, "upright", false, "draw the attack up the picture, for a phone")
	f.BoolVar(&o.full, "full", false, "print every option (csv and json always do)")
	f.BoolVar(&o.example, "example", false, "print a still to start from and do nothing else")
	return cmd
}

func (o *stillOptions) judge(cmd *cobra.Command, file string) error {
	scene, err := still.Load(file)
	if err != nil {
		return err
	}
	if err := prepareOutput(cmd, &o.output, scene.Files); err != nil {
		return err
	}
	if err := preparePicture(cmd, o.picture, o.output, scene.Files); err != nil {
		return err
	}
	answer := report.NewStill(report.StillRun{
		File: file, Title: scene.Title, Still: &scene.Still, Judgement: scene.Still.Judge(nil), Version: version(), Revision: sim.Revision,
	})
	var text bytes.Buffer
	if err := answer.Write(&text, report.Format(o.format.name), o.full); err != nil {
		return err
	}
	if o.picture != "" {
		image, err := (&page.Figure{Scene: answer.Scene(o.upright)}).Encode(o.picture)
		if err != nil {
			return err
		}
		if err := writeOutput("picture", o.picture, image); err != nil {
			return err
		}
	}
	return deliver(cmd, o.output, text.Bytes())
}
