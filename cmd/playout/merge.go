package main

import (
	"context"
	"slices"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/parts"
)

func newMergeCmd() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "merge DIR...",
		Short: "Answer an experiment from the parts it was played in",
		Long: `Merge reads the directories that --parts of an experiment has filled, on one
machine or several, and prints the answer: the same bytes as the same command
gives in one go. It plays nothing and needs no scenario file; the directories
hold what was asked. When build-ups are missing it says of which shares.

Every part is checked: that it is whole, and that it is of the same command,
files, seed, version, engine and architecture. What does not belong is refused.

How to spread an experiment over machines: playout help cluster.`,
		Example: `  playout compare a.yaml b.yaml --parts work --shard 1/2
  playout compare a.yaml b.yaml --parts work --shard 2/2
  playout merge work`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usagef("merge takes the directories that --parts has filled; for example: playout merge work")
			}
			return nil
		},
	}
	f := cmd.Flags()
	f.SortFlags = false
	f.String("format", "", "`name` of one of the experiment's formats (default: by the ending of --output)")
	f.StringP("output", "o", "", "write it to this `file`, with an ending as for the experiment, in one piece")
	f.String("picture", "", "draw the experiment's picture into this `file`")
	f.String("write", "", "write the variant that a search has found to this `file`")
	f.Bool("full", false, "print every table, where the experiment has more")
	cmd.RunE = func(cmd *cobra.Command, dirs []string) error { return merge(cmd, dirs) }
	return cmd
}

// merge repeats the command of the manifest with the parts in the place of playing.
func merge(cmd *cobra.Command, dirs []string) error {
	dir, err := parts.Join(dirs, experiment.OutcomeBytes)
	if err != nil {
		return err
	}
	m := dir.Manifest
	here := thisProgram()
	here.Seed, here.Command, here.Inputs = m.Seed, m.Command, m.Inputs
	if what := m.Against(&here); what != "" {
		return &parts.Fault{File: dirs[0], What: "was not played by this program: " + what,
			Mend: "merge with the program that played it, or play it anew in an empty directory"}
	}
	root := newRootCmd()
	again, _, err := root.Find(m.Command)
	if err != nil || again.Flags().Lookup("parts") == nil {
		return &parts.Fault{File: dirs[0], What: "its manifest holds no experiment: playout " + m.CommandLine(), Mend: "start again with an empty directory"}
	}
	words := slices.Clone(m.Command)
	at := slices.Index(words, "--")
	if at < 0 {
		at = len(words)
	}
	for _, name := range []string{"format", "output", "picture", "write", "full"} {
		given := cmd.Flags().Lookup(name)
		switch {
		case !given.Changed:
		case again.Flags().Lookup(name) == nil:
			return usagef("%s has no --%s", again.CommandPath(), name)
		default:
			words = slices.Insert(words, at, "--"+name+"="+given.Value.String())
		}
	}
	root.SetArgs(words)
	root.SetOut(cmd.OutOrStdout())
	root.SetErr(cmd.ErrOrStderr())
	if err := root.ExecuteContext(context.WithValue(cmd.Context(), mergedKey{}, merged{dir, dirs})); err != nil {
		return err
	}
	for _, note := range dir.Notes() {
		cmd.PrintErrln("playout: note: " + note)
	}
	return nil
}
