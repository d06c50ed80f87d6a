package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"

	"gonum.org/v1/gonum/mat"
)

// writeDoubt writes the uncertainty of the parameters at x, where the residuals
// are r, as model/uncertainty.csv.
//
// The posterior is normal around x (Laplace's approximation): with the slopes J
// in tolerances a span,
//
//	covariance = s^2 (J' W J + P)^-1
//
// where W are the weights of the fit, P the precision of a prior as wide as the
// admissible range (variance of a uniform, range^2 / 12) and s^2 the mean squared
// residual for each degree of freedom, at least 1: a model that misses figures by
// more than their spread knows its parameters less well. Chance in the slopes counts
// as information: it bounds the directions of which the figures say next to nothing,
// where a linear model could not be trusted far anyway; the doubt is understated
// there. The levels of pressing are integrated out.
func (f *fitter) writeDoubt(x, r []float64) error {
	const half = 0.5
	j, _, err := f.slopes(x, half)
	if err != nil {
		return err
	}
	n := len(x)
	a := mat.NewSymDense(n, nil)
	squares, cases := 0.0, 0.0
	for m, t := range f.figures {
		row := j.RawRowView(m)
		squares += t.weight * r[m] * r[m]
		cases += t.weight
		for k := range row {
			for l := k; l < n; l++ {
				a.SetSym(k, l, a.At(k, l)+t.weight*row[k]*row[l])
			}
		}
	}
	for k, p := range f.free {
		a.SetSym(k, k, a.At(k, k)+12*p.span*p.span/((p.hi-p.lo)*(p.hi-p.lo)))
	}
	scale := max(squares/math.Max(cases-float64(n), 1), 1)
	var chol mat.Cholesky
	if !chol.Factorize(a) {
		return errors.New("the figures leave a direction of the parameters wide open: play more possessions (-screen)")
	}
	var cov mat.SymDense
	if err := chol.InverseTo(&cov); err != nil {
		return err
	}
	fitted := mat.NewSymDense(len(free), nil)
	for k := range free {
		for l := k; l < len(free); l++ {
			fitted.SetSym(k, l, scale*cov.At(k, l)*f.free[k].span*f.free[l].span)
		}
	}
	if !chol.Factorize(fitted) {
		return errors.New("the covariance of the parameters is not positive definite: play more possessions (-screen)")
	}
	var lower mat.TriDense
	chol.LTo(&lower)
	var out bytes.Buffer
	fmt.Fprintf(&out, "# What the calibration leaves open about the parameters: written by go run ./internal/calibrate -doubt,\n")
	fmt.Fprintf(&out, "# from %d figures; residuals count %.2f times their tolerance. A draw is default + L z.\n", len(f.figures), math.Sqrt(scale))
	fmt.Fprint(&out, "parameter,sd")
	for k := range free {
		fmt.Fprintf(&out, ",d%d", k+1)
	}
	for k, name := range free {
		fmt.Fprintf(&out, "\n%s,%.4g", name, math.Sqrt(fitted.At(k, k)))
		for l := range free {
			c := 0.0
			if l <= k {
				c = lower.At(k, l)
			}
			fmt.Fprintf(&out, ",%.3g", c)
		}
	}
	fmt.Fprintln(&out)
	// Whole or not at all: the file it replaces is embedded in the program.
	if err := os.WriteFile(f.doubt+".new", out.Bytes(), 0o644); err != nil {
		os.Remove(f.doubt + ".new")
		return err
	}
	return os.Rename(f.doubt+".new", f.doubt)
}
