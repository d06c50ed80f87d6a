package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

const (
	causeNone = NumEnds
	noTrigger = model.NumTriggers
)

// tracker follows a possession: how far it got, what the ball was doing before,
// and what hangs in the balance.
type tracker struct {
	cause     End           // why the ball is loose
	cue       model.Trigger // press trigger waiting to be seen
	fresh     bool          // a spell has begun that the block has not yet answered
	lastOn    int           // last body of the team on the ball to play it
	lastOwn   int           // tick of its last action
	alarmed   bool          // this spell's carrier has been put under pressure
	hazard    float64       // of a challenge, summed
	threshold float64       // at which it comes
	claim     float64       // the same for the keeper
	claimAt   float64
	jumps     [8]int // ring of the ticks of the last jumps
	nJumps    int

	furthest float64 // x the ball has reached, own frame
	passes   int     // completed
	entry    Entry   // waiting to be confirmed
	entryBy  int     // body; nobody when none waits
	touched  bool    // a defender has been within 2 m of this carrier

	// The last pass and the spell that followed it.
	passFrom   r2.Vec
	passKind   PassKind
	passGround bool
	passCut    bool
	passIn     bool
	passDeep   bool // into the space behind or just before the last line
	passTick   int
	spellPass  bool // the spell began with a pass received
	spellFrom  r2.Vec
	runKind    model.RunKind // of the last runner to receive
	runTick    int           // when he received; -1 none

	history  [8]touch // last passes, for chains across the pitch
	nHistory int
	chained  int // passes up to here already belong to a counted switch

	switches [4]switchWatch
	overload [NumOverloads]overloadWatch

	centroid float64 // of the block, own frame of the block
	ready    bool    // centroid holds the last sample
}

type touch struct {
	tick int
	y    float64
	x    float64
}

// switchWatch follows a switch of play to its verdict.
type switchWatch struct {
	on     bool
	kind   SwitchKind
	from   float64 // x of the passer
	to     float64 // x of the reception
	before bool    // played before the final third
	tick   int     // of the reception
	race   int     // 0 open, 1 decided
}

// overloadWatch follows a surplus of attackers to its success.
type overloadWatch struct {
	on   bool
	lane model.Lane
	x    float64
	tick int
}

// Windows, in ticks.
const (
	switchWindow   = 100 // verdict of a switch within 10 s
	chainWindow    = 80  // a chain of passes goes across within 8 s
	overloadWindow = 50  // success of an overload within 5 s
	raceWindow     = 30
	jumpWindow     = 50
	settleTicks    = 10 // 1 s of control makes an entry
)

// Distances of the verdicts, m. Source: definitions of the reference tables.
const (
	progressBy   = 15.0
	forcedBackBy = 10.0
)

func (t *tracker) begin(w *world, at r2.Vec) {
	t.entryBy = nobody
	t.runTick = -1
	t.furthest = own(w.onBall, at).X
	w.p.Start = own(w.onBall, at)
	t.cause, t.cue = causeNone, noTrigger
}

// spellStarts resets what belongs to one spell on the ball.
func (t *tracker) spellStarts(w *world, b int) {
	t.cause = causeNone
	t.lastOn = b
	t.lastOwn = w.tick
	t.alarmed, t.touched, t.fresh = false, false, true
	t.hazard, t.threshold = 0, w.duel.ExpFloat64()
	t.claim, t.claimAt = 0, w.duel.ExpFloat64()
	t.spellFrom = own(w.onBall, w.ball)
	t.spellPass = w.fly.pass
}

// lossCause is why the ball is the opponent's: what had made it loose, or an
// interception.
func (t *tracker) lossCause() End {
	if t.cause == causeNone {
		return EndIntercepted
	}
	return t.cause
}

// takeFresh reports, once for each spell, that a new one has begun.
func (t *tracker) takeFresh() bool {
	f := t.fresh
	t.fresh = false
	return f
}

// takeCue returns the trigger that waits and takes it away.
func (t *tracker) takeCue() model.Trigger {
	c := t.cue
	t.cue = noTrigger
	return c
}

