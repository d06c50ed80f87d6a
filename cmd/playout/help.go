package main

import (
	_ "embed"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/export"
)

// The texts of the help topics.
var (
	//go:embed help/metrics.txt
	helpMetrics string
	//go:embed help/json.txt
	helpJSON string
	//go:embed help/limits.txt
	helpLimits string
	//go:embed help/data.txt
	helpData string
	//go:embed help/cluster.txt
	helpCluster string
	//go:embed help/slurm.sh
	helpSlurm string
	//go:embed help/kubernetes.yaml
	helpKubernetes string
)

// newHelpTopics are the commands that do nothing but explain.
func newHelpTopics() []*cobra.Command {
	return []*cobra.Command{
		{Use: "metrics", Short: "What every figure means", Long: strings.TrimSpace(helpMetrics)},
		{Use: "json", Short: "The answer as one JSON object", Long: strings.TrimSpace(helpJSON)},
		{Use: "data", Short: "The files and columns of playout export", Long: strings.TrimSpace(helpData) + "\n\n" + strings.TrimRight(export.Describe(), "\n")},
		{Use: "limits", Short: "What the model leaves out", Long: strings.TrimSpace(helpLimits)},
		{Use: "cluster", Short: "Stop, go on, and share out among machines", Long: strings.TrimSpace(helpCluster)},
		{Use: "slurm", Short: "A job array for Slurm, as a script", Long: strings.TrimSpace(helpSlurm)},
		{Use: "kubernetes", Short: "An Indexed Job for Kubernetes, as YAML", Long: strings.TrimSpace(helpKubernetes)},
	}
}
