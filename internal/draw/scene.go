package draw

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Scene is a picture: shapes in the order in which they are drawn.
type Scene struct {
	W, H        float64 // px
	Title, Desc string  // what it shows and how to read it, for those who cannot see it
	ID          string  // unique in a page; lower-case letters, digits and hyphens

	shapes []shape
	open   int // groups begun and not ended
}

// Style is how a shape is drawn.
type Style struct {
	Fill    Ink
	Line    Ink
	Width   float64   // of the line, px
	Dash    []float64 // px on, px off, ...; nil: solid
	Opacity float64   // 0 stands for 1
}

// Line is a style of a line with nothing filled.
func Line(i Ink, width float64, dash ...float64) Style {
	return Style{Line: i, Width: width, Dash: dash}
}

// Fill is a style of an area without an outline.
func Fill(i Ink) Style { return Style{Fill: i} }

// Faded is the style with another opacity.
func (s Style) Faded(opacity float64) Style { s.Opacity = opacity; return s }

// Box is an upright rectangle, px.
type Box struct{ Min, Max r2.Vec }

// Around is the box of that half-width and half-height around a point.
func Around(c r2.Vec, dx, dy float64) Box {
	return Box{r2.Vec{X: c.X - dx, Y: c.Y - dy}, r2.Vec{X: c.X + dx, Y: c.Y + dy}}
}

// Meets reports whether two boxes overlap.
func (b Box) Meets(o Box) bool {
	return b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y
}

// Within reports whether b lies in o.
func (b Box) Within(o Box) bool {
	return b.Min.X >= o.Min.X && b.Max.X <= o.Max.X && b.Min.Y >= o.Min.Y && b.Max.Y <= o.Max.Y
}

type shapeKind uint8

const (
	path   shapeKind = iota // points, closed or not
	circle                  // points[0], r
	arc                     // points[0], r, from, to
	words
	groupBegins
	groupEnds
)

type shape struct {
	kind     shapeKind
	points   []r2.Vec
	closed   bool
	r        float64
	from, to float64 // rad, anticlockwise from +x as the eye sees it
	style    Style
	text     string
	words    Words
	group    Group
}

// Group is shapes that belong together, for a page that moves or hides them. An
// image shows it like everything else, unless it is hidden.
type Group struct {
	ID     string // unique in a page; "" for none
	Class  string // classes; the caller's own, plain letters, digits and hyphens
	Title  string // what it is, in words; shown when pointed at
	Move   r2.Vec // shifts the group, px
	Hidden bool   // kept out of images; an SVG has it, for a page to show
}

// Begin opens a group; End closes it. Every group must be closed.
func (s *Scene) Begin(g Group) {
	s.open++
	s.shapes = append(s.shapes, shape{kind: groupBegins, group: g})
}

// End closes the group that was opened last.
func (s *Scene) End() {
	if s.open == 0 {
		panic("draw: End without Begin")
	}
	s.open--
	s.shapes = append(s.shapes, shape{kind: groupEnds})
}

// Path draws a line through points.
func (s *Scene) Path(st Style, points ...r2.Vec) {
	s.shapes = append(s.shapes, shape{kind: path, points: points, style: st})
}

// Polygon draws a closed line through points.
func (s *Scene) Polygon(st Style, points ...r2.Vec) {
	s.shapes = append(s.shapes, shape{kind: path, points: points, closed: true, style: st})
}

// Rect draws a box.
func (s *Scene) Rect(b Box, st Style) {
	s.Polygon(st, b.Min, r2.Vec{X: b.Max.X, Y: b.Min.Y}, b.Max, r2.Vec{X: b.Min.X, Y: b.Max.Y})
}

// Circle draws a circle of radius r, px.
func (s *Scene) Circle(c r2.Vec, r float64, st Style) {
	s.shapes = append(s.shapes, shape{kind: circle, points: []r2.Vec{c}, r: r, style: st})
}

// Arc draws the part of a circle from one angle to a greater one, rad,
// anticlockwise from +x as the eye sees it, less than a full turn.
func (s *Scene) Arc(c r2.Vec, r, from, to float64, st Style) {
	s.shapes = append(s.shapes, shape{kind: arc, points: []r2.Vec{c}, r: r, from: from, to: to, style: st})
}

// Arrow draws a line with a head at its end, between points that are stop px away
// from the marks at both ends. Nothing is drawn when that leaves no line.
func (s *Scene) Arrow(a, b r2.Vec, stop float64, st Style) {
	a, b, u, ok := between(a, b, stop)
	if !ok {
		return
	}
	s.Path(st, a, s.head(b, u, st))
}

// Wave draws an arrow with a wavy shaft: a carry.
func (s *Scene) Wave(a, b r2.Vec, stop float64, st Style) {
	a, b, u, ok := between(a, b, stop)
	if !ok {
		return
	}
	end := s.head(b, u, st)
	length := r2.Norm(r2.Sub(end, a))
	const wave, high, steps = 9.0, 2.2, 8 // px, px, points of a wave
	n := max(math.Round(length/wave), 1)
	points := make([]r2.Vec, 0, int(n)*steps+1)
	for i := range int(n)*steps + 1 {
		t := float64(i) / (n * steps)
		side := high * math.Sin(2*math.Pi*n*t)
		points = append(points, r2.Vec{X: a.X + t*length*u.X - side*u.Y, Y: a.Y + t*length*u.Y + side*u.X})
	}
	s.Path(st, points...)
}

// between shortens a line at both ends and gives its direction.
func between(a, b r2.Vec, stop float64) (from, to, u r2.Vec, ok bool) {
	d := r2.Norm(r2.Sub(b, a))
	if d < 2*stop+3 {
		return a, b, u, false
	}
	u = r2.Scale(1/d, r2.Sub(b, a))
	return r2.Add(a, r2.Scale(stop, u)), r2.Sub(b, r2.Scale(stop, u)), u, true
}

// head draws an arrow's head with its tip at a point and returns where the shaft
// ends.
func (s *Scene) head(tip, u r2.Vec, st Style) r2.Vec {
	long, half := 4+2.2*st.Width, 1.6+1.2*st.Width
	base := r2.Sub(tip, r2.Scale(long, u))
	side := r2.Vec{X: -u.Y * half, Y: u.X * half}
	s.Polygon(Style{Fill: st.Line, Opacity: st.Opacity}, tip, r2.Add(base, side), r2.Sub(base, side))
	return base
}

// Put draws the shapes of another scene with its top left corner at a point.
func (s *Scene) Put(o *Scene, at r2.Vec) {
	s.Begin(Group{Move: at})
	s.shapes = append(s.shapes, o.shapes...)
	s.End()
}
