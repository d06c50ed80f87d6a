package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/picture"
	"playout/internal/scenario"
	"playout/internal/search"
)

// prepareFiles checks, before the search, the files of --write and --picture: that
// they can be written, that no two of the files named are one, and that a variant
// can extend the scenario.
func (o *searchOptions) prepareFiles(cmd *cobra.Command, base *scenario.Base) error {
	named := map[string]string{}
	if o.output != "" {
		named[filepath.Clean(o.output)] = "output"
	}
	for _, f := range []struct{ flag, path string }{{"write", o.write}, {"picture", o.picture}} {
		if f.path == "" {
			if cmd.Flags().Changed(f.flag) {
				return usagef("--%s names no file; leave it out to write none", f.flag)
			}
			continue
		}
		if f.path == "-" {
			return usagef("--%s needs a file, not standard output", f.flag)
		}
		if other := named[filepath.Clean(f.path)]; other != "" {
			return usagef("--%s and --%s name one file; give each its own", other, f.flag)
		}
		named[filepath.Clean(f.path)] = f.flag
		if f.flag == "picture" {
			if err := picture.Check(f.path); err != nil {
				return usagef("--picture: %w", err)
			}
		} else if _, err := base.Variant(f.path, base.Scenario().Title); err != nil {
			return usagef("--write: %w", err)
		}
		if err := checkOutput(f.flag, f.path, base.Files()); err != nil {
			return err
		}
	}
	return nil
}

// writeVariant writes what was found, if it is better, and gives the name of the
// file; none where it is not.
func (o *searchOptions) writeVariant(r *search.Result) (string, error) {
	if o.write == "" || !r.Better() {
		return "", nil
	}
	body, err := r.Freedom.Base().Variant(o.write, r.Title+", as searched", r.Settings()...)
	if err != nil {
		return "", err
	}
	var text strings.Builder
	lead, unit := r.Comparison.Asked.Difference, r.Config.Figure.Unit
	fmt.Fprintf(&text, "# Found by playout search. On %d build-ups that the search had not seen:\n# %s %+.*f %s (95%% interval %+.*f to %+.*f).\n# A model's estimate against this one block, which does not adapt. What changes:\n",
		r.Judged, r.Config.Figure.Label, r.Config.Figure.Decimals, 100*lead.Value, unit,
		r.Config.Figure.Decimals, 100*lead.Lo, r.Config.Figure.Decimals, 100*lead.Hi)
	for _, c := range r.Changes {
		by := ""
		if c.Place {
			by = fmt.Sprintf(" (%.1f m)", c.Size)
		}
		fmt.Fprintf(&text, "#   %s: %s -> %s%s\n", c.Path, comment(c.From), comment(c.To), by)
	}
	text.Write(body)
	return o.write, writeOutput("write", o.write, []byte(text.String()))
}

// comment keeps a value on the line of its comment.
func comment(s string) string { return strings.Join(strings.Fields(s), " ") }
