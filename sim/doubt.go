package sim

import (
	"playout/internal/stats"
	"playout/model"
)

// Draws tallies the possessions of a run under Config.Uncertainty in groups that
// share a draw of the parameters, so that the variance of a rate can be split into
// chance, which differs between the possessions of a group, and the parameters,
// which differ between groups. A group that is not full, at the end of a run, is
// left out. Like tallies, Draws of disjoint sets of groups merge by addition,
// exactly and in any order.
type Draws struct {
	ExitOwnThird, Halfway, FinalReached, FinalThird, Box, Shot, Goal stats.Groups
	Turnover, Stalled, ForcedBack                                    stats.Groups

	XG stats.Groups // DrawXGUnit
}

// DrawXGUnit is the step of xG in Draws: coarser than XGUnit, so that the squares
// of group totals add up within 64 bits in a run of any length.
const DrawXGUnit = 100 * XGUnit

// DrawEvery is the number of possessions that share a draw of the parameters. Chance
// in a group hides what its parameters do, few groups hide how far they reach: a
// spread of tau between rates of standard deviation sigma is best seen with
// (sigma/tau)² in a group, which is 270 for three points of a rate near one half.
const DrawEvery = 4 * batch

// Merge adds the groups of another part of the run.
func (d *Draws) Merge(o *Draws) {
	stats.AddIntegers(d, o)
}

// add tallies one full group.
func (d *Draws) add(t *Tally) {
	n := t.Possessions
	for _, rung := range []struct {
		groups *stats.Groups
		cases  int64
	}{
		{&d.ExitOwnThird, t.ExitOwnThird}, {&d.Halfway, t.Halfway}, {&d.FinalReached, t.FinalReached},
		{&d.FinalThird, t.FinalThird}, {&d.Box, t.Box}, {&d.Shot, t.Shot}, {&d.Goal, t.Goal},
		{&d.Turnover, t.Turnover}, {&d.Stalled, t.Stalled}, {&d.ForcedBack, t.ForcedBack},
	} {
		rung.groups.Add(n, rung.cases, rung.cases) // a yes is 1, and 1² is 1
	}
	d.XG.Add(n, rounded(t.XG.X, 100), rounded(t.XG.XX, 100*100))
}

// rounded is a non-negative whole number in steps that are so much larger.
func rounded(x, step int64) int64 { return (x + step/2) / step }

// drawing draws the parameters of groups of possessions. It belongs to one worker.
type drawing struct {
	from   *model.Uncertainty
	seed   uint64
	stream *Stream
	z      []float64
}

// newDrawing is nil without an uncertainty.
func newDrawing(u *model.Uncertainty, seed uint64) *drawing {
	if u == nil {
		return nil
	}
	return &drawing{from: u, seed: seed, stream: NewStream(), z: make([]float64, u.Directions())}
}

// params are those with which possession id is played: keyed by (seed, group) with
// a purpose of its own, so they depend on no worker, and the possession keeps the
// luck it has in a run without doubt.
func (d *drawing) params(id int) model.Params {
	d.stream.Reset(d.seed, uint64(id/DrawEvery), Doubt)
	for k := range d.z {
		d.z[k] = d.stream.NormFloat64()
	}
	return d.from.Draw(d.z)
}

// ParamsOf are the parameters with which possession id is played in a run under
// an uncertainty and a seed.
func ParamsOf(u *model.Uncertainty, seed uint64, id int) model.Params {
	return newDrawing(u, seed).params(id)
}
