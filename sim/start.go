package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Shares of the starts in the mix, from build-up possessions: some begin with the
// keeper or a short goal kick; other restarts do not count, so nearly all the rest
// begin with a ball just won, and few with a defender who has all the time. Common
// practice, no source: the event data do not tell them apart.
const (
	mixGoalKick = 0.08
	mixKeeper   = 0.12
	mixRegain   = 0.78
)

// After a regain the opponent is still up the pitch: his lines stand higher by
// this, m, and everybody is out of place by so many times the usual distance.
// Assumed.
const (
	regainUp    = 8.0
	regainStray = 3.0
)

// begin places ball, players and block for the start of a possession.
func (w *world) begin() {
	att := w.onBall
	kind, at, who := w.startPlace()
	at = own(att, at)
	w.lineUp(11*att+who, at, kind == model.FromRegain)
	if kind == model.FromGoalKick {
		w.restart = goalKick
		w.clearArea(1 - att)
	}
	w.emit(Event{Kind: EventStart, Team: att, Player: who, Other: nobody, From: at, To: at})
	w.fly = delivery{from: nobody, aim: nobody, winner: nobody}
	w.trk.begin(w, at)
	how := given
	if kind == model.FromRegain {
		how = won
	}
	w.control(w.carrier, how)
}

// lineUp places both teams in their shapes for a ball at at with body c.
func (w *world) lineUp(c int, at r2.Vec, regain bool) {
	att := w.onBall
	w.carrier = c
	w.ball = at
	for i := range w.seen {
		w.seen[i] = at
	}
	st := &w.team(att).Structure
	for i := 0; i < 11; i++ {
		b := 11*att + i
		w.stray[b] = w.strayed(b)
		p := st.At(i, own(att, at), w.pitch)
		w.place(b, own(att, p))
	}
	w.place(c, at)
	w.pos[c] = at
	w.resetBlock(1-att, regain)
	w.viewLines()
}

// place puts a body at rest at p, moved by its stray and kept on the pitch.
func (w *world) place(b int, p r2.Vec) {
	p.X += w.stray[b].X
	p.Y += w.stray[b].Y
	w.pos[b] = w.inside(p, 0.5)
	w.target[b] = w.pos[b]
	w.vel[b] = r2.Vec{}
}

// inside holds p on the pitch, margin m inside its lines.
func (w *world) inside(p r2.Vec, m float64) r2.Vec {
	return r2.Vec{X: min(max(p.X, m-w.halfL), w.halfL-m), Y: min(max(p.Y, m-w.halfW), w.halfW-m)}
}

// strayed draws how far a player is from where he ought to be.
func (w *world) strayed(b int) r2.Vec {
	sd := w.able[b].Value[model.Positioning]
	return r2.Vec{X: sd * w.setup.NormFloat64(), Y: sd * w.setup.NormFloat64()}
}

// startPlace draws the kind of start, the place of the ball (own frame of the team
// on the ball) and who has it (index in that team).
func (w *world) startPlace() (model.StartKind, r2.Vec, int) {
	s := &w.sc.Start
	team := w.team(w.onBall)
	kind := s.Kind
	u, v := w.setup.Float64(), w.setup.Float64()
	if kind == model.FromMix {
		switch {
		case u < mixGoalKick:
			kind = model.FromGoalKick
		case u < mixGoalKick+mixKeeper:
			kind = model.FromKeeper
		case u < mixGoalKick+mixKeeper+mixRegain:
			kind = model.FromRegain
		default:
			kind = model.FromCentreBack
		}
	}
	who := team.ByNumber(s.Player)
	jx, jy := 2*w.setup.NormFloat64(), 2*w.setup.NormFloat64()
	var at r2.Vec
	switch kind {
	case model.FromGoalKick:
		at = r2.Vec{X: -w.halfL + model.GoalAreaDepth, Y: (v - 0.5) * model.GoalAreaWidth}
		if who < 0 {
			who = 0
		}
	case model.FromKeeper:
		at = r2.Vec{X: -w.halfL + 9 + jx, Y: 2 * jy}
		if who < 0 {
			who = 0
		}
	case model.FromRegain:
		at = r2.Vec{X: -w.halfL + 8 + (w.pitch.Length/3-10)*math.Sqrt(v), Y: (w.setup.Float64() - 0.5) * (w.pitch.Width - 8)}
		if who < 0 {
			who = w.nearestAnchor(at, 0)
		}
	case model.FromSettled:
		at = s.Ball
		if who < 0 {
			who = w.nearestAnchor(at, 0)
		}
	default:
		if who < 0 {
			who = w.drawDefender(v)
		}
		at = team.Structure.At(who, r2.Vec{X: -0.28 * w.pitch.Length}, w.pitch)
		at = r2.Vec{X: at.X + 2.5*jx + 3, Y: at.Y + 1.5*jy}
		at.X = min(at.X, -w.pitch.Length/6-1)
	}
	return kind, w.inside(at, 1), who
}

// nearestAnchor is the player, from the given one on, whose anchor is nearest to
// the ball (own frame of the team on the ball).
func (w *world) nearestAnchor(at r2.Vec, from int) int {
	st := &w.team(w.onBall).Structure
	best, who := 1e18, 1
	for i := from; i < 11; i++ {
		if d := dist2(st.At(i, at, w.pitch), at); d < best {
			best, who = d, i
		}
	}
	return who
}

// drawDefender picks one of the four deepest outfield players of the build-up
// structure by u in [0, 1): centre-backs three times as often as the others.
func (w *world) drawDefender(u float64) int {
	anchor := &w.team(int(model.Attack)).Structure.Anchor[model.BuildUp]
	var deep [4]int
	taken := [11]bool{0: true}
	for k := range deep {
		best := 1e18
		for i := 1; i < 11; i++ {
			if x := anchor[i].X; !taken[i] && x < best-1e-9 {
				best, deep[k] = x, i
			}
		}
		taken[deep[k]] = true
	}
	switch {
	case u < 0.375:
		return deep[0]
	case u < 0.75:
		return deep[1]
	case u < 0.875:
		return deep[2]
	}
	return deep[3]
}

// clearArea moves the defending team out of the other's penalty area for a goal
// kick (Law 16) or a free kick in it (Law 13).
func (w *world) clearArea(def int) {
	for i := 0; i < 11; i++ {
		b := 11*def + i
		p := own(1-def, w.pos[b])
		p.X = max(p.X, -w.halfL+model.PenaltyAreaDepth+0.5)
		w.pos[b] = own(1-def, p)
	}
}
