package picture

import (
	"errors"

	"gonum.org/v1/plot/vg"
)

// Rows are named values below one another, as points or bars, each with its
// interval: words of a sweep, candidates, inputs ranked by what they do. The
// caller ranks them.
type Rows struct {
	Words
	X      string // what the axis says, with its unit
	Names  []string
	Series []Series // one or more values for each name
	Bars   bool     // bars from zero instead of points
	Level  *float64 // a line to compare with, such as zero; nil: none
	Marked int      // 1 + the row that stands out, such as the scenario as it is; 0: none
}

// Series is one value for each name.
type Series struct {
	Name   string // may be empty when there is only one
	Values []Interval
}

// mostRows keeps a picture on a page.
const mostRows = 80

func (r *Rows) words() Words { return r.Words }

func (r *Rows) size() (w, h vg.Length) {
	return 20 * vg.Centimeter, 140 + vg.Length(len(r.Names))*r.pitch()
}

// pitch is the height of a row.
func (r *Rows) pitch() vg.Length { return 12 + 10*vg.Length(len(r.Series)) }

func (r *Rows) check() error {
	if len(r.Names) > mostRows {
		return errors.New("more rows than fit on a page")
	}
	if len(r.Series) > mostLines {
		return errors.New("more series than a reader can tell apart")
	}
	any := false
	for _, s := range r.Series {
		if len(s.Values) != len(r.Names) {
			return errors.New("a series with more values than there are names")
		}
		for _, v := range s.Values {
			any = any || v.drawn()
		}
	}
	if !any {
		return errNothing
	}
	return nil
}

func (r *Rows) draw(p *pen) {
	f := frame{x: noBounds(), y: bounds{0, 1}}
	for _, s := range r.Series {
		for _, v := range s.Values {
			f.x.interval(v)
		}
	}
	if r.Level != nil {
		f.x.take(*r.Level)
	}
	if r.Bars {
		f.x.take(0)
	}
	span := f.x.hi - f.x.lo
	f.x = f.x.wide(0.04)
	r.legend(p)

	names := vg.Length(0)
	for _, n := range r.Names {
		names = max(names, strong.Width(clean(n)))
	}
	names = min(names, p.area.Size().X*0.42)
	d := decimalsFor(span)
	values := vg.Length(0)
	for _, s := range r.Series {
		for _, v := range s.Values {
			values = max(values, quiet.Width(number(v.Value, d)))
		}
	}
	f.r = vg.Rectangle{Min: vg.Point{X: p.area.Min.X + names + 10, Y: p.area.Min.Y + 32}, Max: vg.Point{X: p.area.Max.X - values - 10, Y: p.area.Max.Y}}
	at, _ := ticks(f.x.lo, f.x.hi, 8)
	for _, x := range at {
		p.line(ruled, 0.7, nil, f.at(x, 0), f.at(x, 1))
	}
	p.axisX(f, r.X)
	if r.Bars && f.x.lo < 0 {
		p.line(ink, 0.8, nil, f.at(0, 0), f.at(0, 1))
	}
	if r.Level != nil {
		p.line(ink, 0.8, []vg.Length{3, 2}, f.at(*r.Level, 0), f.at(*r.Level, 1))
	}
	step := f.r.Size().Y / vg.Length(len(r.Names))
	for i, name := range r.Names {
		middle := f.r.Max.Y - (vg.Length(i)+0.5)*step
		st := plain
		if r.Marked == i+1 {
			st = strong
		}
		p.write(fit(name, st, names), st, vg.Point{X: f.r.Min.X - 8, Y: middle}, 1, 0.5)
		for k, s := range r.Series {
			y := middle + 10*(vg.Length(len(r.Series)-1)/2-vg.Length(k))
			r.value(p, f, s.Values[i], k, y, d)
		}
	}
}

// value draws one value with its interval, and the number at the right.
func (r *Rows) value(p *pen, f frame, v Interval, n int, y vg.Length, decimals int) {
	if !v.drawn() {
		return
	}
	x := f.px(v.Value)
	if r.Bars {
		zero := f.px(0)
		p.fill(vg.Rectangle{Min: vg.Point{X: min(x, zero), Y: y - 3.5}, Max: vg.Point{X: max(x, zero), Y: y + 3.5}}, faded(tone(n), 0x66))
	}
	if v.bounded() {
		lo, hi := f.px(v.Lo), f.px(v.Hi)
		p.line(tone(n), 1.4, nil, vg.Point{X: lo, Y: y}, vg.Point{X: hi, Y: y})
		for _, end := range []vg.Length{lo, hi} {
			p.line(tone(n), 1.4, nil, vg.Point{X: end, Y: y - 2.5}, vg.Point{X: end, Y: y + 2.5})
		}
	}
	p.mark(n, vg.Point{X: x, Y: y}, tone(n))
	p.write(number(v.Value, decimals), quiet, vg.Point{X: p.area.Max.X, Y: y}, 1, 0.5)
}

// legend names the series in a line.
func (r *Rows) legend(p *pen) {
	if len(r.Series) < 2 {
		return
	}
	x, y := p.area.Min.X+4, p.area.Max.Y-6
	for n, s := range r.Series {
		st := strong
		st.Color = tone(n)
		name := fit(s.Name, st, p.area.Size().X/vg.Length(len(r.Series))-24)
		p.mark(n, vg.Point{X: x, Y: y}, tone(n))
		p.write(name, st, vg.Point{X: x + 8, Y: y}, 0, 0.5)
		x += st.Width(name) + 28
	}
	p.area.Max.Y -= 20
}
