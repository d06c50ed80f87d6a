package stats

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// Joint are the means of several variables over the same observations, with the
// covariances of those means.
type Joint struct {
	Mean []float64
	Cov  *mat.SymDense // of the means, not of the observations
	N    int64         // observations
}

// JointMeans estimates the means of k variables from n observations;
// values[i] holds the n values of variable i. It panics when they differ in number.
func JointMeans(values [][]float64) Joint {
	k, n := len(values), len(values[0])
	j := Joint{Mean: make([]float64, k), Cov: mat.NewSymDense(k, nil), N: int64(n)}
	centred := make([][]float64, k)
	for i, v := range values {
		if len(v) != n {
			panic("stats: variables of different length are not paired")
		}
		sum := 0.0
		for _, x := range v {
			sum += x
		}
		j.Mean[i] = sum / float64(n)
		centred[i] = make([]float64, n)
		for t, x := range v {
			centred[i][t] = x - j.Mean[i]
		}
	}
	for a := range k {
		for b := a; b < k; b++ {
			s := 0.0
			for t, x := range centred[a] {
				s += x * centred[b][t]
			}
			j.Cov.SetSym(a, b, s/float64(n)/float64(max(n-1, 1)))
		}
	}
	return j
}

// MostJoint is how many variables Turn takes: the work grows with their square.
const MostJoint = 200

// stdErr is the standard error of the difference of two means.
func (j *Joint) stdErr(a, b int) float64 {
	return math.Sqrt(max(j.Cov.At(a, a)+j.Cov.At(b, b)-2*j.Cov.At(a, b), 0))
}

// noise draws the errors of the means: normal, with their covariances. Its
// stream is fixed, so that an analysis repeated is the same.
type noise struct {
	factor *mat.Dense
	rng    *rand.Rand
	z, out *mat.VecDense
}

func (j *Joint) noise() *noise {
	k := len(j.Mean)
	var eig mat.EigenSym
	if !eig.Factorize(j.Cov, true) {
		panic("stats: covariances that are no numbers")
	}
	var vectors mat.Dense
	eig.VectorsTo(&vectors)
	for c, v := range eig.Values(nil) {
		scale := math.Sqrt(max(v, 0)) // rounding, and variables that are equal
		for r := range k {
			vectors.Set(r, c, vectors.At(r, c)*scale)
		}
	}
	return &noise{&vectors, rand.New(rand.NewPCG(0x706c61796f7574, 1)), mat.NewVecDense(k, nil), mat.NewVecDense(k, nil)}
}

// draw returns errors that are valid until the next draw.
func (s *noise) draw() []float64 {
	for i := range s.z.Len() {
		s.z.SetVec(i, s.rng.NormFloat64())
	}
	s.out.MulVec(s.factor, s.z)
	return s.out.RawVector().Data
}

// jointDraws is how many draws the quantiles of Joint rest on.
const jointDraws = 4000

// Critical is the factor of the standard errors that makes the intervals of all
// pairwise differences of the means hold together at the level: the quantile of
// the largest |t| of them, found by drawing from the normal distribution with
// the means' covariances (max-t; Hothorn, Bretz and Westfall 2008, Biometrical
// Journal 50, 346-363). It counts on the number of observations being in the
// hundreds.
func (j *Joint) Critical(level float64) float64 {
	checkLevel(level)
	type pair struct {
		a, b int
		se   float64
	}
	var pairs []pair
	for a := range j.Mean {
		for b := range a {
			if se := j.stdErr(a, b); se > 0 {
				pairs = append(pairs, pair{a, b, se})
			}
		}
	}
	if len(pairs) == 0 {
		return normalQuantile(level)
	}
	s := j.noise()
	largest := make([]float64, jointDraws)
	for d := range largest {
		z := s.draw()
		for _, p := range pairs {
			largest[d] = max(largest[d], math.Abs(z[p.a]-z[p.b])/p.se)
		}
	}
	slices.Sort(largest)
	return largest[min(int(math.Ceil(level*jointDraws)), jointDraws)-1]
}

// Best lists the variables that may have the largest mean (sign +1) or the
// smallest (-1): those that no other is surely better than, by differences of
// more than critical standard errors. With the factor of Critical the truly
// best one is among them with that probability (multiple comparisons with the
// best: Hsu 1984, Annals of Statistics 12, 1136-1144).
func (j *Joint) Best(sign int, critical float64) []int {
	var best []int
	for a := range j.Mean {
		beaten := false
		for b := range j.Mean {
			beaten = beaten || float64(sign)*(j.Mean[b]-j.Mean[a]) > critical*j.stdErr(a, b)+1e-12*math.Abs(j.Mean[a])
		}
		if !beaten {
			best = append(best, a)
		}
	}
	return best
}
