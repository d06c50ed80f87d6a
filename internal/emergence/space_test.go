package emergence

import (
	"testing"

	"playout/model"
)

// Law 1: who makes the block narrow closes the middle and opens the wings, and
// leaves less room between his lines. Varied: width, 41 to 30 m.
func TestNarrowBlock(t *testing.T) {
	compare(t, "01-wide", "01-narrow", 4000,
		claim{what: "entries by the centre", of: per(entryBy(model.Centre)), says: falls},
		claim{what: "entries by the wings", of: per(entryBy(model.LeftWing, model.RightWing)), says: rises},
		claim{what: "gap between last and midfield line, m", of: gap, says: falls},
	)
}

// Law 3: players in front of the block's midfield line draw it up, off the last
// line; the same players beyond it, high, pin it back. Varied: where two midfielders
// stand, over 5 s: later the ball is further up in one variant than in the other. The block
// follows the ball, which is taken out.
func TestMidfieldLine(t *testing.T) {
	compare(t, "03-high", "03-in-front", 2000,
		claim{what: "height of the midfield line for where the ball is, m", of: drawnUp, says: rises},
		claim{what: "gap between last and midfield line, m", of: gap, says: rises},
	)
}
