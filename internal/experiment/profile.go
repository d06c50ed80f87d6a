package experiment

import (
	"math"

	"playout/internal/factorial"
	"playout/internal/stats"
	"playout/model"
)

// Trait is an attribute of a player that a profile varies.
type Trait struct {
	Index     int // of the player in his team
	Attribute model.Attribute
	Now       float64 // his percentile
	Low, High float64 // percentiles between which it is varied
}

// traitHalf is how many percentiles a trait moves either way: far enough to be seen,
// near enough for what one finds around the man as he is.
const traitHalf = 20

// Traits are the attributes of some players of a team that the engine uses: those of
// keepers are left out for the others.
func Traits(team *model.Team, players []int) []Trait {
	var out []Trait
	for _, i := range players {
		p := &team.Players[i]
		for a := range model.NumAttributes {
			if i != 0 && (a == model.Distribution || a == model.Sweeping || a == model.ShotStopping) {
				continue
			}
			now := p.PercentileOf(a)
			out = append(out, Trait{i, a, now, max(now-traitHalf, 1), min(now+traitHalf, 99)})
		}
	}
	return out
}

// ProfileCells are the runs of a two-level design that moves all traits at once: every
// run tells something of every trait, so that a profile costs little more than one
// comparison, and the effect of one trait is clear of how two others work together.
func ProfileCells(sc *model.Scenario, side model.Side, traits []Trait) []Cell {
	var cells []Cell
	for _, levels := range factorial.Design(len(traits), true) {
		run := *sc
		run.Teams[side].Players = append([]model.Player(nil), sc.Teams[side].Players...)
		for k, t := range traits {
			x := t.Low
			if levels[k] > 0 {
				x = t.High
			}
			run.Teams[side].Players[t.Index].SetPercentile(t.Attribute, x)
		}
		cells = append(cells, Cell{Name: "profile", Scenario: &run})
	}
	return cells
}

// TraitEffects is by how much the figure's mean rises when a trait rises by ten
// percentiles, on average between its low and its high and over all other traits. runs
// are the outcomes of ProfileCells. Every possession gives one contrast of the runs with
// the trait high and those with it low, under the same luck; the interval is that of the
// mean of the contrasts.
func TraitEffects(traits []Trait, runs [][]Outcome, f Figure) []stats.Estimate {
	design := factorial.Design(len(traits), true)
	n := len(runs[0])
	for _, r := range runs {
		n = min(n, len(r))
	}
	contrast := make([][]float64, len(traits)) // by trait, then possession
	for k := range contrast {
		contrast[k] = make([]float64, n)
	}
	for r, levels := range design {
		for i := range n {
			if y := f.Of(&runs[r][i]); y != 0 {
				for k, level := range levels {
					contrast[k][i] += level * y
				}
			}
		}
	}
	out := make([]stats.Estimate, len(traits))
	for k, t := range traits {
		scale := 2 / float64(len(design)) * 10 / (t.High - t.Low)
		var sum, squares float64
		for _, c := range contrast[k] {
			c = math.Round(c*1e9) / 1e9 // figures are whole millionths: less is rounding
			sum += c * scale
			squares += c * c * scale * scale
		}
		out[k] = stats.Mean(sum, squares, int64(n), level)
	}
	return out
}
