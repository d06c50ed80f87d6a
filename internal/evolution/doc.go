// Package evolution looks for the best point in a box when every look at a point
// is blurred by chance. It knows no football: a point is a list of numbers, and
// what is looked at is the mean of observations.
//
// Strategy is the evolution strategy with covariance matrix adaptation (CMA-ES).
// Race decides which of a generation's points are the better half with no more
// observations than that takes. Search runs both on a budget of observations.
//
// # Determinism
//
// All random numbers are drawn in Ask, in one goroutine and in the order of the
// points, so a search does not depend on how its points are measured: neither on
// how many at once nor in which order. The observations of points that race
// against each other are made under the same luck, and every generation has luck
// of its own.
package evolution
