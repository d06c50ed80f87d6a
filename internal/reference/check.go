package reference

import "math"

// Check is a figure beside what the engine shows.
type Check struct {
	Figure
	Engine Value
}

// Compare puts the measured values beside the figures, in the order of the tables.
func Compare(values map[string]Value) []Check {
	var out []Check
	for _, f := range Figures() {
		v, ok := values[f.Name]
		if !ok {
			v = Value{math.NaN(), math.Inf(-1), math.Inf(1), 0}
		}
		if f.isShare() && v.Value >= 0 && v.Value <= 1 {
			v.Low, v.High = max(v.Low, 0), min(v.High, 1) // the jackknife knows no bounds
		}
		out = append(out, Check{f, v})
	}
	return out
}

// isShare reports whether a figure with its spread lies between 0 and 1.
func (f *Figure) isShare() bool { return min(f.Value, f.Low) >= 0 && max(f.Value, f.High) <= 1 }

// Enough reports whether there are enough cases to judge the figure by: at least
// FewestCases and, where there is an interval, one narrower than the value.
func (c *Check) Enough() bool {
	v := &c.Engine
	if v.N < FewestCases || math.IsNaN(v.Value) {
		return false
	}
	width := v.High - v.Low
	if width == 0 {
		return false // every group alike: there was nothing to tell them apart
	}
	return math.IsInf(width, 0) || width <= math.Abs(v.Value)
}

// Inside reports whether the engine's value lies within the reference's spread.
func (c *Check) Inside() bool { return c.Low <= c.Engine.Value && c.Engine.Value <= c.High }

// Reaches reports whether the engine's interval reaches the reference's spread.
func (c *Check) Reaches() bool { return c.Engine.Low <= c.High && c.Low <= c.Engine.High }

// Beyond is how far the engine's value lies beyond the spread, as a share of the
// reference value; 0 inside, negative below.
func (c *Check) Beyond() float64 {
	switch x := c.Engine.Value; {
	case x < c.Low:
		return (x - c.Low) / math.Abs(c.Value)
	case x > c.High:
		return (x - c.High) / math.Abs(c.Value)
	}
	return 0
}

// FarOff is the distance beyond the spread, as a share of the reference value, from
// which a figure is far off.
const FarOff = 0.25
