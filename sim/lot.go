package sim

import "math"

// A lot is a random number that belongs to a thing and not to a place in a
// sequence: to an option by what it is and whom it is meant for, to a run by who
// makes it. Two variants of a scenario that list one option more or less, or in
// another order, go on sharing their luck in all the others; draws from a stream
// would be out of step from there on.
type lot struct{ key uint64 }

// cast keys the lots of a spell on the ball for a purpose.
func (l *lot) cast(seed, possession uint64, p Purpose) {
	l.key = mix64(mix64(mix64(seed+golden)+possession) + uint64(p))
}

// of is the lot of a thing: 64 even bits.
func (l *lot) of(thing uint64) uint64 { return mix64(l.key + mix64(thing+golden)) }

// unit turns a lot into a number above 0 and below 1.
func unit(lot uint64) float64 { return (float64(lot>>11) + 0.5) / (1 << 53) }

// normal turns a lot into a standard normal deviate.
// Reference: Box and Muller (1958), Ann. Math. Statist. 29, 610-611.
func normal(lot uint64) float64 {
	return math.Sqrt(-2*math.Log(unit(lot))) * math.Cos(2*math.Pi*unit(mix64(lot+golden)))
}

// gumbel turns a lot into a standard Gumbel deviate. Who takes the option with the
// largest log odds plus Gumbel deviate draws each by its odds, and a small change
// of the odds changes few of the draws.
// Reference: Gumbel (1954), Statistical Theory of Extreme Values, NBS Applied
// Mathematics Series 33; for the choice, Luce's axiom by Yellott (1977), J. Math. Psych. 15, 109-144.
func gumbel(lot uint64) float64 { return -math.Log(-math.Log(unit(lot))) }

// thing names an option of the present look: what it is, whom it is meant for and
// which of several alike.
func (w *world) thing(o *option) uint64 {
	id := uint64(o.act) | uint64(o.aim+1)<<8 | uint64(o.slot)<<16
	if o.kind != Ground {
		id |= 1 << 24
	}
	for i, yes := range [...]bool{o.cross, o.back, o.space} {
		if yes {
			id |= 1 << (25 + i)
		}
	}
	return id | uint64(w.looks)<<32
}
