package sim

import (
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
