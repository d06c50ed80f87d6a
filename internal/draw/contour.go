package draw

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Contour is a closed line around an area of a grid.
type Contour struct {
	Points []r2.Vec // in cells: (0, 0) is the middle of the first one
	Level  int      // index in the levels; the area inside reaches it
	Hole   bool     // or the area inside falls short of it
	Area   float64  // cells
}

// Contours are the lines at which a grid crosses the given levels, ascending, by
// marching squares with straight lines between the middles of the cells. Beyond its
// border the grid is below every level, so that all lines close. at gives the value of
// cell (i, k), i below columns and k below rows. They come largest first: painted in
// that order, each with what is inside it, they show the grid.
// Reference: Lorensen and Cline (1987), SIGGRAPH 21, 163-169, in two dimensions.
func Contours(columns, rows int, at func(i, k int) float64, levels []float64) []Contour {
	var out []Contour
	for l, level := range levels {
		g := grid{columns: columns, rows: rows, at: at, level: level, next: map[crossing]crossing{}}
		out = append(out, g.trace(l)...)
	}
	slices.SortStableFunc(out, func(a, b Contour) int { return cmp.Compare(b.Area, a.Area) })
	return out
}

// crossing is an edge between two neighbouring cells that a contour crosses: from cell
// (i, k) to the right or, if up, to the next row.
type crossing struct {
	i, k int
	up   bool
}

type grid struct {
	columns, rows int
	at            func(i, k int) float64
	level         float64
	next          map[crossing]crossing // along a line, the higher ground to its left
	order         []crossing
}

func (g *grid) value(i, k int) float64 {
	if i < 0 || k < 0 || i >= g.columns || k >= g.rows {
		return math.Inf(-1)
	}
	return g.at(i, k)
}

// trace joins the pieces of all squares of four cells.
func (g *grid) trace(level int) []Contour {
	for k := -1; k < g.rows; k++ {
		for i := -1; i < g.columns; i++ {
			g.square(i, k)
		}
	}
	var out []Contour
	for _, first := range g.order {
		if _, open := g.next[first]; !open {
			continue
		}
		var c Contour
		for e := first; ; {
			to, open := g.next[e]
			if !open {
				break
			}
			delete(g.next, e)
			c.Points = append(c.Points, g.point(e))
			e = to
		}
		twice := 0.0
		for i, p := range c.Points {
			q := c.Points[(i+1)%len(c.Points)]
			twice += p.X*q.Y - p.Y*q.X
		}
		c.Level, c.Hole, c.Area = level, twice < 0, math.Abs(twice)/2
		out = append(out, c)
	}
	return out
}

// square notes the pieces of line in the square of cells (i, k) to (i+1, k+1). At a
// saddle the lower corners are taken as joined.
func (g *grid) square(i, k int) {
	bottom, top := crossing{i, k, false}, crossing{i, k + 1, false}
	left, right := crossing{i, k, true}, crossing{i + 1, k, true}
	corner := 0
	for bit, v := range [4]float64{g.value(i, k), g.value(i+1, k), g.value(i+1, k+1), g.value(i, k+1)} {
		if v >= g.level {
			corner |= 1 << bit
		}
	}
	join := func(from, to crossing) {
		g.next[from] = to
		g.order = append(g.order, from)
	}
	switch corner {
	case 1:
		join(bottom, left)
	case 2:
		join(right, bottom)
	case 3:
		join(right, left)
	case 4:
		join(top, right)
	case 5:
		join(bottom, left)
		join(top, right)
	case 6:
		join(top, bottom)
	case 7:
		join(top, left)
	case 8:
		join(left, top)
	case 9:
		join(bottom, top)
	case 10:
		join(right, bottom)
		join(left, top)
	case 11:
		join(right, top)
	case 12:
		join(left, right)
	case 13:
		join(bottom, right)
	case 14:
		join(left, bottom)
	}
}

// point is where the line crosses an edge; half a cell out at the border.
func (g *grid) point(e crossing) r2.Vec {
	a := g.value(e.i, e.k)
	b := g.value(e.i+1, e.k)
	if e.up {
		b = g.value(e.i, e.k+1)
	}
	x := 0.5
	if !math.IsInf(a, 0) && !math.IsInf(b, 0) {
		x = (g.level - a) / (b - a)
	}
	if e.up {
		return r2.Vec{X: float64(e.i), Y: float64(e.k) + x}
	}
	return r2.Vec{X: float64(e.i) + x, Y: float64(e.k)}
}
