package main

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"playout/internal/scenario"
	"playout/model"
)

func newCheckCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "check FILE...",
		Short: "Look for mistakes in scenarios without playing them",
		Long: `Check reads scenario files ("-": standard input) as strictly as run does and
says for each whether it can be played. A mistake is shown with its line and a
way to mend it; the first one of each file, with the number of those after it.
What is no mistake but may not be meant is noted: runs that take the place of
more runs, men in a line of the block that is not theirs, and a start with
another man than it means.

Exit status: 0 all files are good, 1 some are not, 2 wrong use.`,
		Example: `  playout check plan.yaml
  playout check scenarios/*.yaml`,
		Args: someFiles,
		RunE: check,
	}
}

// someFiles insists on at least one argument.
func someFiles(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return usagef("%s takes at least one file; for example: %s plan.yaml", cmd.CommandPath(), cmd.CommandPath())
	}
	return nil
}

func check(cmd *cobra.Command, files []string) error {
	bad := 0
	for _, file := range files {
		sc, notes, err := scenario.Check(file)
		switch {
		case err == nil:
			fmt.Fprintf(cmd.OutOrStdout(), "%s: ok (%s)\n", printable(file), inShort(sc))
			for _, note := range notes {
				fmt.Fprintln(cmd.OutOrStdout(), note)
			}
		case len(files) == 1:
			return err
		default:
			bad++
			fmt.Fprintln(cmd.ErrOrStderr(), err)
		}
	}
	if bad > 0 {
		return fmt.Errorf("%d of %d files cannot be played", bad, len(files))
	}
	return nil
}

// inShort tells one scenario from another in a line.
func inShort(sc *model.Scenario) string {
	block := &sc.Teams[model.Defence].Block
	return fmt.Sprintf("%s: %s against %s in a %s, last line at %.0f m; %d possessions",
		sc.Title, sc.Teams[model.Attack].Name, sc.Teams[model.Defence].Name, block.Shape, block.LineHeight, sc.Possessions)
}

// printable quotes the name of a file when it could upset a terminal.
func printable(name string) string {
	if strings.ContainsFunc(name, func(r rune) bool { return !unicode.IsPrint(r) }) {
		return strconv.Quote(name)
	}
	return name
}
