package sensitivity

import (
	"math"

	"playout/internal/stats"
)

// level is the confidence level of every interval here.
const level = 0.95

// Effect is what screening says of one input, in units of the result for the whole
// span of the input.
type Effect struct {
	Mean  stats.Estimate // mu: the mean elementary effect; its sign is the direction
	Size  stats.Estimate // mu*: the mean size; above |Mean| where the direction depends on the other inputs
	Sigma float64        // spread of the elementary effects: curvature or interplay; noise is taken out, so it may be 0
}

// Effects reads elementary effects off a design of Stars. y[row][point] holds the
// replicates of a point. Rows beyond len(y) were not played. Intervals are Student's
// over the rows.
func Effects(design [][]Point, y [][][]float64) []Effect {
	inputs := len(design[0]) - 1
	out := make([]Effect, inputs)
	for i := range out {
		var sum, sum2, abs, abs2, square float64
		for j, row := range y {
			d := minus(row[i+1], row[0])
			move := design[j][i+1][i] - design[j][0][i] // ± step
			e, s := mean(d)/move, size(d)/math.Abs(move)
			sum, sum2 = sum+e, sum2+e*e
			abs, abs2 = abs+s, abs2+s*s
			square += product(d, d) / (move * move)
		}
		n := int64(len(y))
		out[i].Mean = stats.Mean(sum, sum2, n, level)
		out[i].Size = stats.Mean(abs, abs2, n, level)
		// E[e²] - E[e]², both without noise: products of different rows have none.
		between := (sum*sum - sum2) / float64(n*(n-1))
		out[i].Sigma = math.Sqrt(max(square/float64(n)-between, 0))
	}
	return out
}
