package explain

import (
	"context"
	"slices"
	"testing"

	"playout/model"
	"playout/sim"
)

// Every cause on a film made by hand for its definition in playout help metrics, and
// on one that just misses it.
func TestCauses(t *testing.T) {
	lost := func(r *reel) *sim.Film { // knocked off the carrier's feet
		r.event(sim.EventDuel, 0, r.frame.Carrier, 5)
		r.wait(1)
		return r.end(sim.EndTackled)
	}
	beside := func(r *reel) *reel { return r.travel(20, at(0, 0)).receive(7) }
	cases := map[string]struct {
		film  *sim.Film
		cause Cause
	}{
		"offside": {newReel().wait(5).pass(7, at(0, 0)).travel(15, at(0, 0)).end(sim.EndOffside), Offside},
		"stalled": {newReel().wait(50).end(sim.EndStalled), Stalled},
		"forced back": {
			newReel().wait(5).carry(10, at(-15, 0)).wait(5).pass(3, at(-28, 0)).travel(10, at(-28, 0)).receive(3).wait(5).
				pass(4, at(-40, 0)).travel(5, at(-35, 0)).put(1, 9, at(-35, 0)).end(sim.EndIntercepted), ForcedBack},
		"came back to within 10 m": {
			newReel().wait(5).carry(10, at(-15, 0)).wait(5).pass(3, at(-28, 0)).travel(10, at(-28, 0)).receive(3).carry(10, at(-24, 0)).wait(5).
				pass(4, at(-40, 0)).travel(5, at(-32, 0)).put(1, ofRow(2), at(-32, 0)).end(sim.EndIntercepted), CutFirst},
		"gained too little": {
			newReel().wait(5).carry(10, at(-20.5, 0)).wait(5).pass(3, at(-38, 0)).travel(10, at(-38, 0)).receive(3).wait(5).
				pass(4, at(-45, 9)).travel(5, at(-40, 0)).put(1, ofRow(2), at(-40, 0)).end(sim.EndIntercepted), CutFirst},
		"bad touch": {func() *sim.Film {
			r := newReel().wait(5).pass(7, at(0, 0)).travel(20, at(0, 0)).put(0, 7, at(0, 0))
			r.event(sim.EventLoose, 0, 7, nobody)
			return r.wait(4).end(sim.EndMiscontrol)
		}(), BadTouch},
		"bad touch, then fought for": {func() *sim.Film {
			r := newReel().wait(5).pass(7, at(0, 0)).travel(20, at(0, 0)).put(0, 7, at(0, 0))
			r.event(sim.EventLoose, 0, 7, nobody)
			return r.travel(4, at(2, 0)).put(1, 5, at(2, 0)).end(sim.EndTackled)
		}(), BadTouch},
		"in the air":  {newReel().wait(5).pass(7, at(0, 0)).travel(20, at(0, 0)).put(0, 7, at(0, 0)).put(1, 5, at(0.5, 0)).end(sim.EndAerial), LostInAir},
		"out of play": {newReel().wait(5).pass(7, at(0, 33)).travel(20, at(0, 34.1)).end(sim.EndOutTheirs), OutOfPlay},
		"there before the ball": {
			newReel().wait(5).pass(7, at(0, 0)).put(0, 7, at(0, 0)).travel(20, at(-2, 0)).put(1, 5, at(-2, 0)).end(sim.EndIntercepted), BlockFirst},
		"within a second of it": {lost(beside(newReel().wait(5).pass(7, at(0, 0))).wait(10).put(1, 5, at(1.5, 0)).wait(5)), BlockFirst},
		"after a second":        {lost(beside(newReel().wait(5).pass(7, at(0, 0))).wait(12).put(1, 5, at(1.5, 0)).put(0, 8, at(-5, 0)).wait(5)), LostInDuel},
		"isolated":              {lost(beside(newReel().wait(5).pass(7, at(0, 0))).wait(12).put(1, 5, at(1.5, 0)).put(1, 6, at(9, 0)).wait(5)), Isolated},
		"first line":            {newReel().wait(5).pass(7, at(0, 0)).travel(10, at(-15, 0)).put(1, ofRow(2), at(-15, 0)).end(sim.EndIntercepted), CutFirst},
		"midfield line":         {newReel().wait(5).pass(7, at(0, 0)).travel(10, at(-15, 0)).put(1, ofRow(1), at(-15, 0)).end(sim.EndIntercepted), CutMidfield},
		"last line":             {newReel().wait(5).pass(7, at(0, 0)).travel(10, at(-15, 0)).put(1, ofRow(0), at(-15, 0)).end(sim.EndIntercepted), CutLast},
		"cleared by the last line, taken by another": {func() *sim.Film {
			r := newReel().wait(5).pass(7, at(0, 0)).travel(10, at(-15, 0)).put(1, ofRow(0), at(-15, 0))
			r.event(sim.EventLoose, 1, ofRow(0), nobody)
			return r.travel(10, at(-40, 9)).put(1, ofRow(2), at(-40, 9)).end(sim.EndIntercepted)
		}(), CutLast},
	}
	for name, c := range cases {
		s := Teller(average(), ToFinalThird)(c.film)
		if s.Result != Failed || s.Cause != c.cause {
			t.Errorf("%s: %s, %s; want %s", name, s.Result, s.Cause, c.cause)
		}
	}
	if s := Teller(average(), ToFinalThird)(newReel().wait(9).end(sim.EndFoulWon)); s.Result != Stopped {
		t.Errorf("a foul won: %s", s.Result)
	}
}

