package sim

import "playout/model"

// worldWith is a world of average teams under other constants: the attack has the ball,
// nobody has been placed.
func worldWith(change func(*model.Params)) *world {
	sc := model.AverageScenario()
	par := model.DefaultParams()
	change(&par)
	w := newWorld(&sc, par)
	w.situation = situation{onBall: int(model.Attack)}
	return w
}
