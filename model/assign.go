package model

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// assign hands ten places to ten outfield players so that the sum of squared
// distances between each player's own place (want) and the place he gets is
// least. It returns, for each player, the index of his place. Exact, by
// dynamic programming over the sets of places taken; ties go to the lower
// index, so the result is the same on every run.
func assign(want, places [10]r2.Vec) [10]int {
	const full = 1 << 10
	var cost [full]float64
	var last [full]int8
	for set := 1; set < full; set++ {
		cost[set] = math.Inf(1)
		player := popcount(set) - 1
		for j := 0; j < 10; j++ {
			if set&(1<<j) == 0 {
				continue
			}
			d := r2.Sub(want[player], places[j])
			c := cost[set&^(1<<j)] + r2.Norm2(d)
			if c < cost[set]-1e-12 {
				cost[set], last[set] = c, int8(j)
			}
		}
	}
	var out [10]int
	set := full - 1
	for player := 9; player >= 0; player-- {
		out[player] = int(last[set])
		set &^= 1 << last[set]
	}
	return out
}

func popcount(x int) int {
	n := 0
	for ; x != 0; x &= x - 1 {
		n++
	}
	return n
}
