package model

import "testing"

func TestAverageScenarioIsValid(t *testing.T) {
	sc := AverageScenario()
	for _, f := range sc.Validate() {
		t.Error(f)
	}
	for i := 1; i < 11; i++ {
		t.Logf("%v build %v prog %v fin %v slot %+v", sc.Teams[0].Players[i].Position, sc.Teams[0].Structure.Anchor[0][i], sc.Teams[0].Structure.Anchor[1][i], sc.Teams[0].Structure.Anchor[2][i], sc.Teams[0].Block.Slot[i])
	}
}
