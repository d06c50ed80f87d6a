package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// reach moves the possession up the ladder: the ball is at at under control.
func (t *tracker) reach(w *world, b int, at r2.Vec, how Method) {
	p := &w.p
	third := w.pitch.Length / 6
	t.furthest = max(t.furthest, at.X)
	if at.X < t.furthest-forcedBackBy {
		p.ForcedBack = true
	}
	p.ExitOwnThird = p.ExitOwnThird || at.X > -third
	p.Halfway = p.Halfway || at.X > 0
	p.Box = p.Box || w.pitch.InPenaltyArea(at)
	if at.X <= third {
		return
	}
	e := Entry{Tick: w.tick, Passes: t.passes, Lane: model.LaneOf(at.Y), Method: how, Way: t.wayOf(how, at)}
	if !p.FinalReached {
		p.FinalReached, p.Reach = true, e
	}
	if !p.FinalThird && t.entryBy == nobody {
		t.entry, t.entryBy = e, b
	}
}

// wayOf sorts an entry as event data do: the end of a pass is recorded where
// the next event happens, so a carry hides inside the pass before it unless it
// is long enough to be marked.
func (t *tracker) wayOf(how Method, at r2.Vec) Way {
	if how == ByLooseBall || !t.spellPass || (how == ByCarry && dist(at, t.spellFrom) > MarkedCarry) {
		return WayCarryOrLoose
	}
	if t.passGround {
		return WayGround
	}
	return WayHigh
}

// MarkedCarry is the length from which event data are taken to mark a carry that
// begins without a duel, m. They mark one in 4.0 % of the spells on the ball (touches
// and accelerations, Pappalardo et al. 2019); in tracking 4.2 % of the receivers cover
// more than 18 m before they release the ball (SkillCorner open data), 17 m of it
// as the crow flies by judgement.
const MarkedCarry = 17.0

// confirmEntry makes a waiting entry count: the player has kept the ball or
// plays a next action of his own.
func (t *tracker) confirmEntry(w *world) {
	if t.entryBy != nobody {
		w.p.FinalThird, w.p.Entry = true, t.entry
		t.entryBy = nobody
	}
}

// methodOf is how the ball that has just been received came.
func (t *tracker) methodOf(w *world) Method {
	f := &w.fly
	switch {
	case !f.pass:
		return ByLooseBall
	case t.runTick == w.tick && t.runKind == model.InBehind:
		return ByRunInBehind
	case f.kind != Cross && math.Abs(own(w.onBall, w.ball).Y-t.passFrom.Y) >= model.SwitchWidth:
		return BySwitch
	case f.kind == GroundPass || t.passGround:
		return ByGroundPass
	}
	return ByLoftedPass
}

// sourceOf is what a shot came from and the lane of the action before it.
func (t *tracker) sourceOf(w *world, header bool) (Source, model.Lane) {
	t.confirmEntry(w)
	at := own(w.onBall, w.ball)
	before := model.LaneOf(t.passFrom.Y)
	carried := dist(at, t.spellFrom)
	if carried > 5 || t.passTick == 0 {
		before = model.LaneOf(t.spellFrom.Y)
	}
	recent := w.tick-t.passTick < 40
	ran := t.runTick >= 0 && w.tick-t.runTick < runWindow
	switch {
	case ran && t.runKind == model.Overlap:
		return FromOverlap, before
	case ran && t.runKind == model.Underlap:
		return FromUnderlap, before
	case recent && t.passCut:
		return FromCutBack, before
	case recent && t.passKind == Cross && t.passGround:
		return FromLowCross, before
	case recent && t.passKind == Cross && t.passIn:
		return FromInswinger, before
	case recent && t.passKind == Cross:
		return FromOutswinger, before
	case recent && t.passDeep:
		return FromThroughBall, before
	case carried > 8:
		return FromCarry, before
	case !w.pitch.InPenaltyArea(at):
		return FromRange, before
	}
	return FromOther, before
}
