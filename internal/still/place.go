package still

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// sameSpot is how near two men cannot stand to each other, m.
const sameSpot = 0.1

// places puts everybody where he stands.
func (b *builder) places() {
	pitch := b.still.Scenario.Pitch
	type man struct {
		team, number int
		at           r2.Vec
	}
	var placed []man
	for t := range b.order {
		for i, n := range b.order[t] {
			at := b.sides[t][n].At
			if at == nil {
				continue
			}
			p, path := vec(*at), fmt.Sprintf("%s.%d", sideKeys[t], n)
			b.still.Pos[t][i] = p
			if !pitch.Contains(p) {
				b.Fault(path, fmt.Sprintf("[%v, %v] is outside the pitch", p.X, p.Y),
					fmt.Sprintf("x goes from %v to %v, y from %v to %v, in metres from the centre spot", -pitch.Length/2, pitch.Length/2, -pitch.Width/2, pitch.Width/2))
			}
			for _, o := range placed {
				if math.Hypot(p.X-o.at.X, p.Y-o.at.Y) < sameSpot {
					b.Fault(path, fmt.Sprintf("stands on the same spot as player %d of the %s", o.number, sideKeys[o.team]), "move one of the two")
					break
				}
			}
			placed = append(placed, man{t, n, p})
		}
	}
}

// ball finds who has it and which way he faces.
func (b *builder) ball() {
	if b.doc.Ball == nil || b.doc.Ball.Player == nil || b.order[0] == nil {
		return
	}
	number := *b.doc.Ball.Player
	b.still.Carrier = -1
	for i, n := range b.order[0] {
		if n == number {
			b.still.Carrier = i
		}
	}
	if b.still.Carrier < 0 {
		b.Fault("ball.player", fmt.Sprintf("the attack has no player %d", number), "name one of the attack: the side on the ball; or place him")
		return
	}
	if h := b.doc.Ball.Facing; h != nil {
		if h.Way != nil && *h.Way == toBall {
			b.Fault("ball.facing", "he has the ball", "write goal, own_goal, left, right or a place [x, y]")
			return
		}
		b.still.Face = b.towards("ball.facing", 0, b.still.Pos[0][b.still.Carrier], h)
	}
}

// towards is the unit vector of a heading from a place; own directions of team t.
func (b *builder) towards(path string, t int, from r2.Vec, h *heading) r2.Vec {
	to := from
	switch {
	case h.Place != nil:
		to = vec(*h.Place)
	case h.Way == nil: // already a fault
		return r2.Vec{X: 1}
	case *h.Way == toBall:
		to = b.still.Pos[0][b.still.Carrier]
	default:
		half := b.still.Scenario.Pitch.Length / 2
		switch *h.Way {
		case toGoal:
			to = own(t, r2.Vec{X: half})
		case toOwnGoal:
			to = own(t, r2.Vec{X: -half})
		case toLeft:
			to = r2.Add(from, own(t, r2.Vec{Y: 1}))
		case toRight:
			to = r2.Add(from, own(t, r2.Vec{Y: -1}))
		}
	}
	d := r2.Sub(to, from)
	if r2.Norm(d) < sameSpot {
		b.Fault(path, "is where he stands", "name another place, or leave it out")
		return r2.Vec{X: 1}
	}
	return r2.Unit(d)
}

// runningSpeed is that of a man who is said to be running, m/s: runs in behind average
// 5.9, overlaps 6.2 (movement tables). maxSpeed is more than anybody reaches.
const (
	runningSpeed = 6.0
	maxSpeed     = 11.0
)

// move gives a man his velocity.
func (b *builder) move(t, i int, m manDoc) {
	path := fmt.Sprintf("%s.%d", sideKeys[t], b.order[t][i])
	if m.Velocity != nil {
		v := vec(*m.Velocity)
		if r2.Norm(v) > maxSpeed {
			b.Fault(path+".velocity", fmt.Sprintf("is %.1f m/s", r2.Norm(v)), fmt.Sprintf("nobody is faster than %v m/s; it is [along x, along y] in m/s", maxSpeed))
		}
		if m.Running != nil {
			b.Fault(path+".running", "he has a velocity too", "keep one of the two")
		}
		b.still.Vel[t][i] = v
	}
	if m.Speed != nil && m.Running == nil {
		b.Fault(path+".speed", "counts only for a man who is running", "add running: with goal, own_goal, left, right, ball or a place [x, y]")
		return
	}
	if m.Running == nil {
		return
	}
	speed := runningSpeed
	if m.Speed != nil {
		speed = *m.Speed
	}
	if !(speed > 0 && speed <= maxSpeed) {
		b.Fault(path+".speed", fmt.Sprintf("%v m/s", speed), fmt.Sprintf("give a speed above 0, at most %v m/s", maxSpeed))
		return
	}
	b.still.Vel[t][i] = r2.Scale(speed, b.towards(path+".running", t, b.still.Pos[t][i], m.Running))
	if t == 0 && i != 0 && i != b.still.Carrier {
		b.still.Running[i] = true
	}
}

// Positions of a team about which nothing is known: a 4-3-3 on the ball, a 4-4-2
// against it.
var usual = [2][10]model.Position{
	{model.LB, model.LCB, model.RCB, model.RB, model.CDM, model.LCM, model.RCM, model.LW, model.CF, model.RW},
	{model.LB, model.LCB, model.RCB, model.RB, model.LM, model.LCM, model.RCM, model.RM, model.LCF, model.RCF},
}

// average makes two teams of average players for where they stand.
func (b *builder) average(sc *model.Scenario) {
	pitch := sc.Pitch
	for t := range sc.Teams {
		team := model.AverageTeam([2]string{"Attack", "Defence"}[t], pitch)
		var at [10]r2.Vec
		for i := range at {
			at[i] = own(t, b.still.Pos[t][i+1])
		}
		positions := model.FitPositions(at, usual[t], pitch.Width)
		for i, n := range b.order[t] {
			pos := model.GK
			if i > 0 {
				pos = positions[i-1]
			}
			team.Players[i] = model.AveragePlayer(n, pos)
			team.Players[i].Foot = model.BothFeet // nobody has said
		}
		team.Block.SetSlots(team.Players)
		team.Runs = nil // who is running is said by the still
		sc.Teams[t] = team
	}
}

// feet gives those their foot of whom it is said.
func (b *builder) feet(sc *model.Scenario) {
	for t := range b.order {
		for i, n := range b.order[t] {
			if foot := b.sides[t][n].Foot; foot != nil {
				sc.Teams[t].Players[i].Foot = *foot
			}
		}
	}
}
