package sensitivity

import (
	"math"
	"math/rand/v2"
)

// ishigami is the function of Ishigami and Homma (1990) with a = 7, b = 0.1:
// sin x1 + a sin² x2 + b x3⁴ sin x1 for x uniform in (-π, π).
func ishigami(p Point) float64 {
	x := func(i int) float64 { return math.Pi * (2*p[i] - 1) }
	return math.Sin(x(0)) + 7*math.Pow(math.Sin(x(1)), 2) + 0.1*math.Pow(x(2), 4)*math.Sin(x(0))
}

// Its variance and indices:
//
//	V1 = (1 + b π⁴/5)²/2,  V2 = a²/8,  V13 = b² π⁸ (1/18 - 1/50),  V = V1 + V2 + V13
//
// which Saltelli et al. (2008), Global Sensitivity Analysis: The Primer, give as S =
// 0.3139, 0.4424, 0 and ST = 0.5576, 0.4424, 0.2437.
const ishigamiVariance = 13.8446

var ishigamiFirst, ishigamiTotal = []float64{0.3139, 0.4424, 0}, []float64{0.5576, 0.4424, 0.2437}

// gFunction is Sobol's g-function, the product of (|4x - 2| + a)/(1 + a).
func gFunction(a []float64) func(Point) float64 {
	return func(p Point) float64 {
		out := 1.0
		for i, x := range p {
			out *= (math.Abs(4*x-2) + a[i]) / (1 + a[i])
		}
		return out
	}
}

// gIndices are its indices. Each factor has mean 1 and variance v = 1/(3 (1 + a)²):
// |4x - 2| is uniform in (0, 2), of variance 1/3. So V = Π(1 + v) - 1, V_i = v_i, and
// what i has no part in is Π over the others of (1 + v), less 1.
func gIndices(a []float64) (first, total []float64) {
	all := 1.0
	v := make([]float64, len(a))
	for i := range a {
		v[i] = 1 / (3 * (1 + a[i]) * (1 + a[i]))
		all *= 1 + v[i]
	}
	for i := range a {
		first = append(first, v[i]/(all-1))
		total = append(total, (all-all/(1+v[i]))/(all-1))
	}
	return first, total
}

// play evaluates f at every point of a design.
func play(design [][]Point, f func(Point) float64) [][][]float64 {
	return playNoisy(design, f, 1, 0, 0, 0)
}

// playNoisy plays every point n times with an error of the given standard deviation,
// of which the share common to the points of a row, for each replicate.
func playNoisy(design [][]Point, f func(Point) float64, n int, sd, common float64, seed uint64) [][][]float64 {
	rng := rand.New(rand.NewPCG(seed, 99))
	y := make([][][]float64, len(design))
	for j, row := range design {
		y[j] = make([][]float64, len(row))
		for p := range row {
			y[j][p] = make([]float64, n)
		}
		for r := range n {
			shared := rng.NormFloat64()
			for p, at := range row {
				own := rng.NormFloat64()
				y[j][p][r] = f(at) + sd*(math.Sqrt(common)*shared+math.Sqrt(1-common)*own)
			}
		}
	}
	return y
}

// singles makes every input a factor of its own.
func singles(inputs int) [][]int {
	out := make([][]int, inputs)
	for i := range out {
		out[i] = []int{i}
	}
	return out
}
