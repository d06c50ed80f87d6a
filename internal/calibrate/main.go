// Command calibrate fits the behavioural parameters of the engine to the
// reference tables: go run ./internal/calibrate. It prints the parameters it
// ends with; a person rounds them into model.DefaultParams and raises
// sim.Revision.
//
// Method: response surfaces. Each round plays a two-level design around the
// present parameters (internal/factorial), all runs under the same luck; least squares on
// the logarithms of the figures gives the slope of every figure by every
// parameter. The step then minimises a robust loss of the figures over their
// tolerance, within the reach of the design and the admissible ranges (step.go).
// A step is halved until that no longer pays; the designs shrink from round to round. With
// -doubt it writes what the figures leave open about the parameters instead.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"os/signal"
	"path/filepath"

	"gonum.org/v1/gonum/mat"

	"playout/internal/reference"
)

func main() {
	var f fitter
	flag.IntVar(&f.screen, "screen", 2000, "possessions for each run of a design")
	flag.IntVar(&f.judge, "judge", 16000, "possessions to judge a step by")
	flag.IntVar(&f.rounds, "rounds", 4, "rounds")
	flag.Float64Var(&f.spread, "spread", 1, "half width of the first design, in spans")
	flag.BoolVar(&f.stopAtLoss, "stop-at-loss", false, "leave out the price of a loss: a third faster")
	flag.BoolVar(&f.fold, "fold", true, "play the mirror image of each design too")
	flag.IntVar(&f.worst, "worst", 60, "figures to list")
	flag.StringVar(&f.doubt, "doubt", "", "instead of fitting, write what the figures leave open about the parameters to this file")
	flag.StringVar(&f.from, "from", "", "file with the parameters to start from, as printed; the defaults otherwise")
	flag.StringVar(&f.only, "only", "", "fit these parameters and hold the others, names with commas between; all otherwise")
	flag.Parse()
	if err := f.check(); err != nil {
		fmt.Fprintln(os.Stderr, "calibrate:", err)
		os.Exit(2)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	f.ctx = ctx
	if err := f.fit(); err != nil {
		fmt.Fprintln(os.Stderr, "calibrate:", err)
		os.Exit(1)
	}
}

// check refuses arguments that a long run would stumble over.
func (f *fitter) check() error {
	switch {
	case flag.NArg() > 0:
		return fmt.Errorf("%q: it takes flags only", flag.Arg(0))
	case f.doubt != "" && f.only != "":
		return errors.New("-doubt is about all parameters; leave -only out")
	case f.screen < reference.Least || f.judge < reference.Least:
		return fmt.Errorf("-screen %d, -judge %d: the league needs at least %d possessions", f.screen, f.judge, reference.Least)
	case f.rounds < 0 || f.worst < 0 || !(f.spread > 0 && f.spread < 10):
		return errors.New("-rounds and -worst are counts, -spread lies between 0 and 10")
	}
	if f.doubt != "" {
		file, err := os.CreateTemp(filepath.Dir(f.doubt), "doubt*")
		if err != nil {
			return err // sooner than after a long run
		}
		file.Close()
		os.Remove(file.Name())
	}
	return nil
}

type fitter struct {
	ctx                   context.Context
	screen, judge, rounds int
	spread                float64
	from, doubt, only     string
	stopAtLoss, fold      bool
	worst                 int

	free    []parameter
	moving  []int // those of free that the designs move
	figures []target
}

func (f *fitter) fit() error {
	f.free, f.figures = freeParameters(), targets()
	x := make([]float64, len(f.free))
	for k := range f.free {
		x[k] = f.free[k].start
	}
	if f.from != "" {
		if err := f.load(x); err != nil {
			return err
		}
	}
	if err := f.choose(); err != nil {
		return err
	}
	if err := f.allowForNoise(x, f.judge); err != nil {
		return err
	}
	r, err := f.residuals(x, f.judge, judgeSeed)
	if err != nil {
		return err
	}
	best := f.loss(r)
	fmt.Printf("start: loss %.1f, %d of %d inside\n", best, f.inside(r), len(r))
	if f.doubt != "" {
		return f.writeDoubt(x, r)
	}
	var slopes *mat.Dense
	for round := range f.rounds {
		half := f.spread / math.Sqrt(float64(round+1))
		now, noise, err := f.slopes(x, half)
		if err != nil {
			return err
		}
		slopes = blend(slopes, now)
		s := f.step(x, r, slopes, f.ridge(noise), half)
		improved := false
		from := x
		for scale := 2.0; scale > 0.1; scale /= 2 { // halved for as long as it pays
			y := f.moved(from, s, scale)
			ry, err := f.residuals(y, f.judge, judgeSeed)
			if err != nil {
				return err
			}
			l := f.loss(ry)
			fmt.Printf("round %d: scale %.2f: loss %.1f, %d inside\n", round+1, scale, l, f.inside(ry))
			if l < best {
				x, r, best, improved = y, ry, l, true
			} else if improved {
				break
			}
		}
		f.print(x, r)
		if !improved && half < 0.3 {
			break
		}
	}
	return nil
}