// passed notes a pass as it leaves.
func (t *tracker) passed(w *world, o *option) {
	s := sign(w.onBall)
	t.confirmEntry(w)
	t.passFrom = own(w.onBall, w.ball)
	t.passKind, t.passGround = w.fly.kind, o.kind == Ground
	t.passCut, t.passIn, t.passDeep = o.back, o.inner, w.fly.through
	t.passTick = w.tick
	dx, dy := s*(o.target.X-w.ball.X), math.Abs(o.target.Y-w.ball.Y)
	switch {
	case o.aim%11 == 0:
		t.cue = model.BallToKeeper
	case dx < -5:
		t.cue = model.BackPass
	case dx < 5 && dy > 12:
		t.cue = model.LateralPass
	}
}

func (t *tracker) poorTouch(w *world) { t.cue = model.PoorTouch }

// completed notes a pass that found body b.
func (t *tracker) completed(w *world, b int) {
	p := &w.p
	k := w.fly.kind
	p.Completed[k]++
	t.passes++
	at := own(w.onBall, w.ball)
	if t.passFrom.X < 0 && at.X < 0 {
		p.OwnHalf++
	}
	t.runTick = -1
	if r := &w.runs[b]; r.until > w.tick-20 && r.until > 0 {
		t.runKind, t.runTick = r.kind, w.tick
	}
	w.runs[b].until = 0
	t.lookForSwitch(w, at)
}

// lookForSwitch compares where the ball is with where it came from.
func (t *tracker) lookForSwitch(w *world, at r2.Vec) {
	kind := NumSwitchKinds
	from := t.passFrom
	if math.Abs(at.Y-from.Y) >= switchWidth {
		kind = SinglePass
	} else {
		for i := max(t.nHistory-len(t.history), t.chained, 0); i < t.nHistory; i++ {
			h := t.history[i%len(t.history)]
			if w.tick-h.tick <= chainWindow && math.Abs(at.Y-h.y) >= switchWidth {
				kind, from = PassChain, r2.Vec{X: h.x, Y: h.y}
				break
			}
		}
	}
	t.history[t.nHistory%len(t.history)] = touch{t.passTick, t.passFrom.Y, t.passFrom.X}
	t.nHistory++
	if kind == NumSwitchKinds {
		return
	}
	t.chained = t.nHistory
	for i := range t.switches {
		if sw := &t.switches[i]; !sw.on {
			*sw = switchWatch{on: true, kind: kind, from: from.X, to: at.X, before: from.X <= w.pitch.Length/6, tick: w.tick}
			return
		}
	}
}

// received notes that body b has the ball under control.
func (t *tracker) received(w *world, b int) {
	at := own(w.onBall, w.ball)
	_, _, gap := w.pressureAt(b, w.pos[b])
	switch {
	case w.face.X*sign(w.onBall) < -0.3 && gap < 6:
		t.cue = model.FacingGoal
	case w.halfW-math.Abs(at.Y) < 8:
		t.cue = model.Touchline
	}
	t.reach(w, b, at, t.methodOf(w))
	t.overloads(w, b, at)
	w.p.BlockSample.Pressure.N++
}

// methodOf is how the ball that has just been received came.
func (t *tracker) methodOf(w *world) Method {
	f := &w.fly
	switch {
	case !f.pass:
		return ByLooseBall
	case t.runTick == w.tick && t.runKind == model.InBehind:
		return ByRunInBehind
	case math.Abs(own(w.onBall, w.ball).Y-t.passFrom.Y) >= switchWidth:
		return BySwitch
	case f.kind == GroundPass || t.passGround:
		return ByGroundPass
	}
	return ByLoftedPass
}

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
	if how == ByLooseBall || !t.spellPass || (how == ByCarry && dist(at, t.spellFrom) > markedCarry) {
		return WayCarryOrLoose
	}
	if t.passGround {
		return WayGround
	}
	return WayHigh
}

// markedCarry is the length from which event data are taken to mark a carry, m:
// a tenth of the spells have one (Pappalardo et al. 2019, carries of 5 m and more 7.5 %).
const markedCarry = 11.0

// confirmEntry makes a waiting entry count: the player has kept the ball or
// plays a next action of his own.
func (t *tracker) confirmEntry(w *world) {
	if t.entryBy != nobody {
		w.p.FinalThird, w.p.Entry = true, t.entry
		t.entryBy = nobody
	}
}

