package report

import (
	"encoding/json"
	"fmt"
	"io"
	"strings"
)

// Format is a way to print a summary.
type Format string

// Formats.
const (
	Table    Format = "table"    // for a terminal, at most 100 columns
	Markdown Format = "markdown" // the same tables
	CSV      Format = "csv"      // every figure, one in a row
	JSON     Format = "json"     // every figure, one object
)

// Formats lists the formats in the order of the help text.
var Formats = []Format{Table, Markdown, CSV, JSON}

// Write prints the summary. Full adds the tables that go beyond the first four
// to Table and Markdown; CSV and JSON always hold everything.
func (s *Summary) Write(w io.Writer, f Format, full bool) error {
	switch f {
	case Table:
		return s.Document(full).terminal(w)
	case Markdown:
		return s.Document(full).markdown(w)
	case CSV:
		return s.writeCSV(w)
	case JSON:
		return s.writeJSON(w)
	}
	return fmt.Errorf("report: unknown format %q", f)
}

func (s *Summary) writeJSON(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(s)
}

// title is the scenario's, or a stand-in for a scenario without one.
func (s *Summary) title() string {
	if s.Scenario == "" {
		return "Untitled scenario"
	}
	return s.Scenario
}

// footnotes are the notes that do not stand at the top.
func (s *Summary) footnotes() []string {
	if s.Partial {
		return s.Notes[1:]
	}
	return s.Notes
}

// facts is the line that lets the run be repeated.
func (s *Summary) facts() string {
	played := thousands(s.Possessions) + " build-ups"
	if s.Partial {
		played = "PARTIAL: " + thousands(s.Possessions) + " of " + thousands(s.Asked) + " build-ups"
	}
	if s.ParameterDoubt.On {
		played += fmt.Sprintf(", parameter doubt (%s draws)", thousands(s.ParameterDoubt.Draws))
	}
	return fmt.Sprintf("seed %d, %s, tick %s s, version %s, engine revision %d.",
		s.Seed, played, s.TickS.text(), s.Version, s.Revision)
}

// Document is the summary for people, with all its tables or with those that answer
// the question.
func (s *Summary) Document(full bool) *Document {
	d := &document{title: s.title(), answer: []string{strings.Join(s.Answer, " ")}, tables: s.tables(full), facts: s.facts(), notes: s.footnotes()}
	if s.Partial {
		d.warning = s.Notes[0]
	}
	return d
}
