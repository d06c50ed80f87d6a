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
	lastOn    int           // last body of the team on the ball to play it, or to let it get away
	slip      float64       // pressure on him when his touch got away; -1 when it did not
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
	closest  float64 // how near an opponent has been to this carrier, m
	path     float64 // how far he has moved, m
	high     bool    // the ball came to him above the foot

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
	shape    shapeTrack
}

type touch struct {
	tick int
	y    float64
	x    float64
}

// Windows, in ticks.
const (
	switchWindow   = 100 // verdict of a switch within 10 s
	chainWindow    = 80  // a chain of passes goes across within 8 s
	overloadWindow = 50  // success of an overload within 5 s
	raceWindow     = 30
	runWindow      = 80 // a shot comes from an overlap or underlap found within 8 s
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
	t.lastOn, t.slip = b, -1
	t.lastOwn = w.tick
	t.alarmed, t.touched, t.fresh = false, false, true
	t.hazard, t.threshold = 0, w.duel.ExpFloat64()
	t.claim, t.claimAt = 0, w.duel.ExpFloat64()
	t.spellFrom = own(w.onBall, w.ball)
	t.spellPass = w.fly.pass
	t.path, t.high = 0, w.fly.height > w.par.FootHeight
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
	if o.cross && !o.back && o.inner {
		w.p.Inswing++
	}
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

// slipped notes that a ball gets away from body b, however hard it came to him: who loses
// it now has it from him.
func (t *tracker) slipped(b int, pressure float64) { t.lastOn, t.slip = b, pressure }

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
	if r := &w.runs[b]; r.until > w.tick-20 && r.until > 0 {
		t.runKind, t.runTick = r.kind, w.tick
		p.RunsFound[r.kind]++
	}
	w.runs[b].until = 0
	t.lookForSwitch(w, at)
}

// received notes that body b has the ball under control, the nearest opponent
// gap metres away.
func (t *tracker) received(w *world, b int, gap float64) {
	t.closest = gap
	at := own(w.onBall, w.ball)
	switch {
	case w.face.X*sign(w.onBall) < -0.3 && gap < 6:
		t.cue = model.FacingGoal
	case w.halfW-math.Abs(at.Y) < 8:
		t.cue = model.Touchline
	}
	t.reach(w, b, at, t.methodOf(w))
	t.overloads(w, at)
	w.p.BlockSample.Pressure.N++
}

// track follows the possession through a tick, and the clock.
func (w *world) track() {
	if w.over {
		return
	}
	if !w.after {
		w.trk.follow(w)
	}
	if w.tick >= w.deadline {
		w.end(EndStalled, nobody)
	}
}

// follow takes the measure of a tick of the possession.
func (t *tracker) follow(w *world) {
	if w.state == held {
		at := own(w.onBall, w.ball)
		t.closest = min(t.closest, w.gapTo)
		t.path += math.Sqrt(r2.Norm2(w.vel[w.carrier])) * TickSeconds
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
	if w.rec {
		t.watchRuns(w)
		if w.tick%shapeEvery == 0 {
			t.sampleShape(w)
		}
	}
}
