package stats

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Calcium in turnip greens, % of dry weight: four leaves, four determinations each.
// Source: Snedecor and Cochran, Statistical Methods, the example of the one-way
// random-effects analysis (data and results from memory). It prints mean squares
// of 0.2961 between leaves and 0.0066 within, and a component for leaves of
// (0.2961 - 0.0066)/4 = 0.0724.
var leaves = [][]int64{{328, 309, 303, 303}, {352, 348, 338, 338}, {288, 280, 281, 276}, {334, 338, 323, 326}}

func groupsOf(data [][]int64) Groups {
	var g Groups
	for _, group := range data {
		sum, squares := int64(0), int64(0)
		for _, x := range group {
			sum += x
			squares += x * x
		}
		g.Add(int64(len(group)), sum, squares)
	}
	return g
}

func TestOneWayTurnipGreens(t *testing.T) {
	c := OneWay(groupsOf(leaves))
	near(t, "between", c.Between/1e4, 0.0724, 5e-5)
	near(t, "within", c.Within/1e4, 0.0066, 5e-5)
	// F = MSB/MSW against the printed quantiles of F with 3 and 12 degrees of
	// freedom: 4.474 at 97.5 %, and 1/14.34 at 2.5 % (12 and 3 reversed).
	f := (c.Within + 4*c.Between) / c.Within
	near(t, "lower limit", c.Limit(0.025)/c.Within, (f/4.474-1)/4, 1e-3)
	near(t, "upper limit", c.Limit(0.975)/c.Within, (f*14.34-1)/4, 0.05)
}

// Two groups of two by hand: (0, 1) and (1, 1). Totals 1 and 2, MSB = (1 + 4)/2 - 9/4
// = 1/4, MSW = (3 - 5/2)/2 = 1/4: nothing between the groups.
func TestOneWayByHand(t *testing.T) {
	c := OneWay(groupsOf([][]int64{{0, 1}, {1, 1}}))
	near(t, "between", c.Between, 0, 0)
	near(t, "within", c.Within, 0.25, 1e-15)
	near(t, "lower limit", c.Limit(0.025), 0, 0)
	// Groups that share nothing but their mean lie too even: still no negative variance.
	c = OneWay(groupsOf([][]int64{{0, 1}, {1, 0}}))
	near(t, "between even groups", c.Between, 0, 0)
	near(t, "within even groups", c.Within, 0.5, 1e-15)
	for _, few := range []Groups{{}, groupsOf([][]int64{{1, 2}}), groupsOf([][]int64{{1}, {2}})} {
		if c := OneWay(few); !math.IsNaN(c.Between) || !math.IsNaN(c.Within) || !math.IsNaN(c.Limit(0.5)) {
			t.Errorf("%+v gives %+v", few, c)
		}
	}
	mustPanic(t, "unequal groups", func() { OneWay(groupsOf([][]int64{{0, 1}, {1, 1, 1}})) })
}

// The parts of a tally add up to the whole.
func TestGroupsAddUp(t *testing.T) {
	whole, a, b := groupsOf(leaves), groupsOf(leaves[:1]), groupsOf(leaves[1:])
	sum := Groups{a.N + b.N, a.Of + b.Of, a.X + b.X, a.XX + b.XX, a.TT + b.TT}
	if sum != whole {
		t.Errorf("%+v, want %+v", sum, whole)
	}
}

// league draws a probability for each of a number of groups, plays m trials of
// each and returns the tally; the spread between groups is tau.
func league(rng *rand.Rand, groups, m int, p, tau float64) Groups {
	var g Groups
	for range groups {
		q, k := p+tau*rng.NormFloat64(), int64(0)
		for range m {
			if rng.Float64() < q {
				k++
			}
		}
		g.Add(int64(m), k, k)
	}
	return g
}

// With known tau the interval covers the probability of a group drawn anew, over
// 4,000 runs each and within 5 standard errors (false alarm 3e-7): in 91 % or more
// whatever the spread, in 95 to 97 % where the spread is plain. The interval of the
// share holds that of the closed form
//
//	tau²(1 + 1/B) / (tau²(1 + 1/B) + sigma²/N),   sigma² = p(1-p) - tau²
//
// in 95 %, less a point since counts are not normal.
func TestSplitCoversKnownSpread(t *testing.T) {
	const runs, p = 4000, 0.6
	for _, c := range []struct {
		groups, m int
		tau       float64
		lo, hi    float64
	}{
		{20, 50, 0.03, 0.91, 1}, {20, 50, 0.12, 0.94, 0.97},
		{200, 50, 0.005, 0.91, 1}, {200, 50, 0.02, 0.91, 1}, {200, 50, 0.05, 0.94, 0.97},
		{50, 200, 0.005, 0.91, 1}, {50, 200, 0.015, 0.91, 1}, {50, 200, 0.05, 0.94, 0.97},
	} {
		rng := rand.New(rand.NewPCG(11, uint64(c.groups)))
		n := float64(c.groups * c.m)
		between := c.tau * c.tau * (1 + 1/float64(c.groups))
		truth := between / (between + (p*(1-p)-c.tau*c.tau)/n)
		wide, chance, share := 0.0, 0.0, 0.0
		for range runs {
			g := league(rng, c.groups, c.m, p, c.tau)
			s, ok := SplitProportion(g.X, g.Of, g, 0.95)
			if !ok {
				t.Fatalf("%d groups are called too few", c.groups)
			}
			anew := p + c.tau*rng.NormFloat64()
			if s.Lo <= anew && anew <= s.Hi {
				wide++
			}
			if e := Proportion(g.X, g.Of, 0.95); e.Lo <= anew && anew <= e.Hi {
				chance++
			}
			if s.GroupLo <= truth && truth <= s.GroupHi {
				share++
			}
		}
		tol := 5 * math.Sqrt(0.95*0.05/runs)
		t.Logf("%d groups of %d, tau %g: %.3f, chance alone %.3f, share %.3f", c.groups, c.m, c.tau, wide/runs, chance/runs, share/runs)
		if got := wide / runs; got < c.lo-tol || got > c.hi+tol {
			t.Errorf("%d groups, tau %g: covers a group drawn anew in %.3f, want %g to %g", c.groups, c.tau, got, c.lo, c.hi)
		}
		if got := share / runs; got < 0.94-tol {
			t.Errorf("%d groups, tau %g: the share's interval holds it in %.3f", c.groups, c.tau, got)
		}
		if c.lo > 0.91 && chance/runs > 0.6 {
			t.Errorf("%d groups: chance alone covers %.3f: tau is too small to test with", c.groups, chance/runs)
		}
	}
}

