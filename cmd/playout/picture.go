package main

import (
	"path/filepath"

	"github.com/spf13/cobra"

	"playout/internal/picture"
)

// addPicture adds --picture to an experiment.
func addPicture(cmd *cobra.Command, name *string) {
	cmd.Flags().StringVar(name, "picture", "", "also draw the answer into this `file`, .svg or .png")
}

// preparePicture checks the file that --picture names before anything is played; inputs
// are the files that were read, output is the file of the answer.
func preparePicture(cmd *cobra.Command, name, output string, inputs []string) error {
	if !cmd.Flags().Changed("picture") {
		return nil
	}
	if err := picture.Check(name); err != nil {
		return usagef("--picture: %w", err)
	}
	if output != "" && filepath.Clean(name) == filepath.Clean(output) {
		return usagef("--picture and --output name the same file; give each its own")
	}
	return checkFile("--picture", name, inputs)
}

// drawTo draws into the file that --picture names, if it names one.
func drawTo(name string, d picture.Drawing) error {
	if name == "" {
		return nil
	}
	drawn, err := picture.Encode(name, d)
	if err != nil {
		return err
	}
	return writeFile("--picture", name, drawn)
}
