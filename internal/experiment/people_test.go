package experiment

import (
	"math"
	"math/rand/v2"
	"testing"

	"playout/internal/factorial"
	"playout/model"
)

// Four variants: two alike, one clearly better, one clearly worse.
func TestPlaces(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const n = 400
	variants := make([][]Outcome, 4)
	for range n {
		luck := r.Float64()
		for v, chance := range []float64{0.5, 0.5, 0.8, 0.2} {
			var o Outcome
			if luck < chance || v == 1 && luck < 0.51 {
				o.Flags = FinalThird
			}
			variants[v] = append(variants[v], o)
		}
	}
	f, err := FigureNamed("final_third")
	if err != nil {
		t.Fatal(err)
	}
	for sense, want := range map[int][]Place{1: {{2, 3}, {2, 3}, {1, 1}, {4, 4}}, -1: {{2, 3}, {2, 3}, {4, 4}, {1, 1}}} {
		for i, p := range Places(variants, f, sense) {
			if p != want[i] {
				t.Errorf("sense %d, variant %d: %v, want %v", sense, i, p, want[i])
			}
		}
	}
	if got := Places(variants[:1], f, 1); got[0] != (Place{1, 1}) {
		t.Errorf("one alone stands at %v", got)
	}
}

// TestTraitEffects plants a chance that is linear in two traits and holds the effects
// against it: with 4000 possessions of 32 runs a standard error is below 0.003 per ten
// percentiles, and five of them are allowed.
func TestTraitEffects(t *testing.T) {
	sc := model.AverageScenario()
	team := &sc.Teams[model.Attack]
	traits := Traits(team, []int{10})
	if len(traits) != 16 {
		t.Fatalf("%d traits of an outfield player", len(traits))
	}
	if n := len(Traits(team, []int{0})); n != int(model.NumAttributes) {
		t.Errorf("%d traits of a keeper", n)
	}
	cells := ProfileCells(&sc, model.Attack, traits)
	if len(cells) != 32 || len(factorial.Design(len(traits), true)) != 32 {
		t.Fatalf("%d runs", len(cells))
	}
	const first, second = 2, 5
	chance := func(p *model.Player) float64 {
		a, b := p.Percentile[traits[first].Attribute], p.Percentile[traits[second].Attribute]
		return 0.5 + 0.004*(a-50) - 0.001*(b-50) + 0.00005*(a-50)*(b-50) // the product must not show
	}
	r := rand.New(rand.NewPCG(3, 4))
	runs := make([][]Outcome, len(cells))
	for range 4000 {
		luck := r.Float64()
		for k := range cells {
			var o Outcome
			if luck < chance(&cells[k].Scenario.Teams[model.Attack].Players[10]) {
				o.Flags = FinalThird
			}
			runs[k] = append(runs[k], o)
		}
	}
	f, _ := FigureNamed("final_third")
	for k, e := range TraitEffects(traits, runs, f) {
		want := map[int]float64{first: 0.04, second: -0.01}[k]
		if math.Abs(e.Value-want) > 5*e.StdErr+1e-9 || e.StdErr > 0.003 {
			t.Errorf("%s: %v ± %v, want %v", traits[k].Attribute, e.Value, e.StdErr, want)
		}
	}
	if sc.Teams[model.Attack].Players[10].Percentile[traits[first].Attribute] != 50 {
		t.Error("the scenario was changed")
	}
}
