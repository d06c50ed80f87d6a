package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/report"
)

// form is a form in which a command can give its answer, and the ending of a file of it.
type form struct{ name, ending string }

// Forms of the answers; the first of a list is that of an answer which is printed.
var (
	answerForms = []form{
		{string(report.Table), ".txt"}, {string(report.Markdown), ".md"}, {string(report.CSV), ".csv"}, {string(report.JSON), ".json"},
	}
	sweepForms  = append(answerForms[:len(answerForms):len(answerForms)], form{string(report.Parquet), ".parquet"})
	replayForms = []form{{"text", ".txt"}, {"html", ".html"}, {"svg", ".svg"}, {"gif", ".gif"}, {"png", ".png"}}
	pageForms   = []form{{html, ".html"}, {markdown, ".md"}}
)

// Forms of a report.
const (
	html     = "html"
	markdown = "md"
)

// formFlag is the flag --format, which takes the name of a form. Where it is not
// given, the ending of --output says the form.
type formFlag struct {
	form
	given bool
	forms []form
}

func newFormFlag(forms []form) formFlag { return formFlag{form: forms[0], forms: forms} }

func (f *formFlag) Set(s string) error {
	for _, known := range f.forms {
		if s == known.name {
			f.form, f.given = known, true
			return nil
		}
	}
	return fmt.Errorf("give one of %s", f.names())
}

func (f *formFlag) String() string {
	if !f.given {
		return ""
	}
	return f.name
}

func (f *formFlag) Type() string { return "name" }

func (f *formFlag) names() string {
	names := make([]string, len(f.forms))
	for i, known := range f.forms {
		names[i] = known.name
	}
	return strings.Join(names, ", ")
}

// endings are those a file may have, as a sentence lists them.
func (f *formFlag) endings() string {
	endings := make([]string, len(f.forms))
	for i, known := range f.forms {
		endings[i] = known.ending
	}
	return report.Listed(endings, "or")
}

// usage and outputUsage are the help on --format and --output.
func (f *formFlag) usage() string {
	return "one of " + f.names() + " (default: by the ending of --output, else " + f.forms[0].name + ")"
}

func (f *formFlag) outputUsage() string {
	return "write it to this `file`, " + f.endings() + ", in one piece"
}

// addOutput gives a command that writes one file --format and --output. prepareOutput
// holds the two against each other.
func addOutput(cmd *cobra.Command, f *formFlag, name *string) {
	cmd.Flags().Var(f, "format", f.usage())
	cmd.Flags().StringVarP(name, "output", "o", "", f.outputUsage())
}

// fit takes the form from the ending of the file's name, or holds the form that is
// given against it. A name without an ending needs --format, so that nobody gets
// what he does not expect; a pipe or device has no ending to go by.
func (f *formFlag) fit(path string) error {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return nil
	}
	ending := filepath.Ext(path)
	for _, known := range f.forms {
		switch {
		case !strings.EqualFold(ending, known.ending):
		case f.given && f.name != known.name:
			return usagef("--output %q and --format %s do not go together; let the file end in %s, or leave --format out",
				path, f.name, f.ending)
		default:
			f.form = known
			return nil
		}
	}
	switch {
	case ending != "":
		return usagef("--output is %q, and this command cannot write %s; let it end in %s", path, ending, f.endings())
	case !f.given:
		return usagef("--output %q does not say what to write; let it end in %s, or give --format", path, f.endings())
	}
	return nil
}
