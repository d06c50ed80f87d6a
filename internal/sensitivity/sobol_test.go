package sensitivity

import (
	"math"
	"math/bits"
	"slices"
	"testing"
)

// mulmod multiplies polynomials over the field of two elements, modulo p.
func mulmod(a, b, p uint32) uint32 {
	r := uint32(0)
	top := uint32(1) << (bits.Len32(p) - 1)
	for ; b != 0; b >>= 1 {
		if b&1 == 1 {
			r ^= a
		}
		if a <<= 1; a&top != 0 {
			a ^= p
		}
	}
	return r
}

// TestDirections checks what the theory asks of direction numbers: different
// primitive polynomials in order of degree (x generates all 2^s - 1 residues), and m_i
// odd and below 2^i.
func TestDirections(t *testing.T) {
	if MaxSobol < 40 {
		t.Fatalf("%d dimensions, want at least 40", MaxSobol)
	}
	seen := map[uint32]bool{}
	for i, d := range directions {
		degree := bits.Len32(d.poly) - 1
		if seen[d.poly] {
			t.Errorf("dimension %d repeats polynomial %b", i+1, d.poly)
		}
		seen[d.poly] = true
		if i > 0 && len(d.m) != degree || i > 1 && degree < bits.Len32(directions[i-1].poly)-1 {
			t.Errorf("dimension %d: degree %d with %d numbers", i+1, degree, len(d.m))
		}
		if i > 1 { // the first dimension has none, the second x + 1, of period 1
			order, x := 1, uint32(2)
			for ; x != 1 && order < 1<<degree; order++ {
				x = mulmod(x, 2, d.poly)
			}
			if order != 1<<degree-1 {
				t.Errorf("dimension %d: polynomial %b is not primitive, x has order %d", i+1, d.poly, order)
			}
		}
		for k, m := range d.m {
			if m%2 == 0 || m >= 2<<k {
				t.Errorf("dimension %d: m_%d = %d", i+1, k+1, m)
			}
		}
	}
}

// TestFirstPoints holds the plain sequence against published points: the first eight
// in five dimensions, and points 517 and 1000 in all 64 (times 1024).
// Source: scipy.stats.qmc.Sobol(64, scramble=False), SciPy 1.10.1, another
// implementation on the same numbers; the first points are also those of the README
// of Joe and Kuo's own program.
func TestFirstPoints(t *testing.T) {
	s := NewSobol(64, 0)
	for n, want := range [][]float64{
		{0, 0, 0, 0, 0},
		{0.5, 0.5, 0.5, 0.5, 0.5},
		{0.75, 0.25, 0.25, 0.25, 0.75},
		{0.25, 0.75, 0.75, 0.75, 0.25},
		{0.375, 0.375, 0.625, 0.875, 0.375},
		{0.875, 0.875, 0.125, 0.375, 0.875},
		{0.625, 0.125, 0.875, 0.625, 0.625},
		{0.125, 0.625, 0.375, 0.125, 0.125},
	} {
		for d, w := range want {
			if got := float64(s.plain(uint32(n), d)) / (1 << 32); got != w {
				t.Errorf("point %d, dimension %d: %v, want %v", n, d+1, got, w)
			}
		}
	}
	for n, want := range map[uint32][]uint32{
		517: {899, 641, 849, 631, 597, 195, 501, 547, 3, 809, 617, 247, 827, 495, 649, 717, 255, 775, 73, 833, 849, 433, 571, 543,
			843, 11, 23, 849, 263, 147, 1021, 47, 605, 9, 755, 531, 967, 209, 361, 953, 381, 15, 973, 965, 391, 325, 707, 675, 489,
			197, 255, 975, 973, 415, 939, 351, 343, 415, 447, 535, 851, 1007, 1003, 171},
		1000: {225, 99, 531, 693, 287, 929, 47, 921, 513, 71, 87, 261, 165, 393, 147, 379, 737, 353, 1015, 743, 535, 563, 973, 553,
			597, 929, 41, 1003, 61, 349, 151, 149, 303, 607, 821, 789, 869, 851, 315, 491, 935, 261, 983, 719, 861, 95, 893, 941, 1023,
			491, 361, 529, 771, 449, 129, 913, 465, 81, 905, 585, 457, 617, 265, 457},
	} {
		for d, w := range want {
			if got := s.plain(n, d) >> 22; got != w {
				t.Errorf("point %d, dimension %d: %d/1024, want %d/1024", n, d+1, got, w)
			}
		}
	}
}

