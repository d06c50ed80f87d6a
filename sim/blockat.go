package sim

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// BlockAt is where the defending players of a scenario stand in their block for a
// ball that rests at a place: before anybody marks, presses, steps up to the ball or
// strays. Places are metres in the frame of the side on the ball; index 0 is the keeper.
func BlockAt(sc *model.Scenario, ball r2.Vec) [11]r2.Vec {
	w := newWorld(sc, model.DefaultParams())
	const def = int(model.Defence)
	b, seen := &w.team(def).Block, own(def, ball)
	w.ball, w.state = ball, held
	w.def.height = w.lineHeight(b, w.halfL+seen.X)
	w.def.centre = b.ShiftGain * seen.Y
	w.layOut(def)
	var out [11]r2.Vec
	out[0] = own(def, w.keeperPlace(def, seen))
	for i := 1; i < 11; i++ {
		out[i] = own(def, w.def.shape[i])
	}
	return out
}
