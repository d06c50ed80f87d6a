package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// takeStance decides whether the block presses or stays compact: at every new
// spell on the ball within its line of engagement, and beyond that line on a
// trigger, less and less the further the ball is. It presses as often as its
// intensity says; a press dies down after a while.
func (w *world) takeStance(b *model.Block) {
	d := &w.def
	if d.stance == pressing && w.tick >= d.until {
		d.stance = compact
	}
	cue, fresh := w.trk.takeCue(), w.trk.takeFresh()
	beyond := w.beyond(b)
	chance := 0.0
	switch {
	case fresh && beyond == 0:
		chance = b.Press.Intensity
	case cue != noTrigger && b.Press.Triggers[cue]:
		chance = b.Press.Intensity * math.Exp(-beyond/12)
	}
	if !fresh && cue == noTrigger {
		return
	}
	if u := w.block.Float64(); u < chance { // drawn whether it counts or not: variants stay in step
		d.stance = pressing
		d.until = w.tick + ticks(w.par.PressHold)
	}
}

// beyond is how far the play is beyond the block's line of engagement, m; 0
// within it.
func (w *world) beyond(b *model.Block) float64 {
	def := 1 - w.onBall
	return max(w.halfL+own(def, w.focus()).X-b.Press.Height, 0)
}

// meetAhead is how far ahead of a carrier on the move those who might go to him look, s: who is
// beside or behind him will not stop him. Common practice, no source.
const meetAhead = 1.0

// choosePresser picks who goes: the one who is first where the carrier will be and free to
// leave. A defender with an opponent in his zone leaves less readily, the more so the
// more he is loyal to the man; the last line leaves least.
func (w *world) choosePresser(def int, b *model.Block) {
	d := &w.def
	was := d.presser
	d.presser, d.second = nobody, nobody
	at := w.focus()
	late := 0.0
	if w.state == flying {
		late = w.fly.when - float64(w.tick-w.fly.left)*TickSeconds
		if w.tick-w.fly.left < 3 {
			d.presser = was
			return
		}
	}
	meet := at
	if w.state == held {
		meet = r2.Add(at, r2.Scale(meetAhead, w.vel[w.carrier]))
	}
	limit := 2 + w.par.EngageRange/w.par.ArriveSpeed
	if d.stance == pressing {
		limit += 2.5
	}
	best, second := math.Inf(1), math.Inf(1)
	who, next := nobody, nobody
	for i := 1; i < 11; i++ {
		body := 11*def + i
		if w.beaten[body] > w.tick {
			continue
		}
		t := w.timeFor(body, meet)
		cost := t
		if d.pinned[i] {
			cost += 0.3 + 0.9*b.ManLoyalty
		}
		if b.Slot[i].Row == 0 {
			cost += 0.9
		}
		if body == was {
			cost -= 0.7
		}
		if t-late > limit {
			continue
		}
		if cost < best {
			second, next = best, who
			best, who = cost, body
		} else if cost < second {
			second, next = cost, body
		}
	}
	d.presser = who
	if who != nobody && who != was {
		w.jump(who)
	}
	if next == nobody {
		return
	}
	if w.halfL+own(def, at).X < coverWithin || d.stance == pressing && b.Slot[next%11].Row > 0 {
		d.second = next
	}
}

// timeFor is the control model's time to a point for a body that has already
// seen what is going on.
func (w *world) timeFor(b int, at r2.Vec) float64 {
	return dist(w.pos[b], at) / w.arrive[b]
}

// jump records that a defender leaves his slot for the carrier.
func (w *world) jump(b int) {
	w.p.BlockSample.Jumps++
	w.p.BlockSample.Jumped[b%11]++
	w.trk.jumps[w.trk.nJumps%len(w.trk.jumps)] = w.tick
	w.trk.nJumps++
	w.emit(Event{Kind: EventJump, Team: 1 - w.onBall, Player: b % 11, Other: nobody, From: w.pos[b], To: w.focus()})
}

// confront takes the presser to the carrier: flat out from afar, slower over
// the last metres, and stops where it is his block's way, pressing or compact. He comes
// from the goal side.
func (w *world) confront(b int) {
	at := w.focus()
	def := teamOf(b)
	goal := own(def, r2.Vec{X: -w.halfL})
	// Beyond the line of engagement he only shows himself, from further off.
	keep := w.par.JockeyAt + w.par.ShowOff*w.beyond(&w.team(def).Block)
	speed := w.par.CloseSpeed
	if w.def.stance == pressing || dist(at, goal) < w.par.TightWithin {
		keep = w.par.PressAt
		speed = w.par.PressSpeed
	}
	to := towards(at, goal, r2.Vec{X: 1})
	w.target[b] = r2.Vec{X: at.X + keep*to.X, Y: at.Y + keep*to.Y}
	if w.state == held {
		// Where the carrier is going, not where he is.
		lead := 0.4
		w.target[b].X += lead * w.vel[w.carrier].X
		w.target[b].Y += lead * w.vel[w.carrier].Y
	}
	w.target[b] = w.inside(w.target[b], 0.3)
	d := dist(w.pos[b], w.target[b])
	run := 0.0
	if w.state == held {
		v := w.vel[w.carrier]
		run = math.Sqrt(v.X*v.X + v.Y*v.Y)
	} else {
		speed = w.par.TravelSpeed // ground is made up while the ball travels
	}
	w.cap[b] = min(max(speed+0.08*max(d-4, 0), run), 1.8+0.7*d+run)
	if w.passedBy(b, at) {
		w.cap[b] = w.able[b].TopSpeed
	}
}

// coverWithin is how near to its goal line the ball must be for a second
// defender to cover the presser, m; common practice, no source.
const coverWithin = 32.0

// cover puts the second man behind the presser, between carrier and goal.
func (w *world) cover(b int) {
	at := w.focus()
	goal := own(teamOf(b), r2.Vec{X: -w.halfL})
	to := towards(at, goal, r2.Vec{X: 1})
	off := min(3.5, 0.5*dist(at, goal))
	w.target[b] = w.inside(r2.Vec{X: at.X + off*to.X, Y: at.Y + off*to.Y}, 0.3)
	w.cap[b] = w.par.PressSpeed
}

// closeOut takes the second man of a press to the carrier's nearest way out.
func (w *world) closeOut(b int) {
	first := 11 * w.onBall
	best, who := math.Inf(1), nobody
	at := w.focus()
	for a := first + 1; a < first+11; a++ {
		if a == w.carrier || dist2(w.pos[a], at) > 400 {
			continue
		}
		if d := dist2(w.pos[a], w.pos[b]); d < best {
			best, who = d, a
		}
	}
	if who == nobody {
		return
	}
	to := towards(w.pos[who], at, r2.Vec{X: 1})
	w.target[b] = r2.Vec{X: w.pos[who].X + 1.5*to.X, Y: w.pos[who].Y + 1.5*to.Y}
	w.cap[b] = w.par.RunSpeed
}
