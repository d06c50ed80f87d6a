package explain

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// switched is a switch from (-30, 20) to number 8 at (0, -20), received after 2 s.
func switched() *reel {
	r := newReel()
	r.frame.Ball, r.frame.Players[0][1] = at(-30, 20), at(-30, 20)
	r.f.Events[0].From = at(-30, 20)
	return r.wait(10).pass(7, at(0, -20)).travel(20, at(0, -20)).receive(7)
}

func TestSwitchRaces(t *testing.T) {
	run := Runner(SwitchRace, model.DefaultPitch)
	one := func(f *sim.Film) Race {
		t.Helper()
		races := run(f)
		if len(races) != 1 {
			t.Fatalf("%d races, want 1", len(races))
		}
		return races[0]
	}
	// Played on after 1.5 s, the defender there a tick later.
	x := one(switched().wait(15).pass(8, at(5, -20)).wait(1).put(1, 5, at(0, -18)).travel(5, at(5, -20)).receive(8).end(sim.EndFoulWon))
	if !x.Won || !x.Reached || x.Tick != 10 || math.Abs(x.Seconds-2) > 1e-9 || math.Abs(x.Left-1.5) > 1e-9 {
		t.Errorf("played on in time: %+v", x)
	}
	// There after 1 s, at 2.5 m: lost, and not under pressure.
	x = one(switched().wait(10).put(1, 5, at(0, -17.5)).wait(5).pass(8, at(5, -20)).travel(5, at(5, -20)).receive(8).end(sim.EndFoulWon))
	if x.Won || math.Abs(x.There-1) > 1e-9 || !math.IsInf(x.First, 1) {
		t.Errorf("the block there first: %+v", x)
	}
	// He is 10 m further before.
	x = one(switched().carry(10, at(10, -20)).wait(2).put(1, 5, at(10, -19)).wait(9).end(sim.EndTackled))
	if !x.Won || math.Abs(x.Left-1) > 1e-9 {
		t.Errorf("carried clear: %+v", x)
	}
	// The ball is cut out on its way.
	r := newReel()
	r.frame.Ball, r.frame.Players[0][1] = at(-30, 20), at(-30, 20)
	x = one(r.wait(5).pass(7, at(0, -20)).travel(10, at(-10, -5)).put(1, 5, at(-10, -5)).end(sim.EndIntercepted))
	if x.Won || x.Reached || x.Near != 0 || x.Defender != 5 {
		t.Errorf("cut out: %+v", x)
	}
	// A pass of 29 m across is none; two of 20 m within 8 s are one race, from the first.
	r = newReel()
	if got := run(r.wait(5).pass(7, at(0, 29)).travel(10, at(0, 29)).receive(7).wait(3).end(sim.EndFoulWon)); len(got) != 0 {
		t.Errorf("29 m across: %d races", len(got))
	}
	r = newReel()
	x = one(r.wait(5).pass(7, at(0, 16)).travel(10, at(0, 16)).receive(7).wait(30).pass(8, at(0, 31)).travel(10, at(0, 31)).receive(8).wait(3).end(sim.EndFoulWon))
	if !x.Chain || x.Tick != 5 || math.Abs(x.Seconds-5) > 1e-9 {
		t.Errorf("a chain: %+v", x)
	}
}

