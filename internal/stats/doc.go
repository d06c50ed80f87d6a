// Package stats turns counts and sums into estimates with intervals. It knows no
// football: an observation is whatever the caller holds to be independent, in this
// program one simulated possession.
//
// Every function works from tallies (counts, sums, sums of squares and of products),
// so shards of a run add up before anything is estimated:
//
//	Proportion             k successes in n, Wilson interval
//	DifferenceProportions  two independent groups, Newcombe interval
//	Mean                   sum and sum of squares, Student interval; paired
//	                       differences are the mean of the differences
//	Ratio                  two sums over the same observations, delta method
//	RatioDifference        ratios of two variants of the same observations, paired
//	OneWay                 groups drawn anew, components of variance
//	SplitProportion        a proportion or a mean whose interval covers the groups'
//	SplitMean              differences too, and what comes from where
//	NeededForHalfWidth     observations for a Wilson interval of a given width
//	PValue, Holm           is a difference 0; several of them judged together
//	NeededToTell           observations to tell a difference of a given size
//	JointMeans             several variables over the same observations: intervals
//	                       that hold together, which may be best
//	Turn                   where the curve through such means turns
//
// Sums of squares lose digits when the spread is tiny against the mean: with a mean
// of 10⁴ spreads, eight of a float64's sixteen digits are left.
//
// Impossible arguments, such as more successes than trials or a level outside (0, 1),
// are a programmer's mistake and panic. Too few observations are not: they give the
// widest interval and a NaN where there is nothing to report.
package stats
