package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"golang.org/x/term"

	"playout/internal/page"
	"playout/internal/picture"
	"playout/internal/scenario"
	"playout/model"
)

// reporting makes the answer of a command a report to hand over instead of printing it.
type reporting struct {
	format   formFlag
	pictures string // a directory for all, or one by its name
}

type reportingKey struct{}

// reportingOf is how a command's answer is reported; nil: it is printed.
func reportingOf(cmd *cobra.Command) *reporting {
	r, _ := cmd.Context().Value(reportingKey{}).(*reporting)
	return r
}

// asReport makes a command that answers a part of playout report: the same flags, but
// what comes of it is a report.
func asReport(cmd *cobra.Command) *cobra.Command {
	r := &reporting{format: newFormFlag(pageForms)}
	f := cmd.Flags()
	format := f.Lookup("format")
	format.Value, format.Usage = &r.format, "html (one file), or md with its pictures beside it (default: by the ending of --output, else html)"
	f.Lookup("output").Usage = r.format.outputUsage()
	f.StringVar(&r.pictures, "pictures", "", "also write the pictures into this `directory` as SVG, or one by its name: dir/ladder.png")
	hidden := []string{"picture", "full", "paths"}
	for _, name := range hidden {
		if flag := f.Lookup(name); flag != nil {
			flag.Hidden = true
		}
	}
	run := cmd.RunE
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		for _, name := range hidden {
			if f.Changed(name) {
				return usagef("%s has no --%s; --pictures takes the pictures, and a report holds all tables", cmd.CommandPath(), name)
			}
		}
		if err := r.check(cmd); err != nil {
			return err
		}
		cmd.SetContext(context.WithValue(cmd.Context(), reportingKey{}, r))
		return run(cmd, args)
	}
	return cmd
}

// check looks at where the report is to go before anything is played.
func (r *reporting) check(cmd *cobra.Command) error {
	f := cmd.Flags()
	output := f.Lookup("output").Value.String()
	if output != "" && output != "-" {
		if err := r.format.fit(output); err != nil {
			return err
		}
	}
	if r.format.name == markdown && (output == "" || output == "-") && !f.Changed("shard") {
		return usagef("--format md writes pictures beside the report; give -o and a file, such as -o report.md")
	}
	if info, err := os.Stat(output); r.format.name == markdown && err == nil && !info.Mode().IsRegular() && !info.IsDir() {
		return usagef("--format md writes pictures beside the report, and %q is no ordinary file; give -o a file, such as -o report.md", output)
	}
	if out, ok := cmd.OutOrStdout().(*os.File); output == "" && !f.Changed("shard") && (!ok || term.IsTerminal(int(out.Fd()))) && !f.Changed("output") {
		return usagef("give the report a file: -o report.html (or -o - to print it)")
	}
	if !f.Changed("pictures") {
		return nil
	}
	if r.pictures == "" {
		return usagef("--pictures names no directory")
	}
	if r.single() != "" && output != "" && sameTarget(r.pictures, output) {
		return sameAsReport(r.pictures)
	}
	probe := r.pictures
	if r.single() == "" {
		if info, err := os.Stat(r.pictures); err != nil || !info.IsDir() {
			return usagef("--pictures: there is no directory %q; make it first, or name one picture, such as ladder.png", r.pictures)
		}
		probe = filepath.Join(r.pictures, "picture.svg")
	}
	return checkOutput("pictures", probe, nil)
}

