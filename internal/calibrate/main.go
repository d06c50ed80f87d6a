// Command calibrate fits the behavioural parameters of the engine to the
// reference tables: go run ./internal/calibrate. It prints the parameters it
// ends with; a person puts them into model.DefaultParams and raises
// sim.Revision.
//
// Method: Gauss-Newton on the logarithms of the figures, each weighed by the
// spread of its competitions or matches. The slope of every figure by every
// parameter is a difference of two runs under the same luck; a ridge keeps the
// step where those slopes can be trusted, and steps that do not pay are halved.
// No parameter leaves its admissible range.
package main

import (
	"context"
	"flag"
	"fmt"
	"math"
	"os"
	"os/signal"
	"reflect"
	"sort"

	"gonum.org/v1/gonum/mat"

	"playout/internal/reference"
	"playout/model"
	"playout/sim"
)

// free are the parameters to fit; the others are physical or without influence
// on the tables.
var free = []string{
	"HeadRate", "LengthError", "LoftError", "PressureError", "TouchPressure", "TouchHigh", "StealHold", "HeaderHold",
	"ChallengeRate", "DuelWon", "DuelLoose", "FoulByDefence", "FoulByAttack", "RunInto",
	"Sharpness", "Misjudge", "FreeWorth", "GoalSide", "OneTouch", "HoldShare", "HoldSpread", "Look",
	"HighTaste", "HighForward", "SwitchTaste", "ForwardTaste", "NearTaste", "LossFear", "CrossTaste", "ShotTaste",
	"CarrySpeed", "JogSpeed", "RunSpeed", "OfferReach", "ComeNear",
	"LineLag", "LineFall", "ZoneReach", "MarkLeash", "JockeyAt", "CloseSpeed", "TravelSpeed", "ShowOff", "FirstLineOff", "DeepTight",
	"DefenceEdge", "AimReaction", "SetReaction",
}

// weights of figures that matter more than others.
var weights = map[string]float64{
	"possession_outcomes/build_up/final_third":    4,
	"possession_outcomes/build_up/exit_own_third": 3,
	"possession_outcomes/build_up/halfway":        3,
	"possession_outcomes/build_up/box":            2,
	"possession_outcomes/build_up/shot":           3,
	"possession_outcomes/build_up/lost_in_own":    2,
	"possession_outcomes/build_up/duration_s":     2,
	"pass_completion_build_up/ground":             3,
	"xg_per_shot/build_up":                        2,
	"possession_outcomes/build_up/goal":           0.3,
}

func main() {
	n := flag.Int("possessions", 6000, "possessions for each evaluation")
	rounds := flag.Int("rounds", 3, "Gauss-Newton steps")
	flag.Parse()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if err := fit(ctx, *n, *rounds); err != nil {
		fmt.Fprintln(os.Stderr, "calibrate:", err)
		os.Exit(1)
	}
}

type fitter struct {
	ctx     context.Context
	n       int
	figures []reference.Figure
	lo, hi  []float64
}

func fit(ctx context.Context, n, rounds int) error {
	f := &fitter{ctx: ctx, n: n, figures: reference.Figures()}
	at := model.DefaultParams()
	x := make([]float64, len(free))
	for i, name := range free {
		x[i] = field(&at, name).Float()
		for _, p := range model.ParamTable() {
			if p.Name == name {
				f.lo, f.hi = append(f.lo, p.Lo), append(f.hi, p.Hi)
			}
		}
	}
	r, err := f.residuals(x)
	if err != nil {
		return err
	}
	best := loss(r)
	fmt.Printf("start: loss %.1f\n", best)
	for round := range rounds {
		step, err := f.step(x, r)
		if err != nil {
			return err
		}
		improved := false
		for scale := 1.0; scale > 0.1; scale /= 2 {
			y := f.moved(x, step, scale)
			ry, err := f.residuals(y)
			if err != nil {
				return err
			}
			fmt.Printf("round %d: scale %.2f loss %.1f\n", round+1, scale, loss(ry))
			if loss(ry) < best {
				x, r, best, improved = y, ry, loss(ry), true
				break
			}
		}
		f.print(x, r)
		if !improved {
			break
		}
	}
	return nil
}

