package zerosum

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Resample makes games as they might have come out with other luck. payoff[i][j] holds
// what the row side got in each of n repetitions of row i against column j; repetition k
// of every cell had the same luck. Each game draws n repetitions with replacement, the
// same ones in all cells, and takes their means: the bootstrap, paired over the cells.
// Seed and draws fix the games.
// Reference: Efron and Tibshirani (1993), An Introduction to the Bootstrap, chapters 6
// and 8 (from memory).
func Resample(payoff [][][]float64, draws int, seed uint64) []Game {
	n := len(payoff[0][0])
	r := rand.New(rand.NewPCG(seed, purpose))
	times := make([]float64, n)
	games := make([]Game, draws)
	for d := range games {
		clear(times)
		for range n {
			times[r.IntN(n)]++
		}
		games[d] = means(payoff, times)
	}
	return games
}

// purpose keeps these draws apart from others under the same seed.
const purpose = 0x6d61747269782121

// Means is the game of the plain means.
func Means(payoff [][][]float64) Game {
	once := make([]float64, len(payoff[0][0]))
	for k := range once {
		once[k] = 1
	}
	return means(payoff, once)
}

func means(payoff [][][]float64, times []float64) Game {
	g := make(Game, len(payoff))
	for i, row := range payoff {
		g[i] = make([]float64, len(row))
		for j, cell := range row {
			sum := 0.0
			for k, x := range cell {
				sum += float64(times[k] * x) // not fused: the same on every machine
			}
			g[i][j] = sum / float64(len(cell))
		}
	}
	return g
}

// Interval holds the middle share of the resampled values.
type Interval struct{ Low, High float64 }

// Doubt is how far the answer to a game varies over resampled games.
type Doubt struct {
	Value     Interval
	Rows      []Interval // of the optimal mix
	Columns   []Interval
	Worst     []Interval // of each row's worst entry
	Safest    []float64  // share of games in which a row is the safest
	Dominated []float64  // share of games in which a row is dominated
	Beaten    []float64  // the same of the columns
	RowPrice  []Interval // what always playing a row gives away
	ColPrice  []Interval // the same of the columns
	Saddle    float64    // share of games in which neither side needs to mix
}

// Spread solves every game and takes percentile intervals of the given level.
func Spread(games []Game, level float64) (*Doubt, error) {
	rows, columns := len(games[0]), len(games[0][0])
	d := &Doubt{
		Safest: make([]float64, rows), Dominated: make([]float64, rows), Beaten: make([]float64, columns),
	}
	var value []float64
	byRow, worst, rowPrice := make([][]float64, rows), make([][]float64, rows), make([][]float64, rows)
	byColumn, colPrice := make([][]float64, columns), make([][]float64, columns)
	share := 1 / float64(len(games))
	for _, g := range games {
		s, err := Solve(g)
		if err != nil {
			return nil, err
		}
		dominated, err := g.DominatedRows()
		if err != nil {
			return nil, err
		}
		beaten, err := g.DominatedColumns()
		if err != nil {
			return nil, err
		}
		value = append(value, s.Value)
		for i, p := range s.Rows {
			byRow[i] = append(byRow[i], p)
			worst[i] = append(worst[i], slices.Min(g[i]))
		}
		for j, p := range s.Columns {
			byColumn[j] = append(byColumn[j], p)
		}
		gives, takes := g.Prices(s.Value)
		for i, x := range gives {
			rowPrice[i] = append(rowPrice[i], x)
		}
		for j, x := range takes {
			colPrice[j] = append(colPrice[j], x)
		}
		for _, x := range dominated {
			d.Dominated[x.Index] += share
		}
		for _, x := range beaten {
			d.Beaten[x.Index] += share
		}
		sec := g.Security()
		d.Safest[sec.Row] += share
		if sec.Least >= sec.Most {
			d.Saddle += share
		}
	}
	d.Value = middle(value, level)
	for i := range rows {
		d.Rows = append(d.Rows, middle(byRow[i], level))
		d.Worst = append(d.Worst, middle(worst[i], level))
		d.RowPrice = append(d.RowPrice, middle(rowPrice[i], level))
	}
	for j := range columns {
		d.Columns = append(d.Columns, middle(byColumn[j], level))
		d.ColPrice = append(d.ColPrice, middle(colPrice[j], level))
	}
	return d, nil
}

// middle is the interval between the quantiles (1-level)/2 and (1+level)/2: the order
// statistics at or beyond them, so it is never narrower than asked.
func middle(x []float64, level float64) Interval {
	s := slices.Sorted(slices.Values(x))
	tail := (1 - level) / 2
	lo := int(math.Floor(tail * float64(len(s))))
	return Interval{s[lo], s[len(s)-1-lo]}
}
