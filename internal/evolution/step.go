package evolution

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// Ask draws the points of the next generation.
func (s *Strategy) Ask() [][]float64 {
	points := make([][]float64, s.lambda)
	s.y = make([][]float64, s.lambda)
	for k := range points {
		points[k], s.y[k] = s.draw()
	}
	return points
}

// draw gives a point that is accepted and its step from the mean in units of
// sigma. After maxRedraws the step is halved until it is; if even the mean is
// refused, the last point stands, and ranking it last is the caller's part.
func (s *Strategy) draw() (x, y []float64) {
	z, y := make([]float64, s.n), make([]float64, s.n)
	for range maxRedraws {
		for i := range z {
			z[i] = s.d[i] * s.src.NormFloat64()
		}
		mat.NewVecDense(s.n, y).MulVec(&s.b, mat.NewVecDense(s.n, z))
		if x := s.step(y); s.accept(x) {
			return x, y
		}
	}
	for range 20 {
		floats.Scale(0.5, y)
		if x = s.step(y); s.accept(x) {
			break
		}
	}
	return x, y
}

// step goes y times sigma from the mean. Where that has to be repaired y becomes the
// step to the repaired point, cut to the length that a drawn one hardly exceeds.
func (s *Strategy) step(y []float64) []float64 {
	x := make([]float64, s.n)
	floats.AddScaledTo(x, s.m, s.sigma, y)
	drawn := slices.Clone(x)
	if s.repair(x); slices.Equal(x, drawn) {
		return x
	}
	floats.SubTo(y, x, s.m)
	floats.Scale(1/s.sigma, y)
	n := float64(s.n)
	if length, most := floats.Norm(s.whitened(y), 2), math.Sqrt(n)+2*n/(n+2); length > most {
		floats.Scale(most/length, y)
	}
	return x
}

// Tell gives the points of the last Ask in order, the best first, by their index;
// what counts is the first Mu of them. The distribution moves to them and turns
// and stretches towards where they lie.
func (s *Strategy) Tell(ranking []int) {
	if len(ranking) < s.mu || s.y == nil {
		panic("evolution: told a ranking that was not asked for")
	}
	s.generation++
	step := make([]float64, s.n) // weighted mean step, in units of sigma
	for i, w := range s.w {
		floats.AddScaled(step, w, s.y[ranking[i]])
	}
	floats.AddScaled(s.m, s.sigma, step)

	decay := s.cSigma
	floats.Scale(1-decay, s.pSigma)
	floats.AddScaled(s.pSigma, math.Sqrt(decay*(2-decay)*s.muEff), s.whitened(step))
	length := floats.Norm(s.pSigma, 2)

	// The path of the covariance stalls while the step size is still catching up.
	stalled := length/math.Sqrt(1-math.Pow(1-decay, 2*float64(s.generation))) >= (1.4+2/float64(s.n+1))*s.chiN
	floats.Scale(1-s.cC, s.pC)
	lost := s.cC * (2 - s.cC)
	if !stalled {
		floats.AddScaled(s.pC, math.Sqrt(s.cC*(2-s.cC)*s.muEff), step)
		lost = 0
	}
	s.c.ScaleSym(1-s.c1-s.cMu+s.c1*lost, s.c)
	s.c.SymRankOne(s.c, s.c1, mat.NewVecDense(s.n, s.pC))
	for i, w := range s.w {
		s.c.SymRankOne(s.c, s.cMu*w, mat.NewVecDense(s.n, s.y[ranking[i]]))
	}
	s.sigma *= math.Exp(decay / s.dSigma * (length/s.chiN - 1))
	s.y = nil
	s.decompose()
}

// whitened is C^(-1/2) v.
func (s *Strategy) whitened(v []float64) []float64 {
	z := mat.NewVecDense(s.n, nil)
	z.MulVec(s.b.T(), mat.NewVecDense(s.n, v))
	for i, d := range s.d {
		z.SetVec(i, z.AtVec(i)/d)
	}
	z.MulVec(&s.b, mat.VecDenseCopyOf(z))
	return z.RawVector().Data
}

// leastAxis keeps the covariance regular: no axis is shorter than this part of the
// longest, a condition number of 1e14 (the tutorial, section B.3).
const leastAxis = 1e-7

// decompose finds the axes of the covariance and the standard deviations along them.
func (s *Strategy) decompose() {
	var e mat.EigenSym
	if !e.Factorize(s.c, true) {
		panic("evolution: the covariance is not a number") // only after NaN, which rankings cannot bring in
	}
	e.Values(s.d) // ascending
	e.VectorsTo(&s.b)
	least := s.d[s.n-1] * leastAxis * leastAxis
	for i, v := range s.d {
		s.d[i] = math.Sqrt(max(v, least))
	}
}
