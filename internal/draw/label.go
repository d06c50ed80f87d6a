package draw

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Label is a text that belongs to a point and may stand anywhere near it.
type Label struct {
	At    r2.Vec // px
	Text  string
	Words Words   // its Anchor and Centre do not matter
	Clear float64 // px kept free between the point and the text
}

// gap is the least space between two labels, px.
const gap = 2.0

// Labels sets texts near their points so that no two overlap, none covers a box of
// taken and all stay in the picture. Earlier ones choose first. It returns those
// for which there was no room, which are not drawn, and the boxes of the others.
func (s *Scene) Labels(labels []Label, taken []Box) (left []Label, placed []Box) {
	frame := Box{Max: r2.Vec{X: s.W, Y: s.H}}
	taken = append([]Box(nil), taken...)
	for _, l := range labels {
		box, ok := l.place(frame, taken)
		if !ok {
			left = append(left, l)
			continue
		}
		taken, placed = append(taken, box), append(placed, box)
		c := r2.Scale(0.5, r2.Add(box.Min, box.Max))
		// A text that had to go far away is tied to its point.
		if edge := box.nearest(l.At); r2.Norm(r2.Sub(edge, l.At)) > l.Clear+14 {
			s.Path(Line(Pencil, 0.8), l.At, edge)
		}
		w := l.Words
		w.Anchor, w.Centre = Middle, true
		s.Write(c, l.Text, w)
	}
	return left, placed
}

// place finds the free place nearest to the label's point: right and left of it
// first, then above and below, then in between, then further off.
func (l Label) place(frame Box, taken []Box) (Box, bool) {
	w, h := l.Words.Width(l.Text)/2+gap, 0.62*l.Words.Size+gap
	for ring := range 5 {
		off := l.Clear + 11*float64(ring)
		for _, turn := range []float64{0, 4, 2, 6, 1, 7, 3, 5} { // eighths of a turn
			sin, cos := math.Sincos(turn * math.Pi / 4)
			c := r2.Vec{X: l.At.X + cos*off + w*math.Round(cos), Y: l.At.Y - sin*off - h*math.Round(sin)}
			box := Around(c, w, h)
			free := box.Within(frame)
			for i := 0; free && i < len(taken); i++ {
				free = !box.Meets(taken[i])
			}
			if free {
				return box, true
			}
		}
	}
	return Box{}, false
}

// nearest is the point of the box that is nearest to p.
func (b Box) nearest(p r2.Vec) r2.Vec {
	return r2.Vec{X: min(max(p.X, b.Min.X), b.Max.X), Y: min(max(p.Y, b.Min.Y), b.Max.Y)}
}
