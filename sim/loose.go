package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// knock sends the ball off body b, loose: roughly back where it came from when
// an opponent blocks it, onwards when a team-mate's touch lets it run, at a
// speed drawn between lo and hi m/s.
func (w *world) knock(b int, lo, hi float64) {
	d := w.fly.flight.Dir
	if teamOf(b) != w.onBall && w.fly.pass {
		d = r2.Vec{X: -d.X, Y: -d.Y}
	}
	dir := turned(d, 1.4*w.execution.NormFloat64())
	w.loose(b, dir, lo+(hi-lo)*w.execution.Float64())
}

// loose sends the ball off body b along the ground.
func (w *world) loose(b int, dir r2.Vec, speed float64) {
	w.emit(Event{Kind: EventLoose, Team: teamOf(b), Player: b % 11, Other: nobody, From: w.ball, To: w.ball})
	w.fly = delivery{flight: GroundFlight(w.ball, dir, speed), left: w.tick, from: b, aim: nobody}
	w.release(b)
}

// clearWithin is how near to the own goal line a ball won under pressure is
// cleared rather than played, m; common practice, no source.
const clearWithin = 35.0

// clears is the chance that body b of the team without the ball, who gets to it
// under the given pressure, clears it: most on his own goal line.
func (w *world) clears(b int, pressure float64) float64 {
	deep := 1 - (w.halfL+own(teamOf(b), w.ball).X)/clearWithin
	return w.par.ClearDeep * max(deep, 0) * pressure
}

// clear sends the ball off body b high and long, away from his goal and towards
// the nearer touchline: a clearance.
func (w *world) clear(b int) {
	s := sign(teamOf(b))
	out := math.Copysign(0.9, w.ball.Y) + 0.5*w.execution.NormFloat64()
	dir := turned(r2.Vec{X: s}, out*s)
	length := 22 + 14*w.execution.Float64()
	w.emit(Event{Kind: EventLoose, Team: teamOf(b), Player: b % 11, Other: nobody, From: w.ball, To: w.ball})
	w.fly = delivery{flight: LoftedFlight(w.ball, dir, length, Clipped), left: w.tick, from: b, aim: nobody}
	w.release(b)
}
