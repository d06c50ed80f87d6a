package sim

import "playout/model"

// Game plays single possessions of one scenario, one after the other and in any
// order, in a world that is made once. It is not for concurrent use: every
// goroutine needs its own.
type Game struct{ w *world }

// NewGame sets up a game. The scenario must be valid (Scenario.Validate) and must
// not change as long as the game is played; nil parameters are the defaults.
func NewGame(sc *model.Scenario, par *model.Params) *Game {
	if par == nil {
		p := model.DefaultParams()
		par = &p
	}
	return &Game{newWorld(sc, *par)}
}

// Play plays possession id, whose luck is keyed by id and the scenario's seed: it
// is possession id of a Run of that scenario. What it returns is valid until the
// next call.
func (g *Game) Play(id int) *Possession { return g.w.play(id) }