// The key action is what took the ball to its goal, whatever its man did next; the flow
// counts thirds as playout run does.
func TestKeyAction(t *testing.T) {
	entered := func(r *reel, tick int) *sim.Film {
		f := r.end(sim.EndFoulWon)
		p := &f.Possession
		p.ExitOwnThird, p.FinalReached, p.FinalThird = true, true, true
		p.Entry.Tick = tick
		return f
	}
	cross := func(r *reel) *reel {
		r.pass(8, at(45, 0))
		r.f.Events[len(r.f.Events)-1].Pass = sim.Cross
		return r.travel(10, at(45, 0))
	}
	wide := func() *reel { return newReel().wait(5).pass(7, at(10, 25)).travel(10, at(10, 25)).receive(7) }
	for name, c := range map[string]struct {
		film *sim.Film
		did  Action
	}{
		"carried in, then crossed": {entered(cross(wide().carry(20, at(30, 25)).wait(5)), 35), OnTheBall},
		"received there":           {entered(cross(newReel().wait(5).pass(7, at(20, 0)).travel(10, at(20, 0)).receive(7).wait(5)), 15), HighPass},
		"a loose ball": {entered(cross(func() *reel {
			r := newReel().wait(5).pass(7, at(20, 0)).travel(10, at(18, 0))
			r.event(sim.EventLoose, 1, 5, nobody)
			return r.travel(5, at(20, 0)).receive(7).wait(5)
		}()), 20), OnTheBall},
	} {
		for i := range c.film.Events {
			c.film.Events[i].Flight = sim.Clipped
		}
		s := Teller(average(), ToFinalThird)(c.film)
		if s.Result != Worked || s.Action != c.did || s.Furthest != model.FinalThird {
			t.Errorf("%s: %s by %s, got as far as the %s third", name, s.Result, s.Action, s.Furthest)
		}
	}
	f := newReel().wait(5).carry(20, at(0, 0)).end(sim.EndTackled)
	f.Possession.ExitOwnThird = true
	if s := Teller(average(), ToFinalThird)(f); s.Furthest != model.MiddleThird {
		t.Errorf("out of the own third: got as far as the %s third", s.Furthest)
	}
}

// Played for real: every build-up has one result, a failure one cause, the flow adds up
// in every stage and link, and the same comes out of any number of workers.
func TestStoriesAddUp(t *testing.T) {
	const n = 60
	sc := average()
	stories, err := Collect(context.Background(), sc, nil, Config{Seed: 4, Possessions: n, Workers: 1}, Teller(sc, ToFinalThird))
	if err != nil || len(stories) != n {
		t.Fatal(len(stories), err)
	}
	f := FlowOf(stories)
	for st := range NumStages {
		sum := 0
		for i, k := range f.Nodes[st] {
			sum += k
			out := 0
			if st+1 < NumStages {
				for _, link := range f.Links[st][i] {
					out += link[Worked] + link[Stopped] + link[Failed]
				}
				if out != k {
					t.Errorf("stage %d, node %s: %d come in, %d go on", st, NodeName(st, i), k, out)
				}
			}
		}
		if sum != n {
			t.Errorf("stage %d has %d of %d build-ups", st, sum, n)
		}
	}
	for i := range stories {
		s := &stories[i]
		lost := s.End.Lost() || s.End == sim.EndStalled
		if s.ID != i || s.Result == Failed != (lost && s.EntryAt < 0) || s.Cause >= NumCauses || s.Decisive >= len(s.Spells) || s.Tick > s.Ticks {
			t.Errorf("possession %d: %+v", i, s)
		}
		for k := 1; k < len(s.Spells); k++ {
			if s.Spells[k].From < s.Spells[k-1].To {
				t.Errorf("possession %d: spell %d begins before the one before it ends", i, k)
			}
		}
	}
	again, err := Collect(context.Background(), sc, nil, Config{Seed: 4, Possessions: 12, Workers: 3}, Teller(sc, ToFinalThird))
	if err != nil {
		t.Fatal(err)
	}
	for i := range again {
		if again[i].Cause != stories[i].Cause || again[i].Tick != stories[i].Tick || again[i].scene != stories[i].scene || !slices.Equal(again[i].Spells, stories[i].Spells) {
			t.Errorf("possession %d differs with other workers", i)
		}
	}
}

func TestCollectInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	done := 0
	cfg := Config{Seed: 1, Possessions: 1000, Workers: 2, Progress: func(more int) {
		if done += more; done == 5 {
			cancel()
		}
	}}
	ids, err := Collect(ctx, average(), nil, cfg, func(f *sim.Film) int { return f.Possession.ID })
	if err == nil || len(ids) == 0 || len(ids) == 1000 {
		t.Fatal(len(ids), err)
	}
	for i, id := range ids {
		if i != id {
			t.Errorf("index %d has possession %d", i, id)
		}
	}
}

func TestCauseNamed(t *testing.T) {
	for c := range NumCauses {
		if got, err := CauseNamed(c.String()); err != nil || got != c {
			t.Errorf("%s: %v, %v", c, got, err)
		}
	}
	if _, err := CauseNamed("bad luck"); err == nil {
		t.Error("bad luck is a cause")
	}
}
