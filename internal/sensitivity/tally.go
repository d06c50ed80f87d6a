package sensitivity

import "math"

// tally is what each row of a design of Saltelli adds to the estimates, so that a
// bootstrap sums rows without looking at points again.
type tally struct {
	centre float64 // mean of the result; the sums count from there
	line   line    // what the result is in a straight line
	noise  float64 // variance that chance adds to a point's mean
	rows   []rowSums
}

type rowSums struct {
	mean, square float64 // (f(A) + f(B))/2 and (f(A)² + f(B)²)/2
	factors      []factorSums
}

type factorSums struct {
	first, total float64    // f(B) (f(A_B) - f(A)) and (f(A_B) - f(A))²/2
	move         float64    // f(A_B) - f(A)
	df, dx       float64    // (f(A_B) - f(A)) Δx and Δx²; NaN for a factor of several inputs
	third, count [3]float64 // sum and number of points in each third of the span
}

func newTally(design [][]Point, factors [][]int, y [][][]float64) *tally {
	t := &tally{line: slopes(design, factors, y)}
	for j, row := range y {
		for p := range 2 { // A and B
			t.centre += (mean(row[p]) - t.line.at(design[j][p])) / float64(2*len(y))
		}
	}
	for j, row := range y {
		a, b := shifted(row[0], t.centre), shifted(row[1], t.centre)
		t.noise += (noise(a) + noise(b)) / float64(2*len(y))
		s := rowSums{mean: (mean(a) + mean(b)) / 2, square: (product(a, a) + product(b, b)) / 2}
		for k, inputs := range factors {
			d := minus(row[2+k], row[0])
			f := factorSums{first: product(b, d), total: product(d, d) / 2, move: mean(d), df: math.NaN(), dx: math.NaN()}
			if len(inputs) == 1 {
				f.along(inputs[0], design[j], row, 2+k)
			}
			s.factors = append(s.factors, f)
		}
		t.line.straighten(&s, factors, design[j][0], design[j][1])
		t.rows = append(t.rows, s)
	}
	return t
}

// along adds up where the result lies along one input, whose point is the given one.
func (f *factorSums) along(input int, points []Point, row [][]float64, point int) {
	dx := points[point][input] - points[0][input]
	f.df, f.dx = (mean(row[point])-mean(row[0]))*dx, dx*dx
	for p, at := range points {
		k := min(int(3*at[input]), 2)
		f.third[k] += mean(row[p])
		f.count[k]++
	}
}

// estimate is every figure from the given rows, in the order in which Indices takes
// them: mean, variance, together; then for each factor first, total, slope and the thirds.
func (t *tally) estimate(rows []int) []float64 {
	var sum, sum2, square float64
	factors := make([]factorSums, len(t.rows[0].factors))
	for _, j := range rows {
		r := &t.rows[j]
		sum, sum2, square = sum+r.mean, sum2+r.mean*r.mean, square+r.square
		for k := range factors {
			f, add := &factors[k], &r.factors[k]
			f.first, f.total = f.first+add.first, f.total+add.total
			f.df, f.dx = f.df+add.df, f.dx+add.dx
			for i := range f.third {
				f.third[i] += add.third[i]
				f.count[i] += add.count[i]
			}
		}
	}
	n := float64(len(rows))
	// E[f²] - E[f]², both without noise: products of different rows have none.
	variance := square/n - (sum*sum-sum2)/(n*(n-1))
	together := 1.0
	for _, f := range factors {
		together -= f.first / n / variance
	}
	out := []float64{t.centre + sum/n, variance, together}
	for _, f := range factors {
		out = append(out, f.first/n/variance, f.total/n/variance, f.df/f.dx,
			f.third[0]/f.count[0], f.third[1]/f.count[1], f.third[2]/f.count[2])
	}
	return out
}

// noise is the variance of the mean of the replicates; 0 for an exact result.
func noise(u []float64) float64 {
	m, s := mean(u), 0.0
	for _, x := range u {
		s += (x - m) * (x - m)
	}
	return s / float64(len(u)) / math.Max(float64(len(u)-1), 1)
}

func shifted(u []float64, by float64) []float64 {
	out := make([]float64, len(u))
	for r := range u {
		out[r] = u[r] - by
	}
	return out
}