// track follows the possession through a tick.
func (w *world) track() {
	t := &w.trk
	if w.over {
		return
	}
	if w.state == held {
		at := own(w.onBall, w.ball)
		t.reach(w, w.carrier, at, ByCarry)
		if t.entryBy != nobody && w.tick-t.entry.Tick >= settleTicks {
			t.confirmEntry(w)
		}
		if t.entryBy != nobody && t.entryBy != w.carrier {
			t.entryBy = nobody
		}
		if !t.touched && w.gapTo < 2 {
			t.touched = true
			w.p.BlockSample.Pressure.Pressed++
			w.p.BlockSample.Pressure.Ticks += int64(w.tick - w.since)
		}
	}
	t.watchSwitches(w)
	t.watchOverloads(w)
	if w.tick%viewEvery == 0 {
		t.sampleBlock(w)
	}
	if float64(w.tick)*TickSeconds >= w.sc.Clock {
		w.end(EndStalled, nobody)
	}
}

func (t *tracker) watchSwitches(w *world) {
	x := own(w.onBall, w.ball).X
	controlled := w.state == held
	for i := range t.switches {
		sw := &t.switches[i]
		if !sw.on {
			continue
		}
		age := w.tick - sw.tick
		if sw.race == 0 && controlled {
			if w.gapTo < 3 && age <= raceWindow {
				w.p.SwitchRace[0]++
				sw.race = 1
			}
		}
		if sw.race == 0 && age > raceWindow {
			w.p.SwitchRace[1]++
			sw.race = 1
		}
		switch {
		case controlled && (x >= sw.from+progressBy || sw.before && w.p.FinalThird && x > w.pitch.Length/6):
			t.judge(w, sw, SwitchProgressed)
		case x <= sw.to-forcedBackBy:
			t.judge(w, sw, SwitchForcedBack)
		case age >= switchWindow:
			t.judge(w, sw, SwitchHeld)
		}
	}
}

func (t *tracker) judge(w *world, sw *switchWatch, v Verdict) {
	w.p.Switches[sw.kind][v]++
	sw.on = false
}

// overloadReach is how near to the ball players count for an overload, m.
const overloadReach = 13.0

// overloads counts the players round the ball and ahead of it at a reception.
func (t *tracker) overloads(w *world, b int, at r2.Vec) {
	mates, opponents := 0, 0
	for o := range w.pos {
		p := own(w.onBall, w.pos[o])
		if o%11 == 0 || dist2(p, at) > overloadReach*overloadReach || p.X < at.X-3 {
			continue
		}
		if teamOf(o) == w.onBall {
			mates++
		} else {
			opponents++
		}
	}
	kind := NumOverloads
	switch {
	case mates >= 2 && opponents == 1:
		kind = TwoOnOne
	case mates >= 3 && opponents == 2:
		kind = ThreeOnTwo
	}
	if kind == NumOverloads || t.overload[kind].on {
		return
	}
	lane := model.LaneOf(at.Y)
	w.p.Overloads[kind][lane]++
	t.overload[kind] = overloadWatch{on: true, lane: lane, x: at.X, tick: w.tick}
}

// watchOverloads decides whether a surplus was used: the ball is at least 10 m
// further on under control within the window, or a shot came.
func (t *tracker) watchOverloads(w *world) {
	for k := range t.overload {
		o := &t.overload[k]
		if !o.on {
			continue
		}
		if w.state == held && own(w.onBall, w.ball).X >= o.x+10 {
			w.p.OverloadsWon[k][o.lane]++
			o.on = false
		} else if w.tick-o.tick > overloadWindow {
			o.on = false
		}
	}
}

