package draw

import (
	"strings"

	"golang.org/x/image/font"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/vg"

	plotfont "gonum.org/v1/plot/font"

	"playout/internal/plain"
)

// Anchor says which part of a text stands at its point.
type Anchor uint8

// Anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Words is how a text is set.
type Words struct {
	Ink    Ink     // NoInk stands for Text
	Size   float64 // px
	Bold   bool
	Anchor Anchor
	Centre bool // the point is at half the height of the letters, not on their baseline
	Halo   bool // in an outline of paper, to be read over lines
}

// capHeight is the height of capitals and digits as a share of the size, in
// Liberation Sans.
const capHeight = 0.72

// Write sets one line of text. It may come from anywhere: it is cleaned here, and
// escaped where it is written out. An empty text is not drawn.
func (s *Scene) Write(at r2.Vec, text string, w Words) {
	if text = safe(text); text == "" {
		return
	}
	if w.Ink == NoInk {
		w.Ink = Text
	}
	if w.Centre {
		at.Y += capHeight * w.Size / 2
	}
	s.shapes = append(s.shapes, shape{kind: words, points: []r2.Vec{at}, text: text, words: w})
}

// safe is a text fit to be drawn.
func safe(s string) string { return plain.Cut(plain.Clean(s), plain.MaxText) }

// Extent is where a text will stand.
func (w Words) Extent(at r2.Vec, text string) Box {
	width, up := w.Width(text), capHeight*w.Size
	x := at.X - width*[...]float64{Start: 0, Middle: 0.5, End: 1}[w.Anchor]
	y := at.Y
	if w.Centre {
		y += up / 2
	}
	return Box{r2.Vec{X: x, Y: y - up}, r2.Vec{X: x + width, Y: y + 0.22*w.Size}}
}

// Width of a text, px.
func (w Words) Width(text string) float64 {
	face := w.face()
	return float64(face.Width(safe(text)))
}

// Fit shortens a text to a width, px, with an ellipsis.
func (w Words) Fit(text string, width float64) string {
	text = safe(text)
	if w.Width(text) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && w.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes) + "…"
}

// Wrap breaks a text into lines of a width, px, at most so many; the last is
// shortened if need be.
func (w Words) Wrap(text string, width float64, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(safe(text)) {
		switch {
		case line == "":
			line = word
		case w.Width(line+" "+word) <= width || len(lines) == most-1:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	for i := range lines {
		lines[i] = w.Fit(lines[i], width)
	}
	return lines
}

var faces = plotfont.NewCache(liberation.Collection())

func (w Words) face() plotfont.Face {
	f := plotfont.Font{Typeface: "Liberation", Variant: "Sans", Weight: font.WeightNormal}
	if w.Bold {
		f.Weight = font.WeightBold
	}
	return faces.Lookup(f, vg.Length(w.Size))
}
