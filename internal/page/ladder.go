package page

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/internal/report"
)

// rung is a step of the ladder: for each plan, of 100 build-ups how many get there.
type rung struct {
	name   string
	values []report.Interval // per 100; one, or two to compare
}

// rungs of a run, from the start to the goal.
var runSteps = []struct{ key, name string }{
	{"own_third_exit", "out of own third"}, {"halfway", "over halfway"}, {"final_third_entry", "final third, controlled"},
	{"box_entry", "penalty area"}, {"shot", "shot"}, {"goal", "goal"},
}

// compareSteps are the same as figures of experiments.
var compareSteps = []struct{ key, name string }{
	{"exit_own_third", runSteps[0].name}, {"halfway", runSteps[1].name}, {"final_third", runSteps[2].name},
	{"box", runSteps[3].name}, {"shot", runSteps[4].name}, {"goal", runSteps[5].name},
}

// ladder draws how far build-ups get: bars from the start to the goal, each with its
// interval. letters name the plans when there are two.
func ladder(name string, rungs []rung, letters []string) Figure {
	const (
		label, left, right = 118.0, 124.0, 318.0
		bar, gap, top      = 15.0, 9.0, 8.0
	)
	per := float64(max(len(letters), 1))
	step := per*bar + gap
	h := top + step*float64(len(rungs)+1) + 14
	f := Figure{Name: name, Title: "How far it gets", Caption: "Of 100 build-ups; the thin line is the 95% interval."}
	var desc []string
	s := scene(name, f.Title, "", sceneWidth, h)
	x := func(v float64) float64 { return left + (right-left)*math.Min(math.Max(v, 0), 100)/100 }
	for _, v := range []float64{0, 25, 50, 75, 100} {
		s.Path(draw.Line(draw.Chalk, 0.6), r2.Vec{X: x(v), Y: top - 4}, r2.Vec{X: x(v), Y: h - 14})
		s.Write(r2.Vec{X: x(v), Y: h - 3}, fmt.Sprint(v), draw.Words{Ink: draw.Pencil, Size: 9, Anchor: draw.Middle})
	}
	all := append([]rung{{name: "build-ups begun", values: make([]report.Interval, max(len(letters), 1))}}, rungs...)
	for i := range all[0].values {
		all[0].values[i] = report.Interval{Value: 100, Low: 100, High: 100}
	}
	for i, r := range all {
		y := top + step*float64(i)
		s.Write(r2.Vec{X: label, Y: y + per*bar/2}, r.name, draw.Words{Size: 11, Anchor: draw.End, Centre: true})
		var said []string
		for k, v := range r.values {
			yk := y + bar*float64(k)
			box := draw.Box{Min: r2.Vec{X: left, Y: yk + 1}, Max: r2.Vec{X: max(x(float64(v.Value)), left+1), Y: yk + bar - 1}}
			st := draw.Style{Fill: draw.Side, Line: draw.Side, Width: 1}
			if k > 0 {
				st = draw.Style{Fill: draw.Paper, Line: draw.Block, Width: 1.6} // the second is hollow
			}
			s.Rect(box, st)
			end := box.Max.X
			if v.High > v.Low {
				mid, ink := yk+bar/2, draw.Text
				s.Path(draw.Style{Line: draw.Paper, Width: 3.4}, r2.Vec{X: x(float64(v.Low)), Y: mid}, r2.Vec{X: x(float64(v.High)), Y: mid})
				s.Path(draw.Line(ink, 1.3), r2.Vec{X: x(float64(v.Low)), Y: mid}, r2.Vec{X: x(float64(v.High)), Y: mid})
				end = max(end, x(float64(v.High)))
			}
			text := number(float64(v.Value))
			if len(letters) > 0 {
				text = letters[k] + " " + text
			}
			s.Write(r2.Vec{X: end + 5, Y: yk + bar/2}, text, draw.Words{Size: 11, Bold: true, Centre: true})
			said = append(said, fmt.Sprintf("%s (%s to %s)", text, number(float64(v.Low)), number(float64(v.High))))
		}
		if i > 0 {
			desc = append(desc, r.name+" "+strings.Join(said, ", "))
		}
	}
	f.Desc = "Of 100 build-ups: " + strings.Join(desc, "; ") + "."
	s.Desc = f.Desc
	f.Scene = s
	return f
}

// number writes a figure per 100 with the decimals it deserves.
func number(x float64) string {
	if math.IsNaN(x) {
		return "-"
	}
	if math.Abs(x) < 9.95 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}
