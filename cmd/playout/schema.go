package main

import (
	"github.com/spf13/cobra"

	"playout/internal/scenario"
)

func newSchemaCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of scenario files, for editors",
		Long: `Schema prints the JSON Schema (draft 2020-12) of scenario files. An editor with a
YAML language server then completes keys, explains them and marks mistakes, once
the first line of a scenario names the file:

  # yaml-language-server: $schema=playout.schema.json`,
		Example: `  playout schema > playout.schema.json`,
		Args:    noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := scenario.Schema()
			if err != nil {
				return err
			}
			return printText(cmd, text)
		},
	}
}