// step solves the ridge-damped Gauss-Newton equations in units of span.
func (f *fitter) step(x, r []float64) ([]float64, error) {
	m, n := len(r), len(x)
	j := mat.NewDense(m, n, nil)
	for k := range x {
		h := f.span(k, x[k])
		if x[k]+h > f.hi[k] {
			h = -h
		}
		y := append([]float64(nil), x...)
		y[k] += h
		ry, err := f.residuals(y)
		if err != nil {
			return nil, err
		}
		for i := range r {
			j.Set(i, k, (ry[i]-r[i])/h*f.span(k, x[k]))
		}
		fmt.Printf("  %-14s %+.4g: loss %.1f\n", free[k], h, loss(ry))
	}
	var a mat.Dense
	a.Mul(j.T(), j)
	for k := range n {
		a.Set(k, k, a.At(k, k)*1.1+ridge)
	}
	var b, s mat.VecDense
	b.MulVec(j.T(), mat.NewVecDense(m, r))
	if err := s.SolveVec(&a, &b); err != nil {
		return nil, err
	}
	out := make([]float64, n)
	for k := range out {
		out[k] = min(max(-s.AtVec(k), -maxSteps), maxSteps) * f.span(k, x[k])
	}
	return out, nil
}

const (
	ridge    = 3.0 // about the noise of a squared slope, in squared residuals a span
	maxSteps = 1.5 // spans
)

// span is the length of a finite difference: large enough to stand out of the
// noise.
func (f *fitter) span(k int, x float64) float64 {
	whole := f.hi[k] - f.lo[k]
	return min(max(0.2*math.Abs(x), 0.04*whole), 0.12*whole)
}

func (f *fitter) moved(x, step []float64, scale float64) []float64 {
	y := make([]float64, len(x))
	for k := range y {
		y[k] = min(max(x[k]+scale*step[k], f.lo[k]), f.hi[k])
	}
	return y
}

// residuals are the log ratios of engine to data over their tolerance.
func (f *fitter) residuals(x []float64) ([]float64, error) {
	par := model.DefaultParams()
	for i, name := range free {
		field(&par, name).SetFloat(x[i])
	}
	sc := model.AverageScenario()
	sc.Possessions, sc.AfterLoss = f.n, 0
	meter := reference.NewMeter(sc.Pitch)
	res, err := sim.Run(f.ctx, &sc, sim.Config{Observer: meter, Params: &par})
	if err != nil {
		return nil, err
	}
	got := meter.Figures(res)
	out := make([]float64, len(f.figures))
	for i, fig := range f.figures {
		tol := max(math.Log(fig.High/fig.Low)/2, leastTolerance)
		w, ok := weights[fig.Name]
		if !ok {
			w = 1
		}
		z := math.Log(max(got[fig.Name], 1e-5)/fig.Value) / tol
		out[i] = math.Sqrt(w) * min(max(z, -6), 6)
	}
	return out, nil
}

// leastTolerance keeps figures with a narrow spread from ruling the fit.
const leastTolerance = 0.06

func loss(r []float64) float64 {
	s := 0.0
	for _, z := range r {
		s += z * z
	}
	return s
}

func field(p *model.Params, name string) reflect.Value {
	return reflect.ValueOf(p).Elem().FieldByName(name)
}

// print shows the parameters and the figures that are furthest off.
func (f *fitter) print(x, r []float64) {
	for i, name := range free {
		fmt.Printf("%s: %.4g, ", name, x[i])
	}
	fmt.Println()
	order := make([]int, len(r))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return math.Abs(r[order[a]]) > math.Abs(r[order[b]]) })
	for _, i := range order[:min(14, len(order))] {
		fmt.Printf("    %-60s %+.1f\n", f.figures[i].Name, r[i])
	}
}
