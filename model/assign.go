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

// FitPositions hands ten positions to ten outfield players by where they stand, so that
// as a team they fit best: places are metres in the team's own frame on a pitch of that
// width, and depth counts from the last man to the first. It returns each player's
// position.
func FitPositions(at [10]r2.Vec, positions [10]Position, width float64) [10]Position {
	last, first := math.Inf(1), math.Inf(-1)
	for _, p := range at {
		last, first = min(last, p.X), max(first, p.X)
	}
	depth := max(first-last, 1)
	var want, places [10]r2.Vec
	for i := range at {
		want[i] = r2.Vec{X: (at[i].X - last) / depth, Y: 2 * at[i].Y / width}
		places[i] = place[positions[i]]
	}
	var out [10]Position
	for i, k := range assign(want, places) {
		out[i] = positions[k]
	}
	return out
}
