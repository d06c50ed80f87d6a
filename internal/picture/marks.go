package picture

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"
)

// Mark is a place on the X axis with a word, such as the scenario as it stands;
// with To it is a range of X.
type Mark struct {
	At, To float64 // To 0 or below At: a single place
	Text   string
}

// Words of marks in one row keep apart, so that they do not read as one; where there is
// no room for that, they go into the next row up.
const (
	markApart = 18
	markRow   = 12
)

// placed is a mark with the place of its words above the frame.
type placed struct {
	Mark
	text string
	from vg.Length // left end of the words
	row  int
}

// place finds room for the words of the marks within a frame, and says how many rows
// they take beyond the first.
func (c *Curves) place(f frame) (all []placed, rows int) {
	order := slices.Clone(c.Marks)
	slices.SortStableFunc(order, func(a, b Mark) int { return cmp.Compare(a.At, b.At) })
	var ends []vg.Length // of each row
	for _, m := range order {
		if !finite(m.At) || m.At < f.x.lo || m.At > f.x.hi {
			continue
		}
		x := f.px(m.At)
		if m.To > m.At {
			x = (x + f.px(min(m.To, f.x.hi))) / 2
		}
		l := placed{Mark: m, text: fit(m.Text, quiet, f.r.Size().X)}
		w := quiet.Width(l.text)
		l.from = max(f.r.Min.X, min(x-w/2, f.r.Max.X-w))
		for l.row < len(ends) && l.from < ends[l.row]+markApart {
			l.row++
		}
		if l.row == len(ends) {
			ends = append(ends, 0)
		}
		ends[l.row] = l.from + w
		all = append(all, l)
	}
	return all, max(len(ends)-1, 0)
}

// draw draws a mark as a line, or its range as an area, with its words.
func (m *placed) draw(p *pen, f frame) {
	x := f.px(m.At)
	if m.To > m.At {
		to := f.px(min(m.To, f.x.hi))
		p.fill(vg.Rectangle{Min: vg.Point{X: x, Y: f.r.Min.Y}, Max: vg.Point{X: to, Y: f.r.Max.Y}}, faded(ink, 0x12))
	} else {
		p.line(pencil, 0.8, []vg.Length{2, 2}, vg.Point{X: x, Y: f.r.Min.Y}, vg.Point{X: x, Y: f.r.Max.Y})
	}
	p.write(m.text, quiet, vg.Point{X: m.from + quiet.Width(m.text)/2, Y: f.r.Max.Y + 5 + vg.Length(m.row)*markRow}, 0.5, 0)
}
