package report

import (
	"io"
	"strings"
)

// Document is an answer for people that another package may lay out.
type Document = document

// document is an answer for people: what it says first, then its tables, then what
// lets it be repeated and what has to be known about it.
type document struct {
	title   string
	warning string // stands in front of everything; may be empty
	answer  []string
	tables  []*table
	facts   string // seed, build-ups, version
	notes   []string
}

// Title, Warning ("" for none), Answer, Tables, Facts and Notes are the parts of a
// document in their order. Nothing in them is escaped.
func (d *document) Title() string            { return d.title }
func (d *document) Warning() string          { return d.warning }
func (d *document) Answer() []string         { return d.answer }
func (d *document) Tables() []*DocumentTable { return d.tables }
func (d *document) Facts() string            { return d.facts }
func (d *document) Notes() []string          { return d.notes }

// caution ends the notes of every experiment.
const caution = "A model's estimate, to compare ideas with, not a forecast of a match. The intervals cover chance in the model alone. " +
	"Left out: fatigue, weather, set plays, deception, communication, what the keeper saves beyond xG. See: playout help limits."

// terminal prints the document in at most maxColumns columns.
func (d *document) terminal(w io.Writer) error {
	var b strings.Builder
	paragraph := func(text string) {
		for _, line := range wrap(text, maxColumns) {
			b.WriteString(line + "\n")
		}
	}
	paragraph(cut(d.title, maxColumns))
	paragraph(d.warning)
	b.WriteByte('\n')
	for _, text := range d.answer {
		paragraph(text)
	}
	b.WriteByte('\n')
	for _, t := range d.tables {
		if err := t.writeTerminal(&b); err != nil {
			return err
		}
		b.WriteByte('\n')
	}
	paragraph("Run: " + d.facts)
	for _, n := range d.notes {
		paragraph(n)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// markdown prints the document with its tables as sections.
func (d *document) markdown(w io.Writer) error {
	var b strings.Builder
	b.WriteString("# " + escapeMarkdown(d.title) + "\n\n")
	if d.warning != "" {
		b.WriteString("**" + escapeMarkdown(d.warning) + "**\n\n")
	}
	for _, text := range d.answer {
		b.WriteString(escapeMarkdown(text) + "\n\n")
	}
	for _, t := range d.tables {
		if err := t.writeMarkdown(&b); err != nil {
			return err
		}
		b.WriteByte('\n')
	}
	b.WriteString("Run: " + escapeMarkdown(d.facts) + "\n")
	for _, n := range d.notes {
		b.WriteString("\n" + escapeMarkdown(n) + "\n")
	}
	_, err := io.WriteString(w, b.String())
	return err
}
