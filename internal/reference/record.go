package reference

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// kind is what a team does in an action that event data record.
type kind uint8

const (
	pass  kind = iota
	carry      // an acceleration with the ball, long enough to be marked
	shot
	touch // gets away: no controlled action
	duel  // likewise
)

// passType sorts passes as the tables do.
type passType uint8

const (
	ground passType = iota
	high
	head
	crossed
	numPassTypes
)

var passTypeNames = [numPassTypes]string{"ground", "high", "head", "cross"}

func (p passType) String() string { return passTypeNames[p] }

// action is one own event of a possession as event data record it. Places are
// metres in the frame of the team on the ball, times ticks.
type action struct {
	kind kind
	tick int
	from r2.Vec

	// Of a pass.
	ptype passType
	low   bool   // along the ground, or cut out before it rose
	inner bool   // a cross with the foot nearer to the goal
	end   r2.Vec // where the next event, by anybody, happens
	at    int    // when the ball arrived there: received, cut out or out of play
	done  bool   // it found a team-mate
	next  int    // when the team acted next, -1 if it did not

	// Of a shot.
	header bool
	xg     float64
}

// controlled reports whether the action is one: a header that finds nobody is not.
func (a *action) controlled() bool {
	return a.kind < touch && (a.kind != pass || a.ptype != head || a.done)
}

// record is a possession as event data record it. A completed pass ends where the
// receiver acts next, so that a short carry hides inside it, a failed one where it
// was cut out; a carry of sim.MarkedCarry or more is an action of its own.
type record struct {
	actions []action
	p       *sim.Possession
}

// read turns the engine's events into the record. It stops at the end of the
// possession: what the opponent does with the ball is none of it.
func (r *record) read(p *sim.Possession, events []sim.Event) {
	r.p, r.actions = p, r.actions[:0]
	var spell *sim.Event // the last place and time the player on the ball was seen at
	open := -1           // the pass whose recorded end is not known yet
	closeAt := func(at r2.Vec, arrived, next int) {
		if open < 0 {
			return
		}
		a := &r.actions[open]
		a.end, a.next = at, next
		if !a.done {
			a.at = arrived
			a.low = a.low || dist(a.from, at) < risen
		}
		open = -1
	}
	for i := range events {
		e := &events[i]
		switch {
		case e.Kind == sim.EventEnd:
			closeAt(e.From, e.Tick, -1)
			return
		case e.Kind == sim.EventStart:
			spell = e
		case e.Kind == sim.EventReceive:
			if open >= 0 {
				r.actions[open].done, r.actions[open].at = true, e.Tick
			}
			spell = e
		case e.Kind == sim.EventLoose && e.Team != 0:
			closeAt(e.From, e.Tick, -1)
			spell = nil
		case e.Kind == sim.EventLoose && open >= 0 && !r.actions[open].done:
			// It reached a team-mate whose touch or header failed.
			r.actions[open].done, r.actions[open].at = true, e.Tick
			fallthrough
		case e.Kind == sim.EventPass || e.Kind == sim.EventShot || e.Kind == sim.EventLoose ||
			e.Kind == sim.EventDuel || e.Kind == sim.EventTakeOn:
			if spell != nil && dist(spell.From, e.From) > sim.MarkedCarry {
				closeAt(spell.From, spell.Tick, spell.Tick)
				r.actions = append(r.actions, action{kind: carry, tick: spell.Tick, from: spell.From})
			}
			closeAt(e.From, e.Tick, e.Tick)
			r.actions = append(r.actions, acted(e))
			spell = nil
			switch e.Kind {
			case sim.EventPass:
				open = len(r.actions) - 1
			case sim.EventDuel, sim.EventTakeOn:
				spell = e // if he comes through it, he goes on from here
			}
		}
	}
}

// risen is how far a cross must get to be recorded as a high one, m: those of the
// tables that are cut out nearer are among the low ones, whose mean length from the
// wing is 15.4 m against 31.6 m of the high ones, with one cross in five ending within
// 10 m.
const risen = 10.0

// acted is the action of an event.
func acted(e *sim.Event) action {
	a := action{kind: duel, tick: e.Tick, from: e.From, next: -1}
	switch e.Kind {
	case sim.EventLoose:
		a.kind = touch
	case sim.EventPass:
		a.kind, a.low, a.inner = pass, e.Flight == sim.Ground, e.Inner
		switch {
		case e.Header:
			a.ptype = head
		case e.Pass == sim.Cross || e.Back:
			// A cut-back is tagged as a low cross: the tables have 12,500 of those from beside
			// the penalty area and in it, and 881 cut-backs that are tagged as passes.
			a.ptype = crossed
		case e.Pass == sim.HighPass:
			a.ptype = high
		}
	case sim.EventShot:
		a.kind, a.header, a.xg = shot, e.Header, e.Chance
	}
	return a
}

// class is the class of possessions a possession belongs to in the tables.
type class uint8

const (
	elsewhere class = iota
	ownStart        // B0: from the own third, with a ground pass or a carry
	buildUp         // B: B0 with two completed passes in the own half
)

// class applies the filter of the tables.
func (r *record) class(pitch model.Pitch) class {
	first := r.first()
	if first == nil || first.from.X >= -pitch.Length/6 || first.kind == pass && first.ptype != ground || first.kind == shot {
		return elsewhere
	}
	within := 0
	for i := range r.actions {
		if a := &r.actions[i]; a.kind == pass && a.done && a.from.X < 0 && a.end.X < 0 {
			within++
		}
	}
	if within < 2 {
		return ownStart
	}
	return buildUp
}

// first is the controlled action that begins the possession, nil if none does.
func (r *record) first() *action {
	for i := range r.actions {
		if a := &r.actions[i]; a.controlled() {
			return a
		}
	}
	return nil
}

// visit calls f with every place the possession reaches, in order: a controlled
// action begins there, or a completed pass, given with it, ends there. The first
// action's own place is left out. It stops when f returns false.
func (r *record) visit(f func(at r2.Vec, tick int, by *action) bool) {
	begun := false
	for i := range r.actions {
		a := &r.actions[i]
		if a.controlled() {
			if begun && !f(a.from, a.tick, nil) {
				return
			}
			begun = true
		}
		if a.kind == pass && a.done && !f(a.end, a.at, a) {
			return
		}
	}
}

// kept reports whether the next controlled action after action i is the team's own.
func (r *record) kept(i int) bool {
	for j := i + 1; j < len(r.actions); j++ {
		if r.actions[j].controlled() {
			return true
		}
	}
	return false
}

func dist(a, b r2.Vec) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
