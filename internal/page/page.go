package page

import (
	"strings"
	"unicode"

	"playout/internal/draw"
	"playout/internal/picture"
	"playout/internal/plain"
	"playout/internal/report"
)

// Page is a report to hand over.
type Page struct {
	Title    string
	Question string
	Warning  string // stands in front of everything; may be empty
	Answer   string // in one sentence
	More     []string
	Keys     []Key
	Sections []Section
	Appendix []*report.DocumentTable // tables that the sections do not need
	Repeat   Repeat
}

// Key is a figure that stands out.
type Key struct{ Value, Label, Interval string }

// Section is a part of a page. What is empty is left out.
type Section struct {
	ID      string // unique in the page; letters and hyphens
	Title   string
	Lead    string   // what it says, in a sentence or two
	Figures []Figure // drawings of one kind stand beside one another
	Tables  []*report.DocumentTable
	Text    []string // paragraphs
}

// Figure is a picture with its words. It is a scene or a drawing.
type Figure struct {
	Name    string // of its file, and its id: unique in the page; lower-case letters, digits and hyphens
	Title   string // above it
	Caption string // below it
	Desc    string // what it shows, for those who cannot see it
	Scene   *draw.Scene
	Drawing picture.Drawing
	Wide    bool // takes the whole width, as drawings do
}

// Repeat is all it takes to get the same answer again.
type Repeat struct {
	Command  string
	Facts    string // seed, build-ups, version, revision
	Files    []File // scenarios in full
	Limits   string // what the model leaves out, at length
	Cautions []string
}

// File is a scenario file.
type File struct{ Name, Text string }

// tame is all it takes to repeat, fit to be shown. Scenario files have no characters
// that this changes: what does not print stands there escaped.
func (r Repeat) tame() Repeat {
	r.Command, r.Facts, r.Limits = plain.Long(r.Command), plain.Long(r.Facts), printable(r.Limits)
	files := r.Files
	r.Files = nil
	for _, f := range files {
		r.Files = append(r.Files, File{plain.Clean(f.Name), printable(f.Text)})
	}
	return r
}

// printable puts a mark in the place of what does not print or turns text around.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || unicode.IsPrint(r) {
			return r
		}
		return unicode.ReplacementChar
	}, s)
}

// Figures are all of the page, in its order.
func (p *Page) Figures() []Figure {
	var out []Figure
	for _, s := range p.Sections {
		out = append(out, s.Figures...)
	}
	return out
}

// scene begins a scene of a figure.
func scene(name, title, desc string, w, h float64) *draw.Scene {
	return &draw.Scene{W: w, H: h, ID: name, Title: title, Desc: desc}
}

// named is a text of a scenario file, or a stand-in for one that says nothing.
func named(s, instead string) string {
	if s = plain.Clean(s); s == "" {
		return instead
	}
	return s
}

// sentences joins texts that end with a full stop or without one.
func sentences(parts ...string) string {
	var out []string
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			if !strings.HasSuffix(p, ".") && !strings.HasSuffix(p, "?") {
				p += "."
			}
			out = append(out, p)
		}
	}
	return strings.Join(out, " ")
}
