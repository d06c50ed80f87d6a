package evolution

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
)

// Strategy is a (μ/μ_w, λ)-CMA-ES, asked for points and told their ranking. The names are those of Hansen
// (2016), The CMA evolution strategy: a tutorial, arXiv:1604.00772, whose figure 6
// and table 1 it follows, with the weights of the worse half 0: they are the least
// certain ones of a race.
type Strategy struct {
	n, lambda, mu int
	w             []float64 // weights of the better half, by rank; they add up to 1
	muEff         float64   // variance effective size of the selection
	cSigma        float64   // learning rate of the path of the step size
	dSigma        float64   // damping of the step size
	cC            float64   // learning rate of the path of the covariance
	c1, cMu       float64   // learning rates of the covariance: rank one, rank μ
	chiN          float64   // expected length of a standard normal vector

	m          []float64     // mean of the distribution
	sigma      float64       // step size
	c          *mat.SymDense // covariance, up to sigma²
	b          mat.Dense     // its principal axes, one a column
	d          []float64     // standard deviations along them
	pC, pSigma []float64     // evolution paths
	generation int

	src    *rand.Rand
	repair func(x []float64)
	accept func(x []float64) bool
	y      [][]float64 // the steps asked for, in units of sigma
}

// maxRedraws is how often a point that is refused is drawn anew before its step is
// halved instead.
const maxRedraws = 100

// New returns a strategy around start, a valid point, with points drawn under a
// standard deviation of sigma in each coordinate. lambda is the number of points
// of a generation, at least 4; 0 is the tutorial's 4 + ⌊3 ln n⌋. repair moves a point
// that has left some bounds back to them; the strategy learns from where it then
// stands, so it neither drifts away outside nor takes a wall for a valley, as it does
// when points are mirrored there (Hansen 2011, Injecting external solutions into
// CMA-ES, arXiv:1110.4181, whose bound on the length of such steps holds here). A
// point that accept refuses is drawn anew (the tutorial, section B.5). Either may be
// nil. It panics on a start without coordinates or a sigma that is not positive.
func New(start []float64, sigma float64, lambda int, seed uint64, repair func(x []float64), accept func(x []float64) bool) *Strategy {
	n := len(start)
	if n == 0 || !(sigma > 0) {
		panic("evolution: a strategy needs a start and a positive step size")
	}
	if lambda == 0 {
		lambda = DefaultLambda(n)
	}
	lambda = max(lambda, 4)
	if repair == nil {
		repair = func([]float64) {}
	}
	if accept == nil {
		accept = func([]float64) bool { return true }
	}
	s := &Strategy{
		n: n, lambda: lambda, mu: lambda / 2,
		m: append([]float64(nil), start...), sigma: sigma,
		c: mat.NewSymDense(n, nil), d: make([]float64, n),
		pC: make([]float64, n), pSigma: make([]float64, n),
		src:    rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)),
		repair: repair, accept: accept,
	}
	s.rates()
	for i := range n {
		s.c.SetSym(i, i, 1)
	}
	s.decompose()
	return s
}

// DefaultLambda is the tutorial's number of points of a generation in n dimensions.
func DefaultLambda(n int) int { return 4 + int(3*math.Log(float64(n))) }

// rates sets the constants of table 1 of the tutorial.
func (s *Strategy) rates() {
	n := float64(s.n)
	sum, squares := 0.0, 0.0
	s.w = make([]float64, s.mu)
	for i := range s.w {
		s.w[i] = math.Log(float64(s.lambda+1)/2) - math.Log(float64(i+1))
		sum += s.w[i]
	}
	for i := range s.w {
		s.w[i] /= sum
		squares += s.w[i] * s.w[i]
	}
	s.muEff = 1 / squares
	s.cSigma = (s.muEff + 2) / (n + s.muEff + 5)
	s.dSigma = 1 + 2*max(0, math.Sqrt((s.muEff-1)/(n+1))-1) + s.cSigma
	s.cC = (4 + s.muEff/n) / (n + 4 + 2*s.muEff/n)
	s.c1 = 2 / ((n+1.3)*(n+1.3) + s.muEff)
	s.cMu = min(1-s.c1, 2*(0.25+s.muEff+1/s.muEff-2)/((n+2)*(n+2)+s.muEff))
	s.chiN = math.Sqrt(n) * (1 - 1/(4*n) + 1/(21*n*n))
}

// Lambda is the number of points of a generation, Mu that of its better half.
func (s *Strategy) Lambda() int { return s.lambda }

// Mu is the number of points whose order Tell uses.
func (s *Strategy) Mu() int { return s.mu }

// Mean is a copy of the mean of the distribution that points are drawn from: the
// strategy's best guess.
func (s *Strategy) Mean() []float64 { return append([]float64(nil), s.m...) }

// Spread is the typical standard deviation of a coordinate: the step size times the
// root of the mean variance.
func (s *Strategy) Spread() float64 {
	sum := 0.0
	for i := range s.n {
		sum += s.c.At(i, i)
	}
	return s.sigma * math.Sqrt(sum/float64(s.n))
}

// Limit makes the step size smaller where the spread exceeds most: in a bounded space
// a wider one draws nothing but walls.
func (s *Strategy) Limit(most float64) {
	if spread := s.Spread(); spread > most {
		s.sigma *= most / spread
	}
}
