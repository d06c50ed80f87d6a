package stats

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Groups tallies whole numbers that come in groups of equal size: what the
// members of a group have in common is drawn anew for each group. Sums are exact,
// so tallies of disjoint sets of groups merge by addition in any order. The zero
// value is empty.
type Groups struct {
	N  int64 // groups
	Of int64 // members of all groups; every group has Of / N
	X  int64 // Σ x over members
	XX int64 // Σ x² over members
	TT int64 // Σ of the squares of the groups' totals
}

// Add tallies one group of n members from their sum and sum of squares.
func (g *Groups) Add(n, sum, squares int64) {
	g.N++
	g.Of += n
	g.X += sum
	g.XX += squares
	g.TT += sum * sum
}

// Components is a one-way random-effects analysis of variance: member i of group
// j is
//
//	x_ij = mu + a_j + e_ij,   var a = Between, var e = Within
//
// estimated by the method of moments from the mean squares between (MSB) and
// within groups (MSW) of m members each:
//
//	Within = MSW,   Between = max(0, (MSB - MSW) / m)
//
// Both are NaN below two groups or two members.
// Reference: Searle, Casella and McCulloch (1992), Variance Components, chapter 3
// (from memory).
type Components struct {
	Between, Within float64 // in the square of the unit of x
	msb, groups, m  float64
}

// OneWay estimates the components of variance of a tally.
func OneWay(g Groups) Components {
	if g.N < 2 || g.Of < 2*g.N {
		return Components{Between: math.NaN(), Within: math.NaN()}
	}
	if g.Of%g.N != 0 {
		panic("stats: groups of unequal size")
	}
	n, m := float64(g.N), float64(g.Of/g.N)
	x, totals := float64(g.X), float64(g.TT)/m
	c := Components{groups: n, m: m}
	c.msb = max(totals-x*x/(n*m), 0) / (n - 1) // rounding must not go below 0
	c.Within = max(float64(g.XX)-totals, 0) / (n * (m - 1))
	c.Between = max(c.msb-c.Within, 0) / m
	return c
}

// Limit is the upper confidence limit of Between at confidence p, given Within:
//
//	max(0, (MSB/f - MSW) / m)
//
// with f the 1-p quantile of the F distribution with groups - 1 and groups (m-1)
// degrees of freedom, and NaN where Between is. Over Within it is exact for normal x.
// Reference: as for Components.
func (c Components) Limit(p float64) float64 {
	checkLevel(p)
	if math.IsNaN(c.Within) {
		return math.NaN()
	}
	f := distuv.F{D1: c.groups - 1, D2: c.groups * (c.m - 1)}.Quantile(1 - p)
	return max(c.msb/f-c.Within, 0) / c.m
}

// MinGroups is the fewest groups from which a variance between groups is
// reported: with 20 its estimate is off by a third (√(2/19)) even when the
// members of a group leave nothing to chance.
const MinGroups = 20

// Split is an estimate whose interval also covers what groups have in common,
// and how much of it comes from where.
type Split struct {
	// Estimate is of the value in a group drawn anew. With n observations in all,
	// StdErr² is
	//
	//	Between (1 + 1/groups) + Within/n
	//
	// The 1/groups is there because only so many groups were tried. Where Between
	// is small against what chance does to a group, it is poorly known and its
	// estimate often 0, and an interval of 1.96 StdErr then holds the value in 80 %
	// of the cases only. The interval therefore takes Between at its upper quartile,
	// Limit(0.75), and holds it in 91 % or more (TestSplitCoversKnownSpread). It is
	// never narrower than that of chance alone.
	Estimate
	// Chance is the half-width of the interval that covers chance alone.
	Chance float64
	// GroupShare of StdErr² comes from between the groups, the rest is chance;
	// GroupLo and GroupHi bound it. Where GroupLo is 0, chance could explain all
	// the groups' differences. NaN when nothing varies.
	GroupShare, GroupLo, GroupHi float64
}

// quartile is the confidence at which an interval takes the variance between
// groups.
const quartile = 0.75

// SplitProportion estimates a probability from k successes in n trials, most of
// them tallied in groups as 0 and 1. The interval is symmetric on the logit scale,
// by the delta method, so that it stays within 0 and 1; it includes the Wilson
// interval of chance alone. It is false with fewer than MinGroups groups.
func SplitProportion(k, n int64, g Groups, level float64) (Split, bool) {
	s, half, ok := split(Proportion(k, n, level), g, 1)
	if !ok || k == 0 || k == n {
		return s, ok // all alike: no variance to split, the Wilson interval stands
	}
	centre := logit(s.Value)
	half /= s.Value * (1 - s.Value)
	s.widen(logistic(centre-half), logistic(centre+half))
	return s, true
}

// SplitMean estimates an expectation from n observations given as their sum and
// the sum of their squares. Most of them are tallied in groups, where unit is the
// value of 1. It is false with fewer than MinGroups groups.
func SplitMean(sum, sumSq float64, n int64, g Groups, unit, level float64) (Split, bool) {
	s, half, ok := split(Mean(sum, sumSq, n, level), g, unit)
	if ok {
		s.widen(s.Value-half, s.Value+half)
	}
	return s, ok
}

// split adds the components of variance to the estimate of chance alone and
// returns the half-width of the interval of both.
func split(chance Estimate, g Groups, unit float64) (s Split, half float64, ok bool) {
	s = Split{Estimate: chance, Chance: (chance.Hi - chance.Lo) / 2}
	if g.N < MinGroups {
		s.GroupShare, s.GroupLo, s.GroupHi = math.NaN(), math.NaN(), math.NaN()
		return s, s.Chance, false
	}
	c := OneWay(g)
	left := c.Within / float64(chance.N)
	both := func(between float64) float64 { return between*(1+1/float64(g.N)) + left }
	share := func(between float64) float64 { return 1 - left/both(between) } // 0/0 is NaN
	tail := (1 - chance.Level) / 2
	s.StdErr = unit * math.Sqrt(both(c.Between))
	s.GroupShare, s.GroupLo, s.GroupHi = share(c.Between), share(c.Limit(tail)), share(c.Limit(1-tail))
	return s, unit * normalQuantile(chance.Level) * math.Sqrt(both(c.Limit(quartile))), true
}

// widen makes the interval reach at least from lo to hi.
func (s *Split) widen(lo, hi float64) { s.Lo, s.Hi = min(s.Lo, lo), max(s.Hi, hi) }

func logistic(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

func logit(p float64) float64 { return math.Log(p / (1 - p)) }
