package emergence

import (
	"math"

	"playout/model"
	"playout/sim"
)

// per is a measure of the possession alone, once for each.
func per(of func(p *sim.Possession) float64) measure {
	return func(_ *model.Scenario, p *sim.Possession, _ []sim.Event) fraction { return fraction{of(p), 1} }
}

// share is a measure of the possession alone, of whole.
func share(of, whole func(p *sim.Possession) float64) measure {
	return func(_ *model.Scenario, p *sim.Possession, _ []sim.Event) fraction { return fraction{of(p), whole(p)} }
}

func one(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// Steps of the ladder, per possession.
func exit(p *sim.Possession) float64  { return one(p.ExitOwnThird) }
func half(p *sim.Possession) float64  { return one(p.Halfway) }
func entry(p *sim.Possession) float64 { return one(p.FinalThird) }
func box(p *sim.Possession) float64   { return one(p.Box) }
func shot(p *sim.Possession) float64  { return one(p.Shot) }
func xg(p *sim.Possession) float64    { return p.XG }

// entryBy counts a controlled entry of the final third by one of the lanes.
func entryBy(lanes ...model.Lane) func(p *sim.Possession) float64 {
	return func(p *sim.Possession) float64 {
		for _, l := range lanes {
			if p.FinalThird && p.Entry.Lane == l {
				return 1
			}
		}
		return 0
	}
}

// gap is the mean distance from the last line to the midfield line, m.
func gap(_ *model.Scenario, p *sim.Possession, _ []sim.Event) fraction {
	return fraction{float64(p.BlockSample.Gap) / 100, float64(p.BlockSample.GapN)}
}

// drawnUp is the mean height of the midfield line over its own goal line for where the ball
// is, m: less what a block that only follows the ball stands higher, 0.54 m for each metre
// that the ball is further away. Source: movement tables, line_height_fit (SkillCorner open
// data, MIT).
func drawnUp(_ *model.Scenario, p *sim.Possession, _ []sim.Event) fraction {
	const follows = 0.54
	n, ball := float64(p.BlockSample.GapN), &p.Shape.Height
	if ball.N == 0 {
		return fraction{}
	}
	return fraction{(float64(p.BlockSample.Midfield) - follows*float64(ball.D)/float64(ball.N)*n) / 100, n}
}

// receptions is the distance of the nearest opponent at the receptions of a player,
// by shirt number, m.
func receptions(number int) measure {
	return func(sc *model.Scenario, _ *sim.Possession, events []sim.Event) (f fraction) {
		for i := range events {
			if e := &events[i]; e.Kind == sim.EventReceive && isNumber(sc, e, number) {
				f.num += e.Near
				f.den++
			}
		}
		return f
	}
}

// carried is how far a player means to carry the ball, m for each possession.
func carried(number int) measure {
	return func(sc *model.Scenario, _ *sim.Possession, events []sim.Event) fraction {
		f := fraction{den: 1}
		for i := range events {
			if e := &events[i]; e.Kind == sim.EventCarry && isNumber(sc, e, number) {
				f.num += math.Hypot(e.To.X-e.From.X, e.To.Y-e.From.Y)
			}
		}
		return f
	}
}

// cameInside is how far towards the middle a player on the right takes the ball, m
// for each of his spells on it in the other half outside the centre.
func cameInside(number int) measure {
	return func(sc *model.Scenario, _ *sim.Possession, events []sim.Event) (f fraction) {
		var got *sim.Event
		for i := range events {
			e := &events[i]
			switch {
			case e.Team != int(model.Attack):
			case e.Kind == sim.EventStart || e.Kind == sim.EventReceive:
				got = nil
				if isNumber(sc, e, number) && e.From.X > 0 && model.LaneOf(e.From.Y) > model.Centre {
					got = e
				}
			case got != nil && (e.Kind == sim.EventPass || e.Kind == sim.EventShot || e.Kind == sim.EventLoose || e.Kind == sim.EventEnd):
				f.num += e.From.Y - got.From.Y
				f.den++
				got = nil
			}
		}
		return f
	}
}

// isNumber reports whether the event is of the attacker with that shirt.
func isNumber(sc *model.Scenario, e *sim.Event, number int) bool {
	return e.Team == int(model.Attack) && e.Player >= 0 && sc.Teams[model.Attack].Players[e.Player].Number == number
}