// sampleBlock measures the block.
func (t *tracker) sampleBlock(w *world) {
	def := 1 - w.onBall
	s := &w.p.BlockSample
	s.Ticks++
	if w.def.stance == pressing {
		s.Pressing++
	}
	left, right := math.Inf(-1), math.Inf(1)
	deep, high := math.Inf(1), math.Inf(-1)
	sum := 0.0
	for i := 1; i < 11; i++ {
		p := own(def, w.pos[11*def+i])
		left, right = max(left, p.Y), min(right, p.Y)
		deep, high = min(deep, p.X), max(high, p.X)
		sum += p.Y
		if w.def.pinned[i] {
			s.Pinned++
		}
	}
	for b := range w.vel {
		v := w.vel[b]
		v2, k := v.X*v.X+v.Y*v.Y, 0
		for k < len(speedCuts) && v2 > speedCuts[k]*speedCuts[k] {
			k++
		}
		s.Speed[k]++
	}
	u := w.halfL + own(def, w.ball).X
	band := &s.Line[min(max(int(u/10), 0), lineBands-1)]
	band.N++
	band.X += cm(w.halfL - w.att.last)
	s.Width += cm(left - right)
	s.Length += cm(high - deep)
	if w.att.lines > 1 {
		s.GapN++
		s.Gap += cm(w.att.line[0] - w.att.line[1])
	}
	c := sum / 10
	if t.ready {
		speed := (c - t.centroid) / (viewEvery * TickSeconds)
		e := w.team(def).Block.ShiftGain*own(def, w.ball).Y - c
		s.LagEC += cm(e) * cm(speed)
		s.LagCC += cm(speed) * cm(speed)
	}
	t.centroid, t.ready = c, true
}

func cm(m float64) int64 { return int64(math.Round(100 * m)) }

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
	switch {
	case recent && t.passCut:
		return FromCutBack, before
	case recent && t.passKind == Cross && t.passGround:
		return FromLowCross, before
	case recent && t.passKind == Cross && t.passIn:
		return FromInswinger, before
	case recent && t.passKind == Cross:
		return FromOutswinger, before
	case t.runTick >= 0 && w.tick-t.runTick < 50 && t.runKind == model.Overlap:
		return FromOverlap, before
	case t.runTick >= 0 && w.tick-t.runTick < 50 && t.runKind == model.Underlap:
		return FromUnderlap, before
	case recent && t.passDeep:
		return FromThroughBall, before
	case carried > 8:
		return FromCarry, before
	case !w.pitch.InPenaltyArea(at):
		return FromRange, before
	}
	return FromOther, before
}

// end ends the possession; by is the last body to have played the ball.
func (w *world) end(e End, by int) {
	if w.over {
		return
	}
	w.over = true
	p := &w.p
	p.End = e
	p.Place = own(int(model.Attack), w.ball)
	if e.Lost() && by != nobody && teamOf(by) == w.onBall {
		p.Loser = by % 11
		p.Under = w.pressure
	}
	if e.Lost() {
		w.countRest()
	}
}

// countRest counts the rest defence: outfield team-mates goal-side of the ball,
// and the opponents ahead of it on their way to that goal.
func (w *world) countRest() {
	x := own(w.onBall, w.ball).X
	for b := range w.pos {
		if b%11 == 0 {
			continue
		}
		if q := own(w.onBall, w.pos[b]).X; q < x {
			if teamOf(b) == w.onBall {
				w.p.RestDefence++
			} else {
				w.p.AgainstRest++
			}
		}
	}
}

// finish closes what still hangs in the balance and sums up the possession.
func (w *world) finish() {
	t := &w.trk
	p := &w.p
	p.Ticks, p.LastAction = w.tick, t.lastOwn
	for i := range t.switches {
		if sw := &t.switches[i]; sw.on {
			v := SwitchHeld
			if p.End.Lost() {
				v = SwitchLost
			}
			t.judge(w, sw, v)
		}
	}
	if p.Shot {
		for k := range t.overload {
			if o := &t.overload[k]; o.on {
				p.OverloadsWon[k][o.lane]++
			}
		}
	}
	for i := max(t.nJumps-len(t.jumps), 0); p.End.Lost() && i < t.nJumps; i++ {
		if w.tick-t.jumps[i%len(t.jumps)] <= jumpWindow {
			p.BlockSample.JumpWon++
		}
	}
	w.emit(Event{Kind: EventEnd, Team: 0, Player: p.Loser, Other: nobody, From: w.ball, To: w.ball, End: p.End})
}

// emit records an event when somebody listens.
func (w *world) emit(e Event) {
	if w.rec {
		e.Tick = w.tick
		w.events = append(w.events, e)
	}
}