// The estimates of the components are right on average: over 2,000 runs within 5
// standard errors of the mean (false alarm 6e-7). The estimate between groups is
// cut off at 0, which never happens here: tau² is 9 standard deviations away.
func TestOneWayIsUnbiased(t *testing.T) {
	const runs, groups, m, p, tau = 2000, 200, 50, 0.5, 0.1
	rng := rand.New(rand.NewPCG(3, 5))
	var b, bb, w, ww float64
	for range runs {
		c := OneWay(league(rng, groups, m, p, tau))
		b, bb = b+c.Between, bb+c.Between*c.Between
		w, ww = w+c.Within, ww+c.Within*c.Within
	}
	between, within := Mean(b, bb, runs, 0.95), Mean(w, ww, runs, 0.95)
	near(t, "between", between.Value, tau*tau, 5*between.StdErr)
	near(t, "within", within.Value, p*(1-p)-tau*tau, 5*within.StdErr)
}

// Without any spread between groups the split says that chance could explain it
// all in at least 97.5 % of 2,000 runs, less 5 standard errors (false alarm 3e-7) and a
// point.
func TestSplitOfChanceAlone(t *testing.T) {
	const runs = 2000
	rng := rand.New(rand.NewPCG(8, 1))
	explained := 0.0
	for range runs {
		g := league(rng, 40, 50, 0.4, 0)
		s, _ := SplitProportion(g.X, g.Of, g, 0.95)
		if s.GroupLo == 0 {
			explained++
		}
		e := Proportion(g.X, g.Of, 0.95)
		if s.Lo > e.Lo || s.Hi < e.Hi {
			t.Fatalf("%g to %g is narrower than chance alone, %g to %g", s.Lo, s.Hi, e.Lo, e.Hi)
		}
	}
	if least := 0.975 - 5*math.Sqrt(0.975*0.025/runs) - 0.01; explained/runs < least {
		t.Errorf("chance explains it in %.3f of the runs, want %.3f", explained/runs, least)
	}
}

// A mean of 0 and 1 is a proportion: the same components, but no logit.
func TestSplitMean(t *testing.T) {
	g := league(rand.New(rand.NewPCG(2, 2)), 60, 50, 0.5, 0.1)
	p, _ := SplitProportion(g.X, g.Of, g, 0.95)
	const unit = 1e-3
	m, ok := SplitMean(float64(g.X)*unit, float64(g.XX)*unit*unit, g.Of, g, unit, 0.95)
	if !ok {
		t.Fatal("60 groups are called too few")
	}
	near(t, "value", m.Value, p.Value*unit, 1e-12)
	near(t, "standard error", m.StdErr, p.StdErr*unit, 1e-12)
	near(t, "share", m.GroupShare, p.GroupShare, 1e-12)
	c := OneWay(g)
	near(t, "half-width", m.Hi-m.Value, 1.959964*unit*math.Sqrt(c.Limit(0.75)*(1+1./60)+c.Within/3000), 1e-9)
}

func TestSplitAtTheEnds(t *testing.T) {
	few := league(rand.New(rand.NewPCG(2, 2)), MinGroups-1, 50, 0.5, 0.1)
	s, ok := SplitProportion(few.X, few.Of, few, 0.95)
	if e := Proportion(few.X, few.Of, 0.95); ok || s.Estimate != e {
		t.Errorf("%d groups: %+v, %v; want chance alone and false", few.N, s, ok)
	}
	for _, k := range []int64{0, 1} { // none or all of the trials succeed
		g := Groups{N: 20, Of: 1000, X: 1000 * k, XX: 1000 * k, TT: 20 * 50 * 50 * k}
		s, ok := SplitProportion(g.X, g.Of, g, 0.95)
		if e := Proportion(g.X, g.Of, 0.95); !ok || s.Lo != e.Lo || s.Hi != e.Hi || !math.IsNaN(s.GroupShare) {
			t.Errorf("all alike: %+v, %v", s, ok)
		}
	}
	// Half of the groups all 1, the others all 0: nothing is chance.
	g := Groups{N: 20, Of: 1000, X: 500, XX: 500, TT: 10 * 50 * 50}
	if s, _ := SplitProportion(500, 1000, g, 0.95); s.GroupShare != 1 || s.GroupLo != 1 || !(s.Lo >= 0 && s.Hi <= 1) {
		t.Errorf("nothing within: %+v", s)
	}
}
