package report

import (
	"encoding/csv"
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
	return writeAs(w, f, func() *document { return s.Document(full) }, s.writeCSV, s)
}

// writeAs prints an answer in one of Formats: doc makes what people read, rows writes
// the CSV, object is the JSON.
func writeAs(w io.Writer, f Format, doc func() *document, rows func(io.Writer) error, object any) error {
	switch f {
	case Table:
		return doc().terminal(w)
	case Markdown:
		return doc().markdown(w)
	case CSV:
		return rows(w)
	case JSON:
		return writeJSON(w, object)
	}
	return fmt.Errorf("report: unknown format %q", f)
}

// writeJSON and writeRows write an experiment's answer as one object, and as rows.
func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(v)
}

func writeRows(w io.Writer, rows [][]string) error { return csv.NewWriter(w).WriteAll(rows) }

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
