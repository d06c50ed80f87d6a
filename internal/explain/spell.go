package explain

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/sim"
)

// nobody stands for no player.
const nobody = -1

// PressureAt is how near a defender is when the man on the ball is under pressure,
// m. It is that of the time to pressure in playout run.
const PressureAt = 2.0

// Leaving is how a spell on the ball ended.
type Leaving uint8

// Ways to leave the ball.
const (
	ByPass Leaving = iota
	ByShot
	ByDuel // a tackle, a take-on lost, a foul: the ball was fought for at his feet
	ByClock
)

// Spell is one man's time on the ball.
type Spell struct {
	Player      int8 // index in the team
	From, To    int  // ticks
	Start, Stop r2.Vec
	Received    bool    // from a team-mate's pass; otherwise the start, or a loose ball
	NearFirst   float64 // of the nearest outfield defender when it began, m
	NearLast    float64 // when it ended, m
	Pressed     int     // ticks from its beginning until a defender was within PressureAt; -1: none was
	Mates       int8    // of his side within CompanyAt when it ended, himself counted
	Opponents   int8    // outfield defenders within CompanyAt
	Left        Leaving
	TakeOn      bool
	Rival       int8 // defender of the last duel or take-on; nobody without one

	// Of the pass that ended it.
	Aim    int8
	Target r2.Vec
	Flight sim.FlightKind
	Kind   sim.PassKind
	Found  bool // a team-mate had it under control next
}

// Seconds on the ball.
func (s *Spell) Seconds() float64 { return float64(s.To-s.From) * sim.TickSeconds }

// Across is how far the pass was meant to go across the pitch, m.
func (s *Spell) Across() float64 { return math.Abs(s.Target.Y - s.Stop.Y) }

// Length of the pass as it was meant, m.
func (s *Spell) Length() float64 { return distance(s.Stop, s.Target) }

// touch is a player getting to the ball without having it under control.
type touch struct {
	tick, team, player int
	duel               bool // off a duel or take-on of the same tick
}

// reading is a film read from its start to its end.
type reading struct {
	film    *sim.Film
	spells  []Spell
	touches []touch // after the last spell began
	endTick int
	open    bool // the ball was at somebody's feet at the end
}

// read follows the events up to the end of the possession.
func read(f *sim.Film) *reading {
	r := &reading{film: f}
	var s *Spell
	passed, fought := false, -1
	begin := func(e *sim.Event, received bool) {
		if s != nil {
			r.leave(s, e.Tick, ByDuel)
		}
		r.spells = append(r.spells, Spell{
			Player: int8(e.Player), From: e.Tick, Start: e.From, Received: received, Pressed: -1, Rival: nobody, Aim: nobody,
		})
		s = &r.spells[len(r.spells)-1]
		r.touches = r.touches[:0]
		passed = false
	}
	for i := range f.Events {
		e := &f.Events[i]
		switch e.Kind {
		case sim.EventStart:
			begin(e, false)
		case sim.EventReceive:
			if passed {
				r.spells[len(r.spells)-1].Found = true
			}
			begin(e, passed)
		case sim.EventDuel, sim.EventTakeOn:
			if s != nil {
				s.Rival, fought = int8(e.Other), e.Tick
				s.TakeOn = s.TakeOn || e.Kind == sim.EventTakeOn
			}
		case sim.EventPass:
			if s != nil {
				s.Aim, s.Target, s.Flight, s.Kind = int8(e.Other), e.To, e.Flight, e.Pass
				r.leave(s, e.Tick, ByPass)
				s, passed = nil, true
			}
		case sim.EventShot:
			if s != nil {
				r.leave(s, e.Tick, ByShot)
				s = nil
			}
		case sim.EventLoose:
			if s != nil {
				r.leave(s, e.Tick, ByDuel)
				s = nil
			}
			passed = false
			r.touches = append(r.touches, touch{e.Tick, e.Team, e.Player, fought == e.Tick})
		case sim.EventEnd:
			r.endTick, r.open = e.Tick, s != nil
			if s != nil {
				how := ByDuel
				if e.End == sim.EndStalled {
					how = ByClock
				}
				r.leave(s, e.Tick, how)
			}
			return r
		}
	}
	return r
}

// frame is the one of a tick, or the last there is.
func (r *reading) frame(tick int) *sim.Frame {
	return &r.film.Frames[min(max(tick, 0), len(r.film.Frames)-1)]
}

// leave closes a spell with what the film shows of it.
func (r *reading) leave(s *Spell, tick int, how Leaving) {
	s.To, s.Left = tick, how
	s.Stop = r.frame(tick).Ball
	_, s.NearFirst = nearest(r.frame(s.From), s.Start)
	last := r.frame(tick)
	_, s.NearLast = nearest(last, s.Stop)
	for t := s.From; t <= tick; t++ {
		f := r.frame(t)
		if _, d := nearest(f, f.Ball); d <= PressureAt {
			s.Pressed = t - s.From
			break
		}
	}
	s.Mates, s.Opponents = company(last, s.Stop)
}

// nearest is the outfield defender nearest to a place, and his distance.
func nearest(f *sim.Frame, at r2.Vec) (who int, d float64) {
	who, d = nobody, math.Inf(1)
	for i := 1; i < 11; i++ {
		if x := distance(f.Players[1][i], at); x < d {
			who, d = i, x
		}
	}
	return who, d
}

// CompanyAt is how near players stand to the ball who can help there at once, m;
// common practice, no source.
const CompanyAt = 10.0

// company counts the outfield players of both teams within CompanyAt of a place.
func company(f *sim.Frame, at r2.Vec) (mates, opponents int8) {
	for i := 1; i < 11; i++ {
		if distance(f.Players[0][i], at) <= CompanyAt {
			mates++
		}
		if distance(f.Players[1][i], at) <= CompanyAt {
			opponents++
		}
	}
	return mates, opponents
}

func distance(a, b r2.Vec) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }
