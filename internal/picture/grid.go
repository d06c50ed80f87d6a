package picture

import (
	"errors"
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// Grid is a value for each pair of a column and a row, as tone and number.
type Grid struct {
	Words
	X, Y       string // what columns and rows are, with units
	Columns    []string
	Rows       []string     // the first one is drawn at the bottom
	Values     [][]Interval // by row, then column
	Unclear    [][]bool     // cells that cannot be told from Here yet; nil: none
	Value      string       // what the numbers are, with their unit
	Centre     *float64     // tones go two ways from here; nil: from low to high
	HereRow    int          // row of the cell that is framed, such as the scenario as it stands
	HereColumn int
	Here       bool // whether there is such a cell
}

// mostCells along a side: beyond, a cell is a pixel.
const mostCells = 200

func (g *Grid) words() Words { return g.Words }

func (g *Grid) size() (w, h vg.Length) {
	return 20 * vg.Centimeter, min(max(170+26*vg.Length(len(g.Rows)), 280), 620)
}

func (g *Grid) check() error {
	if len(g.Columns) > mostCells || len(g.Rows) > mostCells {
		return errors.New("more cells than can be told apart")
	}
	if len(g.Values) != len(g.Rows) {
		return errors.New("a grid with rows missing")
	}
	any := false
	for i, row := range g.Values {
		if len(row) != len(g.Columns) || g.Unclear != nil && len(g.Unclear[i]) != len(row) {
			return errors.New("a grid with columns missing")
		}
		for _, v := range row {
			any = any || v.drawn()
		}
	}
	if !any {
		return errNothing
	}
	return nil
}

// Ends of the tones. Lightness falls from low to high, and from the centre to
// either end.
var (
	light = color.NRGBA{0xf1, 0xec, 0xdf, 0xff}
	deep  = color.NRGBA{0x17, 0x3f, 0x5c, 0xff}
	other = color.NRGBA{0x8c, 0x3f, 0x1c, 0xff}
)

// shade is the tone of a value.
func (g *Grid) shade(x float64, b bounds) color.NRGBA {
	if g.Centre == nil {
		return mix(light, deep, (x-b.lo)/(b.hi-b.lo))
	}
	far := max(b.hi-*g.Centre, *g.Centre-b.lo)
	if x < *g.Centre {
		return mix(light, other, (*g.Centre-x)/far)
	}
	return mix(light, deep, (x-*g.Centre)/far)
}

func mix(a, b color.NRGBA, t float64) color.NRGBA {
	t = min(max(t, 0), 1)
	f := func(x, y uint8) uint8 { return uint8(math.Round(float64(x) + t*(float64(y)-float64(x)))) }
	return color.NRGBA{f(a.R, b.R), f(a.G, b.G), f(a.B, b.B), 0xff}
}

// over is the ink that can be read on a tone.
func over(c color.NRGBA) color.Color {
	if 0.299*float64(c.R)+0.587*float64(c.G)+0.114*float64(c.B) < 140 {
		return paper
	}
	return ink
}

func (g *Grid) draw(p *pen) {
	b := noBounds()
	for _, row := range g.Values {
		for _, v := range row {
			b.take(v.Value)
		}
	}
	d := decimalsFor(b.hi - b.lo)
	if !(b.hi > b.lo) {
		b = b.wide(0)
	}
	p.area.Max.Y -= 5
	p.top(g.Y, quiet, 2)
	names := vg.Length(0)
	for _, n := range g.Rows {
		names = max(names, quiet.Width(clean(n)))
	}
	names = min(names, p.area.Size().X*0.3)
	const scale = 84
	r := vg.Rectangle{Min: vg.Point{X: p.area.Min.X + names + 8, Y: p.area.Min.Y + 32}, Max: vg.Point{X: p.area.Max.X - scale, Y: p.area.Max.Y}}
	w, h := r.Size().X/vg.Length(len(g.Columns)), r.Size().Y/vg.Length(len(g.Rows))
	for i, row := range g.Values {
		for j, v := range row {
			cell := vg.Rectangle{Min: vg.Point{X: r.Min.X + vg.Length(j)*w, Y: r.Min.Y + vg.Length(i)*h}}
			cell.Max = vg.Point{X: cell.Min.X + w, Y: cell.Min.Y + h}
			g.cell(p, cell, v, b, d, g.Unclear != nil && g.Unclear[i][j])
		}
	}
	if g.Here {
		x, y := r.Min.X+vg.Length(g.HereColumn)*w, r.Min.Y+vg.Length(g.HereRow)*h
		for _, f := range []struct {
			c    color.Color
			wide vg.Length
		}{{paper, 4}, {ink, 2}} {
			p.line(f.c, f.wide, nil, vg.Point{X: x, Y: y}, vg.Point{X: x + w, Y: y}, vg.Point{X: x + w, Y: y + h}, vg.Point{X: x, Y: y + h}, vg.Point{X: x, Y: y})
		}
	}
	g.sides(p, r, w, h, names)
	g.scale(p, r, b, d)
}

// cell fills a cell and writes its number, in brackets when it is unclear.
func (g *Grid) cell(p *pen, r vg.Rectangle, v Interval, b bounds, decimals int, unclear bool) {
	if !v.drawn() {
		return
	}
	c := g.shade(v.Value, b)
	gap := vg.Length(0.5)
	if r.Size().X < 6 || r.Size().Y < 6 {
		gap = 0
	}
	p.fill(vg.Rectangle{Min: vg.Point{X: r.Min.X + gap, Y: r.Min.Y + gap}, Max: vg.Point{X: r.Max.X - gap, Y: r.Max.Y - gap}}, c)
	s := number(v.Value, decimals)
	if unclear {
		s = "(" + s + ")"
	}
	st := quiet
	st.Color = over(c)
	if st.Width(s)+4 <= r.Size().X && r.Size().Y >= 11 {
		p.write(s, st, vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}, 0.5, 0.5)
	}
}

