package sensitivity

import "math/rand/v2"

// Point is one value in (0, 1) for every input.
type Point []float64

// step is how far a star moves an input, as a share of its span. Half the span from
// any point leads to a point of the span, and keeps the uniform distribution. Large
// steps keep the simulator's noise small against the effect.
const step = 0.5

// Stars lays out rows for screening: each has 1 + inputs points, the base and then
// the base with one input moved by half its span, up if it is in the lower half and
// down if it is in the upper. Bases are evenly spread; seed names their scrambling.
func Stars(inputs, rows int, seed uint64) [][]Point {
	bases := newCube(inputs, seed)
	design := make([][]Point, rows)
	for j := range design {
		base := bases.point(j)
		design[j] = []Point{base}
		for i := range inputs {
			moved := append(Point(nil), base...)
			if moved[i] < step {
				moved[i] += step
			} else {
				moved[i] -= step
			}
			design[j] = append(design[j], moved)
		}
	}
	return design
}

// Saltelli lays out rows for variance-based indices. A factor is one input, or
// several that are judged together; each input belongs to one factor. A row has
// 2 + len(factors) points: A, B, and A with one factor's inputs as in B.
func Saltelli(inputs int, factors [][]int, rows int, seed uint64) [][]Point {
	// The factors' inputs get the leading dimensions, in their order, of A and of B
	// in turn: low dimensions are the most even.
	var order []int
	for _, f := range factors {
		order = append(order, f...)
	}
	if len(order) != inputs {
		panic("sensitivity: every input belongs to one factor")
	}
	pairs := newCube(2*inputs, seed)
	design := make([][]Point, rows)
	for j := range design {
		both := pairs.point(j)
		a, b := make(Point, inputs), make(Point, inputs)
		for k, i := range order {
			a[i], b[i] = both[2*k], both[2*k+1]
		}
		design[j] = []Point{a, b}
		for _, f := range factors {
			mixed := append(Point(nil), a...)
			for _, i := range f {
				mixed[i] = b[i]
			}
			design[j] = append(design[j], mixed)
		}
	}
	return design
}

// cube gives points of a cube of any dimension: scrambled Sobol in the first
// MaxSobol dimensions, independent uniform numbers in those beyond.
type cube struct {
	dims  int
	sobol *Sobol
	seed  uint64
}

func newCube(dims int, seed uint64) cube {
	return cube{dims, NewSobol(min(dims, MaxSobol), seed), seed}
}

func (c cube) point(n int) Point {
	p := make(Point, c.dims)
	rest := rand.New(rand.NewPCG(mix(c.seed), mix(c.seed^uint64(n))))
	for d := range p {
		if d < MaxSobol {
			p[d] = c.sobol.At(uint32(n), d)
		} else {
			p[d] = (float64(rest.Uint32()) + 0.5) / (1 << bitsOfPoint)
		}
	}
	return p
}
