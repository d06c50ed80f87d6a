package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// mark hands every attacker in reach to the defender whose slot is nearest, but those in
// front of goal and those whom a press takes first, and notes which defenders an opponent holds.
func (w *world) mark(def int) {
	d := &w.def
	for i := range d.marks {
		d.marks[i], d.holds[i], d.pinned[i] = nobody, nobody, false
	}
	var near, held [11]float64
	reach := w.par.ZoneReach
	if d.stance == pressing {
		reach *= 1 + 0.5*w.par.PressLeash*w.team(def).Block.Press.Intensity
	}
	reach2 := reach * reach
	rows := &w.team(def).Block.Slot
	first := 11 * w.onBall
	var taken [11]bool
	w.takeThreats(def, &taken)
	w.takeOutlets(def, &taken)
	for a := first + 1; a < first+11; a++ {
		if a == w.carrier {
			continue
		}
		p := own(def, w.pos[a])
		level := p.X < own(def, w.ball).X+levelWith
		best, who := reach2, 0
		close, by := pinAt*pinAt, 0
		for i := 1; i < 11; i++ {
			if 11*def+i == d.presser {
				continue
			}
			if q := dist2(w.pos[a], w.pos[11*def+i]); level && q < close {
				close, by = q, i
			}
			q := dist2(p, d.shape[i])
			if rows[i].Row == w.rows[def]-1 {
				q *= 0.4 // the first line looks furthest up the pitch
			}
			if q < best {
				best, who = q, i
			}
		}
		if by > 0 && (d.holds[by] == nobody || close < held[by]) {
			d.holds[by], held[by], d.pinned[by] = a, close, true
		}
		// Whom a press has taken man for man nobody changes.
		if who > 0 && !taken[a-first] && (d.marks[who] == nobody || near[who] > 0 && best < near[who]) {
			d.marks[who], near[who] = a, best
		}
	}
}

// pinAt is how near an opponent must be to a defender to hold him, m: nobody else
// is near enough to take the man over. Common practice, no source.
const pinAt = 6.0

// levelWith is how far behind the ball an attacker may be and still hold a
// defender, m; a defender who is held slides across no further from the man than the
// slack, from man to man to zonal, m. Common practice, no source.
const (
	levelWith  = 2.0
	slackMan   = 2.0
	slackZonal = 7.0
)

// nearestFree is the defender nearest to attacker a, no more than within away, who may go, does
// not go to the ball, looks after nobody and is not beaten; 0 if there is none.
func (w *world) nearestFree(def, a int, within float64, may func(i int) bool) int {
	d := &w.def
	best, who := within*within, 0
	for i := 1; i < 11; i++ {
		b := 11*def + i
		if b == d.presser || !may(i) || d.marks[i] != nobody || w.beaten[b] > w.tick {
			continue
		}
		if q := dist2(w.pos[b], w.pos[a]); q < best {
			best, who = q, i
		}
	}
	return who
}

// take gives the carrier's team-mates, in the order of rank and those of infinite rank not at
// all, to the nearest defenders who are free to take them, from within away and as may allows. It
// notes which attackers are taken.
func (w *world) take(def int, taken *[11]bool, rank func(a int) float64, within float64, may func(i int) bool) {
	first := 11 * w.onBall
	var seen [11]bool
	for {
		a, lowest := nobody, math.Inf(1)
		for o := first + 1; o < first+11; o++ {
			if o == w.carrier || seen[o-first] || taken[o-first] {
				continue
			}
			if r := rank(o); r < lowest {
				a, lowest = o, r
			}
		}
		if a == nobody {
			return
		}
		seen[a-first] = true
		if who := w.nearestFree(def, a, within, may); who > 0 {
			w.def.marks[who], taken[a-first] = a, true
		}
	}
}

// takeThreats gives the men within shooting distance of the goal to the nearest defenders,
// whatever their slots: who is nearest to the goal first.
func (w *world) takeThreats(def int, taken *[11]bool) {
	goal := own(def, r2.Vec{X: -w.halfL})
	w.take(def, taken, func(a int) float64 {
		if q := dist2(w.pos[a], goal); q < shotRange*shotRange {
			return q
		}
		return math.Inf(1)
	}, w.par.ThreatReach, func(i int) bool { return 11*def+i != w.def.second })
}

// Whom a press takes man for man: the carrier's team-mates within outlet of the
// ball, each by a defender of the lines in front within takeWithin of him, m.
// Common practice, no source.
const (
	outlet     = 25.0
	takeWithin = 18.0
)

// takeOutlets gives the carrier's outlets to the nearest defenders of a press, the
// deepest outlet first; the last line stays.
func (w *world) takeOutlets(def int, taken *[11]bool) {
	if w.def.stance != pressing {
		return
	}
	rows := &w.team(def).Block.Slot
	at := w.focus()
	w.take(def, taken, func(a int) float64 {
		if w.state == flying && a == w.fly.aim || dist2(w.pos[a], at) >= outlet*outlet {
			return math.Inf(1)
		}
		return own(w.onBall, w.pos[a]).X
	}, takeWithin, func(i int) bool { return rows[i].Row > 0 })
}

// nextWithin is how near the ball an opponent may have it next, m: nine ground passes in ten
// are shorter (Pappalardo et al. 2019).
const nextWithin = 30.0

// tighten draws a defender from his slot towards the goal side of the opponent
// he looks after: further the more he is loyal to the man, the nearer the man is to
// the ball and the nearer the play is to his goal.
func (w *world) tighten(def, i int, p, a r2.Vec, block *model.Block) r2.Vec {
	goal := r2.Vec{X: -w.halfL}
	to := towards(a, goal, r2.Vec{X: -1})
	at := r2.Vec{X: a.X + 1.5*to.X, Y: a.Y + 1.5*to.Y}
	deep := min(max((45-(a.X+w.halfL))/35, 0), 1)
	loyal := min(block.ManLoyalty+w.par.DeepTight*deep, 1)
	ball := own(def, w.ball)
	threat := w.inRange(own(def, a))
	if behind := a.X - ball.X; behind > 0 && !threat && w.def.stance == compact {
		loyal *= max(1-behind/8, 0.2) // who is behind the ball threatens nothing yet
	}
	if far := dist(a, ball); far < nextWithin {
		loyal = min(loyal+w.par.BallTight*(1-far/nextWithin), 1) // he may have it next
	}
	leash := w.par.MarkLeash * (0.5 + loyal)
	if w.def.stance == pressing {
		// A press closes the ways out: each takes the man near him.
		loyal = min(loyal+w.par.PressLoyal*block.Press.Intensity, 1)
		leash *= 1 + w.par.PressLeash*block.Press.Intensity
	}
	dx, dy := loyal*(at.X-p.X), loyal*(at.Y-p.Y)
	if block.Slot[i].Row == w.rows[def]-1 {
		leash *= 2 // it has others behind it
	}
	if block.Slot[i].Row == 0 && dx > 0 && !threat {
		dx *= 0.5 // the last line does not follow far up the pitch
	}
	if n := math.Sqrt(dx*dx + dy*dy); n > leash {
		dx, dy = dx*leash/n, dy*leash/n
	}
	return r2.Vec{X: p.X + dx, Y: p.Y + dy}
}
