package emergence

import (
	"testing"

	"playout/sim"
)

func crosses(p *sim.Possession) float64  { return float64(p.Attempted[sim.Cross]) }
func inswings(p *sim.Possession) float64 { return float64(p.Inswing) }

// Law 9: better passing, pace or first touch never lowers progress beyond the noise.
// Varied: one quality of all ten outfield players, 15th to 85th percentile. The test
// notices a fall of 0.06 in any of these rates with probability one half or more: the
// standard errors of the differences are below 0.015.
func TestBetterPlayers(t *testing.T) {
	for _, quality := range []string{"passing", "pace", "touch"} {
		t.Run(quality, func(t *testing.T) {
			compare(t, "09-"+quality+"-poor", "09-"+quality+"-good", 2400,
				claim{what: "out of the own third", of: per(exit), says: notLower},
				claim{what: "over halfway", of: per(half), says: notLower},
				claim{what: "final third entered", of: per(entry), says: notLower},
				claim{what: "penalty area entered", of: per(box), says: notLower},
			)
		})
	}
}

// Law 11: a left-footer on the right comes inside and his crosses swing in; a
// right-footer goes outside. Varied: the strong foot of the right winger.
func TestFoot(t *testing.T) {
	compare(t, "11-right-footed", "11-left-footed", 2500,
		claim{what: "taken inside by the right winger, m a spell", of: cameInside(11), says: rises},
		claim{what: "crosses that swing in", of: share(inswings, crosses), says: rises},
	)
}
