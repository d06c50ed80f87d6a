package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/draw"
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
	if output != "" && sameTarget(name, output) {
		return usagef("--picture and --output name the same file; give each its own")
	}
	return checkOutput("picture", name, inputs)
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
	return writeOutput("picture", name, drawn)
}

// sceneTo is drawTo for a scene.
func sceneTo(name string, scene *draw.Scene) error {
	if name == "" {
		return nil
	}
	if scene == nil {
		return errors.New("there is nothing to draw")
	}
	drawn := scene.SVG("")
	if strings.EqualFold(filepath.Ext(name), ".png") {
		var err error
		if drawn, err = scene.PNG(draw.Light, 2); err != nil {
			return fmt.Errorf("drawing: %w", err)
		}
	}
	return writeOutput("picture", name, drawn)
}
