// Package picture draws the figures of experiments: curves with their interval
// as a band, rows with interval bars, and heat grids. One description gives SVG
// or PNG, and the same description the same bytes. It knows no football.
//
// What a tone says, a dash, a marker or a number says too, so that the pictures
// can be read without colour.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"html"
	"math"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Interval is a value with the bounds of its interval. A value that is not
// finite is not drawn; nor are bounds that are not.
type Interval struct{ Value, Lo, Hi float64 }

func (i Interval) drawn() bool   { return finite(i.Value) }
func (i Interval) bounded() bool { return finite(i.Value) && finite(i.Lo) && finite(i.Hi) }

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Words stand around a picture.
type Words struct {
	Title    string // what the picture says, in a line
	Subtitle string // how to read it
	Note     string // where it comes from, and how far to trust it
}

// Drawing is one of Curves, Rows and Grid.
type Drawing interface {
	words() Words
	size() (w, h vg.Length)
	check() error
	draw(p *pen)
}

// dpi of a PNG: 20 cm are 1260 pixels.
const dpi = 160

// Check says whether a file can hold a picture: its name ends in .svg or .png.
func Check(name string) error {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".svg", ".png":
		return nil
	}
	return fmt.Errorf("a picture is .svg or .png, which %q does not end in", name)
}

// Encode draws for a file of that name.
func Encode(name string, d Drawing) ([]byte, error) {
	if err := Check(name); err != nil {
		return nil, err
	}
	if err := d.check(); err != nil {
		return nil, fmt.Errorf("drawing: %w", err)
	}
	w, h := d.size()
	var out bytes.Buffer
	if strings.EqualFold(filepath.Ext(name), ".png") {
		c := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(dpi), vgimg.UseBackgroundColor(paper))
		compose(draw.New(c), d)
		_, err := vgimg.PngCanvas{Canvas: c}.WriteTo(&out)
		return out.Bytes(), err
	}
	c := vgsvg.New(w, h)
	p := compose(draw.New(c), d)
	if _, err := c.WriteTo(&out); err != nil {
		return nil, err
	}
	return finish(out.Bytes(), p.boxes, d.words()), nil
}

// finish lets an SVG fall back to other sans faces: each line of text keeps the
// width it was laid out with, and its anchor where a reader ignores that. It
// also gives the picture a title for those who cannot see it. boxes are the
// places of the texts in their order.
func finish(svg []byte, boxes []box, w Words) []byte {
	parts := bytes.Split(svg, []byte("<text x="))
	for i, b := range boxes {
		anchor := map[vg.Length]string{0: "start", 0.5: "middle", 1: "end"}[b.anchor]
		_, rest, _ := bytes.Cut(parts[i+1], []byte(" "))
		parts[i+1] = fmt.Appendf(nil, `<text x="%.2f" text-anchor="%s" textLength="%.2f" lengthAdjust="spacingAndGlyphs" %s`,
			(b.Min.X + b.anchor*b.Size().X).Points(), anchor, b.Size().X.Points(), rest)
	}
	svg = bytes.Join(parts, nil)
	const face = `style="font-family:Liberation Sans;`
	svg = bytes.ReplaceAll(svg, []byte(face), []byte(`style="font-family:'Liberation Sans',Arial,Helvetica,sans-serif;`))
	head, body, _ := bytes.Cut(svg, []byte("<svg "))
	tag, rest, _ := bytes.Cut(body, []byte(">"))
	title := html.EscapeString(clean(strings.TrimSpace(w.Title + ". " + w.Subtitle)))
	return bytes.Join([][]byte{head, []byte(`<svg role="img" `), tag, []byte(">\n<title>" + title + "</title>"), rest}, nil)
}

// compose puts the words around the drawing.
func compose(c draw.Canvas, d Drawing) *pen {
	p := &pen{c: c, area: c.Rectangle}
	p.fill(c.Rectangle, paper)
	p.area = vg.Rectangle{Min: vg.Point{X: c.Min.X + margin, Y: c.Min.Y + margin}, Max: vg.Point{X: c.Max.X - margin, Y: c.Max.Y - margin}}
	w := d.words()
	p.top(w.Title, heading, 2)
	p.top(w.Subtitle, plain, 2)
	p.bottom(w.Note, small, 3)
	d.draw(p)
	return p
}

// errNothing refuses a picture without a value.
var errNothing = errors.New("there is no value to draw")
