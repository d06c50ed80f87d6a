package replay

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/sim"
)

// legKind is how the ball got from one step to the next.
type legKind uint8

const (
	played  legKind = iota // a pass or shot
	carried                // at a player's feet
	running                // loose
)

// leg is one way of the ball, from a step to the next on the ball.
type leg struct {
	kind     legKind
	step     int // index of the step it begins with
	team     int
	from, to r2.Vec // m
	begins   int    // indices in the reel
	ends     int
}

// shortest is how far a carry or a loose ball has to go to be drawn, m.
const shortest = 2.0

// legs are the ways of the ball, in order.
func (st *Story) legs() []leg {
	var out []leg
	last := -1
	for i := range st.Steps {
		s := &st.Steps[i]
		if s.Kind == sim.EventJump {
			continue
		}
		if last >= 0 {
			if l, ok := st.leg(last, s); ok {
				out = append(out, l)
			}
		}
		last = i
	}
	return out
}

// leg is the way from step i to another.
func (st *Story) leg(i int, to *Step) (leg, bool) {
	s := &st.Steps[i]
	l := leg{kind: carried, step: i, team: s.Team, from: s.From, to: to.From, begins: s.Frame, ends: to.Frame}
	switch s.Kind {
	case sim.EventPass:
		l.kind = played
	case sim.EventShot:
		l.kind, l.to = played, s.To // the film ends as it leaves the foot
	case sim.EventLoose:
		l.kind = running
	case sim.EventEnd, sim.EventAfterEnd:
		return l, false // what lies between is a restart
	}
	return l, l.kind == played || r2.Norm(r2.Sub(l.to, l.from)) >= shortest
}
