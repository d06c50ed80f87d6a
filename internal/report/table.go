package report

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"github.com/olekukonko/tablewriter"
	"github.com/olekukonko/tablewriter/renderer"
	"github.com/olekukonko/tablewriter/tw"
)

// maxColumns is the widest line of a report for the terminal.
const maxColumns = 100

// indent sets the tables off from their titles on a terminal.
const indent = "  "

// maxName is the widest name in a table, in columns.
const maxName = 22

// table is one table for people. The first column is text, the others are
// figures, set to the right, unless said otherwise.
type table struct {
	title string
	note  string // one line under the title; may be empty
	head  []string
	rows  [][]string
	units bool // the last column holds units, set to the left
	left  bool // all columns are text, set to the left
	texts int  // so many columns are, from the first; 0 stands for 1

	verbatim bool // the title is a name, printed as it is

	list []string // sentences in the place of rows
}

// DocumentTable is a table that another package may lay out.
type DocumentTable = table

// Title, Note ("" for none), Head and Rows are the parts of a table. A row whose first
// cell is empty is a gap. Nothing in them is escaped.
func (t *table) Title() string    { return t.title }
func (t *table) Note() string     { return t.note }
func (t *table) Head() []string   { return t.head }
func (t *table) Rows() [][]string { return t.rows }

// List is sentences that a table has in the place of rows; nil when it has rows.
func (t *table) List() []string { return t.list }

// Words reports whether a column holds words, which are set to the left.
func (t *table) Words(column int) bool {
	return column == 0 || t.left || t.units && column == len(t.head)-1
}

// add appends a row.
func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// gap leaves a line free on a terminal.
func (t *table) gap() { t.add(make([]string, len(t.head))...) }

// writeTerminal prints the table without rules, for reading in a terminal.
func (t *table) writeTerminal(w io.Writer) error {
	if t.list != nil {
		var b strings.Builder
		b.WriteString(strings.ToUpper(t.title) + "\n")
		for _, item := range t.list {
			for i, line := range wrap(item, maxColumns-2*len(indent)) {
				b.WriteString(indent + []string{"- ", indent}[min(i, 1)] + line + "\n")
			}
		}
		_, err := io.WriteString(w, b.String())
		return err
	}
	ascii := tw.NewSymbols(tw.StyleASCII)
	r := renderer.NewBlueprint(tw.Rendition{
		Borders: tw.BorderNone,
		Symbols: ascii,
		Settings: tw.Settings{
			Lines:      tw.Lines{ShowHeaderLine: tw.Off, ShowFooterLine: tw.Off, ShowTop: tw.Off, ShowBottom: tw.Off},
			Separators: tw.Separators{BetweenColumns: tw.Off, BetweenRows: tw.Off},
		},
	})
	text, err := t.render(r, tw.Padding{Right: "  ", Overwrite: true}, func(s string) string { return s })
	if err != nil {
		return err
	}
	var b strings.Builder
	title := t.title
	if !t.verbatim {
		title = strings.ToUpper(title)
	}
	b.WriteString(title + "\n")
	for _, line := range wrap(t.note, maxColumns-len(indent)) {
		b.WriteString(indent + line + "\n")
	}
	for line := range strings.Lines(text) {
		b.WriteString(strings.TrimRight(indent+line, " \n") + "\n")
	}
	_, err = io.WriteString(w, b.String())
	return err
}

// writeMarkdown prints the table as a section of a Markdown document.
func (t *table) writeMarkdown(w io.Writer) error { return t.markdownUnder(w, "##") }

// Markdown is the table as a section under a heading such as "###".
func (t *table) Markdown(heading string) (string, error) {
	var b strings.Builder
	err := t.markdownUnder(&b, heading)
	return b.String(), err
}

func (t *table) markdownUnder(w io.Writer, heading string) error {
	if t.list != nil {
		var b strings.Builder
		b.WriteString(heading + " " + escapeMarkdown(t.title) + "\n\n")
		for _, item := range t.list {
			b.WriteString("- " + escapeMarkdown(item) + "\n")
		}
		_, err := io.WriteString(w, b.String())
		return err
	}
	dense := *t
	dense.rows = slices.DeleteFunc(slices.Clone(t.rows), func(row []string) bool { return row[0] == "" })
	text, err := dense.render(renderer.NewMarkdown(), tw.Padding{Left: " ", Right: " "}, escapeMarkdown)
	if err != nil {
		return err
	}
	var b strings.Builder
	b.WriteString(heading + " " + escapeMarkdown(t.title) + "\n\n")
	if t.note != "" {
		b.WriteString(escapeMarkdown(t.note) + "\n\n")
	}
	for line := range strings.Lines(text) {
		b.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	_, err = io.WriteString(w, b.String())
	return err
}

// render runs the table writer. Its defaults would re-space headers, wrap
// cells and measure text by the locale of the machine; all three are off.
func (t *table) render(r tw.Renderer, pad tw.Padding, escape func(string) string) (string, error) {
	align := tw.Alignment{tw.AlignLeft}
	other := tw.AlignRight
	if t.left {
		other = tw.AlignLeft
	}
	for range t.head[1:] {
		align = append(align, other)
	}
	for i := range t.texts {
		align[i] = tw.AlignLeft
	}
	if t.units {
		align[len(align)-1] = tw.AlignLeft
	}
	var b bytes.Buffer
	out := tablewriter.NewTable(&b,
		tablewriter.WithRenderer(r),
		tablewriter.WithAlignment(align),
		tablewriter.WithHeaderAutoFormat(tw.Off),
		tablewriter.WithHeaderAutoWrap(tw.WrapNone),
		tablewriter.WithRowAutoWrap(tw.WrapNone),
		tablewriter.WithEastAsian(tw.Off),
		tablewriter.WithPadding(pad),
	)
	escaped := func(cells []string) []string {
		out := make([]string, len(cells))
		for i, c := range cells {
			out[i] = escape(c)
		}
		return out
	}
	out.Header(escaped(t.head))
	for _, row := range t.rows {
		if err := out.Append(escaped(row)); err != nil {
			return "", err
		}
	}
	if err := out.Render(); err != nil {
		return "", err
	}
	return b.String(), nil
}

// markdownMarks are the characters that Markdown or the HTML inside it would
// read as a command.
var markdownMarks = strings.NewReplacer(
	`\`, `\\`, "|", `\|`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`,
	"<", "&lt;", ">", "&gt;", "&", "&amp;", "#", `\#`, "~", `\~`,
)

// EscapeMarkdown makes a text stand in Markdown as it is.
func EscapeMarkdown(s string) string { return escapeMarkdown(s) }

func escapeMarkdown(s string) string { return markdownMarks.Replace(s) }
