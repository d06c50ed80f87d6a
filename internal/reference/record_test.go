package reference

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// event is an event of the attack at a place.
func event(k sim.EventKind, tick int, x, y float64) sim.Event {
	return sim.Event{Kind: k, Tick: tick, From: r2.Vec{X: x, Y: y}, Near: 10, Closest: 10}
}

// passAt is a pass of a kind.
func passAt(tick int, x, y float64, kind sim.PassKind) sim.Event {
	e := event(sim.EventPass, tick, x, y)
	e.Pass = kind
	if kind != sim.GroundPass {
		e.Flight = sim.Clipped
	}
	return e
}

// opponent makes an event one of the defence.
func opponent(e sim.Event) sim.Event {
	e.Team = 1
	return e
}

// buildUpEvents are worked by hand. A pass from (-40, 0) is received at (-30, 10) and
// played on from (-28, 12), so event data record its end there. The second is received
// at (-20, -5) and carried 20.6 m to (0, -5): a marked carry, before which the pass
// ends. The third, a high ball, is headed on by an opponent at (25, 5), picked up by
// the attack at (20, 3), and lost in a duel at (22, 3).
func buildUpEvents() []sim.Event {
	return []sim.Event{
		event(sim.EventStart, 0, -41, 0),
		passAt(10, -40, 0, sim.GroundPass),
		event(sim.EventReceive, 22, -30, 10),
		opponent(event(sim.EventJump, 25, -15, 5)),
		passAt(40, -28, 12, sim.GroundPass),
		event(sim.EventReceive, 55, -20, -5),
		passAt(100, 0, -5, sim.HighPass),
		opponent(event(sim.EventLoose, 120, 25, 5)),
		event(sim.EventReceive, 130, 20, 3),
		event(sim.EventDuel, 150, 22, 3),
		event(sim.EventEnd, 150, 22, 3),
		opponent(passAt(170, 22, 3, sim.GroundPass)),
	}
}

func TestRecord(t *testing.T) {
	var r record
	r.read(&sim.Possession{End: sim.EndTackled, Ticks: 150, Place: r2.Vec{X: 22, Y: 3}}, buildUpEvents())
	want := []action{
		{kind: pass, tick: 10, from: r2.Vec{X: -40}, end: r2.Vec{X: -28, Y: 12}, at: 22, done: true, next: 40, low: true},
		{kind: pass, tick: 40, from: r2.Vec{X: -28, Y: 12}, end: r2.Vec{X: -20, Y: -5}, at: 55, done: true, next: 55, low: true},
		{kind: carry, tick: 55, from: r2.Vec{X: -20, Y: -5}},
		{kind: pass, tick: 100, from: r2.Vec{Y: -5}, ptype: high, end: r2.Vec{X: 25, Y: 5}, at: 120, next: -1},
		{kind: duel, tick: 150, from: r2.Vec{X: 22, Y: 3}, next: -1},
	}
	if len(r.actions) != len(want) {
		t.Fatalf("%d actions, want %d: %+v", len(r.actions), len(want), r.actions)
	}
	for i, a := range r.actions {
		if a != want[i] {
			t.Errorf("action %d is\n%+v, want\n%+v", i, a, want[i])
		}
	}
	if c := r.class(model.DefaultPitch); c != buildUp {
		t.Errorf("class %d, want a build-up possession", c)
	}
	if !r.kept(1) || r.kept(3) {
		t.Error("the second pass is kept, the third is not")
	}
}

// TestClass moves the start, the first ball and the second pass of a build-up
// possession so that it is none.
func TestClass(t *testing.T) {
	for name, c := range map[string]struct {
		change func([]sim.Event)
		want   class
	}{
		"as it is":                   {func([]sim.Event) {}, buildUp},
		"from the middle third":      {func(e []sim.Event) { e[0].From.X, e[1].From.X = -17, -17 }, elsewhere},
		"with a long high ball":      {func(e []sim.Event) { e[1].Pass = sim.HighPass }, elsewhere},
		"a pass over halfway":        {func(e []sim.Event) { e[5].From.X = 2 }, ownStart},
		"carried over halfway, 10 m": {func(e []sim.Event) { e[5].From.X, e[6].From.X = -9, 1 }, ownStart},
		"carried from its own third": {func(e []sim.Event) { e[0].From.X, e[1].From.X = -41, -20 }, buildUp},
	} {
		events := buildUpEvents()
		c.change(events)
		var r record
		r.read(&sim.Possession{}, events)
		if got := r.class(model.DefaultPitch); got != c.want {
			t.Errorf("%s: class %d, want %d", name, got, c.want)
		}
	}
}

