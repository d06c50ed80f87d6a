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
var styles = strings.TrimSpace(looks) + draw.CSS()

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
	"dense":  dense,
	"class": func(t *report.DocumentTable, column int) string {
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
	case figures[0].Drawing != nil:
		return "plots"
	case len(figures) == 1:
		return "one"
	}
	return "many"
}

// dense are the rows of a table without its gaps.
func dense(t *report.DocumentTable) [][]string {
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
	var out bytes.Buffer
	if err := compiled.Execute(&out, p); err != nil {
		return nil, fmt.Errorf("laying out the report: %w", err)
	}
	return out.Bytes(), nil
}
