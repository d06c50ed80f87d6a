package sensitivity

import (
	"math"
	"math/rand/v2"
	"slices"

	"playout/internal/stats"
)

// Index is what the variance of the result owes to one factor.
type Index struct {
	// First is the share of the variance that goes when the factor alone is known
	// (first-order index), Total the share that stays when all others are known
	// (total index). They are estimates: near 0 chance may take them below it.
	First, Total stats.Estimate
	// Slope is the mean change of the result for the whole span of the factor, by
	// least squares. Only for a factor of one input; otherwise NaN.
	Slope stats.Estimate
	// Third is the mean of the result with the factor in the lower, middle and
	// upper third of its span, the others anywhere. As Slope, for one input.
	Third [3]stats.Estimate
}

// Decomposition is the answer of Indices.
type Decomposition struct {
	Rows     int
	Mean     stats.Estimate // of the result over all inputs
	Variance stats.Estimate // of the result over all inputs, noise taken out
	// Together is the share of the variance that no factor brings alone: 1 less all
	// first-order indices.
	Together stats.Estimate
	// Noise is how much variance the simulator's chance adds to the mean of a
	// point's replicates.
	Noise   float64
	Factors []Index
}

// resamples of the bootstrap: the ends of a 95 % interval then rest on 25 draws each.
const resamples = 1000

// Indices estimates first-order indices as Saltelli (2010) and total ones as Jansen
// (1999) from a design of Saltelli. y[row][point] holds the replicates of a point;
// rows beyond len(y) were not played.
//
//	V_i  = mean of f(B) (f(A_B^i) - f(A)),   f(B) counted from the mean of all A and B
//	VT_i = mean of (f(A_B^i) - f(A))² / 2
//	V    = mean of f² over A and B, less the mean of f f' over different rows
//
// Counting f(B) from the mean leaves the expectation of V_i as it is, but for 1 part
// in the number of rows, and takes most of its chance away. What is linear in an
// input is put in with its known value (line.straighten).
//
// Intervals are percentiles of a bootstrap over rows, as Archer et al. (1997). Rows
// are more even than independent ones, so that where the simulator has no noise the
// intervals are too wide rather than too narrow; each row has its own luck, so they
// cover the simulator's noise, too. seed names the resampling.
func Indices(design [][]Point, factors [][]int, y [][][]float64, seed uint64) Decomposition {
	t := newTally(design, factors, y)
	all := make([]int, len(y))
	for j := range all {
		all[j] = j
	}
	value := t.estimate(all)
	draws := make([][]float64, len(value))
	rng := rand.New(rand.NewPCG(mix(seed), mix(seed+1)))
	rows := make([]int, len(y))
	for range resamples {
		for k := range rows {
			rows[k] = rng.IntN(len(y))
		}
		for q, x := range t.estimate(rows) {
			draws[q] = append(draws[q], x)
		}
	}
	next := 0
	take := func() stats.Estimate {
		e := percentiles(value[next], draws[next], len(y))
		next++
		return e
	}
	d := Decomposition{Rows: len(y), Noise: t.noise, Mean: take(), Variance: take(), Together: take()}
	for range factors {
		x := Index{First: take(), Total: take(), Slope: take()}
		for k := range x.Third {
			x.Third[k] = take()
		}
		d.Factors = append(d.Factors, x)
	}
	return d
}

// percentiles is an estimate with its bootstrap interval and standard error.
func percentiles(value float64, draws []float64, rows int) stats.Estimate {
	e := stats.Estimate{Value: value, StdErr: math.NaN(), Lo: math.Inf(-1), Hi: math.Inf(1), Level: level, N: int64(rows)}
	if rows < 2 || slices.ContainsFunc(draws, math.IsNaN) {
		return e
	}
	slices.Sort(draws)
	tail := int(math.Round((1 - level) / 2 * float64(len(draws))))
	e.Lo, e.Hi = draws[tail], draws[len(draws)-1-tail]
	m, s := mean(draws), 0.0
	for _, x := range draws {
		s += (x - m) * (x - m)
	}
	e.StdErr = math.Sqrt(s / float64(len(draws)-1))
	return e
}
