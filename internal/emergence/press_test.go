package emergence

import (
	"testing"

	"playout/sim"
)

// highRegain counts a ball lost within 40 m of the own goal line (105 m pitch), as
// pressing is often counted; common practice, no source.
func highRegain(p *sim.Possession) float64 { return one(p.End.Lost() && p.Place.X < 40-52.5) }

func offside(p *sim.Possession) float64 { return one(p.End == sim.EndOffside) }

// Law 8: who presses high wins more balls near the opponent's goal and, when the
// press is beaten, gives away better chances for each entry. A chance is a shot, its worth
// xG; what is asked is what comes within 25 s of the start, before a block that has been
// beaten is back in its shape.
// Varied: last line, line of engagement and intensity.
func TestHighPress(t *testing.T) {
	compare(t, "08-low", "08-high", 160000,
		claim{what: "balls won within 40 m of the goal", of: per(highRegain), says: rises},
		claim{what: "xG of a shot", of: share(xg, shot), says: rises},
		claim{what: "xG of an entry", of: share(xg, entry), says: rises},
	)
}

// Law 10: the higher the last line, the more often runs in behind end offside.
// Varied: height of the last line with the ball on halfway, 24 to 40 m.
func TestHighLine(t *testing.T) {
	compare(t, "10-low", "10-high", 16000,
		claim{what: "offsides", of: per(offside), says: rises},
	)
}
