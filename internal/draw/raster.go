package draw

import (
	"bytes"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// Image is the scene in dots; scale is the number of them for a px.
func (s *Scene) Image(t Theme, scale float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(s.W*scale)), int(math.Ceil(s.H*scale))))
	draw.Draw(img, img.Bounds(), image.NewUniform(Paper.Colour(t)), image.Point{}, draw.Src)
	s.Over(img, t, scale)
	return img
}

// PNG is the scene as a PNG file.
func (s *Scene) PNG(t Theme, scale float64) ([]byte, error) {
	var out bytes.Buffer
	err := png.Encode(&out, s.Image(t, scale))
	return out.Bytes(), err
}

// Over draws the scene on an image that is there already, from its top left
// corner.
func (s *Scene) Over(img *image.RGBA, t Theme, scale float64) {
	// The canvas works on a layer of its own. A px is a point, 1/72 inch.
	dpi := int(math.Round(72 * scale))
	dots := func(n int) vg.Length { return vg.Length(n) * 72 / vg.Length(dpi) }
	w, h := dots(img.Bounds().Dx()), dots(img.Bounds().Dy())
	c := vgimg.NewWith(vgimg.UseWH(w, h), vgimg.UseDPI(dpi), vgimg.UseBackgroundColor(color.Transparent))
	b := brush{c: c, theme: t, high: h}
	hidden := 0
	for i := range s.shapes {
		p := &s.shapes[i]
		switch {
		case p.kind == groupBegins:
			if p.group.Hidden || hidden > 0 {
				hidden++
			}
			c.Push()
			c.Translate(vg.Point{X: vg.Length(p.group.Move.X), Y: -vg.Length(p.group.Move.Y)})
		case p.kind == groupEnds:
			if hidden > 0 {
				hidden--
			}
			c.Pop()
		case hidden == 0:
			b.draw(p)
		}
	}
	draw.Draw(img, img.Bounds(), c.Image(), img.Bounds().Min, draw.Over)
}

// brush draws shapes on a canvas, whose y points up: a px is a point of it.
type brush struct {
	c     *vgimg.Canvas
	theme Theme
	high  vg.Length
}

func (b *brush) at(p r2.Vec) vg.Point {
	return vg.Point{X: vg.Length(p.X), Y: b.high - vg.Length(p.Y)}
}

func (b *brush) ink(i Ink, opacity float64) color.NRGBA {
	c := i.Colour(b.theme)
	if opacity > 0 && opacity < 1 {
		c.A = uint8(math.Round(255 * opacity))
	}
	return c
}

func (b *brush) draw(p *shape) {
	if p.kind == words {
		b.write(p)
		return
	}
	var line vg.Path
	switch p.kind {
	case circle:
		c := b.at(p.points[0])
		line.Move(vg.Point{X: c.X + vg.Length(p.r), Y: c.Y})
		line.Arc(c, vg.Length(p.r), 0, 2*math.Pi)
		line.Close()
	case arc:
		line.Move(b.at(p.onArc(p.from)))
		line.Arc(b.at(p.points[0]), vg.Length(p.r), p.from, p.to-p.from)
	case path:
		for i, q := range p.points {
			if i == 0 {
				line.Move(b.at(q))
			} else {
				line.Line(b.at(q))
			}
		}
		if p.closed {
			line.Close()
		}
	}
	if p.style.Fill != NoInk {
		b.c.SetColor(b.ink(p.style.Fill, p.style.Opacity))
		b.c.Fill(line)
	}
	if p.style.Line != NoInk {
		dash := make([]vg.Length, len(p.style.Dash))
		for i, d := range p.style.Dash {
			dash[i] = vg.Length(d)
		}
		b.c.SetLineDash(dash, 0)
		b.c.SetLineWidth(vg.Length(p.style.Width))
		b.c.SetColor(b.ink(p.style.Line, p.style.Opacity))
		b.c.Stroke(line)
	}
}

func (b *brush) write(p *shape) {
	face, at := p.words.face(), b.at(p.points[0])
	at.X -= face.Width(p.text) * [...]vg.Length{Start: 0, Middle: 0.5, End: 1}[p.words.Anchor]
	if p.words.Halo {
		b.c.SetColor(b.ink(Paper, 1))
		for i := range 8 {
			sin, cos := math.Sincos(float64(i) * math.Pi / 4)
			b.c.FillString(face, vg.Point{X: at.X + vg.Length(1.4*cos), Y: at.Y + vg.Length(1.4*sin)}, p.text)
		}
	}
	b.c.SetColor(b.ink(p.words.Ink, 1))
	b.c.FillString(face, at, p.text)
}
