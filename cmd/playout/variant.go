package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/scenario"
	"playout/internal/search"
)

// prepareWrite checks, before the search, that the variant can be put into the file
// of --write and that a file can extend the scenario.
func (o *searchOptions) prepareWrite(cmd *cobra.Command, base *scenario.Base) error {
	switch {
	case o.write == "" && cmd.Flags().Changed("write"):
		return usagef("--write names no file; leave it out to write none")
	case o.write == "":
		return nil
	case o.write == "-":
		return usagef("--write needs a file of its own: what it extends is found from there")
	case o.write == o.output:
		return usagef("--write and --output name one file; give each its own")
	}
	if _, err := base.Variant(o.write, base.Scenario().Title); err != nil {
		return usagef("--write: %w", err)
	}
	return checkOutput("write", o.write, base.Files())
}

// writeVariant writes what was found, if it is better, and gives the name of the
// file; none where it is not.
func (o *searchOptions) writeVariant(r *search.Result) (string, error) {
	if o.write == "" || r.Verdict() != search.Better {
		return "", nil
	}
	body, err := r.Freedom.Base().Variant(o.write, r.Title+", as searched", r.Settings()...)
	if err != nil {
		return "", err
	}
	var text strings.Builder
	lead, unit := r.Lead(), r.Config.Figure.Unit
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
