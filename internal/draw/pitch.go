package draw

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// goalDepth is how far the drawn net reaches behind the goal line, m.
const goalDepth = 2.0

// Field draws the field with its markings.
func (s *Scene) Field(v View) {
	x, y := v.Pitch.Length/2, v.Pitch.Width/2
	s.Polygon(Fill(Grass), v.At(r2.Vec{X: -x, Y: -y}), v.At(r2.Vec{X: x, Y: -y}), v.At(r2.Vec{X: x, Y: y}), v.At(r2.Vec{X: -x, Y: y}))
	s.Markings(v)
}

// Markings draws the lines alone, over whatever stands on the field (IFAB, Laws
// of the Game, Law 1).
func (s *Scene) Markings(v View) {
	f := v.Pitch
	line := Line(Chalk, max(0.12*v.Scale, 1)) // lines are at most 12 cm wide (Law 1)
	x, y := f.Length/2, f.Width/2
	area := func(x0, y0, x1, y1 float64, st Style) {
		s.Polygon(st, v.At(r2.Vec{X: x0, Y: y0}), v.At(r2.Vec{X: x1, Y: y0}), v.At(r2.Vec{X: x1, Y: y1}), v.At(r2.Vec{X: x0, Y: y1}))
	}
	area(-x, -y, x, y, line)
	s.Path(line, v.At(r2.Vec{Y: -y}), v.At(r2.Vec{Y: y}))
	s.Circle(v.At(r2.Vec{}), v.Scale*model.CircleRadius, line)
	dot := max(0.15*v.Scale, 1.2)
	s.Circle(v.At(r2.Vec{}), dot, Fill(Chalk))
	// Half the angle of the part of the penalty arc outside the area.
	half := math.Acos((model.PenaltyAreaDepth - model.PenaltyMark) / model.CircleRadius)
	for _, end := range []float64{1, -1} {
		area(end*x, -model.PenaltyAreaWidth/2, end*(x-model.PenaltyAreaDepth), model.PenaltyAreaWidth/2, line)
		area(end*x, -model.GoalAreaWidth/2, end*(x-model.GoalAreaDepth), model.GoalAreaWidth/2, line)
		area(end*x, -model.GoalWidth/2, end*(x+goalDepth), model.GoalWidth/2, line)
		mark := v.At(r2.Vec{X: end * (x - model.PenaltyMark)})
		s.Circle(mark, dot, Fill(Chalk))
		inward := v.heading(math.Pi * (1 + end) / 2) // towards the centre
		s.Arc(mark, v.Scale*model.CircleRadius, inward-half, inward+half, line)
		for _, wing := range []float64{1, -1} {
			// A quarter circle from the goal line to the touchline.
			middle := v.heading(math.Atan2(-wing, -end))
			s.Arc(v.At(r2.Vec{X: end * x, Y: wing * y}), v.Scale*model.CornerRadius, middle-math.Pi/4, middle+math.Pi/4, line)
		}
	}
}

// heading is how an angle on the pitch, from +x towards +y, looks in the picture.
func (v View) heading(angle float64) float64 {
	if v.Up {
		return angle + math.Pi/2
	}
	return angle
}

// Lanes rules the pitch into its five lanes, faintly, for pictures that speak of
// them.
func (s *Scene) Lanes(v View) {
	x := v.Pitch.Length / 2
	for _, y := range []float64{model.PenaltyAreaWidth / 2, model.GoalAreaWidth / 2, -model.GoalAreaWidth / 2, -model.PenaltyAreaWidth / 2} {
		s.Path(Line(Chalk, 0.8, 2, 5), v.At(r2.Vec{X: -x, Y: y}), v.At(r2.Vec{X: x, Y: y}))
	}
}
