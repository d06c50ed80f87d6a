package explain

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// Focus is a kind of race of the ball against the block.
type Focus uint8

// Focuses.
const (
	SwitchRace Focus = iota
	OverlapRace
	UnderlapRace
	CentreRace
	PressRace
	NumFocuses
)

var focusNames = [NumFocuses]string{"switch", "overlap", "underlap", "centre", "press"}

func (f Focus) String() string { return focusNames[f] }

// FocusNamed finds a focus by its name.
func FocusNamed(name string) (Focus, error) {
	if i := slices.Index(focusNames[:], strings.ToLower(name)); i >= 0 {
		return Focus(i), nil
	}
	return 0, fmt.Errorf("there is no race %q; choose one of %s", name, strings.Join(focusNames[:], ", "))
}

// Thresholds of a race.
const (
	// ThereAt is how near to the man with the ball a defender is when the block is
	// there, m: the distance of the race of a switch in playout run. Common practice,
	// no source.
	ThereAt = 3.0
	// CarriedBy is how far forward a carry takes him clear of the race, m: the carry
	// that counts as progress in an overload of playout run. Common practice, no source.
	CarriedBy = 10.0
)

// Race is one contest of the ball against the block. The ball sets out at a pass (in a
// chain of passes across the pitch: the first of them) and arrives where a team-mate
// has it. In a press the defender sets out, and the ball has to be gone before he is
// within PressureAt.
type Race struct {
	Possession int
	Tick       int     // the ball, or the presser, sets out
	Seconds    float64 // the ball's time: to the reception; press: until it is played on, or lost
	Chain      bool    // a switch by a chain of passes
	Reached    bool    // a team-mate had it under control; press: it was passed on
	At         r2.Vec  // place of the reception, or where it was lost
	Player     int     // who received it, or was meant to; press: the man pressed
	Defender   int     // nearest outfield defender at that moment; press: the presser
	Near       float64 // his distance, m
	// Edge is the lateral distance from the block's outermost outfield defender on the
	// ball's side to the ball: positive when the block is short of it, m.
	Edge float64
	// Left is the time from the reception until he has played on, or carried the ball
	// CarriedBy forward, s; +Inf when he lost it first. Press: Seconds, or +Inf.
	Left float64
	// There and First are the times from the reception (press: from the setting out)
	// until a defender is within ThereAt, and within PressureAt (press: the presser
	// alone), s; +Inf when none is as long as he has the ball. 0 when the ball did not
	// reach a team-mate.
	There, First float64
	Won          bool // Left comes before There; press: before First

	Early   bool // the build-up had not been in the final third under control before it
	Entered bool // it got there afterwards; of early ones
	scene   scene
}

// Runner makes races of films.
func Runner(focus Focus, pitch model.Pitch) func(*sim.Film) []Race {
	return func(f *sim.Film) []Race {
		r := read(f)
		var races []Race
		switch focus {
		case SwitchRace:
			races = r.switches()
		case PressRace:
			races = r.presses()
		default:
			races = r.passes(focus)
		}
		p := &f.Possession
		for i := range races {
			race := &races[i]
			over := race.Tick + int(math.Round(race.Seconds/sim.TickSeconds))
			race.Early = !p.FinalThird || p.Entry.Tick >= over
			race.Entered = race.Early && p.FinalThird
			race.scene = sceneOf(r, over, pitch)
		}
		return races
	}
}

// played is a pass with what became of it.
type played struct {
	pass     *sim.Event
	received *sim.Event // nil: not under control of a team-mate
	tick     int        // when it was received or first touched
}

func (r *reading) played() []played {
	var out []played
	waiting := false
	for i := range r.film.Events {
		e := &r.film.Events[i]
		switch {
		case e.Kind == sim.EventPass:
			out = append(out, played{pass: e})
			waiting = true
		case waiting && (e.Kind == sim.EventReceive || e.Kind == sim.EventLoose || e.Kind == sim.EventEnd):
			p := &out[len(out)-1]
			p.tick = e.Tick
			if e.Kind == sim.EventReceive {
				p.received = e
			}
			waiting = false
		}
		if e.Kind == sim.EventEnd {
			break
		}
	}
	return out
}

// ChainFor is within how many ticks a chain of passes has to go across: the definition
// of playout run.
const ChainFor = 80

// switches are the races of switches of play: single passes model.SwitchWidth or more
// across, found or not, and chains of passes that got there. A cross is none, nor part
// of a chain: it is a race for a place in the box.
func (r *reading) switches() []Race {
	var out []Race
	passes := r.played()
	chained := 0
	for i, p := range passes {
		if p.pass.Pass == sim.Cross {
			chained = i + 1
			continue
		}
		from := -1
		aim := p.pass.To.Y
		if p.received != nil {
			aim = p.received.From.Y
		}
		if math.Abs(aim-p.pass.From.Y) >= model.SwitchWidth {
			from = i
		} else if p.received != nil {
			for k := chained; k < i; k++ {
				h := passes[k].pass
				if p.tick-h.Tick <= ChainFor && math.Abs(aim-h.From.Y) >= model.SwitchWidth {
					from = k
					break
				}
			}
		}
		if from < 0 {
			continue
		}
		chained = i + 1
		race := r.race(p, passes[from].pass.Tick)
		race.Chain = from < i
		out = append(out, race)
	}
	return out
}

