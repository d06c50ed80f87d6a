package sensitivity

import (
	"math"
	"testing"
)

// near holds an estimate against the truth.
func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.4f, want %.4f within %.4f", what, got, want, within)
	}
}

// TestIshigami: without noise 2,048 rows come within 0.01 of the published indices.
func TestIshigami(t *testing.T) {
	design := Saltelli(3, singles(3), 2048, 1)
	d := Indices(design, singles(3), play(design, ishigami), 1)
	near(t, "mean", d.Mean.Value, 3.5, 0.01) // a/2
	near(t, "variance", d.Variance.Value, ishigamiVariance, 0.2)
	near(t, "noise", d.Noise, 0, 0)
	near(t, "together", d.Together.Value, 0.2437, 0.02) // 1 - 0.3139 - 0.4424
	for i, f := range d.Factors {
		near(t, "first", f.First.Value, ishigamiFirst[i], 0.01)
		near(t, "total", f.Total.Value, ishigamiTotal[i], 0.01)
	}
	// The even functions of x2 and x3 have no slope.
	near(t, "slope of x2", d.Factors[1].Slope.Value, 0, 0.3)
	near(t, "slope of x3", d.Factors[2].Slope.Value, 0, 0.3)
}

// TestGFunction is the eight-input case of Saltelli and others, analytic values by
// gIndices.
func TestGFunction(t *testing.T) {
	a := []float64{0, 1, 4.5, 9, 99, 99, 99, 99}
	first, total := gIndices(a)
	near(t, "first of x1", first[0], 0.7162, 0.0001) // published, in Saltelli et al. (2008) from memory
	near(t, "total of x1", total[0], 0.7871, 0.0001)
	design := Saltelli(8, singles(8), 2048, 2)
	d := Indices(design, singles(8), play(design, gFunction(a)), 1)
	for i, f := range d.Factors {
		near(t, "first", f.First.Value, first[i], 0.01)
		near(t, "total", f.Total.Value, total[i], 0.01)
	}
}

// TestGroupOfInputs: the total index of inputs 3 to 8 of the g-function together is
// 1 - V(x1, x2)/V, where V(x1, x2) = (1 + v1)(1 + v2) - 1.
func TestGroupOfInputs(t *testing.T) {
	a := []float64{0, 1, 4.5, 9, 99, 99, 99, 99}
	v := func(i int) float64 { return 1 / (3 * (1 + a[i]) * (1 + a[i])) }
	all := 1.0
	for i := range a {
		all *= 1 + v(i)
	}
	want := 1 - ((1+v(0))*(1+v(1))-1)/(all-1)
	factors := [][]int{{0}, {1}, {2, 3, 4, 5, 6, 7}}
	design := Saltelli(8, factors, 2048, 3)
	d := Indices(design, factors, play(design, gFunction(a)), 1)
	near(t, "total of the group", d.Factors[2].Total.Value, want, 0.01)
	if !math.IsNaN(d.Factors[2].Slope.Value) {
		t.Error("a group has a slope")
	}
}

// TestSlopeAndThirds by hand: f = 3 x1 + (x2 - 1/2)² has slope 3 and 0, thirds of x1
// 3/6, 3/2, 15/6 (plus 1/12), and of x2 the mean of (x - 1/2)² over a third: 13/108,
// 1/108, 13/108 (plus 3/2).
func TestSlopeAndThirds(t *testing.T) {
	f := func(p Point) float64 { return 3*p[0] + (p[1]-0.5)*(p[1]-0.5) }
	design := Saltelli(2, singles(2), 2048, 4)
	d := Indices(design, singles(2), play(design, f), 1)
	near(t, "slope of x1", d.Factors[0].Slope.Value, 3, 1e-9)
	near(t, "slope of x2", d.Factors[1].Slope.Value, 0, 0.01)
	for k, want := range []float64{0.5, 1.5, 2.5} {
		near(t, "third of x1", d.Factors[0].Third[k].Value, want+1./12, 0.01)
	}
	for k, want := range []float64{13. / 108, 1. / 108, 13. / 108} {
		near(t, "third of x2", d.Factors[1].Third[k].Value, want+1.5, 0.01)
	}
}

