package experiment

import (
	"encoding/binary"
	"errors"
	"math"

	"playout/model"
	"playout/sim"
)

// Outcome is what an experiment keeps of one possession: integers only, so that
// it is exact wherever it is stored and whoever adds it up.
type Outcome struct {
	Flags     Flags
	End       sim.End
	EntryLane uint8  // model.Lane of the controlled entry of the final third; None without one
	ShotLane  uint8  // lane a shot is booked under, as in sim.Tally: of the entry, else of the first reach, else of the shot; None without one
	Method    uint8  // sim.Method of the controlled entry; None without one
	Source    uint8  // sim.Source of the shot; None without one
	LostIn    uint8  // zone of the loss, model.NumLanes x third + lane; None without one
	XG        int32  // sim.XGUnit
	XGAgainst int32  // of the opponent's attack after the loss, sim.XGUnit
	Ticks     uint16 // to the end of the possession
	EntryTick uint16 // of the controlled entry; 0 without one
	Attempted uint16 // passes
	Completed uint16 // passes
	Switches  [sim.NumSwitchKinds][sim.NumVerdicts]uint8
}

// None stands for a lane, method, source or zone that there is not.
const None = math.MaxUint8

// Flags are the yes and no of a possession.
type Flags uint16

// The flags. The order is part of the encoding: append, never insert.
const (
	ExitOwnThird Flags = 1 << iota
	Halfway
	FinalReached
	FinalThird // under control
	Box
	Shot
	Goal
	ForcedBack
	Pressed     // lost with pressure above one half
	AfterPlayed // the opponent's attack after the loss
	ShotAgainst
	GoalAgainst
	allFlags = 1<<iota - 1
)

// outcomeOf takes down a possession. Counts beyond the range of their field, which
// the longest clock does not reach, stay at its end.
func outcomeOf(p *sim.Possession, pitch model.Pitch) Outcome {
	o := Outcome{
		Flags: flagsOf(p), End: p.End,
		EntryLane: None, ShotLane: None, Method: None, Source: None, LostIn: None,
		XG: xgUnits(p.XG), XGAgainst: xgUnits(p.After.XG),
		Ticks: short(p.Ticks),
	}
	if p.FinalThird {
		o.EntryLane, o.Method, o.EntryTick = uint8(p.Entry.Lane), uint8(p.Entry.Method), short(p.Entry.Tick)
	}
	if p.Shot {
		lane := model.LaneOf(p.ShotAt.Y)
		if p.FinalReached {
			lane = p.Reach.Lane
		}
		if p.FinalThird {
			lane = p.Entry.Lane
		}
		o.ShotLane, o.Source = uint8(lane), uint8(p.Source)
	}
	if p.End.Lost() {
		o.LostIn = uint8(model.NumLanes)*uint8(pitch.ThirdOf(p.Place.X)) + uint8(model.LaneOf(p.Place.Y))
	}
	attempted, completed := 0, 0
	for k := range p.Attempted {
		attempted += p.Attempted[k]
		completed += p.Completed[k]
	}
	o.Attempted, o.Completed = short(attempted), short(completed)
	for k := range p.Switches {
		for v, n := range p.Switches[k] {
			o.Switches[k][v] = uint8(min(n, math.MaxUint8))
		}
	}
	return o
}

func flagsOf(p *sim.Possession) Flags {
	var f Flags
	set := func(flag Flags, yes bool) {
		if yes {
			f |= flag
		}
	}
	set(ExitOwnThird, p.ExitOwnThird)
	set(Halfway, p.Halfway)
	set(FinalReached, p.FinalReached)
	set(FinalThird, p.FinalThird)
	set(Box, p.Box)
	set(Shot, p.Shot)
	set(Goal, p.Goal)
	set(ForcedBack, p.ForcedBack)
	set(Pressed, p.End.Lost() && p.Under > 0.5)
	set(AfterPlayed, p.After.Played)
	set(ShotAgainst, p.After.Shot)
	set(GoalAgainst, p.After.Goal)
	return f
}

