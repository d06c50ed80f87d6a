package page

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"

	"playout/internal/draw"
	"playout/internal/report"
)

//go:embed page.html
var layout string

//go:embed page.css
var looks string

// styles is the style sheet of a page: its own and that of the scenes.
var styles = draw.CSS() + strings.TrimSpace(looks)

// policy lets a page use its own style sheet and nothing else: no script, no network.
func policy() string {
	sum := sha256.Sum256([]byte(styles))
	return "default-src 'none'; style-src 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'; base-uri 'none'; form-action 'none'"
}

var compiled = template.Must(template.New("page").Funcs(template.FuncMap{
	"styles": func() template.CSS { return template.CSS(styles) },
	"policy": policy,
	"inline": func(f Figure) (template.HTML, error) { return f.inline() },
	"kind":   kindOf,
	"wide":   func(f Figure) bool { return f.wide() },
	"dense":  dense,
	"tables": tables,
	"class": func(t sectionTable, column int) string {
		if t.Words(column) {
			return "words-cell"
		}
		return "figure-cell"
	},
}).Parse(layout))

// kindOf says how the figures of a section stand: plots take the whole width.
func kindOf(figures []Figure) string {
	switch {
	case len(figures) == 0:
		return "none"
	case figures[0].wide():
		return "plots"
	case len(figures) == 1:
		return "one"
	}
	if len(figures) == 4 {
		return "four"
	}
	return "many"
}

func (f *Figure) wide() bool { return f.Wide || f.Drawing != nil }

// sectionTable is a table with the title of the section it stands in, which is then
// not said twice.
type sectionTable struct {
	*report.DocumentTable
	Said bool
}

func tables(list []*report.DocumentTable, section string) []sectionTable {
	var out []sectionTable
	for _, t := range list {
		out = append(out, sectionTable{t, t.Title() == section})
	}
	return out
}

// dense are the rows of a table without its gaps.
func dense(t sectionTable) [][]string {
	var out [][]string
	for _, row := range t.Rows() {
		if row[0] != "" || len(t.Head()) > 0 && t.Head()[0] == "" && strings.Join(row, "") != "" {
			out = append(out, row)
		}
	}
	return out
}

// HTML is the page as one file.
func (p *Page) HTML() ([]byte, error) {
	shown := *p
	shown.Repeat = p.Repeat.tame()
	var out bytes.Buffer
	if err := compiled.Execute(&out, &shown); err != nil {
		return nil, fmt.Errorf("laying out the report: %w", err)
	}
	return out.Bytes(), nil
}
