package sim

import (
	"playout/model"
)

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
		if w.trk.slip >= 0 {
			p.Under = w.trk.slip
		}
	}
	if e.Lost() {
		w.countRest()
	}
}

// lose ends the possession in play: body won has the ball.
func (w *world) lose(e End, by, won int) {
	w.won = won
	w.end(e, by)
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
	if w.rec {
		t.finishShape(w)
	}
	w.emit(Event{Kind: EventEnd, Team: 0, Player: p.Loser, Other: nobody, From: w.ball, To: w.ball, End: p.End})
}

// emit records an event when somebody listens.
func (w *world) emit(e Event) {
	if w.rec {
		e.Tick = w.tick
		w.trk.annotate(w, &e)
		w.events = append(w.events, e)
	}
}
