package evolution

// Box bounds points: coordinate i lies in [Lo[i], Hi[i]], and Lo[i] < Hi[i]. A
// strategy works on the unit cube that stands for it.
type Box struct{ Lo, Hi []float64 }

// At is the point of the box that stands at u in the unit cube.
func (b Box) At(u []float64) []float64 {
	x := make([]float64, len(u))
	for i, v := range u {
		x[i] = min(max(b.Lo[i]+v*(b.Hi[i]-b.Lo[i]), b.Lo[i]), b.Hi[i]) // rounding must not leave it
	}
	return x
}

// Of is where x, a point of the box, stands in the unit cube.
func (b Box) Of(x []float64) []float64 {
	u := make([]float64, len(x))
	for i, v := range x {
		u[i] = (v - b.Lo[i]) / (b.Hi[i] - b.Lo[i])
	}
	return u
}

// intoCube moves a point to the nearest of the unit cube.
func intoCube(u []float64) {
	for i, v := range u {
		u[i] = min(max(v, 0), 1)
	}
}