// TestNoiseTakesNoPart: with 16 replicates whose errors have three times the standard
// deviation of the function, correlated 0.5 within a row, the mean over 60 designs of
// 128 rows is that of the exact function, idle input included. Treating the means of the
// replicates as exact would put the total index of x3, and of an idle input, up by
// half the noise's share, which the test checks, too.
func TestNoiseTakesNoPart(t *testing.T) {
	const designs, rows, replicates = 60, 128, 16
	idle := func(p Point) float64 { return ishigami(p[:3]) }
	factors := singles(4)
	sd := 3 * math.Sqrt(ishigamiVariance)
	var first, total, naive [4][]float64
	var variance, chance []float64
	for seed := range uint64(designs) {
		design := Saltelli(4, factors, rows, seed)
		y := playNoisy(design, idle, replicates, sd, 0.5, seed)
		d := Indices(design, factors, y, seed)
		variance, chance = append(variance, d.Variance.Value), append(chance, d.Noise)
		for i, f := range d.Factors {
			// Numerators, so that the mean of a ratio does not blur the check.
			first[i] = append(first[i], f.First.Value*d.Variance.Value)
			total[i] = append(total[i], f.Total.Value*d.Variance.Value)
		}
		for _, row := range y {
			for p := range row {
				row[p] = []float64{mean(row[p])}
			}
		}
		for i, f := range Indices(design, factors, y, seed).Factors {
			naive[i] = append(naive[i], f.Total.Value)
		}
	}
	// 4.5 standard errors each of 11 checks: false alarm below 1e-4.
	check := func(what string, x []float64, want float64) {
		t.Helper()
		m, s := mean(x), 0.0
		for _, v := range x {
			s += (v - m) * (v - m)
		}
		se := math.Sqrt(s/(designs-1)) / math.Sqrt(designs)
		t.Logf("%s %.3f, truth %.3f, standard error %.3f", what, m, want, se)
		near(t, what, m, want, 4.5*se)
	}
	check("variance", variance, ishigamiVariance)
	check("noise", chance, 9*ishigamiVariance/replicates)
	for i := range 4 {
		s, st := 0.0, 0.0
		if i < 3 {
			s, st = ishigamiFirst[i], ishigamiTotal[i]
		}
		check("V_i", first[i], s*ishigamiVariance)
		check("VT_i", total[i], st*ishigamiVariance)
	}
	if m := mean(naive[3]); m < 0.1 {
		t.Errorf("without the correction the idle input has %.3f: the test is blunt", m)
	}
}

// TestIntervalsCover: the 95 % intervals of Ishigami with noise hold the truth in 90 %
// or more of 100 designs, for every index. Were the coverage 95 %, fewer than 85 of 100
// would come up once in 10,000 (binomial), so that is the bound tested.
func TestIntervalsCover(t *testing.T) {
	const designs = 100
	in := map[string]int{}
	for seed := range uint64(designs) {
		design := Saltelli(3, singles(3), 128, seed)
		d := Indices(design, singles(3), playNoisy(design, ishigami, 8, 5, 0.5, seed+1000), seed)
		for i, f := range d.Factors {
			name := string(rune('1' + i))
			if f.First.Lo <= ishigamiFirst[i] && ishigamiFirst[i] <= f.First.Hi {
				in["first of x"+name]++
			}
			if f.Total.Lo <= ishigamiTotal[i] && ishigamiTotal[i] <= f.Total.Hi {
				in["total of x"+name]++
			}
		}
	}
	for _, name := range []string{"first of x1", "first of x2", "first of x3", "total of x1", "total of x2", "total of x3"} {
		t.Logf("%s: %d of %d", name, in[name], designs)
		if in[name] < 85 {
			t.Errorf("%s: the interval holds the truth in %d of %d designs", name, in[name], designs)
		}
	}
}

// TestLinearIsExact: of a linear function four rows give everything exactly: V = Σ
// β²/12, and each input its part of it, alone and in total.
func TestLinearIsExact(t *testing.T) {
	beta := []float64{3, -1, 0.5, 0}
	f := func(p Point) float64 {
		y := 7.0
		for i, b := range beta {
			y += b * p[i]
		}
		return y
	}
	design := Saltelli(4, singles(4), 4, 8)
	d := Indices(design, singles(4), play(design, f), 1)
	v := (9 + 1 + 0.25) / 12
	near(t, "mean", d.Mean.Value, 7+1.25, 1e-12)
	near(t, "variance", d.Variance.Value, v, 1e-12)
	for i, x := range d.Factors {
		near(t, "first", x.First.Value, beta[i]*beta[i]/12/v, 1e-12)
		near(t, "total", x.Total.Value, beta[i]*beta[i]/12/v, 1e-12)
		near(t, "width of the interval", x.Total.Hi-x.Total.Lo, 0, 1e-12)
	}
}
