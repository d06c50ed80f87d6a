package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// restart is how the ball has to be brought into play. Until it has left,
// nobody may challenge for it and it can only be passed.
type restart uint8

const (
	inPlay    restart = iota
	fromHands         // the keeper holds it: he may not be challenged (Law 12)
	throwIn           // Law 15
	freeKick          // Law 13
	goalKick          // Law 16
)

// Distances of opponents from a restart, m. Source: IFAB, Laws of the Game, Laws
// 13 and 15.
const (
	freeKickDistance = 9.15
	throwInDistance  = 2.0
)

// throwReach is how far a throw-in goes, m; longThrow is how near to the goal
// line one becomes a set play, m. Common practice, no source.
const (
	throwReach = 25.0
	longThrow  = 22.0
)

// bringBack places the ball for the restart of the team on the ball and both
// teams in their shapes for it: they have had the time. It returns the body who
// takes it.
func (w *world) bringBack(by Takeover) int {
	team, def := w.onBall, 1-w.onBall
	at := own(team, w.inside(w.ball, 0))
	who, distance := 0, 0.0
	switch by {
	case ByGoalKick:
		w.restart = goalKick
		at = r2.Vec{X: -w.halfL + model.GoalAreaDepth, Y: math.Copysign(model.GoalAreaWidth/2, at.Y)}
	case ByThrowIn:
		w.restart, distance = throwIn, throwInDistance
		at.Y = math.Copysign(w.halfW, at.Y)
		who = w.nearestAnchor(at, 1)
	default:
		w.restart, distance = freeKick, freeKickDistance
		who = w.nearestAnchor(at, 0)
	}
	w.state = held
	w.beaten = [bodies]int{}
	w.fly = delivery{from: nobody, aim: nobody, winner: nobody}
	w.lineUp(11*team+who, own(team, at), false)
	if w.pitch.InPenaltyArea(r2.Vec{X: -at.X, Y: at.Y}) {
		w.clearArea(def)
	}
	w.keepOff(def, distance)
	return 11*team + who
}

// keepOff moves the players of a team at least so far from the ball, m.
func (w *world) keepOff(team int, distance float64) {
	back := r2.Vec{X: -sign(team)} // towards their own goal
	for b := 11 * team; b < 11*team+11; b++ {
		if dist(w.pos[b], w.ball) >= distance {
			continue
		}
		d := towards(w.ball, w.pos[b], back)
		p := r2.Vec{X: w.ball.X + distance*d.X, Y: w.ball.Y + distance*d.Y}
		if !w.pitch.Contains(p) {
			p = r2.Vec{X: w.ball.X + distance*back.X, Y: w.ball.Y}
		}
		w.pos[b] = p
	}
}
