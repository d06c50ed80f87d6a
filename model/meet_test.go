package model

import (
	"reflect"
	"testing"
)

func TestMeet(t *testing.T) {
	plan, answer := AverageScenario(), AverageScenario()
	plan.Title, plan.Start.Kind, plan.Teams[Attack].Name, plan.Clock = "plan", FromKeeper, "ours", 40
	answer.Title, answer.Teams[Defence].Name, answer.Start.Kind = "answer", "theirs", FromGoalKick
	sc := Meet(&plan, &answer)
	if sc.Teams[Attack].Name != "ours" || sc.Teams[Defence].Name != "theirs" || sc.Start.Kind != FromKeeper || sc.Clock != 40 || sc.Title != "plan against answer" {
		t.Errorf("%+v", sc)
	}
	if plan.Teams[Defence].Name == "theirs" || len(sc.Validate()) > 0 {
		t.Error("the plan was changed, or the meeting is no scenario")
	}
	// An attacker who pins somebody only his own file knows.
	plan.Teams[Attack].Players[9].Behaviour = Behaviour{Kind: Pin, Opponent: 5}
	answer.Teams[Defence].Runs = nil
	for i := range answer.Teams[Defence].Players {
		if answer.Teams[Defence].Players[i].Number == 5 {
			answer.Teams[Defence].Players[i].Number = 56
		}
	}
	if faults := Meet(&plan, &answer).Validate(); len(faults) != 1 {
		t.Errorf("faults %v", faults)
	}
}

// A block handed from team to team comes back to the same slots.
func TestInBlock(t *testing.T) {
	shape, _ := ParseShape("4-3-1-2")
	other := AverageTeam("other", DefaultPitch)
	other.Block = AverageBlock(shape)
	other.Block.Width = 30
	other.Block.SetSlots(other.Players)
	team := AverageTeam("team", DefaultPitch)
	before := team.Block
	got := team.InBlock(other.Block)
	if !reflect.DeepEqual(got.Block, other.Block) || !reflect.DeepEqual(team.Block, before) || got.Name != "team" {
		t.Errorf("%+v", got.Block)
	}
}

func TestWithPlayer(t *testing.T) {
	sc := AverageScenario()
	other := AveragePlayer(99, RB)
	other.Name = "other"
	got := sc.WithPlayer(Defence, 4, other)
	if p := got.Teams[Defence].Players[4]; p.Name != "other" || p.Number != sc.Teams[Defence].Players[4].Number {
		t.Errorf("%+v", p)
	}
	if sc.Teams[Defence].Players[4].Name == "other" || got.Teams[Attack].Players[4].Name == "other" {
		t.Error("another player was changed")
	}
}
