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

// level of the intervals: each bound is passed by luck with probability 1e-4.
const level = 1 - 2e-4

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

// play plays n possessions of a scenario of testdata/emergence and measures them.
func play(t *testing.T, name string, n int, claims []claim) [][]fraction {
	t.Helper()
	sc, err := scenario.Load(filepath.Join("..", "..", "testdata", "emergence", name+".yaml"))
	if err != nil {
		t.Fatal(err)
	}
	sc.Possessions = n
	k := &taker{sc: sc, claims: claims, taken: make([][]fraction, len(claims))}
	if _, err := sim.Run(context.Background(), sc, sim.Config{Observer: k}); err != nil {
		t.Fatal(err)
	}
	return k.taken
}

// compare plays two variants under one seed and holds the claims about the
// difference, second less first.
func compare(t *testing.T, first, second string, n int, claims ...claim) {
	t.Helper()
	needTime(t)
	a, b := play(t, first, n, claims), play(t, second, n, claims)
	for i, c := range claims {
		var s stats.PairedRatioSums
		for k := range a[i] {
			s.Add(a[i][k].num, a[i][k].den, b[i][k].num, b[i][k].den)
		}
		t.Logf("%s: %.4g and %.4g", c.what, s.A.Num/s.A.Den, s.B.Num/s.B.Den)
		c.hold(t, stats.RatioDifference(s, level))
	}
}

// compareEffects plays two pairs of variants under one seed and holds the claims
// about the effect in the second pair, and about how much larger it is than in the
// first. The figures must be rates per possession.
func compareEffects(t *testing.T, first, second [2]string, n int, claims ...claim) {
	t.Helper()
	needTime(t)
	var taken [4][][]fraction
	for i, name := range [...]string{first[0], first[1], second[0], second[1]} {
		taken[i] = play(t, name, n, claims)
	}
	for i, c := range claims {
		var effect, more sums
		for k := range n {
			e := taken[3][i][k].num - taken[2][i][k].num
			effect.add(e)
			more.add(e - (taken[1][i][k].num - taken[0][i][k].num))
		}
		t.Logf("%s: %s against %s, then less what %s and %s differ by", c.what, second[1], second[0], first[1], first[0])
		c.hold(t, effect.mean())
		c.hold(t, more.mean())
	}
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

// hold checks the claim against the difference that was measured.
func (c claim) hold(t *testing.T, d stats.Estimate) {
	t.Helper()
	t.Logf("%s: difference %+.4g, standard error %.2g, interval %+.4g to %+.4g", c.what, d.Value, d.StdErr, d.Lo, d.Hi)
	var out bool
	switch c.says {
	case falls:
		out = d.Hi < 0
	case rises:
		out = d.Lo > 0
	case notLower:
		out = d.Hi >= 0
	}
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
