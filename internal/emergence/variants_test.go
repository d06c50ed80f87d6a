package emergence

import (
	"context"
	"path/filepath"
	"testing"

	"playout/internal/scenario"
	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// looks is how often the claims of a comparison are asked, after equal parts of its
// possessions: the play ends with the first look at which all of them hold.
const looks = 4

// level of the intervals: each bound is passed by luck with probability 1e-4, shared
// out over the looks (Bonferroni).
const level = 1 - 2e-4/looks

// fraction is a figure of one possession; a ratio of sums over many.
type fraction struct{ num, den float64 }

// measure takes a figure of a possession played under a scenario.
type measure func(sc *model.Scenario, p *sim.Possession, events []sim.Event) fraction

// direction is what a law says of a difference.
type direction int

const (
	falls    direction = -1
	notLower direction = 0 // it may be anything that is not beyond the noise below zero
	rises    direction = 1
)

// claim is what a law says of one figure from the first variant to the second. A
// claim with a miss is known not to come out of the engine, for the reason given.
type claim struct {
	what string
	of   measure
	says direction
	miss string
}

// taker measures the possessions of a run.
type taker struct {
	sc     *model.Scenario
	claims []claim
	taken  [][]fraction // by claim and possession
}

func (k *taker) Possession(p *sim.Possession, events []sim.Event) {
	for i, c := range k.claims {
		k.taken[i] = append(k.taken[i], c.of(k.sc, p, events))
	}
}

// variant reads a scenario of testdata/emergence.
func variant(t *testing.T, name string) *model.Scenario {
	t.Helper()
	sc, err := scenario.Load(filepath.Join("..", "..", "testdata", "emergence", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	return sc
}

// play plays n possessions of a scenario for one look and measures them. Every look has luck of
// its own, which the variants share.
func play(t *testing.T, sc *model.Scenario, n, look int, claims []claim) [][]fraction {
	t.Helper()
	part := *sc
	part.Possessions = n
	part.Seed += uint64(look)
	k := &taker{sc: sc, claims: claims, taken: make([][]fraction, len(claims))}
	if _, err := sim.Run(context.Background(), &part, sim.Config{Observer: k}); err != nil {
		t.Fatal(err)
	}
	return k.taken
}

// compare plays two variants under one seed, at most n possessions each, and holds the claims
// about the difference, second less first.
func compare(t *testing.T, first, second string, n int, claims ...claim) {
	t.Helper()
	needTime(t)
	one, two := variant(t, first), variant(t, second)
	tallied := make([]stats.PairedRatioSums, len(claims))
	for look := range looks {
		a, b := play(t, one, n/looks, look, claims), play(t, two, n/looks, look, claims)
		held := true
		for i, c := range claims {
			s := &tallied[i]
			for k := range a[i] {
				s.Add(a[i][k].num, a[i][k].den, b[i][k].num, b[i][k].den)
			}
			held = held && c.early(stats.RatioDifference(*s, level))
		}
		if held {
			break
		}
	}
	for i, c := range claims {
		s := &tallied[i]
		t.Logf("%s: %.4g and %.4g in %d possessions", c.what, s.A.Num/s.A.Den, s.B.Num/s.B.Den, s.A.N)
		c.hold(t, stats.RatioDifference(*s, level))
	}
}

// compareEffects plays two pairs of variants under one seed, at most n possessions each, and
// holds the claim about the effect in the second pair, and about how much larger it is than in
// the first. The figure must be a rate per possession.
func compareEffects(t *testing.T, first, second [2]string, n int, c claim) {
	t.Helper()
	needTime(t)
	var scenarios [4]*model.Scenario
	for i, name := range [...]string{first[0], first[1], second[0], second[1]} {
		scenarios[i] = variant(t, name)
	}
	var effect, more sums
	for look := range looks {
		var taken [4][]fraction
		for i, sc := range scenarios {
			taken[i] = play(t, sc, n/looks, look, []claim{c})[0]
		}
		for k := range taken[0] {
			e := taken[3][k].num - taken[2][k].num
			effect.add(e)
			more.add(e - (taken[1][k].num - taken[0][k].num))
		}
		if c.early(effect.mean()) && c.early(more.mean()) {
			break
		}
	}
	t.Logf("%s: %s against %s, then less what %s and %s differ by, in %d possessions", c.what, second[1], second[0], first[1], first[0], effect.n)
	c.hold(t, effect.mean())
	c.hold(t, more.mean())
}

// sums tallies one number of each possession.
type sums struct {
	x, xx float64
	n     int64
}

func (s *sums) add(x float64) {
	s.x += x
	s.xx += x * x
	s.n++
}

func (s *sums) mean() stats.Estimate { return stats.Mean(s.x, s.xx, s.n, level) }

// early reports whether the play may end as far as the claim goes: it holds, or is known to miss.
// That something is not lower than it was is asked of all possessions.
func (c claim) early(d stats.Estimate) bool { return c.miss != "" || c.says != notLower && c.holds(d) }

func (c claim) holds(d stats.Estimate) bool {
	switch c.says {
	case falls:
		return d.Hi < 0
	case rises:
		return d.Lo > 0
	}
	return d.Hi >= 0
}

// hold checks the claim against the difference that was measured.
func (c claim) hold(t *testing.T, d stats.Estimate) {
	t.Helper()
	t.Logf("%s: difference %+.4g, standard error %.2g, interval %+.4g to %+.4g", c.what, d.Value, d.StdErr, d.Lo, d.Hi)
	out := c.holds(d)
	switch {
	case !out && c.miss == "":
		t.Errorf("%s: %+.4g to %+.4g, which is not what the law says", c.what, d.Lo, d.Hi)
	case !out:
		t.Logf("known miss: %s (%s)", c.what, c.miss)
	case c.miss != "":
		t.Errorf("%s comes out now: take it off the misses", c.what)
	}
}

func needTime(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
}
