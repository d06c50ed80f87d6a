package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// knock sends the ball off body b along the ground, at a speed drawn between lo and hi m/s.
func (w *world) knock(b int, lo, hi float64) {
	dir := w.deflected(b)
	w.loose(b, GroundFlight(w.ball, dir, lo+(hi-lo)*w.execution.Float64()))
}

// How far away a header that is meant for nobody comes down, m. Headed passes go 15.7 m on
// average to where they are next played, eight in ten of them 5 to 25 m (Pappalardo et al.
// 2019, CC BY 4.0), and the ball has bounced by then.
const (
	nodShort = 4.0
	nodLong  = 18.0
)

// nod heads the ball off body b, through the air.
func (w *world) nod(b int) {
	dir := w.deflected(b)
	w.loose(b, LoftedFlight(w.ball, dir, nodShort+(nodLong-nodShort)*w.execution.Float64(), Clipped))
}

// deflected is the way a ball goes off body b that he does not bring under control: roughly
// back where it came from when an opponent blocks it, onwards when a team-mate's touch lets it
// run.
func (w *world) deflected(b int) r2.Vec {
	d := w.fly.flight.Dir
	if teamOf(b) != w.onBall && w.fly.pass {
		d = r2.Vec{X: -d.X, Y: -d.Y}
	}
	return turned(d, 1.4*w.execution.NormFloat64())
}

// loose sends the ball off body b, to be had by anybody.
func (w *world) loose(b int, f Flight) {
	w.emit(Event{Kind: EventLoose, Team: teamOf(b), Player: b % 11, Other: nobody, From: w.ball, To: w.ball})
	w.fly = delivery{flight: f, left: w.tick, from: b, aim: nobody}
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
	w.loose(b, LoftedFlight(w.ball, dir, length, Clipped))
}
