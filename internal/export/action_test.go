package export

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// The actions of a possession are told from its events; the engine counts passes,
// shots and presses on its own while it plays. Both have to agree.
func TestActionsAgreeWithTheEnginesCounts(t *testing.T) {
	sc := model.AverageScenario()
	var n narrator
	seen := [numActs]int{}
	for id := range 200 {
		p, events := sim.Replay(&sc, nil, id)
		var attempted, completed [sim.NumPassKinds]int
		shots, goals, presses, pressesWon, receptions := 0, 0, 0, 0, 0
		last := 0
		for _, a := range n.tell(p, events) {
			seen[a.kind]++
			if a.tick < last {
				t.Errorf("possession %d: %v at tick %d after one at tick %d", id, a.kind, a.tick, last)
			}
			last = a.tick
			if a.outcome == "" || a.end < a.tick {
				t.Errorf("possession %d, tick %d: %v has outcome %q and ends at tick %d", id, a.tick, a.kind, a.outcome, a.end)
			}
			if a.after {
				continue
			}
			switch a.kind {
			case actPass:
				attempted[a.event.Pass]++
				if a.success {
					completed[a.event.Pass]++
				}
				if a.success != (a.receiver != nobody) {
					t.Errorf("possession %d, tick %d: a pass with success %v and receiver %d", id, a.tick, a.success, a.receiver)
				}
			case actShot:
				shots++
				if a.success {
					goals++
				}
			case actPress:
				presses++
				if a.success {
					pressesWon++
				}
			}
		}
		for _, e := range events {
			if e.Kind == sim.EventEnd {
				break
			}
			if e.Kind == sim.EventReceive || e.Kind == sim.EventStart {
				receptions++
			}
		}
		if attempted != p.Attempted || completed != p.Completed {
			t.Errorf("possession %d: %v passes, %v complete; the engine counts %v and %v", id, attempted, completed, p.Attempted, p.Completed)
		}
		if (shots == 1) != p.Shot || (goals == 1) != p.Goal {
			t.Errorf("possession %d: %d shots, %d goals; the engine says %v, %v", id, shots, goals, p.Shot, p.Goal)
		}
		b := &p.BlockSample
		if presses != b.Jumps || presses <= 8 && pressesWon != b.JumpWon { // the engine looks at the last eight
			t.Errorf("possession %d: %d presses, %d won; the engine counts %d and %d", id, presses, pressesWon, b.Jumps, b.JumpWon)
		}
		if receptions != b.Pressure.N {
			t.Errorf("possession %d: %d receptions, the engine counts %d", id, receptions, b.Pressure.N)
		}
	}
	for k, count := range seen {
		if count == 0 {
			t.Errorf("no %v among 200 possessions: the test does not see it", act(k))
		}
	}
}

// Worked by hand: what an event stands for depends on what follows it.
func TestOutcomes(t *testing.T) {
	at := func(x float64) r2.Vec { return r2.Vec{X: x} }
	ev := func(tick int, k sim.EventKind, team, player, other int, x float64) sim.Event {
		return sim.Event{Tick: tick, Kind: k, Team: team, Player: player, Other: other, From: at(x), To: at(x)}
	}
	end := func(tick int, x float64, e sim.End) sim.Event {
		return sim.Event{Tick: tick, Kind: sim.EventEnd, Player: nobody, Other: nobody, From: at(x), To: at(x), End: e}
	}
	type told struct {
		kind    act
		tick    int
		player  int
		outcome string
		success bool
	}
	cases := []struct {
		name   string
		p      sim.Possession
		events []sim.Event
		want   []told
	}{
		{"a pass, a carry of 10 m, a pass intercepted", sim.Possession{End: sim.EndIntercepted, Ticks: 60, After: sim.After{By: sim.WonInPlay, Played: true}}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, -40), ev(10, sim.EventPass, 0, 2, 5, -39), ev(20, sim.EventReceive, 0, 5, nobody, -20),
			ev(40, sim.EventPass, 0, 5, 9, -10), end(60, 5, sim.EndIntercepted), ev(60, sim.EventTakeOver, 1, 3, nobody, 5), ev(60, sim.EventReceive, 1, 3, nobody, 5),
		}, []told{{actStart, 0, 2, "taken", true}, {actPass, 10, 2, "complete", true}, {actCarry, 20, 5, "complete", true},
			{actPass, 40, 5, "intercepted", false}, {actRecovery, 60, 3, "won", true}}},
		{"a challenge ridden, then one that wins the ball", sim.Possession{End: sim.EndTackled, Ticks: 20}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, 0), ev(5, sim.EventDuel, 0, 2, 7, 1), ev(9, sim.EventDuel, 0, 2, 8, 2), end(9, 2, sim.EndTackled),
		}, []told{{actStart, 0, 2, "taken", true}, {actChallenge, 5, 7, "lost", false}, {actChallenge, 9, 8, "won", true}}},
		{"a foul on the carrier", sim.Possession{End: sim.EndFoulWon, Ticks: 5}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, 0), ev(5, sim.EventDuel, 0, 2, 7, 1), end(5, 1, sim.EndFoulWon),
		}, []told{{actStart, 0, 2, "taken", true}, {actChallenge, 5, 7, "foul", false}}},
		{"a take-on that comes off", sim.Possession{End: sim.EndStalled, Ticks: 50}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, 0), ev(5, sim.EventTakeOn, 0, 2, 7, 1), end(50, 21, sim.EndStalled),
		}, []told{{actStart, 0, 2, "taken", true}, {actTakeOn, 5, 2, "complete", true}, {actCarry, 5, 2, "stalled", true}}},
		{"a pass cut out, the ball won back", sim.Possession{End: sim.EndStalled, Ticks: 50}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, 0), ev(5, sim.EventPass, 0, 2, 7, 1), ev(9, sim.EventLoose, 1, 4, nobody, 8),
			ev(15, sim.EventReceive, 0, 6, nobody, 3), end(50, 3, sim.EndStalled),
		}, []told{{actStart, 0, 2, "taken", true}, {actPass, 5, 2, "cut_out", false}, {actDeflection, 9, 4, "loose", true}, {actRecovery, 15, 6, "won", true}}},
		{"a touch that gets away counts as a pass complete", sim.Possession{End: sim.EndMiscontrol, Ticks: 12}, []sim.Event{
			ev(0, sim.EventStart, 0, 2, nobody, 0), ev(5, sim.EventPass, 0, 2, 7, 1), ev(9, sim.EventLoose, 0, 7, nobody, 8), end(12, 9, sim.EndMiscontrol),
		}, []told{{actStart, 0, 2, "taken", true}, {actPass, 5, 2, "complete", true}, {actTouch, 9, 7, "loose", false}}},
	}
	for _, c := range cases {
		var n narrator
		got := n.tell(&c.p, c.events)
		if len(got) != len(c.want) {
			t.Errorf("%s: %d actions, want %d", c.name, len(got), len(c.want))
			continue
		}
		for i, w := range c.want {
			a := &got[i]
			if (told{a.kind, a.tick, a.player, a.outcome, a.success}) != w {
				t.Errorf("%s: action %d is %v at %d by %d: %s, %v; want %+v", c.name, i, a.kind, a.tick, a.player, a.outcome, a.success, w)
			}
		}
	}
}
