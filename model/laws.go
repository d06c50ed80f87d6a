package model

import "math"

var negInf = math.Inf(-1)

// OffsidePosition applies Law 11 to a point player in the frame of his team:
// he is in an offside position when he is in the opponents' half (the halfway
// line excluded) and nearer to their goal line than both the ball and the
// second-last opponent. Level is onside. x, ball and the opponents' places are
// metres along the attack; opponents include their keeper.
func OffsidePosition(x, ball float64, opponents []float64) bool {
	return x > 0 && x > ball && x > SecondLast(opponents)
}

// SecondLast returns the x of the second-last opponent: the second largest of
// the given places. With fewer than two opponents it is -Inf.
func SecondLast(opponents []float64) float64 {
	first, second := negInf, negInf
	for _, x := range opponents {
		if x > first {
			first, second = x, first
		} else if x > second {
			second = x
		}
	}
	return second
}