// TestBalance checks, scrambled, that the first 2^m points put one point into each of
// 2^m equal intervals of every dimension, that the first two dimensions are a
// (0, m, 2)-net, and Sobol's property A: of the first 2^d points one lies in each of
// the 2^d boxes that halving every coordinate makes, here d = 12.
func TestBalance(t *testing.T) {
	for _, seed := range []uint64{1, 2, 3} {
		s := NewSobol(MaxSobol, seed)
		for dim := range MaxSobol {
			seen := make([]bool, 256)
			for n := range uint32(256) {
				seen[int(256*s.At(n, dim))] = true
			}
			if slices.Contains(seen, false) {
				t.Errorf("seed %d, dimension %d: an interval of 1/256 is empty", seed, dim+1)
			}
		}
		for cut := 0; cut <= 8; cut++ {
			seen := make([]bool, 256)
			for n := range uint32(256) {
				i := int(s.At(n, 0) * float64(int(1)<<cut))
				j := int(s.At(n, 1) * float64(int(1)<<(8-cut)))
				seen[i<<(8-cut)|j] = true
			}
			if slices.Contains(seen, false) {
				t.Errorf("seed %d: a box of 1/%d by 1/%d is empty", seed, 1<<cut, 1<<(8-cut))
			}
		}
		const d = 12
		seen := make([]bool, 1<<d)
		for n := range uint32(1 << d) {
			at := 0
			for dim := range d {
				at = at<<1 | int(2*s.At(n, dim))
			}
			seen[at] = true
		}
		if slices.Contains(seen, false) {
			t.Errorf("seed %d: property A fails in %d dimensions", seed, d)
		}
	}
}

// TestIntegration integrates the product of 1 + (x_i - 1/2)/2 over 10 and 40
// dimensions, which is 1. Plain Monte Carlo with n points has standard error
// sqrt(((1 + 1/48)^d - 1)/n); the scrambled sequence, over 40 scramblings, must be
// right on average and its root mean square error below a tenth of that for d = 10
// and a half for d = 40, where so few points leave many planes uneven.
func TestIntegration(t *testing.T) {
	const n, seeds = 1024, 40
	for d, share := range map[int]float64{10: 0.1, 40: 0.5} {
		sum, square := 0.0, 0.0
		for seed := range uint64(seeds) {
			s := NewSobol(d, seed)
			mean := 0.0
			for i := range uint32(n) {
				p := 1.0
				for dim := range d {
					p *= 1 + (s.At(i, dim)-0.5)/2
				}
				mean += p / n
			}
			sum += mean - 1
			square += (mean - 1) * (mean - 1)
		}
		rms := math.Sqrt(square / seeds)
		plain := math.Sqrt((math.Pow(1+1./48, float64(d)) - 1) / n)
		t.Logf("%d dimensions: root mean square error %.2g, plain Monte Carlo %.2g", d, rms, plain)
		if rms > share*plain {
			t.Errorf("%d dimensions: root mean square error %.3g, plain Monte Carlo %.3g", d, rms, plain)
		}
		// 5 standard errors: false alarm below 1e-5.
		if bias := sum / seeds; math.Abs(bias) > 5*rms/math.Sqrt(seeds) {
			t.Errorf("%d dimensions: mean error %.3g", d, bias)
		}
	}
}