// single is the name of the only picture that is asked for; "" when all are.
func (r *reporting) single() string {
	if picture.Check(r.pictures) != nil {
		return ""
	}
	base := filepath.Base(r.pictures)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

// deliver lays the report out and writes it with what goes beside it. Everything is
// made before anything is written, and the report itself comes last. scenarios, with
// their names, are put into it in full.
func (r *reporting) deliver(cmd *cobra.Command, output string, partial bool, scenarios []*model.Scenario, names []string, lay func(page.Repeat) (*page.Page, error)) error {
	again := page.Repeat{Command: commandLine(cmd), Limits: strings.TrimSpace(helpLimits)}
	for i, sc := range scenarios {
		text, err := scenario.Canonical(sc)
		if err != nil {
			return err
		}
		again.Files = append(again.Files, page.File{Name: names[i], Text: string(text)})
	}
	p, err := lay(again)
	if err != nil {
		return err
	}
	beside, err := r.beside(p, output)
	if err != nil {
		return err
	}
	for _, b := range beside {
		if output != "" && sameTarget(b.path, output) {
			return sameAsReport(b.path)
		}
	}
	var text []byte
	if r.format.name == markdown {
		text, err = p.Markdown(pictureNames(output, p))
	} else {
		text, err = p.HTML()
	}
	if err != nil {
		return err
	}
	for _, b := range beside {
		if err := writeOutput("pictures", b.path, b.content); err != nil {
			return err
		}
	}
	if err := deliver(cmd, output, text); err != nil {
		return err
	}
	if partial {
		return fmt.Errorf("%w: the answer is partial", errInterrupted)
	}
	return nil
}

// sameAsReport refuses to let the report take the place of one of its pictures.
func sameAsReport(picture string) error {
	return usagef("--output and --pictures both write %q; give the report another name", picture)
}

// written is a file to be written.
type written struct {
	path    string
	content []byte
}

// beside are the pictures that go into files of their own.
func (r *reporting) beside(p *page.Page, output string) ([]written, error) {
	var out []written
	add := func(f *page.Figure, path string) error {
		content, err := f.Encode(path)
		out = append(out, written{path, content})
		return err
	}
	single, found := r.single(), false
	var names []string
	for _, f := range p.Figures() {
		names = append(names, f.Name)
		if r.format.name == markdown {
			if err := add(&f, filepath.Join(filepath.Dir(output), pictureNames(output, p)[f.Name])); err != nil {
				return nil, err
			}
		}
		path := ""
		switch {
		case r.pictures == "":
		case single == "":
			path = filepath.Join(r.pictures, f.Name+".svg")
		case single == f.Name:
			path, found = r.pictures, true
		}
		if path != "" {
			if err := add(&f, path); err != nil {
				return nil, err
			}
		}
	}
	if single != "" && !found {
		return nil, usagef("--pictures: the report has no picture %q; it has %s", single, strings.Join(names, ", "))
	}
	return out, nil
}

// pictureNames are the files of a Markdown report's pictures, by their names.
func pictureNames(output string, p *page.Page) map[string]string {
	stem := strings.TrimSuffix(filepath.Base(output), filepath.Ext(output))
	names := map[string]string{}
	for _, f := range p.Figures() {
		names[f.Name] = stem + "-" + f.Name + ".svg"
	}
	return names
}

// unprinted are flags that say how to work and where to write, not what to answer: the
// same answer has the same bytes whatever they are.
var unprinted = []string{"workers", "output", "pictures", "quiet"}

// commandLine is what was typed, without the flags unprinted, in a form that can be typed
// again.
func commandLine(cmd *cobra.Command) string {
	words := strings.Fields(cmd.CommandPath())
	for _, arg := range cmd.Flags().Args() {
		words = append(words, quoted(arg))
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if slices.Contains(unprinted, f.Name) {
			return
		}
		values := []string{f.Value.String()}
		if list, ok := f.Value.(pflag.SliceValue); ok {
			values = list.GetSlice()
		}
		for _, v := range values {
			if f.Value.Type() == "bool" {
				words = append(words, "--"+f.Name)
				continue
			}
			words = append(words, "--"+f.Name+" "+quoted(v))
		}
	})
	return strings.Join(words, " ")
}

// quoted is a word as a shell takes it.
func quoted(word string) string {
	plain := func(r rune) bool {
		return !(r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || strings.ContainsRune("-_./:=,+%@", r))
	}
	if word != "" && strings.IndexFunc(word, plain) < 0 {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}
