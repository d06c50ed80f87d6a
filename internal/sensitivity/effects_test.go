package sensitivity

import (
	"math"
	"testing"
)

// morrisFunction is the twenty-input function of Morris (1991): inputs 1 to 7 matter
// with curvature or interplay, 8 to 10 matter in a straight line, 11 to 20 hardly.
// The coefficients Morris draws from a normal distribution are set to ±1 in turn, a
// usual choice. From memory.
func morrisFunction(p Point) float64 {
	w := make([]float64, 20)
	for i, x := range p {
		w[i] = 2 * (x - 0.5)
		if i == 2 || i == 4 || i == 6 {
			w[i] = 2 * (1.1*x/(x+0.1) - 0.5)
		}
	}
	y := 0.0
	for i := range w {
		if i < 10 {
			y += 20 * w[i]
		} else {
			y += alternate(i+1) * w[i]
		}
		for j := i + 1; j < 20; j++ {
			if j < 6 {
				y -= 15 * w[i] * w[j]
			} else {
				y += alternate(i+j+2) * w[i] * w[j]
			}
			for k := j + 1; k < 5; k++ {
				y -= 10 * w[i] * w[j] * w[k]
				for l := k + 1; l < 4; l++ {
					y += 5 * w[i] * w[j] * w[k] * w[l]
				}
			}
		}
	}
	return y
}

// crooked is the mean elementary effect of input 7: 20 w7 = 40 (1.1 x/(x + 0.1) - 1/2),
// whose integral is 44 (x - 0.1 ln(x + 0.1)) - 20 x; mean over (1/2, 1) less mean over
// (0, 1/2), over a step of 1/2.
var crooked = 4 * 44 * 0.1 * (math.Log(0.6/0.1) - math.Log(1.1/0.6))

func alternate(i int) float64 { return 1 - 2*float64(i%2) }

// TestMorrisFunction: screening with 20 stars tells the ten that matter from the ten
// that do not, and the straight ones from the crooked.
func TestMorrisFunction(t *testing.T) {
	design := Stars(20, 20, 1)
	e := Effects(design, play(design, morrisFunction))
	for i, x := range e {
		t.Logf("input %d: mean %.1f, size %.1f, sigma %.1f", i+1, x.Mean.Value, x.Size.Value, x.Sigma)
		switch {
		case i < 10 && x.Size.Value < 15, i >= 10 && x.Size.Value > 10:
			t.Errorf("input %d has size %.1f", i+1, x.Size.Value)
		case i < 7 && i != 6 && x.Sigma < 20, i >= 7 && x.Sigma > 15:
			t.Errorf("input %d has sigma %.1f", i+1, x.Sigma)
		}
		// What the pairs' ±1 add blurs these means.
		if i == 6 {
			near(t, "mean of input 7", x.Mean.Value, crooked, 10)
		} else if i >= 7 && i < 10 {
			near(t, "mean of a straight input", x.Mean.Value, 40, 10)
		}
	}
}

// TestEffectsByHand: f = 2 x1 - 3 x2 + 0 x3 has effects 2, -3, 0 and no spread.
func TestEffectsByHand(t *testing.T) {
	design := Stars(3, 8, 5)
	e := Effects(design, play(design, func(p Point) float64 { return 2*p[0] - 3*p[1] }))
	for i, want := range []float64{2, -3, 0} {
		near(t, "mean", e[i].Mean.Value, want, 1e-9)
		near(t, "size", e[i].Size.Value, math.Abs(want), 1e-9)
		near(t, "sigma", e[i].Sigma, 0, 1e-6)
	}
}

// TestScreeningInNoise: an idle input has size 0 on average though the noise of a
// difference is larger than the effects; a naive mean of |difference| would be 0.8 of
// the noise. 4.5 standard errors: false alarm below 1e-5 a check.
func TestScreeningInNoise(t *testing.T) {
	f := func(p Point) float64 { return p[0] }
	const designs = 100
	var idle, moves, sigma float64
	var idle2 float64
	for seed := range uint64(designs) {
		design := Stars(2, 20, seed)
		e := Effects(design, playNoisy(design, f, 16, 2, 0.5, seed))
		idle += e[1].Size.Value / designs
		idle2 += e[1].Size.Value * e[1].Size.Value / designs
		moves += e[0].Mean.Value / designs
		sigma += e[0].Sigma / designs
	}
	se := math.Sqrt(idle2 / designs)
	near(t, "size of the idle input", idle, 0, 4.5*se)
	near(t, "mean of the other", moves, 1, 0.1) // noise of a design 1/√20 of 1, of 100 designs 0.022
	if naive := 0.8 * 2 / math.Sqrt(16) / step; se > naive/4 {
		t.Errorf("the size of an idle input has standard error %.3f: no better than the %.3f of a naive mean", se, naive)
	}
}

// TestStars: one input moves at a time, by half its span, inside the cube, in more
// dimensions than the Sobol sequence has, too.
func TestStars(t *testing.T) {
	for _, inputs := range []int{1, 5, MaxSobol + 10} {
		for _, row := range Stars(inputs, 9, 3) {
			if len(row) != inputs+1 {
				t.Fatalf("%d points for %d inputs", len(row), inputs)
			}
			for i, p := range row[1:] {
				for k := range p {
					want := 0.0
					if k == i {
						want = step
					}
					if math.Abs(math.Abs(p[k]-row[0][k])-want) > 1e-12 || p[k] <= 0 || p[k] >= 1 {
						t.Fatalf("input %d at %v, base %v", k, p[k], row[0][k])
					}
				}
			}
		}
	}
}
