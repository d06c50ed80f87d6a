package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"playout/internal/scenario"
	"playout/model"
)

func newDefaultsCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "defaults [FILE]",
		Short: "Print a scenario with every value filled in",
		Long: `Defaults prints the league-average scenario in full: every player, place and
number that a scenario file can say, with the physical value behind each
percentile. With a FILE ("-": standard input) it prints that scenario in full,
including what the file leaves to the defaults or takes from another file or a
library block. What it prints is a scenario file itself.

How a build-up begins, start: {from: WORD}:
` + scenario.Starts() + `
player: 4 beside it says who has the ball.`,
		Example: `  playout defaults > plan.yaml
  playout defaults scenarios/narrow-diamond.yaml`,
		Args: atMostOneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			sc := new(model.AverageScenario())
			if len(args) == 1 {
				var err error
				if sc, err = scenario.Load(args[0]); err != nil {
					return err
				}
			}
			text, err := scenario.Canonical(sc)
			if err != nil {
				return err
			}
			return printText(cmd, text)
		},
	}
}

// atMostOneFile refuses a second argument.
func atMostOneFile(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return usagef("%s takes one file at most, not %d", cmd.CommandPath(), len(args))
	}
	return nil
}

// noArguments refuses arguments.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usagef("%s takes no arguments", cmd.CommandPath())
	}
	return nil
}

func printText(cmd *cobra.Command, text []byte) error {
	if _, err := cmd.OutOrStdout().Write(text); err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}