// xgOf is the expected goals of a shot by the coefficients of the xg_model table:
// a logistic model of the distance to the middle of the goal, the angle that the posts
// span, and the head.
func xgOf(at r2.Vec, header bool) float64 {
	z := 0.0
	a, b := math.Atan2(model.GoalWidth/2-at.Y, 52.5-at.X), math.Atan2(-model.GoalWidth/2-at.Y, 52.5-at.X)
	x := map[string]float64{"intercept": 1, "distance_m": math.Hypot(52.5-at.X, at.Y), "angle_rad": a - b}
	if header {
		x["header"] = 1
	}
	for _, r := range rows("xg_model") {
		z += number(r, "coefficient") * x[r["term"]]
	}
	return 1 / (1 + math.Exp(-z))
}

// passCounter holds the record of every possession to the engine's own count.
type passCounter struct {
	t        *testing.T
	attempts int
	shots    int
	goals    int
	chances  float64
	variance float64
}

func (c *passCounter) Possession(p *sim.Possession, events []sim.Event) {
	var r record
	r.read(p, events)
	attempted, completed := 0, 0
	for i := range r.actions {
		switch a := &r.actions[i]; a.kind {
		case pass:
			attempted++
			if a.done {
				completed++
			}
		case shot:
			c.shots++
			if want := xgOf(a.from, a.header); math.Abs(a.xg-want) > 0.002 {
				c.t.Errorf("xG %.4f of a shot from %.1f, %.1f, header %v; the table says %.4f", a.xg, a.from.X, a.from.Y, a.header, want)
			}
		}
	}
	wantAttempted, wantCompleted := 0, 0
	for k := range p.Attempted {
		wantAttempted += p.Attempted[k]
		wantCompleted += p.Completed[k]
	}
	if attempted != wantAttempted || completed != wantCompleted {
		c.t.Errorf("possession %d: %d of %d passes completed on record, the engine counts %d of %d", p.ID, completed, attempted, wantCompleted, wantAttempted)
	}
	c.attempts += attempted
	if p.Goal {
		c.goals++
	}
	c.chances += p.Chance
	c.variance += p.Chance * (1 - p.Chance)
}

// TestRecordAgainstEngine reads real possessions: passes on record are those the
// engine counts, every shot is worth what the xg_model table says, and goals are as many as their chances promise (fixed seed, false
// alarm 1e-6).
func TestRecordAgainstEngine(t *testing.T) {
	sc := *League()[0].Scenario
	sc.Possessions, sc.AfterLoss = 2000, 0
	c := &passCounter{t: t}
	if _, err := sim.Run(context.Background(), &sc, sim.Config{Observer: c}); err != nil {
		t.Fatal(err)
	}
	if c.attempts < 5*sc.Possessions/2 {
		t.Errorf("only %d passes", c.attempts)
	}
	if c.shots < 10 {
		t.Errorf("only %d shots", c.shots)
	}
	if d := float64(c.goals) - c.chances; d*d > 4.9*4.9*c.variance {
		t.Errorf("%d goals, their chances add up to %.1f", c.goals, c.chances)
	}
}

// A cross that is cut out near the crosser is a low one, however it was meant; one
// that gets further is as high as it was struck.
func TestBlockedCrossIsLow(t *testing.T) {
	for _, c := range []struct {
		y   float64
		low bool
	}{{22, true}, {12, false}} {
		var r record
		r.read(&sim.Possession{}, []sim.Event{
			event(sim.EventStart, 0, 40, 30),
			passAt(10, 40, 30, sim.Cross),
			opponent(event(sim.EventLoose, 15, 42, c.y)),
			event(sim.EventEnd, 30, 42, c.y),
		})
		if a := r.actions[0]; a.ptype != crossed || a.done || a.low != c.low {
			t.Errorf("cut out at y %g: %+v, want low %v", c.y, a, c.low)
		}
	}
}

// A cut-back is a low cross of the tables, whatever the engine calls it.
func TestCutBackIsALowCross(t *testing.T) {
	cut := passAt(10, 47, 12, sim.GroundPass)
	cut.Back = true
	var r record
	r.read(&sim.Possession{}, []sim.Event{
		event(sim.EventStart, 0, 47, 12),
		cut,
		event(sim.EventReceive, 15, 38, 2),
		event(sim.EventEnd, 30, 38, 2),
	})
	if a := r.actions[0]; a.ptype != crossed || !a.done || !a.low {
		t.Errorf("%+v, want a low cross that was completed", a)
	}
}
