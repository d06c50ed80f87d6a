package reference

import (
	"math"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// movementSums are what tracking data see: players with the ball from reception to
// release, the block and the speeds of all. They come from all possessions.
type movementSums struct {
	Receive, Release [numThirds]hist                // nearest opponent, metreBin
	Found            [numThirds][numDirections]hist // the same at the reception of a ground pass, by where its passer got the ball
	PassSpeed        [len(speedBands)]hist          // mean speed of a ground pass on its way, speedBin
	Hold             [numThirds]hist                // time on the ball, ticks
	HoldSum          [numThirds]total
	Tight            [numThirds]part          // an opponent within 4 m at reception
	OneTouch         [len(gapBands) + 1]part  // by the nearest opponent at reception
	Held             [len(gapBands) + 1]total // time on the ball of the others, ticks
	Reached          [numThirds]part          // an opponent came within 2 m
	ReachedFrom4     [numThirds]part          // of receptions with nobody within 4 m
	Closing          [numThirds]total         // of spells held for 1 s, cm/s
	Carried          total                    // mean speed of the carrier in them, cm/s
	Forward          part                     // spells that end nearer to the other goal; neither keepers nor first-time balls

	LineBack, LineForward total // speed of the last line, cm/s, + up the pitch

	SwitchReceive, SwitchRelease hist
	SwitchClosing                total // cm/s
	SwitchNear3, SwitchNear5     part

	Line  [len(sim.BlockSample{}.Line)]sim.BandSum
	Speed [len(sim.BlockSample{}.Speed)]int64
	Shape sim.Shape
	Shift [len(sim.ShiftTimes)]sim.ShiftSum // of long spells only
}

// Definitions of the movement tables.
const (
	oneTouchWithin = 0.25 // s: tracking at 10 Hz shows 0, 0.1 or 0.2
	heldFor        = 1.0  // s
	near           = 2.0  // m
	fromFar        = 4.0  // m
	lineMove       = 5.0  // m that the ball goes back or is carried on
	switchFlight   = 4.0  // s
	shiftSpell     = 6.0  // s: the shift is fitted to spells of at least this
)

// gapBands are the upper ends of the bands of the nearest opponent at reception, m; the
// last band is open.
var gapBands = [...]float64{2, 4, 8}

// gapBand is the band of a distance.
func gapBand(gap float64) int {
	i := 0
	for i < len(gapBands) && gap >= gapBands[i] {
		i++
	}
	return i
}

// possession adds a possession.
func (m *movementSums) possession(p *sim.Possession, events []sim.Event, pitch model.Pitch) {
	var got, pass, before *sim.Event
	for i := range events {
		e := &events[i]
		switch {
		case e.Kind == sim.EventEnd:
			if got != nil {
				m.spell(got, e, pass, pitch)
			}
			m.block(p)
			return
		case e.Team != 0 && e.Kind != sim.EventLoose:
			continue
		case e.Kind == sim.EventReceive:
			if before != nil {
				m.playedBack(before, e)
				m.found(before, pass, e, pitch)
			}
			if pass != nil {
				m.travelled(pass, e)
			}
			got = e
		case e.Kind == sim.EventPass || e.Kind == sim.EventShot || e.Kind == sim.EventLoose:
			if got != nil {
				m.spell(got, e, pass, pitch)
			}
			pass, before = nil, nil
			if e.Kind == sim.EventPass {
				pass, before = e, got
			}
			got = nil
		}
	}
}

// spell adds a spell on the ball, from reception to release; pass is the ball that
// led to it, nil for a loose one.
func (m *movementSums) spell(got, left, pass *sim.Event, pitch model.Pitch) {
	third := pitch.ThirdOf(got.From.X)
	held := left.Tick - got.Tick
	hold := float64(held) * sim.TickSeconds
	m.Receive[third].add(got.Near, metreBin)
	m.Release[third].add(left.Near, metreBin)
	m.Hold[third].add(float64(held), 1)
	m.HoldSum[third].add(float64(held), 1)
	m.Tight[third].add(got.Near < fromFar)
	band, firstTime := gapBand(got.Near), hold < oneTouchWithin
	m.OneTouch[band].add(firstTime)
	if !firstTime {
		m.Held[band].add(float64(held), 1)
	}
	m.Reached[third].add(left.Closest < near)
	if got.Near >= fromFar {
		m.ReachedFrom4[third].add(left.Closest < near)
	}
	if !firstTime && got.Player != 0 {
		// He gets the ball where he stands and has it ahead of him when he lets it go: what
		// tracking sees is the man.
		m.Forward.add(left.From.X-got.From.X > sim.BallAhead)
	}
	closing := (got.Near - left.Near) / hold
	if hold >= heldFor {
		m.Closing[third].add(closing, cm)
		m.Carried.add(left.Path/hold, cm)
		if left.From.X-got.From.X > lineMove {
			m.LineForward.add((left.Line-got.Line)/hold, cm)
		}
	}
	if pass == nil || math.Abs(got.From.Y-pass.From.Y) < model.SwitchWidth || got.Tick-pass.Tick > ticks(switchFlight) {
		return
	}
	m.SwitchReceive.add(got.Near, metreBin)
	m.SwitchRelease.add(left.Near, metreBin)
	m.SwitchNear3.add(left.Near < 3)
	m.SwitchNear5.add(left.Near < 5)
	if hold >= heldFor {
		m.SwitchClosing.add(closing, cm)
	}
}

// found adds how near an opponent is to the man a pass finds, by the third in which the
// passer got the ball and the direction from there; tracking does not say where he let it go.
func (m *movementSums) found(before, pass, got *sim.Event, pitch model.Pitch) {
	if pass.Pass == sim.GroundPass {
		m.Found[pitch.ThirdOf(before.From.X)][directionOf(before.From, got.From)].add(got.Near, metreBin)
	}
}

// speedBands of the length of a ground pass whose speed is known, m: their upper ends. The first
// begins at shortestTimed.
var speedBands = [...]float64{10, 15, 20, 25, 30, 40}

var speedBandNames = [len(speedBands)]string{"5-10", "10-15", "15-20", "20-25", "25-30", "30-40"}

const shortestTimed = 5.0

// travelled adds the mean speed of a ground pass from its passer to him who received it. The ball
// met him half a tick before the tick of his reception, on average.
func (m *movementSums) travelled(pass, got *sim.Event) {
	length := dist(pass.From, got.From)
	if pass.Pass != sim.GroundPass || length < shortestTimed || length >= speedBands[len(speedBands)-1] {
		return
	}
	t := (float64(got.Tick-pass.Tick) - 0.5) * sim.TickSeconds
	m.PassSpeed[bandOf(length, speedBands[:])].add(length/t, speedBin)
}

// playedBack adds the speed of the last line from one reception to the next when
// the ball has gone back.
func (m *movementSums) playedBack(got, next *sim.Event) {
	t := float64(next.Tick-got.Tick) * sim.TickSeconds
	if t >= heldFor && got.From.X-next.From.X > lineMove {
		m.LineBack.add((next.Line-got.Line)/t, cm)
	}
}

// block adds what the block and the legs did.
func (m *movementSums) block(p *sim.Possession) {
	for i, b := range p.BlockSample.Line {
		m.Line[i].N += b.N
		m.Line[i].X += b.X
	}
	for i, n := range p.BlockSample.Speed {
		m.Speed[i] += n
	}
	stats.AddIntegers(&m.Shape, &p.Shape)
	if float64(p.Ticks)*sim.TickSeconds >= shiftSpell {
		stats.AddIntegers(&m.Shift, &p.Shape.Shift)
	}
}
