package sensitivity

import "math/bits"

// bitsOfPoint is the resolution of a coordinate: 2^-32.
const bitsOfPoint = 32

// Sobol is Sobol's low-discrepancy sequence in up to MaxSobol dimensions, with
// Owen's nested uniform scrambling: every point is uniform, and any first 2^m points
// of it fill the cube as evenly as the plain sequence does. Safe for concurrent use.
// References: Sobol' (1967); Joe and Kuo (2008), SIAM Journal on Scientific
// Computing 30, 2635-2654; Owen (1995), in Monte Carlo and Quasi-Monte Carlo Methods.
type Sobol struct {
	v    [][bitsOfPoint]uint32 // direction numbers of each dimension, the leading bit first
	seed uint64
}

// MaxSobol is how many dimensions the table of direction numbers serves.
const MaxSobol = len(directions)

// NewSobol is the sequence in the given number of dimensions; seed names the
// scrambling.
func NewSobol(dims int, seed uint64) *Sobol {
	if dims < 1 || dims > MaxSobol {
		panic("sensitivity: no direction numbers for so many dimensions")
	}
	s := &Sobol{v: make([][bitsOfPoint]uint32, dims), seed: seed}
	for i := range s.v {
		s.v[i] = directions[i].expand()
	}
	return s
}

// At is coordinate dim of point n, inside (0, 1).
func (s *Sobol) At(n uint32, dim int) float64 {
	return (float64(scramble(s.plain(n, dim), mix(s.seed+uint64(dim)))) + 0.5) / (1 << bitsOfPoint)
}

// plain is the coordinate before scrambling, times 2^32. Points come in the order of
// the Gray code, as in the published program: 0; 1/2; 3/4, 1/4; ...
func (s *Sobol) plain(n uint32, dim int) uint32 {
	x := uint32(0)
	for g := n ^ n>>1; g != 0; g &= g - 1 {
		x ^= s.v[dim][bits.TrailingZeros32(g)]
	}
	return x
}

// scramble flips every bit by a coin of its own for each value of the bits before
// it, so that intervals keep together on every scale.
func scramble(x uint32, seed uint64) uint32 {
	out := uint32(0)
	for i := range bitsOfPoint {
		before := uint64(x) >> (bitsOfPoint - i) // the leading i bits
		coin := uint32(mix(mix(seed+uint64(i))+before)) & 1
		out = out<<1 | (x>>(bitsOfPoint-1-i)&1 ^ coin)
	}
	return out
}

// mix is the output function of SplitMix64 after one step of its counter.
// Reference: Steele, Lea and Flood (2014), with the constants of Vigna's splitmix64.
func mix(z uint64) uint64 {
	z += 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// direction is what a dimension's direction numbers grow from: a primitive
// polynomial over the field of two elements, its coefficients as bits, and the first
// m_i, as many as its degree.
type direction struct {
	poly uint32
	m    []uint32
}

// expand gives the direction numbers v_i = m_i / 2^i, times 2^32, by the recurrence
//
//	m_i = 2 a_1 m_{i-1} ⊕ 4 a_2 m_{i-2} ⊕ ... ⊕ 2^s m_{i-s} ⊕ m_{i-s}
//
// The first dimension (poly 1) has m_i = 1 throughout.
func (d direction) expand() (v [bitsOfPoint]uint32) {
	degree := bits.Len32(d.poly) - 1
	for i := range v {
		switch {
		case degree == 0:
			v[i] = 1 << (bitsOfPoint - 1 - i)
		case i < degree:
			v[i] = d.m[i] << (bitsOfPoint - 1 - i)
		default:
			v[i] = v[i-degree] ^ v[i-degree]>>degree
			for k := 1; k < degree; k++ {
				if d.poly>>(degree-k)&1 == 1 {
					v[i] ^= v[i-k]
				}
			}
		}
	}
	return v
}
