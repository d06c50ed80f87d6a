package model

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestAverageScenarioIsValid(t *testing.T) {
	sc := AverageScenario()
	for _, f := range sc.Validate() {
		t.Error(f)
	}
}

// TestValidateFinds breaks one thing at a time and checks that the fault says
// where.
func TestValidateFinds(t *testing.T) {
	for _, c := range []struct {
		path  string
		spoil func(*Scenario)
	}{
		{"pitch.length", func(s *Scenario) { s.Pitch.Length = 121 }},
		{"pitch.width", func(s *Scenario) { s.Pitch = Pitch{90, 90} }},
		{"possessions", func(s *Scenario) { s.Possessions = 0 }},
		{"clock", func(s *Scenario) { s.Clock = math.NaN() }},
		{"after_loss", func(s *Scenario) { s.AfterLoss = MaxAfterLoss + 1 }},
		{"attack.players", func(s *Scenario) { s.Teams[0].Players = s.Teams[0].Players[:10] }},
		{"attack.players[3].pace", func(s *Scenario) { s.Teams[0].Players[3].Percentile[Pace] = 140 }},
		{"defence.players[2].number", func(s *Scenario) { s.Teams[1].Players[2].Number = 1 }},
		{"attack.players[1].position", func(s *Scenario) { s.Teams[0].Players[1].Position = GK }},
		{"attack.players[9].top_speed", func(s *Scenario) { s.Teams[0].Players[9].TopSpeed = 13 }},
		{"attack.players[9].behaviour", func(s *Scenario) { s.Teams[0].Players[9].Behaviour = Behaviour{Kind: Pin, Opponent: 77} }},
		{"attack.structure.build_up", func(s *Scenario) { s.Teams[0].Structure.Anchor[BuildUp][4] = r2.Vec{X: 60} }},
		{"attack.structure.progression", func(s *Scenario) {
			s.Teams[0].Structure.Anchor[Progression][4] = s.Teams[0].Structure.Anchor[Progression][5]
		}},
		{"defence.block.width", func(s *Scenario) { s.Teams[1].Block.Width = 80 }},
		{"defence.block.shift.delay", func(s *Scenario) { s.Teams[1].Block.ShiftDelay = -1 }},
		{"defence.block.press.intensity", func(s *Scenario) { s.Teams[1].Block.Press.Intensity = 2 }},
		{"attack.plan.tempo", func(s *Scenario) { s.Teams[0].Plan.Tempo = 0 }},
		{"attack.plan.find[0]", func(s *Scenario) { s.Teams[0].Plan.Find = []int{42} }},
		{"attack.runs[0].player", func(s *Scenario) { s.Teams[0].Runs = []Run{{Player: 42}} }},
		{"attack.runs[0].with[0]", func(s *Scenario) { s.Teams[0].Runs = []Run{{Player: 2, With: []int{2}}} }},
		{"start.player", func(s *Scenario) { s.Start.Player = 12 }},
		{"start.ball", func(s *Scenario) { s.Start = Start{Kind: FromSettled, Ball: r2.Vec{X: 99}} }},
	} {
		sc := AverageScenario()
		c.spoil(&sc)
		faults := sc.Validate()
		if len(faults) == 0 {
			t.Errorf("%s: nothing found", c.path)
			continue
		}
		if f := faults[0]; !strings.HasPrefix(f.Path, c.path) || f.What == "" || f.Mend == "" || strings.Contains(f.Error(), "%!") {
			t.Errorf("%s: found %+v", c.path, f)
		}
	}
}
