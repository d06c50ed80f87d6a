package emergence

import "testing"

// Law 12: centre first with the flanks as the outlet beats flanks only against a
// block that shifts well; against one that shifts badly the flanks are open anyway.
// Varied: the lanes of the plan, and how far, how soon and how fast the block shifts.
// What is asked is who gets into the penalty area within 25 s; entries of the final
// third from the centre can go either way, and in the long run every attack that is
// not lost gets somewhere.
func TestCentreFirst(t *testing.T) {
	compareEffects(t, [2]string{"12-flanks-only-badly", "12-centre-first-badly"},
		[2]string{"12-flanks-only-well", "12-centre-first-well"}, 8000,
		claim{what: "penalty area entered", of: per(box), says: rises},
	)
}
