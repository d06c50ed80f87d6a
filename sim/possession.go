package sim

import (
	"math"

	"playout/model"
)

// play runs possession id from its start to its end, and what the opponent makes
// of the ball if it was lost.
func (w *world) play(id int) *Possession {
	w.reset(id)
	w.run()
	w.finish()
	if w.p.End.Lost() && w.sc.AfterLoss > 0 {
		w.playAfter()
	}
	return &w.p
}

// run plays on until the ball is lost, dead or shot, or the time is up.
func (w *world) run() {
	for !w.over {
		w.advance()
		if w.film != nil {
			w.film.shoot(w, false)
		}
	}
}

// advance plays one tick.
func (w *world) advance() {
	w.perceive()
	w.decide()
	w.moveAttack()
	w.moveBlock()
	w.step()
	w.challenge()
	w.landed()
	w.track()
}

// reset puts the ball and the players where possession id starts.
func (w *world) reset(id int) {
	w.situation = situation{p: Possession{ID: id, Loser: nobody}}
	w.events = w.events[:0]
	seed, n := w.sc.Seed, uint64(id)
	w.setup.Reset(seed, n, Setup)
	w.block.Reset(seed, n, Block)
	w.onBall = int(model.Attack)
	w.deadline = lastTick(w.sc.Clock)
	w.begin()
	if w.film != nil {
		w.film.shoot(w, true)
	}
}

// lastTick is the first tick that is at least so many seconds after the start.
func lastTick(seconds float64) int { return int(math.Ceil(seconds/TickSeconds - 1e-9)) }

// rekey gives the streams of a spell on the ball their own keys, so that two
// variants of a scenario share their luck spell by spell even after one of them
// has drawn more numbers than the other.
func (w *world) rekey() {
	seed, id, n := w.sc.Seed, uint64(w.p.ID), Purpose(w.spell)<<spellShift
	w.choice.Reset(seed, id, Choice+n)
	w.execution.Reset(seed, id, Execution+n)
	w.duel.Reset(seed, id, Duel+n)
	w.block.Reset(seed, id, Block+n)
	w.sights.cast(seed, id, Perception+n)
	w.choices.cast(seed, id, Choice+n)
	w.errands.cast(seed, id, Movement+n)
	w.looks = 0
	w.spell++
}

// spellShift keeps the number of the spell clear of the purposes.
const spellShift = 8
