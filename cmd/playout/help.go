package main

import (
	_ "embed"
	"strings"

	"github.com/spf13/cobra"
)

// The texts of the help topics.
var (
	//go:embed help/metrics.txt
	helpMetrics string
	//go:embed help/json.txt
	helpJSON string
	//go:embed help/limits.txt
	helpLimits string
)

// newHelpTopics are the commands that do nothing but explain.
func newHelpTopics() []*cobra.Command {
	return []*cobra.Command{
		{Use: "metrics", Short: "What every figure means", Long: strings.TrimSpace(helpMetrics)},
		{Use: "json", Short: "The answer as one JSON object", Long: strings.TrimSpace(helpJSON)},
		{Use: "limits", Short: "What the model leaves out", Long: strings.TrimSpace(helpLimits)},
	}
}
