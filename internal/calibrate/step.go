package main

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"playout/internal/factorial"
)

// slopes are the changes of every residual for a move of one span in every
// parameter (figures x parameters), from one design of half width half spans,
// and the variance that chance gives to the slopes of each figure.
func (f *fitter) slopes(x []float64, half float64) (*mat.Dense, []float64, error) {
	// One column more than parameters, so that there is always one to tell the noise by.
	runs := factorial.Design(len(f.moving)+1, f.fold)
	j := mat.NewDense(len(f.figures), len(x), nil)
	reached := make([]float64, len(x)) // mean distance really moved, spans
	first, second := make([]float64, len(f.figures)), make([]float64, len(f.figures))
	for i, run := range runs {
		y := slices.Clone(x)
		for d, k := range f.moving {
			p := &f.free[k]
			y[k] = min(max(x[k]+half*run[d]*p.span, p.lo), p.hi)
			reached[k] += math.Abs(y[k]-x[k]) / p.span / float64(len(runs))
		}
		r, err := f.residuals(y, f.screen, designSeed)
		if err != nil {
			return nil, nil, err
		}
		for m := range r {
			first[m] += r[m]
			second[m] += r[m] * r[m]
			for d, k := range f.moving {
				j.Set(m, k, j.At(m, k)+run[d]*r[m]/float64(len(runs)))
			}
		}
		f.progress(i+1, len(runs))
	}
	n := float64(len(runs))
	noise := make([]float64, len(f.figures))
	for m := range f.figures {
		rest := second[m] - first[m]*first[m]/n // what the slopes do not explain
		for k := range x {
			rest -= n * j.At(m, k) * j.At(m, k)
		}
		noise[m] = max(rest, 0) / (n - 1 - float64(len(f.moving))) / n / (half * half)
		for k := range x {
			j.Set(m, k, j.At(m, k)/max(reached[k], 0.05))
		}
	}
	return j, noise, nil
}

// memory is the weight of the slopes of earlier rounds: they belong to other
// parameters, but their luck was another too.
const memory = 0.4

// blend returns the slopes to step by.
func blend(before, now *mat.Dense) *mat.Dense {
	if before == nil {
		return now
	}
	var out mat.Dense
	out.Scale(1-memory, now)
	before.Scale(memory, before)
	out.Add(&out, before)
	return &out
}

// ridge keeps a parameter where it is unless the figures ask for a move by more
// than half the chance in their slopes: in squared residuals a squared span. The judge
// guards the step too, and the whole of it lets hardly any parameter move.
func (f *fitter) ridge(noise []float64) float64 {
	sum := 1.0
	for m, t := range f.figures {
		sum += t.weight * noise[m]
	}
	return sum / 4
}

// step minimises sum w rho(r + J s) + ridge s's over moves s (spans) that stay
// within reach of the design and the admissible ranges. rho keeps figures which
// will not fit from ruling those which can. Iteratively reweighted; the box-constrained
// quadratic of each round by coordinate descent.
func (f *fitter) step(x, r []float64, j *mat.Dense, ridge, half float64) []float64 {
	n := len(x)
	lo, hi := make([]float64, n), make([]float64, n)
	for _, k := range f.moving { // the others stay at 0
		p := &f.free[k]
		lo[k] = max(-half, (p.lo-x[k])/p.span)
		hi[k] = min(half, (p.hi-x[k])/p.span)
	}
	s := make([]float64, n)
	for range 8 {
		a := mat.NewDense(n, n, nil)
		b := make([]float64, n)
		for m := range f.figures {
			row := j.RawRowView(m)
			now := r[m]
			for k := range s {
				now += row[k] * s[k]
			}
			w := f.figures[m].weight * robustWeight(now)
			for k := range s {
				b[k] += w * row[k] * r[m]
				for l := range s {
					a.Set(k, l, a.At(k, l)+w*row[k]*row[l])
				}
			}
		}
		for k := range s {
			a.Set(k, k, a.At(k, k)+ridge)
		}
		descend(a, b, lo, hi, s)
	}
	return s
}

// descend minimises s'As/2 + b's in the box by cyclic coordinate descent.
func descend(a *mat.Dense, b, lo, hi, s []float64) {
	for range 500 {
		moved := 0.0
		for k := range s {
			g := b[k]
			for l, v := range s {
				g += a.At(k, l) * v
			}
			t := min(max(s[k]-g/a.At(k, k), lo[k]), hi[k])
			moved = max(moved, math.Abs(t-s[k]))
			s[k] = t
		}
		if moved < 1e-6 {
			return
		}
	}
}

// huber is where a residual starts to count linearly, in tolerances, and hopeless
// where it counts by its logarithm only: no parameter will bring it in.
const (
	huber    = 2.0
	hopeless = 25.0
)

// rho is the loss of a residual of z tolerances: Huber's with a flatter tail.
func rho(z float64) float64 {
	switch z = math.Abs(z); {
	case z <= huber:
		return z * z
	case z <= hopeless:
		return huber * (2*z - huber)
	}
	return huber*(2*hopeless-huber) + 2*huber*hopeless*math.Log(z/hopeless)
}

// robustWeight is the weight of a residual in a least-squares step: rho'(z) / 2z.
func robustWeight(z float64) float64 {
	switch z = math.Abs(z); {
	case z <= huber:
		return 1
	case z <= hopeless:
		return huber / z
	}
	return huber * hopeless / (z * z)
}

// loss sums rho over the figures.
func (f *fitter) loss(r []float64) float64 {
	sum := 0.0
	for m, z := range r {
		sum += f.figures[m].weight * rho(z)
	}
	return sum
}

func (f *fitter) moved(x, s []float64, scale float64) []float64 {
	y := make([]float64, len(x))
	for k, p := range f.free {
		y[k] = min(max(x[k]+scale*s[k]*p.span, p.lo), p.hi)
	}
	return y
}
