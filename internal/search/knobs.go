package search

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/scenario"
	"playout/model"
)

// number is a number of the scenario between two bounds.
type number struct {
	path   scenario.Path
	lo, hi float64
}

func (n *number) box() (lo, hi, start []float64) {
	return []float64{n.lo}, []float64{n.hi}, []float64{n.path.Now}
}

// steps is how many values of a range are told apart at the least: a finer one is
// nothing that a coach could ask for.
const steps = 100

func (n *number) changes(x []float64) []Change {
	step := math.Pow(10, math.Floor(math.Log10((n.hi-n.lo)/steps)))
	if n.path.Kind == scenario.Whole {
		step = 1
	}
	v := min(max(math.Round(x[0]/step)*step, n.lo), n.hi)
	if math.Abs(v-n.path.Now) < step/2 {
		return nil
	}
	v = clean(v)
	return []Change{{Path: n.path.Path, Label: n.path.Label, Unit: n.path.Unit,
		From: n.path.Value, To: scenario.FormatNumber(v), Size: v - n.path.Now}}
}

// clean takes the dust of binary fractions off a number, so that it reads well.
func clean(x float64) float64 { return math.Round(x*1e9) / 1e9 }

// choice is a value that is one of several words. Its coordinate runs through
// [0, number of words); the first word is the present one.
type choice struct {
	path   scenario.Path
	values []string
}

func (c *choice) box() (lo, hi, start []float64) {
	return []float64{0}, []float64{float64(len(c.values))}, []float64{0.5}
}

func (c *choice) changes(x []float64) []Change {
	i := min(int(x[0]), len(c.values)-1)
	if i == 0 {
		return nil
	}
	from := c.values[0]
	if from == "" {
		from = "as it is"
	}
	return []Change{{Path: c.path.Path, Label: c.path.Label, From: from, To: c.values[i]}}
}

// move shifts one player's places by the same way in some phases.
type move struct {
	pitch  model.Pitch
	radius float64
	places []place
}

// place is where the file puts him in a phase.
type place struct {
	path, label string
	at          r2.Vec
}

func (m *move) box() (lo, hi, start []float64) {
	return []float64{-m.radius, -m.radius}, []float64{m.radius, m.radius}, []float64{0, 0}
}

// changes shifts the places. A shift into a corner of its box, further than the
// radius, is cut to the radius; one off the pitch ends at the line. Places are whole
// decimetres: nobody stands more exactly.
func (m *move) changes(x []float64) []Change {
	by := r2.Vec{X: x[0], Y: x[1]}
	if far := r2.Norm(by); far > m.radius {
		by = r2.Scale(m.radius/far, by)
	}
	var out []Change
	for _, p := range m.places {
		to := r2.Add(p.at, by)
		to.X = within(decimetre(to.X), m.pitch.Length/2)
		to.Y = within(decimetre(to.Y), m.pitch.Width/2)
		d := r2.Sub(to, p.at)
		if r2.Norm(d) < 0.1 {
			continue
		}
		out = append(out, Change{Path: p.path, Label: p.label, Unit: "m", From: written(p.at), To: written(to),
			Size: r2.Norm(d), DX: d.X, DY: d.Y, Place: true})
	}
	return out
}

func decimetre(x float64) float64 { return math.Round(x*10) / 10 }

func within(x, half float64) float64 { return min(max(x, -half), half) }

func written(p r2.Vec) string {
	return fmt.Sprintf("[%s, %s]", scenario.FormatNumber(p.X), scenario.FormatNumber(p.Y))
}
