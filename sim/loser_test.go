package sim

import (
	"testing"

	"playout/model"
)

// Who lets the ball get away has lost it when the opponent comes by it, not who passed it
// to him; and a cross is no switch of play, however far over it goes.
func TestWhoLosesIt(t *testing.T) {
	sc := model.AverageScenario()
	sc.AfterLoss = 0
	slips := 0
	for id := range 2000 {
		f := Record(&sc, nil, id)
		p, last, slip := &f.Possession, nobody, false
		for i := range f.Events {
			switch e := &f.Events[i]; {
			case e.Team != 0:
			case e.Kind == EventStart || e.Kind == EventReceive:
				last, slip = e.Player, false
			case e.Kind == EventLoose:
				slip = slip || e.Player != last
				last = e.Player
			}
		}
		if p.End != EndIntercepted && p.End != EndTackled && p.End != EndMiscontrol {
			continue
		}
		if p.Loser != last {
			t.Errorf("possession %d, %s: lost by %d, last touched by %d", id, p.End, p.Loser, last)
		}
		if slip {
			slips++
		}
	}
	if slips < 20 {
		t.Errorf("only %d balls got away from a receiver", slips)
	}
}
