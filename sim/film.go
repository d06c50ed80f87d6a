package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Film is one possession as a camera above the pitch would show it, what the
// opponent makes of a lost ball included: every tick, every event and every
// decision. Places are metres in the frame of the team that started with the ball.
type Film struct {
	Possession Possession
	Events     []Event
	Frames     []Frame    // one for each tick, Frames[i].Tick == i
	Decisions  []Decision // in order of Tick
}

// Frame is one tick.
type Frame struct {
	Tick     int
	Ball     r2.Vec
	Height   float64 // of the ball, m
	Players  [2][11]r2.Vec
	OnBall   int  // team on the ball
	Carrier  int  // of that team; -1 while the ball is on its way
	Pressing bool // the block's stance is to press
	Presser  int  // defender on his way to the ball; -1: nobody
	Second   int  // defender who covers him or closes the nearest way out; -1: nobody
	Cut      bool // the players have taken new places for a restart: no motion leads here
}

// Act is a kind of choice on the ball.
type Act uint8

// Acts.
const (
	ActPass Act = iota
	ActKeep     // stand on the ball or carry it
	ActTakeOn
	ActShot
	NumActs
)

var actNames = [NumActs]string{"pass", "keep", "take_on", "shot"}

func (a Act) String() string { return actNames[a] }

// Option is one thing a carrier could do.
type Option struct {
	Act    Act
	To     r2.Vec     // where the ball is meant to go
	Player int        // receiver or, for a take-on, the opponent; -1: nobody
	Flight FlightKind // of a pass
	Pass   PassKind   // of a pass
	Space  bool       // into space rather than to feet
	Back   bool       // cut-back
	Chance float64    // of success, as the engine gives it before the execution error
	Worth  float64    // goals if it comes off
	Share  float64    // of the times he would choose it, 0 to 1
}

// Decision is a carrier's decision: all he could do and what he did.
type Decision struct {
	Tick    int
	Team    int
	Player  int
	From    r2.Vec // where the ball was, m
	Taken   int    // index in Options
	Options []Option
}

// Record plays one possession of the scenario by itself and films it: the same as
// possession id of any run under the same seed. nil par: the defaults.
func Record(sc *model.Scenario, par *model.Params, id int) *Film {
	if par == nil {
		p := model.DefaultParams()
		par = &p
	}
	w := newWorld(sc, *par)
	f := &Film{}
	w.rec, w.film = true, f
	p := *w.play(id)
	f.Possession, f.Events = p, w.events
	return f
}

// shoot takes the frame of the present tick.
func (f *Film) shoot(w *world, cut bool) {
	fr := Frame{
		Tick: w.tick, Ball: w.ball, OnBall: w.onBall, Carrier: nobody, Presser: nobody, Second: nobody,
		Pressing: w.def.stance == pressing, Cut: cut,
	}
	for b, p := range w.pos {
		fr.Players[teamOf(b)][b%11] = p
	}
	if w.state == held && w.carrier != nobody {
		fr.Carrier = w.carrier % 11
	} else if w.state == flying {
		_, fr.Height = w.fly.flight.At(float64(w.tick-w.fly.left) * TickSeconds)
	}
	if w.def.presser != nobody {
		fr.Presser = w.def.presser % 11
	}
	if w.def.second != nobody {
		fr.Second = w.def.second % 11
	}
	if n := len(f.Frames); n > 0 && f.Frames[n-1].Tick == w.tick {
		f.Frames[n-1] = fr // a restart or a change of roles at the tick of the end
		return
	}
	f.Frames = append(f.Frames, fr)
}

// chose notes a decision.
func (f *Film) chose(w *world, taken *option) {
	l := &w.opt
	c := Decision{Tick: w.tick, Team: w.onBall, Player: w.carrier % 11, From: w.ball, Options: make([]Option, l.n)}
	top, total := math.Inf(-1), 0.0
	for i := range l.n {
		top = max(top, l.o[i].score)
	}
	for i := range l.n {
		o := &l.o[i]
		c.Options[i] = o.shown()
		c.Options[i].Share = math.Exp(o.score - top)
		total += c.Options[i].Share
		if o == taken {
			c.Taken = i
		}
	}
	for i := range c.Options {
		c.Options[i].Share /= total
	}
	f.Decisions = append(f.Decisions, c)
}

// shown is the option as others see it.
func (o *option) shown() Option {
	out := Option{
		Act: [...]Act{playPass: ActPass, keepBall: ActKeep, takeOn: ActTakeOn, shoot: ActShot}[o.act],
		To:  o.target, Player: nobody, Chance: o.chance, Worth: o.worth,
	}
	if o.aim != nobody {
		out.Player = o.aim % 11
	}
	if o.act == playPass {
		out.Flight, out.Pass, out.Space, out.Back = o.kind, passKind(o), o.space, o.back
	}
	return out
}

// DecisionOf is the decision that led to an event, nil if none did: what happens
// to a player is not decided by him.
func (f *Film) DecisionOf(e *Event) *Decision {
	switch e.Kind {
	case EventPass, EventShot, EventCarry, EventTakeOn:
	default:
		return nil
	}
	for i := range f.Decisions {
		if d := &f.Decisions[i]; d.Tick == e.Tick && d.Team == e.Team && d.Player == e.Player {
			return d
		}
	}
	return nil
}
