package emergence

import (
	"testing"

	"playout/sim"
)

func singleSwitches(p *sim.Possession) float64 {
	n := 0
	for _, k := range p.Switches[sim.SinglePass] {
		n += k
	}
	return float64(n)
}

func singleProgressed(p *sim.Possession) float64 {
	return float64(p.Switches[sim.SinglePass][sim.SwitchProgressed])
}

func reachedInTime(p *sim.Possession) float64 { return float64(p.SwitchRace[0]) }
func raced(p *sim.Possession) float64         { return float64(p.SwitchRace[0] + p.SwitchRace[1]) }
func forcedBack(p *sim.Possession) float64    { return one(p.ForcedBack) }

// Law 2: a slow ball lets the block shift: switches of play get less far, and the
// ball comes back more often. Varied: tempo, 0.8 to 3 s on the ball.
func TestSlowCirculation(t *testing.T) {
	compare(t, "02-quick", "02-slow", 10000,
		claim{what: "switches by one pass that progress", of: share(singleProgressed, singleSwitches), says: falls},
		claim{what: "switches whose receiver is reached within 3 s", of: share(reachedInTime, raced), says: rises},
		claim{what: "final third entered", of: per(entry), says: falls},
		claim{what: "forced back", of: per(forcedBack), says: rises,
			miss: "a slow build-up plays fewer passes, and its carriers bring the ball on while they look up, so it has less to take back"},
	)
}