// passes are the races of passes to men on a run, or into the centre.
func (r *reading) passes(focus Focus) []Race {
	var out []Race
	third := r.film.Possession.Start.X // the centre counts beyond where the build-up began
	for _, p := range r.played() {
		e := p.pass
		ok := false
		switch focus {
		case OverlapRace:
			ok = e.OnRun && e.Run == model.Overlap
		case UnderlapRace:
			ok = e.OnRun && e.Run == model.Underlap
		case CentreRace:
			ok = model.LaneOf(e.To.Y) == model.Centre && e.To.X >= e.From.X+5 && e.To.X > third
		}
		if ok {
			out = append(out, r.race(p, e.Tick))
		}
	}
	return out
}

// race of a pass whose ball set out at a tick.
func (r *reading) race(p played, from int) Race {
	f := r.frame(p.tick)
	race := Race{
		Possession: r.film.Possession.ID, Tick: from, Seconds: float64(p.tick-from) * sim.TickSeconds,
		At: f.Ball, Player: p.pass.Other,
	}
	race.Defender, race.Near = nearest(f, f.Ball)
	race.Edge = edge(f)
	race.Left = math.Inf(1)
	if p.received == nil {
		return race
	}
	race.Reached, race.Player = true, p.received.Player
	race.There, race.First = math.Inf(1), math.Inf(1)
	for i := range r.spells {
		if s := &r.spells[i]; s.From == p.tick && int(s.Player) == race.Player {
			r.onTheBall(&race, s)
		}
	}
	race.Won = race.Left < race.There
	return race
}

// onTheBall follows the receiver until he lets go.
func (r *reading) onTheBall(race *Race, s *Spell) {
	after := func(tick int) float64 { return float64(tick-s.From) * sim.TickSeconds }
	for t := s.From; t <= s.To; t++ {
		f := r.frame(t)
		_, d := nearest(f, f.Ball)
		if d <= ThereAt {
			race.There = min(race.There, after(t))
		}
		if d <= PressureAt {
			race.First = min(race.First, after(t))
		}
		if f.Ball.X >= s.Start.X+CarriedBy {
			race.Left = min(race.Left, after(t))
		}
	}
	if s.Left == ByPass || s.Left == ByShot {
		race.Left = min(race.Left, after(s.To))
	}
}

// edge is how far the ball lies beyond the block's outermost outfield defender on its
// side of the pitch, m; negative when the block reaches beyond the ball.
func edge(f *sim.Frame) float64 {
	side := 1.0
	if f.Ball.Y < 0 {
		side = -1
	}
	outermost := math.Inf(-1)
	for i := 1; i < 11; i++ {
		outermost = max(outermost, side*f.Players[1][i].Y)
	}
	return side*f.Ball.Y - outermost
}

// presses are the races against defenders who leave the block, while it presses, for
// a man with the ball.
func (r *reading) presses() []Race {
	var out []Race
	for i := range r.film.Events {
		e := &r.film.Events[i]
		if e.Kind == sim.EventEnd {
			break
		}
		if e.Kind != sim.EventJump || e.Team != 1 || !r.frame(e.Tick).Pressing {
			continue
		}
		for k := range r.spells {
			s := &r.spells[k]
			if s.From <= e.Tick && e.Tick < s.To {
				out = append(out, r.press(s, e))
				break
			}
		}
	}
	return out
}

// press is the race of a man on the ball against a defender who has set out for him.
func (r *reading) press(s *Spell, e *sim.Event) Race {
	race := Race{
		Possession: r.film.Possession.ID, Tick: e.Tick, Seconds: float64(s.To-e.Tick) * sim.TickSeconds,
		Reached: s.Left == ByPass && s.Found || s.Left == ByShot, At: s.Stop, Player: int(s.Player), Defender: e.Player,
		Left: math.Inf(1), There: math.Inf(1), First: math.Inf(1),
	}
	f := r.frame(s.To)
	race.Near, race.Edge = distance(f.Players[1][e.Player], s.Stop), edge(f)
	for t := e.Tick; t <= s.To; t++ {
		f := r.frame(t)
		d, after := distance(f.Players[1][e.Player], f.Ball), float64(t-e.Tick)*sim.TickSeconds
		if d <= ThereAt {
			race.There = min(race.There, after)
		}
		if d <= PressureAt {
			race.First = min(race.First, after)
		}
	}
	if race.Reached {
		race.Left = race.Seconds
	}
	race.Won = race.Left < race.First
	return race
}

// ShareWon is the share of the races that were won, with an interval that allows for
// races of one build-up hanging together; where all or none were won, that of
// independent races (Wilson). races are by possession.
func ShareWon(races [][]Race, level float64) stats.Estimate {
	var s stats.RatioSums
	for _, of := range races {
		won := 0
		for i := range of {
			won += yes(of[i].Won)
		}
		s.Add(float64(won), float64(len(of)))
	}
	if s.Num == 0 || s.Num == s.Den || s.N < 2 {
		return stats.Proportion(int64(s.Num), int64(s.Den), level)
	}
	e := stats.Ratio(s, level)
	e.Lo, e.Hi = max(e.Lo, 0), min(e.Hi, 1)
	return e
}
