package picture

import (
	"image/color"
	"strings"
	"unicode"

	"golang.org/x/image/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	plotfont "gonum.org/v1/plot/font"
)

// Paper and ink. The tones of series differ in lightness as well as in hue, so
// that they stay apart in grey.
var (
	paper  = color.NRGBA{0xfb, 0xf9, 0xf4, 0xff}
	ink    = color.NRGBA{0x24, 0x28, 0x2c, 0xff}
	pencil = color.NRGBA{0x6b, 0x70, 0x74, 0xff} // secondary words
	ruled  = color.NRGBA{0xe2, 0xdd, 0xd2, 0xff} // lines to read values by
	tones  = []color.NRGBA{
		{0x1d, 0x4e, 0x6f, 0xff}, {0xa8, 0x4c, 0x22, 0xff}, {0x7d, 0x97, 0x3c, 0xff},
		{0x3a, 0x2a, 0x4f, 0xff}, {0x8a, 0x83, 0x78, 0xff}, {0xc4, 0x9a, 0x2c, 0xff},
	}
	dashes = [][]vg.Length{nil, {6, 3}, {2, 2}, {8, 3, 2, 3}, {12, 4}, {4, 2, 1, 2}}
)

const margin = 16

// roomy is the share of the width that lines of words take: the face a reader has
// may be wider than the one they are measured in.
const roomy = 0.87

// marker draws the n-th marker: with a dash and a tone it tells series apart.
func marker(n int) draw.GlyphDrawer {
	return []draw.GlyphDrawer{draw.CircleGlyph{}, draw.SquareGlyph{}, draw.PyramidGlyph{}, draw.RingGlyph{}, draw.BoxGlyph{}, draw.CrossGlyph{}}[n%6]
}

func tone(n int) color.NRGBA { return tones[n%len(tones)] }

// faded is a tone for areas that others may shine through.
func faded(c color.NRGBA, alpha uint8) color.NRGBA { c.A = alpha; return c }

var faces = text.Plain{Fonts: plotfont.NewCache(liberation.Collection())}

func style(size vg.Length, weight font.Weight, c color.Color) text.Style {
	return text.Style{Color: c, Handler: faces,
		Font: plotfont.Font{Typeface: "Liberation", Variant: "Sans", Weight: weight, Size: size}}
}

var (
	heading = style(13, font.WeightBold, ink)
	plain   = style(9.5, font.WeightNormal, ink)
	strong  = style(9.5, font.WeightBold, ink)
	quiet   = style(9, font.WeightNormal, pencil)
	small   = style(7.5, font.WeightNormal, pencil)
)

// pen draws on a canvas and remembers where it has written.
type pen struct {
	c     draw.Canvas
	area  vg.Rectangle // what is left to draw in
	boxes []box
}

// box is where a line of text stands, and which share of it lies left of its anchor.
type box struct {
	vg.Rectangle
	anchor vg.Length
}

// write puts one line of text with its anchor at a point: x 0 left, 0.5 middle,
// 1 right; y 0 the baseline, 0.5 the middle of the letters, 1 their top.
func (p *pen) write(s string, st text.Style, at vg.Point, x, y vg.Length) {
	s = clean(s)
	if s == "" {
		return
	}
	w, height := st.Width(s), st.Font.Size*0.72
	at.X -= x * w
	at.Y -= y * height
	p.boxes = append(p.boxes, box{vg.Rectangle{Min: at, Max: vg.Point{X: at.X + w, Y: at.Y + height}}, x})
	p.c.SetColor(st.Color)
	p.c.FillString(faces.Fonts.Lookup(st.Font, st.Font.Size), at, s)
}

// top writes wrapped lines at the top of the area and takes them from it.
func (p *pen) top(s string, st text.Style, most int) {
	for _, line := range wrap(s, st, p.area.Size().X*roomy, most) {
		p.write(line, st, vg.Point{X: p.area.Min.X, Y: p.area.Max.Y}, 0, 1)
		p.area.Max.Y -= st.Font.Size * 1.35
	}
	if s != "" {
		p.area.Max.Y -= 3
	}
}

// bottom writes wrapped lines at the foot of the area and takes them from it.
func (p *pen) bottom(s string, st text.Style, most int) {
	lines := wrap(s, st, p.area.Size().X*roomy, most)
	for i := len(lines) - 1; i >= 0; i-- {
		p.write(lines[i], st, p.area.Min, 0, 0)
		p.area.Min.Y += st.Font.Size * 1.3
	}
	if s != "" {
		p.area.Min.Y += 6
	}
}

func (p *pen) fill(r vg.Rectangle, c color.Color) {
	p.c.SetColor(c)
	p.c.Fill(r.Path())
}

func (p *pen) line(c color.Color, width vg.Length, dash []vg.Length, points ...vg.Point) {
	p.c.StrokeLines(draw.LineStyle{Color: c, Width: width, Dashes: dash}, points)
}

func (p *pen) mark(n int, at vg.Point, c color.Color) {
	p.c.DrawGlyphNoClip(draw.GlyphStyle{Color: c, Radius: 3, Shape: marker(n)}, at)
}

// wrap breaks text into lines no wider than width, at most so many; the last
// one is cut with an ellipsis if need be.
func wrap(s string, st text.Style, width vg.Length, most int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(clean(s)) {
		switch next := strings.TrimSpace(line + " " + word); {
		case line == "" || st.Width(next) <= width:
			line = next
		default:
			lines = append(lines, line)
			line = word
		}
	}
	if line != "" {
		lines = append(lines, line)
	}
	if len(lines) > most {
		lines[most-1] = strings.Join(lines[most-1:], " ")
		lines = lines[:most]
	}
	for i := range lines {
		lines[i] = fit(lines[i], st, width)
	}
	return lines
}

// fit cuts text to a width.
func fit(s string, st text.Style, width vg.Length) string {
	s = clean(s)
	if st.Width(s) <= width {
		return s
	}
	runes := []rune(s)
	if len(runes) > 400 { // as long as any line
		runes = runes[:400]
	}
	for len(runes) > 0 && st.Width(string(runes)+"…") > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}

// clean takes away what does not print or would turn the text around.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r':
			return ' '
		case unicode.IsPrint(r):
			return r
		}
		return unicode.ReplacementChar
	}, s)
}
