package emergence

import (
	"testing"

	"playout/sim"
)

func switches(p *sim.Possession) float64 {
	n := 0
	for k := range p.Switches {
		for _, v := range p.Switches[k] {
			n += v
		}
	}
	return float64(n)
}

func progressed(p *sim.Possession) float64 {
	return float64(p.Switches[sim.SinglePass][sim.SwitchProgressed] + p.Switches[sim.PassChain][sim.SwitchProgressed])
}

func reachedInTime(p *sim.Possession) float64 { return float64(p.SwitchRace[0]) }
func raced(p *sim.Possession) float64         { return float64(p.SwitchRace[0] + p.SwitchRace[1]) }
func forcedBack(p *sim.Possession) float64    { return one(p.ForcedBack) }
func turnedBack(p *sim.Possession) float64    { return one(p.ForcedBack && !p.FinalThird) }

// Law 2: a slow ball lets the block shift: more switches of play fail, and more
// possessions are forced back for good. A side that recycles the ball and gets in
// all the same has not been turned back; counted over all possessions the quick side,
// which plays more passes, takes the ball back more often. Varied: tempo, 0.8 to 3 s
// on the ball.
func TestSlowCirculation(t *testing.T) {
	compare(t, "02-quick", "02-slow", 13000,
		claim{what: "switches that progress", of: share(progressed, switches), says: falls},
		claim{what: "switches whose receiver is reached within 3 s", of: share(reachedInTime, raced), says: rises},
		claim{what: "forced back and never in the final third", of: per(turnedBack), says: rises},
		claim{what: "forced back at all", of: per(forcedBack), says: rises,
			miss: "a slow build-up plays fewer passes, and its carriers bring the ball on while they look up"},
	)
}
