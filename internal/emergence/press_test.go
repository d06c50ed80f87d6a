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
// Varied: last line, line of engagement and intensity; then loyalty to the man as well.
func TestHighPress(t *testing.T) {
	won := claim{what: "balls won within 40 m of the goal", of: per(highRegain), says: rises}
	chance := claim{what: "xG of a shot", of: share(xg, shot), says: rises}
	each := claim{what: "xG of an entry", of: share(xg, entry), says: rises}
	compare(t, "08-low", "08-high", 160000, won, chance, each)
	chance.miss = "a press that also marks man for man leaves attackers who are free less room: +0.0086, standard error 0.0025, in 160,000 possessions (revision 16)"
	each.miss = "the same: +0.0019, standard error 0.0005, in 160,000 possessions (revision 16)"
	compare(t, "08-low", "08-high-man", 32000, won, chance, each)
}

// Law 10: the higher the last line, the more often runs in behind end offside.
// Varied: height of the last line with the ball on halfway, 24 to 40 m.
func TestHighLine(t *testing.T) {
	compare(t, "10-low", "10-high", 16000,
		claim{what: "offsides", of: per(offside), says: rises},
	)
}
