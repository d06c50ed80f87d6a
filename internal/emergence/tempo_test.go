package emergence

import (
	"testing"

	"playout/sim"
)

// A switch of play by one pass, and what came of it.
func singleSwitches(p *sim.Possession) float64 {
	n := 0
	for _, v := range p.Switches[sim.SinglePass] {
		n += v
	}
	return float64(n)
}

func progressed(p *sim.Possession) float64 {
	return float64(p.Switches[sim.SinglePass][sim.SwitchProgressed])
}

func passes(p *sim.Possession) float64 {
	n := 0
	for _, v := range p.Attempted {
		n += v
	}
	return float64(n)
}

func reachedInTime(p *sim.Possession) float64 { return float64(p.SwitchRace[0]) }
func raced(p *sim.Possession) float64         { return float64(p.SwitchRace[0] + p.SwitchRace[1]) }
func forcedBack(p *sim.Possession) float64    { return one(p.ForcedBack) }

// Law 2: a slow ball lets the block shift: more switches of play fail, and more
// possessions are forced back. The switch is by one pass; what a chain of passes
// takes across is where the block has followed in either variant. Possessions of
// the slow side are forced back more often for each pass they play; since they end
// after about half as many, not more often in all. Varied: tempo, 0.8 to 3 s on the
// ball.
func TestSlowCirculation(t *testing.T) {
	compare(t, "02-quick", "02-slow", 48000,
		claim{what: "switches by one pass that progress", of: share(progressed, singleSwitches), says: falls},
		claim{what: "switches whose receiver is reached within 3 s", of: share(reachedInTime, raced), says: rises},
		claim{what: "forced back, for each pass", of: share(forcedBack, passes), says: rises},
		claim{what: "forced back at all", of: per(forcedBack), says: rises,
			miss: "a slow build-up plays fewer passes, and its carriers bring the ball on while they look up"},
	)
}
