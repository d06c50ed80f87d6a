package picture

import (
	"cmp"
	"errors"
	"slices"

	"gonum.org/v1/plot/vg"
)

// Curves are values over a number, each with its interval as a band.
type Curves struct {
	Words
	X, Y  string // what the axes say, with units
	Lines []Line
	Marks []Mark
	Level *float64 // a line across, such as zero; nil: none
}

// Line is one curve; X ascends.
type Line struct {
	Name string // may be empty when there is only one
	X    []float64
	Y    []Interval
}

// mostLines is how many curves a reader can tell apart by tone, dash and marker.
const mostLines = 6

func (c *Curves) words() Words           { return c.Words }
func (c *Curves) size() (w, h vg.Length) { return 20 * vg.Centimeter, 12.5 * vg.Centimeter }

func (c *Curves) check() error {
	if len(c.Lines) > mostLines {
		return errors.New("more curves than a reader can tell apart")
	}
	any := false
	for _, l := range c.Lines {
		if len(l.X) != len(l.Y) {
			return errors.New("a curve with more places than values")
		}
		if !slices.IsSorted(l.X) || slices.ContainsFunc(l.X, func(x float64) bool { return !finite(x) }) {
			return errors.New("a curve that does not ascend")
		}
		any = any || slices.ContainsFunc(l.Y, Interval.drawn)
	}
	if !any {
		return errNothing
	}
	return nil
}

// frame maps values to places in a rectangle.
type frame struct {
	r    vg.Rectangle
	x, y bounds
}

func (f frame) at(x, y float64) vg.Point { return vg.Point{X: f.px(x), Y: f.py(y)} }
func (f frame) px(x float64) vg.Length {
	return f.r.Min.X + vg.Length((x-f.x.lo)/(f.x.hi-f.x.lo))*f.r.Size().X
}
func (f frame) py(y float64) vg.Length {
	return f.r.Min.Y + vg.Length((y-f.y.lo)/(f.y.hi-f.y.lo))*f.r.Size().Y
}

func (c *Curves) draw(p *pen) {
	f := frame{x: noBounds(), y: noBounds()}
	for _, l := range c.Lines {
		f.x.take(l.X...)
		for _, y := range l.Y {
			f.y.interval(y)
		}
	}
	if c.Level != nil {
		f.y.take(*c.Level)
	}
	f.x, f.y = f.x.wide(0.03), f.y.wide(0.08)
	p.area.Max.Y -= 5
	p.top(c.Y, quiet, 2)

	labels := vg.Length(0) // room for names at the right
	if len(c.Lines) > 1 {
		for _, l := range c.Lines {
			labels = max(labels, min(strong.Width(clean(l.Name)), 130))
		}
		labels += 16
	}
	yAt, yLabels := ticks(f.y.lo, f.y.hi, 6)
	left := widest(yLabels) + 8
	f.r = vg.Rectangle{Min: vg.Point{X: p.area.Min.X + left, Y: p.area.Min.Y + 32}, Max: vg.Point{X: p.area.Max.X - labels, Y: p.area.Max.Y}}
	marks, rows := c.place(f)
	f.r.Max.Y -= 16 + vg.Length(rows)*markRow
	p.axisX(f, c.X)
	for i, y := range yAt {
		p.line(ruled, 0.7, nil, f.at(f.x.lo, y), f.at(f.x.hi, y))
		p.write(yLabels[i], quiet, vg.Point{X: f.r.Min.X - 6, Y: f.py(y)}, 1, 0.5)
	}
	if c.Level != nil {
		p.line(ink, 0.8, nil, f.at(f.x.lo, *c.Level), f.at(f.x.hi, *c.Level))
	}
	for _, m := range marks {
		m.draw(p, f)
	}
	for i, l := range c.Lines {
		band(p, f, l, i)
	}
	for i, l := range c.Lines {
		curve(p, f, l, i)
	}
	if len(c.Lines) > 1 {
		c.names(p, f, labels)
	}
}

