package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/scenario"
)

// listPaths prints every value of a scenario: its path, what it is now, what it
// may be, and what it is in words; columns are parted by tabs.
func listPaths(cmd *cobra.Command, base *scenario.Base) error {
	var b strings.Builder
	b.WriteString("path\tnow\tmay be\twhat it is\n")
	for _, p := range base.Paths() {
		fmt.Fprintf(&b, "%s\t%s\t%s\t%s\n", p.Path, printable(p.Value), mayBe(p), p.Label)
	}
	return deliver(cmd, "", []byte(b.String()))
}

// mayBe says what a value may be.
func mayBe(p scenario.Path) string {
	switch {
	case len(p.Words) > 0:
		return strings.Join(p.Words, " ")
	case p.Kind == scenario.Number || p.Kind == scenario.Whole:
		return strings.TrimSpace(fmt.Sprintf("%s to %s %s", number(p.Lo), number(p.Hi), p.Unit))
	case p.Kind == scenario.Rows:
		return "rows such as 4-3-3"
	case p.Kind == scenario.Place:
		return "[x, y] in m from the centre spot"
	}
	return p.Kind.String()
}

// completeFile completes the names of scenario files.
func completeFile(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
}

// completeFigure completes the names of figures.
func completeFigure(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	var out []string
	for _, f := range experiment.Figures {
		out = append(out, f.Name+"\t"+f.Label)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// completeVary completes a path key by key, and behind the = the words that may
// stand there. Without a scenario that can be read it knows the usual one.
func completeVary(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	const how = cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	base, err := scenario.OpenBytes("usual", []byte("title: usual"))
	if len(args) > 0 && args[0] != "-" {
		if given, failed := scenario.Open(args[0]); failed == nil {
			base, err = given, nil
		}
	}
	if err != nil {
		return nil, cobra.ShellCompDirectiveError
	}
	if path, values, ok := strings.Cut(typed, "="); ok {
		return completeValue(base, path, values), how
	}
	var out []string
	seen := map[string]bool{}
	for _, p := range base.Paths() {
		if !strings.HasPrefix(p.Path, typed) {
			continue
		}
		key, _, longer := strings.Cut(p.Path[len(typed):], ".")
		if next := typed + key; longer && !seen[next+"."] {
			seen[next+"."] = true
			out = append(out, next+".")
		} else if !longer {
			out = append(out, fmt.Sprintf("%s=\t%s (%s)", p.Path, p.Label, mayBe(p)))
		}
	}
	return out, how
}

// completeValue offers the next word of a list, or how numbers are written.
func completeValue(base *scenario.Base, path, values string) []string {
	p, err := base.Path(path)
	if err != nil {
		return nil
	}
	done := values[:strings.LastIndex(values, ",")+1]
	var out []string
	for _, w := range p.Words {
		out = append(out, path+"="+done+w)
	}
	if len(out) == 0 {
		out = cobra.AppendActiveHelp(out, "FROM:TO:STEP or a list with commas; "+mayBe(p)+", now "+p.Value)
	}
	return out
}