// sides names columns and rows, as many as there is room for.
func (g *Grid) sides(p *pen, r vg.Rectangle, w, h, names vg.Length) {
	widestColumn := vg.Length(0)
	for _, n := range g.Columns {
		widestColumn = max(widestColumn, quiet.Width(clean(n)))
	}
	every := max(1, int(math.Ceil(float64(min(widestColumn, 120)+6)/float64(w))))
	for j := 0; j < len(g.Columns); j += every {
		room := w*vg.Length(every) - 4
		p.write(fit(g.Columns[j], quiet, room), quiet, vg.Point{X: r.Min.X + (vg.Length(j)+0.5)*w, Y: r.Min.Y - 6}, 0.5, 1)
	}
	every = max(1, int(math.Ceil(11/float64(h))))
	for i := 0; i < len(g.Rows); i += every {
		p.write(fit(g.Rows[i], quiet, names), quiet, vg.Point{X: r.Min.X - 6, Y: r.Min.Y + (vg.Length(i)+0.5)*h}, 1, 0.5)
	}
	title := fit(g.X, plain, p.area.Size().X)
	p.write(title, plain, vg.Point{X: max(r.Max.X, p.area.Min.X+plain.Width(title)), Y: r.Min.Y - 22}, 1, 1)
}

// scale shows what the tones stand for, with the words for the values below it.
func (g *Grid) scale(p *pen, r vg.Rectangle, b bounds, decimals int) {
	const steps, height = 40, 110
	x := r.Max.X + 14
	words := wrap(g.Value, small, p.area.Max.X-x, 5)
	top := r.Max.Y - 2
	for _, s := range words {
		p.write(s, small, vg.Point{X: x, Y: top}, 0, 1)
		top -= small.Font.Size * 1.3
	}
	top -= 6
	size := min(height, top-r.Min.Y)
	for k := range steps {
		t := float64(k) / (steps - 1)
		y := top - size + vg.Length(k)*size/steps
		p.fill(vg.Rectangle{Min: vg.Point{X: x, Y: y}, Max: vg.Point{X: x + 10, Y: y + size/steps + 0.2}}, g.shade(b.lo+t*(b.hi-b.lo), b))
	}
	p.write(number(b.hi, decimals), quiet, vg.Point{X: x + 14, Y: top}, 0, 1)
	p.write(number(b.lo, decimals), quiet, vg.Point{X: x + 14, Y: top - size}, 0, 0)
}
