package main

import (
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"playout/internal/scenario"
)

func newRootCmd() *cobra.Command {
	root := &cobra.Command{
		Use:   "playout",
		Short: "Play a build-up plan against a block, thousands of times",
		Long: `Playout plays a team's build-up against a defending block, possession by
possession, and counts what comes of it: how far the ball gets, through which
lane, how it is lost and what the block did. Compare plans with it; it does not
foretell a match (see: playout help limits).`,
		Example: `  playout defaults > plan.yaml     write a scenario to start from
  playout check plan.yaml          look for mistakes in it
  playout run plan.yaml            play it and print the answer
  playout compare plan.yaml b.yaml say whether another plan is better
  playout report plan.yaml -o r.html   write a report to hand over`,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,

		SuggestionsMinimumDistance: 2,
		Args:                       knownCommand,
		RunE:                       func(cmd *cobra.Command, args []string) error { return cmd.Help() },
	}
	root.SetVersionTemplate(fmt.Sprintf("playout %s, %s, %s/%s\n", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH))
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return usageError{flagError(cmd, err)} })
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped 82"))
	root.SetHelpCommand(newHelpCmd())
	root.AddCommand(newRunCmd(), newExplainCmd(), newReplayCmd(), newStillCmd(), newReportCmd(), newExportCmd(), newCompareCmd(), newSweepCmd(), newSensitivityCmd())
	root.AddCommand(newMatrixCmd(), newSearchCmd(), newPeopleCmd(), newMergeCmd(), newValidateCmd(), newCheckCmd(), newDefaultsCmd(), newSchemaCmd(), newBlocksCmd())
	root.AddCommand(newHelpTopics()...)
	for _, c := range root.Commands() {
		argumentsAreUsage(c)
		for _, sub := range c.Commands() {
			argumentsAreUsage(sub)
		}
	}
	return root
}

// knownCommand refuses what is not a command.
func knownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	advice := "playout help lists them"
	if near := cmd.SuggestionsFor(args[0]); len(near) > 0 {
		advice = "did you mean " + strings.Join(near, " or ") + "?"
	}
	return usagef("there is no command %q; %s", args[0], advice)
}

// argumentsAreUsage makes every complaint about the number of arguments a
// mistake of usage.
func argumentsAreUsage(c *cobra.Command) {
	check := c.Args
	if check == nil {
		return
	}
	c.Args = func(cmd *cobra.Command, args []string) error {
		if err := check(cmd, args); err != nil {
			return usageError{err}
		}
		return nil
	}
}

// flagError says what is wrong with a flag and what to give instead.
func flagError(cmd *cobra.Command, err error) error {
	var value *pflag.InvalidValueError
	var missing *pflag.ValueRequiredError
	var unknown *pflag.NotExistError
	switch {
	case errors.As(err, &value):
		return fmt.Errorf("--%s is %q; %w", value.GetFlag().Name, value.GetValue(), value.Unwrap())
	case errors.As(err, &missing):
		return fmt.Errorf("--%s needs a value; see %s --help", missing.GetFlag().Name, cmd.CommandPath())
	case errors.As(err, &unknown):
		if near := nearFlag(cmd, unknown); near != "" {
			return fmt.Errorf("%w; did you mean --%s?", err, near)
		}
		return fmt.Errorf("%w; see %s --help", err, cmd.CommandPath())
	}
	return err
}

// nearFlag is the flag that an unknown one was probably meant to be: one that is spelt
// much like it, or the only one that begins with it. -seed is read as letters, but who
// writes it means --seed.
func nearFlag(cmd *cobra.Command, unknown *pflag.NotExistError) string {
	word := unknown.GetSpecifiedName()
	if letters := unknown.GetSpecifiedShortnames(); letters != "" {
		if word, _, _ = strings.Cut(letters, "="); len(word) < 3 {
			return ""
		}
	}
	var names, begun []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) {
		if f.Hidden {
			return
		}
		names = append(names, f.Name)
		if strings.HasPrefix(f.Name, word) {
			begun = append(begun, f.Name)
		}
	})
	if len(begun) == 1 {
		return begun[0]
	}
	return scenario.Nearest(word, names)
}

// oneDash refuses -output: it reads as -o with the file "utput", which nobody means.
// Where the first letter is no flag, flagError says so.
func oneDash(root *cobra.Command, args []string) error {
	cmd, rest, err := root.Find(args)
	if err != nil {
		return nil // of the command, which is said elsewhere
	}
	for _, arg := range rest {
		if arg == "--" {
			return nil
		}
		word, _, _ := strings.Cut(strings.TrimPrefix(arg, "-"), "=")
		if len(word) < 3 || word == arg || cmd.Flags().ShorthandLookup(word[:1]) == nil {
			continue
		}
		var meant string
		cmd.Flags().VisitAll(func(f *pflag.Flag) {
			if f.Shorthand == word[:1] && strings.HasPrefix(f.Name, word) {
				meant = f.Name
			}
		})
		if meant != "" {
			return usagef("unknown flag: -%s; did you mean --%s?", word, meant)
		}
	}
	return nil
}

// version is that of the module, with the commit it was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "devel"
	}
	return info.Main.Version
}

func newHelpCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "help [command or topic]",
		Short: "Explain a command or a topic",
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usagef("there is no help on %q; playout help lists commands and topics", strings.Join(args, " "))
			}
			about.InitDefaultHelpFlag()
			about.InitDefaultVersionFlag()
			return about.Help()
		},
	}
}
