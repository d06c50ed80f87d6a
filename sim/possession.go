package sim

import "playout/model"

// play runs possession id from its start to its end.
func (w *world) play(id int) *Possession {
	w.reset(id)
	for !w.over {
		w.perceive()
		w.decide()
		w.moveAttack()
		w.moveBlock()
		w.step()
		w.challenge()
		w.landed()
		w.track()
	}
	w.finish()
	return &w.p
}

// reset puts the ball and the players where possession id starts.
func (w *world) reset(id int) {
	w.situation = situation{p: Possession{ID: id, Loser: nobody}}
	w.events = w.events[:0]
	seed, n := w.sc.Seed, uint64(id)
	w.setup.Reset(seed, n, Setup)
	w.block.Reset(seed, n, Block)
	w.onBall = int(model.Attack)
	w.begin()
}

// rekey gives the streams of a spell on the ball their own keys, so that two
// variants of a scenario share their luck spell by spell even after one of them
// has drawn more numbers than the other.
func (w *world) rekey() {
	seed, id, n := w.sc.Seed, uint64(w.p.ID), Purpose(w.spell)<<spellShift
	w.choice.Reset(seed, id, Choice+n)
	w.execution.Reset(seed, id, Execution+n)
	w.duel.Reset(seed, id, Duel+n)
	w.perception.Reset(seed, id, Perception+n)
	w.spell++
}

// spellShift keeps the number of the spell clear of the purposes.
const spellShift = 8
