package main

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"

	"playout/model"
)

// TestDescend holds the box-constrained minimum against the closed form where no
// bound binds, and against the conditions of Karush, Kuhn and Tucker where some do.
func TestDescend(t *testing.T) {
	a := mat.NewDense(3, 3, []float64{4, 1, 0, 1, 3, -1, 0, -1, 2})
	b := []float64{-1, 2, -3}
	wide := []float64{9, 9, 9}
	s := make([]float64, 3)
	descend(a, b, []float64{-9, -9, -9}, wide, s)
	var want mat.VecDense
	if err := want.SolveVec(a, mat.NewVecDense(3, []float64{1, -2, 3})); err != nil {
		t.Fatal(err)
	}
	for k := range s {
		if math.Abs(s[k]-want.AtVec(k)) > 1e-5 {
			t.Errorf("s[%d] = %v, closed form %v", k, s[k], want.AtVec(k))
		}
	}
	lo, hi := []float64{-0.1, -0.1, -0.1}, []float64{0.1, 0.1, 0.1}
	s = make([]float64, 3)
	descend(a, b, lo, hi, s)
	for k := range s {
		g := b[k]
		for l := range s {
			g += a.At(k, l) * s[l]
		}
		switch {
		case s[k] <= lo[k]+1e-9 && g < -1e-5, s[k] >= hi[k]-1e-9 && g > 1e-5,
			s[k] > lo[k]+1e-9 && s[k] < hi[k]-1e-9 && math.Abs(g) > 1e-5:
			t.Errorf("s[%d] = %v with slope %v is no minimum in the box", k, s[k], g)
		}
	}
}

// TestRho checks that the loss is continuous and that the weight of a step is its
// slope over 2z, by finite differences.
func TestRho(t *testing.T) {
	for _, z := range []float64{0.3, 1.9, 2.1, 10, 24.9, 25.1, 80} {
		const h = 1e-6
		slope := (rho(z+h) - rho(z-h)) / (2 * h)
		if got := robustWeight(z); math.Abs(got-slope/(2*z)) > 1e-6 {
			t.Errorf("weight at %v is %v, slope says %v", z, got, slope/(2*z))
		}
		if rho(-z) != rho(z) {
			t.Errorf("rho(%v) is not even", z)
		}
	}
}

// TestFree checks that every free parameter is one of the engine's, once, inside
// its range, and that none of the published constants is among them.
func TestFree(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range freeParameters() {
		if seen[p.name] || !(p.start >= p.lo && p.start <= p.hi) || !(p.span > 0) {
			t.Errorf("%s: start %v in %v to %v, span %v, twice: %v", p.name, p.start, p.lo, p.hi, p.span, seen[p.name])
		}
		seen[p.name] = true
	}
	for _, name := range []string{"ArriveSpeed", "ArriveSpread", "ControlRate", "KeeperRate"} {
		if seen[name] {
			t.Errorf("%s is a published constant and must not be fitted", name)
		}
	}
	for _, p := range model.ParamTable() {
		if p.Default < p.Lo || p.Default > p.Hi {
			t.Errorf("%s: default %v is outside %v to %v", p.Name, p.Default, p.Lo, p.Hi)
		}
	}
}

// TestChoose: -only names the parameters that move, each once; without it all do.
func TestChoose(t *testing.T) {
	all := freeParameters()
	for only, want := range map[string]int{"": len(all), "Stake,Sharpness": 2, "low.Height": 1, "Stake,Stake": -1, "Nobody": -1} {
		f := fitter{free: all, only: only}
		err := f.choose()
		if (err != nil) != (want < 0) || err == nil && len(f.moving) != want {
			t.Errorf("-only %q: %d move, error %v; want %d", only, len(f.moving), err, want)
		}
	}
}