func xgUnits(xg float64) int32 { return int32(math.Round(xg / sim.XGUnit)) }

func short(n int) uint16 { return uint16(min(n, math.MaxUint16)) }

// OutcomeBytes is the length of an encoded Outcome.
const OutcomeBytes = 32

// Append adds the encoding of the outcome to b: its fields in their order, little
// endian and without gaps,
//
//	0 Flags   2 End   3 EntryLane   4 ShotLane   5 Method   6 Source   7 LostIn
//	8 XG   12 XGAgainst   16 Ticks   18 EntryTick   20 Attempted   22 Completed
//	24 Switches, four verdicts of a switch by one pass, four of one by a chain
func (o *Outcome) Append(b []byte) []byte {
	le := binary.LittleEndian
	b = le.AppendUint16(b, uint16(o.Flags))
	b = append(b, uint8(o.End), o.EntryLane, o.ShotLane, o.Method, o.Source, o.LostIn)
	b = le.AppendUint32(b, uint32(o.XG))
	b = le.AppendUint32(b, uint32(o.XGAgainst))
	for _, n := range [...]uint16{o.Ticks, o.EntryTick, o.Attempted, o.Completed} {
		b = le.AppendUint16(b, n)
	}
	for _, verdicts := range o.Switches {
		b = append(b, verdicts[:]...)
	}
	return b
}

// Decode reads what Append has written. It refuses bytes that no possession gives;
// o is then not to be used.
func (o *Outcome) Decode(b []byte) error {
	if len(b) != OutcomeBytes {
		return errors.New("an outcome has 32 bytes")
	}
	le := binary.LittleEndian
	*o = Outcome{
		Flags: Flags(le.Uint16(b)), End: sim.End(b[2]),
		EntryLane: b[3], ShotLane: b[4], Method: b[5], Source: b[6], LostIn: b[7],
		XG: int32(le.Uint32(b[8:])), XGAgainst: int32(le.Uint32(b[12:])),
		Ticks: le.Uint16(b[16:]), EntryTick: le.Uint16(b[18:]), Attempted: le.Uint16(b[20:]), Completed: le.Uint16(b[22:]),
	}
	copy(o.Switches[sim.SinglePass][:], b[24:])
	copy(o.Switches[sim.PassChain][:], b[24+len(o.Switches[0]):])
	if !o.possible() {
		return errors.New("no possession has such an outcome")
	}
	return nil
}

// possible reports whether the fields agree with each other.
func (o *Outcome) possible() bool {
	entry, shot := o.has(FinalThird), o.has(Shot)
	return o.Flags&^allFlags == 0 && o.End < sim.NumEnds &&
		given(o.EntryLane, uint8(model.NumLanes), entry) && given(o.Method, uint8(sim.NumMethods), entry) &&
		given(o.ShotLane, uint8(model.NumLanes), shot) && given(o.Source, uint8(sim.NumSources), shot) &&
		given(o.LostIn, uint8(model.NumLanes)*uint8(model.NumThirds), o.End.Lost()) &&
		inGoals(o.XG, shot) && inGoals(o.XGAgainst, o.has(ShotAgainst)) &&
		o.Completed <= o.Attempted && o.EntryTick <= o.Ticks
}

// given reports whether a value below n is there exactly when there has to be one.
func given(x, n uint8, there bool) bool {
	if there {
		return x < n
	}
	return x == None
}

// inGoals reports whether an xG is one: 0 without a shot, at most 1 with it.
func inGoals(xg int32, shot bool) bool { return xg == 0 || shot && xg > 0 && xg <= xgScale }

// xgScale is one goal in sim.XGUnit.
const xgScale = 1_000_000

func (o *Outcome) has(f Flags) bool { return o.Flags&f != 0 }
