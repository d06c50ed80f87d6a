package evolution

import "math"

// Box bounds points: coordinate i lies in [Lo[i], Hi[i]], and Lo[i] < Hi[i].
type Box struct{ Lo, Hi []float64 }

// Fold gives the point of the box that u stands for: u counts each side of the box
// as the unit, from 0 at Lo to 1 at Hi, and what is outside is mirrored at the walls
// as often as it takes. The strategy goes on with u itself, so the distribution
// keeps its form near a wall, an optimum on a wall is an optimum inside its space,
// and there is no outside to drift away in. Reflection is one of the handlings
// compared by Biedrzycki (2020), Handling bound constraints in CMA-ES: an
// experimental study, Swarm and Evolutionary Computation 52.
func (b Box) Fold(u []float64) []float64 {
	x := make([]float64, len(u))
	for i, v := range u {
		v = math.Abs(math.Remainder(v, 2)) // mirrored at 0 and 1, with period 2
		x[i] = min(max(b.Lo[i]+v*(b.Hi[i]-b.Lo[i]), b.Lo[i]), b.Hi[i])
	}
	return x
}

// Unfold is the u in the unit cube that stands for x, a point of the box.
func (b Box) Unfold(x []float64) []float64 {
	u := make([]float64, len(x))
	for i, v := range x {
		u[i] = (v - b.Lo[i]) / (b.Hi[i] - b.Lo[i])
	}
	return u
}