// A cross goes to the box, not to the side the block has left, however far across: it is
// no switch, by itself or as a pass of a chain, in the races and in what decides a
// build-up alike.
func TestCrossIsNoSwitch(t *testing.T) {
	run := Runner(SwitchRace, model.DefaultPitch)
	crossed := func(r *reel, to int, target r2.Vec) *reel {
		r.pass(to, target)
		r.f.Events[len(r.f.Events)-1].Pass = sim.Cross
		return r.travel(15, target).receive(to)
	}
	wide := func() *reel {
		r := newReel()
		r.frame.Ball, r.frame.Players[0][1] = at(40, 32), at(40, 32)
		r.f.Events[0].From = at(40, 32)
		return r.wait(5)
	}
	films := map[string]*sim.Film{
		"in one ball":      crossed(wide(), 7, at(42, 0)).wait(5).end(sim.EndFoulWon),
		"last of a chain":  crossed(wide().pass(6, at(38, 20)).travel(8, at(38, 20)).receive(6).wait(5), 7, at(42, 0)).wait(5).end(sim.EndFoulWon),
		"first of a chain": crossed(wide(), 7, at(42, 10)).wait(5).pass(8, at(40, -5)).travel(8, at(40, -5)).receive(8).wait(5).end(sim.EndFoulWon),
	}
	for name, f := range films {
		if got := run(f); len(got) != 0 {
			t.Errorf("%s: %d races, want none", name, len(got))
		}
	}
	s := Spell{Left: ByPass, Kind: sim.Cross, Stop: at(40, 32), Target: at(42, 0)}
	if s.action() != CrossPass {
		t.Errorf("a cross 32 m over is a %s", s.action())
	}
}

func TestPressRaces(t *testing.T) {
	run := Runner(PressRace, model.DefaultPitch)
	jump := func() *reel {
		r := newReel().wait(5)
		r.frame.Pressing = true
		r.event(sim.EventJump, 1, 6, nobody)
		return r.put(1, 6, at(-20, 0)).wait(8)
	}
	gone := run(jump().pass(7, at(-30, 9)).travel(5, at(-30, 9)).receive(7).wait(2).end(sim.EndFoulWon))
	caught := run(jump().put(1, 6, at(-28.5, 0)).wait(2).pass(7, at(-30, 9)).travel(5, at(-30, 9)).receive(7).wait(2).end(sim.EndFoulWon))
	if len(gone) != 1 || !gone[0].Won || len(caught) != 1 || caught[0].Won || math.Abs(caught[0].First-0.8) > 1e-9 {
		t.Errorf("gone %+v, caught %+v", gone, caught)
	}
}

// levelled is a point with so many of 400 races won.
func levelled(x, share float64) Point {
	k := int64(math.Round(400 * share))
	return Point{X: x, Share: stats.Proportion(k, 400, 0.95), Won: int(k), Races: 400}
}

func TestChange(t *testing.T) {
	lever := Lever{Lo: 0, Hi: 10, Now: 5}
	try := func(l Lever, target float64, f func(x float64) float64) Change {
		c, err := change(l, target, levelled(l.Now, f(l.Now)), func(x float64) (Point, error) { return levelled(x, f(x)), nil })
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	falling := func(x float64) float64 { return 0.8 - 0.08*x } // a half at 3.75
	c := try(lever, 0.5, falling)
	if c.Outcome != Reaches || math.Abs(c.At-3.75) > 0.05 || c.From > 3.75 || c.To < 3.75 || len(c.Points) > 3+Bisections {
		t.Errorf("a straight line: %+v", c)
	}
	if c.From >= c.To || c.Best.X != 0 {
		t.Errorf("bounds %v to %v, best at %v", c.From, c.To, c.Best.X)
	}
	if c := try(lever, 0.9, falling); c.Outcome != Never {
		t.Errorf("out of reach: %v", c.Outcome)
	}
	if c := try(lever, 0.4, falling); c.Outcome != There || len(c.Points) != 3 {
		t.Errorf("as it stands: %v, %d points", c.Outcome, len(c.Points))
	}
	if c := try(lever, 0.82, falling); c.Outcome != May {
		t.Errorf("an end that may reach it: %v", c.Outcome)
	}
	whole := Lever{Lo: 0, Hi: 4, Now: 0, Whole: true}
	if c := try(whole, 0.5, func(x float64) float64 { return 0.3 + 0.1*x }); c.Outcome != Reaches || c.At != 3 {
		t.Errorf("whole numbers: %+v", c) // two give exactly a half: the first beyond is three
	}
	few := levelled(5, 0.3)
	few.Races = fewRaces - 1
	if c, _ := change(lever, 0.5, few, nil); c.Outcome != TooFew {
		t.Errorf("too few: %v", c.Outcome)
	}
}
