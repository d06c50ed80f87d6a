package explain

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// Goal is what a build-up has to reach to have worked. A shot counts as well.
type Goal uint8

// Goals.
const (
	ToFinalThird Goal = iota // a controlled entry of the final third
	ToBox                    // the penalty area
	ToShot
	NumGoals
)

var goalNames = [NumGoals]string{"final_third", "box", "shot"}

func (g Goal) String() string { return goalNames[g] }

// GoalNamed finds a goal by its name.
func GoalNamed(name string) (Goal, error) {
	if i := slices.Index(goalNames[:], strings.ToLower(name)); i >= 0 {
		return Goal(i), nil
	}
	return 0, fmt.Errorf("there is no goal %q; choose one of %s", name, strings.Join(goalNames[:], ", "))
}

func (g Goal) reached(p *sim.Possession) bool {
	return p.Shot || g == ToFinalThird && p.FinalThird || g == ToBox && p.Box
}

// Result is what came of a build-up.
type Result uint8

// Results.
const (
	Worked  Result = iota // it reached its goal
	Stopped               // it did not, and ended with an own restart: out off an opponent, or a foul won
	Failed                // the ball was lost, or the time ran out, before it
	NumResults
)

var resultNames = [NumResults]string{"worked", "stopped", "failed"}

func (r Result) String() string { return resultNames[r] }

// Action is what the man on the ball did at the moment that decided a build-up: what
// took one that worked to its goal, what ended his spell on the ball in all others.
type Action uint8

// Actions.
const (
	ShortPass  Action = iota // along the ground, less than LongFrom
	LongPass                 // along the ground, LongFrom or more
	HighPass                 // through the air, neither a switch nor a cross
	SwitchPass               // model.SwitchWidth or more across, no cross
	CrossPass
	OnTheBall // he kept it, carried it, took a man on or picked up a loose ball
	ShotTaken
	NumActions
)

var actionNames = [NumActions]string{"short_pass", "long_pass", "high_pass", "switch", "cross", "on_the_ball", "shot"}

func (a Action) String() string { return actionNames[a] }

// LongFrom is the length from which a pass along the ground is called long, m;
// common practice, no source.
const LongFrom = 25.0

// action a spell ended with.
func (s *Spell) action() Action {
	switch {
	case s.Left == ByShot:
		return ShotTaken
	case s.Left != ByPass:
		return OnTheBall
	case s.Kind == sim.Cross:
		return CrossPass
	case s.Across() >= model.SwitchWidth:
		return SwitchPass
	case s.Flight != sim.Ground:
		return HighPass
	case s.Length() >= LongFrom:
		return LongPass
	}
	return ShortPass
}

// Story is what is kept of one possession.
type Story struct {
	ID       int
	Result   Result
	Cause    Cause // of one that failed
	End      sim.End
	XG       float64
	Ticks    int
	EntryAt  int         // tick of the controlled entry of the final third; -1 without one
	Lane     model.Lane  // of the deciding moment
	Start    model.Third // where it began
	Furthest model.Third // the furthest that was reached under control, if only for a moment
	Action   Action      // of the deciding moment
	Spells   []Spell
	Decisive int // index of the spell that decided it
	Tick     int // the deciding moment
	Place    r2.Vec
	Rival    int // defender of the deciding moment; nobody without one
	scene    scene
}

// Teller makes stories of a scenario's films.
func Teller(sc *model.Scenario, goal Goal) func(*sim.Film) Story {
	return func(f *sim.Film) Story {
		r := read(f)
		p := &f.Possession
		s := Story{
			ID: p.ID, End: p.End, XG: p.XG, Ticks: p.Ticks, EntryAt: -1, Spells: r.spells, Rival: nobody,
			Start: sc.Pitch.ThirdOf(p.Start.X),
		}
		if p.FinalThird {
			s.EntryAt = p.Entry.Tick
		}
		switch {
		case goal.reached(p):
			s.Result = Worked
			s.Decisive, s.Tick, s.Action = r.key(goal, sc.Pitch)
		case p.End.Lost() || p.End == sim.EndStalled:
			s.Result = Failed
			v := classify(r, sc)
			s.Cause, s.Decisive, s.Tick, s.Rival = v.cause, v.spell, v.tick, v.rival
		default:
			s.Result = Stopped
			s.Decisive, s.Tick = len(r.spells)-1, r.endTick
		}
		s.Place = r.place(s.Tick)
		s.Lane = model.LaneOf(s.Place.Y)
		if s.Result != Worked {
			s.Action = r.spells[s.Decisive].action()
		}
		s.Furthest = furthest(s.Start, p)
		s.scene = sceneOf(r, s.Tick, sc.Pitch)
		return s
	}
}

// furthest third of a possession, by the marks that playout run counts.
func furthest(start model.Third, p *sim.Possession) model.Third {
	switch {
	case p.FinalReached:
		return model.FinalThird
	case p.ExitOwnThird:
		return max(start, model.MiddleThird)
	}
	return start
}

// key is the spell whose action took a build-up that worked to its goal, when it got
// there, and the action: what his spell ended with only if that was what took it there.
// Who carries it in and crosses then has got there on the ball.
func (r *reading) key(goal Goal, pitch model.Pitch) (spell, tick int, did Action) {
	p := &r.film.Possession
	last := len(r.spells) - 1
	at := r.spells[last].To
	switch {
	case goal == ToFinalThird && p.FinalThird:
		at = p.Entry.Tick
	case goal == ToBox && p.Box:
		at = r.inBox(pitch)
	default:
		return last, at, r.spells[last].action()
	}
	for i := last; i >= 0; i-- {
		switch s := &r.spells[i]; {
		case s.From < at && s.To < at:
			return i, at, s.action() // he played the pass that was received there
		case s.From < at || s.From == at && !s.Received:
			return i, at, OnTheBall // he carried it in, or picked up a loose ball there
		}
	}
	return 0, at, OnTheBall // it began there
}

// inBox is the first tick at which the ball was under control in the penalty area.
func (r *reading) inBox(pitch model.Pitch) int {
	for i := range r.spells {
		s := &r.spells[i]
		for t := s.From; t <= s.To; t++ {
			if pitch.InPenaltyArea(r.frame(t).Ball) {
				return t
			}
		}
	}
	return r.endTick
}
