package main

import (
	"bytes"
	"fmt"

	"github.com/spf13/cobra"

	"playout/internal/scenario"
	"playout/model"
	"playout/scenarios"
)

func newBlocksCmd() *cobra.Command {
	return &cobra.Command{
		Use:   "blocks",
		Short: "List the library of defending blocks",
		Long: `Blocks lists the blocks that a scenario may name, as in "block: 4-4-2-mid", or
change, as in "block: {library: 4-4-2-mid, width: 33}". Line is the last line's
distance from its own goal line with the ball on halfway; the block presses a
ball nearer to that goal line than press, and takes up a cue to press with the
chance under intensity.`,
		Args: noArguments,
		RunE: func(cmd *cobra.Command, args []string) error {
			var out bytes.Buffer
			fmt.Fprintf(&out, "%-14s %7s %9s %8s %8s %9s\n", "block", "line, m", "length, m", "width, m", "press, m", "intensity")
			for _, name := range scenarios.BlockNames() {
				sc, err := scenario.LoadBytes(name, []byte("defence: {block: "+name+"}"))
				if err != nil {
					return err
				}
				b := &sc.Teams[model.Defence].Block
				fmt.Fprintf(&out, "%-14s %7.1f %9.1f %8.1f %8.0f %9.2f\n", name, b.LineHeight, b.Length, b.Width, b.Press.Height, b.Press.Intensity)
			}
			return printText(cmd, out.Bytes())
		},
	}
}