func widest(labels []string) vg.Length {
	w := vg.Length(0)
	for _, s := range labels {
		w = max(w, quiet.Width(s))
	}
	return w
}

// axisX draws the axis below a frame with its ticks and title.
func (p *pen) axisX(f frame, title string) {
	at, labels := ticks(f.x.lo, f.x.hi, 8)
	p.line(ink, 0.8, nil, f.r.Min, vg.Point{X: f.r.Max.X, Y: f.r.Min.Y})
	for i, x := range at {
		p.line(ink, 0.8, nil, vg.Point{X: f.px(x), Y: f.r.Min.Y}, vg.Point{X: f.px(x), Y: f.r.Min.Y - 3})
		p.write(labels[i], quiet, vg.Point{X: f.px(x), Y: f.r.Min.Y - 6}, 0.5, 1)
	}
	title = fit(title, plain, p.area.Size().X)
	p.write(title, plain, vg.Point{X: max(f.r.Max.X, p.area.Min.X+plain.Width(title)), Y: f.r.Min.Y - 22}, 1, 1)
}

// band fills between the bounds of a curve, piece by piece where values are missing.
func band(p *pen, f frame, l Line, n int) {
	var piece []int
	flush := func() {
		if len(piece) > 1 {
			var around []vg.Point
			for _, i := range piece {
				around = append(around, f.at(l.X[i], l.Y[i].Hi))
			}
			for _, i := range slices.Backward(piece) {
				around = append(around, f.at(l.X[i], l.Y[i].Lo))
			}
			p.c.FillPolygon(faded(tone(n), 0x2c), around)
		}
		piece = nil
	}
	for i, y := range l.Y {
		if y.bounded() {
			piece = append(piece, i)
			continue
		}
		flush()
	}
	alone := len(piece) == 1 && len(l.Y) == 1
	flush()
	if alone { // one cell: a bar instead of a band
		p.line(tone(n), 1.2, nil, f.at(l.X[0], l.Y[0].Lo), f.at(l.X[0], l.Y[0].Hi))
	}
}

func curve(p *pen, f frame, l Line, n int) {
	var piece []vg.Point
	for i, y := range l.Y {
		if y.drawn() {
			piece = append(piece, f.at(l.X[i], y.Value))
			continue
		}
		p.line(tone(n), 1.6, dashes[n%len(dashes)], piece...)
		piece = nil
	}
	p.line(tone(n), 1.6, dashes[n%len(dashes)], piece...)
	if len(l.X) <= 60 {
		for i, y := range l.Y {
			if y.drawn() {
				p.mark(n, f.at(l.X[i], y.Value), tone(n))
			}
		}
	}
}

// names writes each curve's name at its end, pushed apart, with its marker.
func (c *Curves) names(p *pen, f frame, room vg.Length) {
	type label struct {
		n int
		y vg.Length
	}
	var all []label
	for i, l := range c.Lines {
		for j := len(l.Y) - 1; j >= 0; j-- {
			if l.Y[j].drawn() {
				all = append(all, label{i, f.py(l.Y[j].Value)})
				break
			}
		}
	}
	slices.SortStableFunc(all, func(a, b label) int { return cmp.Compare(a.y, b.y) })
	const apart = 12
	for i := range all {
		floor := f.r.Min.Y + 4
		if i > 0 {
			floor = all[i-1].y + apart
		}
		all[i].y = max(all[i].y, floor)
	}
	for i := len(all) - 1; i >= 0; i-- {
		ceiling := f.r.Max.Y - vg.Length(apart*(len(all)-1-i))
		all[i].y = min(all[i].y, ceiling)
	}
	for _, l := range all {
		st := strong
		st.Color = tone(l.n)
		x := f.r.Max.X + 8
		p.mark(l.n, vg.Point{X: x, Y: l.y}, tone(l.n))
		p.write(fit(c.Lines[l.n].Name, st, room-14), st, vg.Point{X: x + 7, Y: l.y}, 0, 0.5)
	}
}
