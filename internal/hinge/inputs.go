package hinge

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"playout/internal/scenario"
)

// Input is one uncertain value of a scenario.
type Input struct {
	Path, Label, Unit string
	Now               float64 // in the scenario
	From, To          float64 // span; From < To
	Step              float64 // change in which the effect is told; of a ratio the factor
	Ratio             bool    // tried evenly in logarithm
}

// At is the value at u of the span, 0 to 1.
func (in *Input) At(u float64) float64 {
	if in.Ratio {
		return in.From * math.Pow(in.To/in.From, u)
	}
	return in.From + (in.To-in.From)*u
}

// PerStep is the share of the span that one step is.
func (in *Input) PerStep() float64 {
	if in.Ratio {
		return math.Log(in.Step) / math.Log(in.To/in.From)
	}
	return in.Step / (in.To - in.From)
}

// Usual are the inputs worth asking of any scenario.
func Usual(base *scenario.Base) []Input { return pick(base, true) }

// All are the inputs Usual picks, of both teams, with the lanes of their plans and
// the chances of their runs.
func All(base *scenario.Base) []Input { return pick(base, false) }

func pick(base *scenario.Base, usual bool) []Input {
	var out []Input
	for _, p := range base.Paths() {
		s, ok := spanOf(p.Path)
		if !ok || p.Kind != scenario.Number {
			continue
		}
		lane, chance := strings.Contains(p.Path, ".plan.lanes."), strings.HasSuffix(p.Path, ".chance")
		wanted := s.usual && (s.side == "" || strings.HasPrefix(p.Path, s.side+"."))
		if !usual {
			wanted = s.usual || lane || chance
		}
		if !wanted {
			continue
		}
		if in, err := around(p); err == nil {
			out = append(out, in)
		}
	}
	return out
}

// Parse reads an input as the user gives it: PATH for the usual span, or
// PATH=FROM:TO.
func Parse(base *scenario.Base, s string) (Input, error) {
	path, bounds, given := strings.Cut(s, "=")
	path = strings.TrimSpace(path)
	p, err := base.Numeric(path)
	if err != nil {
		return Input{}, err
	}
	if p.Kind != scenario.Number {
		return Input{}, fmt.Errorf("%s is a number that names something, so nothing lies between two of its values; give a value that can be a little more or less", path)
	}
	if !given {
		return around(p)
	}
	from, to, ok := strings.Cut(bounds, ":")
	lo, err1 := strconv.ParseFloat(strings.TrimSpace(from), 64)
	hi, err2 := strconv.ParseFloat(strings.TrimSpace(to), 64)
	if !ok || err1 != nil || err2 != nil || !(lo < hi) {
		return Input{}, fmt.Errorf("%s: %q is no span; write %s=FROM:TO, two numbers of which the second is larger", path, bounds, path)
	}
	for _, x := range []float64{lo, hi} {
		if _, err := base.With(scenario.Setting{Path: path, Value: scenario.FormatNumber(x)}); err != nil {
			return Input{}, err
		}
	}
	in := Input{Path: path, Label: p.Label, Unit: p.Unit, Now: now(p), From: lo, To: hi, Step: round(hi-lo) / 4}
	if s, ok := spanOf(path); ok && !s.ratio {
		in.Step = s.step
	}
	return in, nil
}

// around is the usual span of a value, within what it may be.
func around(p scenario.Path) (Input, error) {
	s, ok := spanOf(p.Path)
	if !ok {
		return Input{}, fmt.Errorf("%s has no usual span; write %s=FROM:TO", p.Path, p.Path)
	}
	in := Input{Path: p.Path, Label: p.Label, Unit: p.Unit, Now: now(p), Step: s.step, Ratio: s.ratio}
	if s.ratio {
		if in.Now == 0 {
			return in, fmt.Errorf("%s is 0, and half or twice of it too; write %s=FROM:TO", p.Path, p.Path)
		}
		in.From, in.To = in.Now/s.reach, in.Now*s.reach
	} else {
		in.From, in.To = in.Now-s.reach, in.Now+s.reach
	}
	in.From, in.To = tidy(max(in.From, p.Lo)), tidy(min(in.To, p.Hi))
	return in, nil
}

// now is the present value; a measured value that the file does not give has one too.
func now(p scenario.Path) float64 {
	if x, err := strconv.ParseFloat(p.Value, 64); err == nil {
		return x
	}
	return p.Now
}

// tidy takes the last digits off sums such as 0.1 + 0.2.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// round is the largest of 1, 2, 4 or 5 times a power of ten that is not above x.
func round(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)*(1+1e-12)))
	for _, m := range []float64{5, 4, 2} {
		if m*power <= x*(1+1e-9) {
			return m * power
		}
	}
	return power
}

// Twice names a path that stands there twice, "" if none does.
func Twice(inputs []Input) string {
	for i, in := range inputs {
		if slices.ContainsFunc(inputs[:i], func(o Input) bool { return o.Path == in.Path }) {
			return in.Path
		}
	}
	return ""
}
