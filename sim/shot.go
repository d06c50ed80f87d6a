package sim

import "playout/model"

// shootBall ends the possession with a shot. Its worth is the xG of the place;
// the shooter's finishing and the keeper decide with it whether it goes in.
func (w *world) shootBall(header bool) {
	c := w.carrier
	s := sign(w.onBall)
	x, y := s*w.ball.X, s*w.ball.Y
	z := shotLogit(x, y, header, w.pitch)
	xg := logistic(z)
	keeper := 11 * (1 - w.onBall)
	z += w.able[c].Value[model.Finishing] - w.able[keeper].Value[model.ShotStopping]
	w.p.Shot = true
	w.p.XG = xg
	w.p.ShotAt = own(w.onBall, w.ball)
	w.p.Chance = logistic(z)
	w.p.Goal = w.execution.Float64() < w.p.Chance
	w.p.Source, w.p.Before = w.trk.sourceOf(w, header)
	w.emit(Event{Kind: EventShot, Team: w.onBall, Player: c % 11, Other: nobody, From: w.ball, To: own(w.onBall, w.pitch.Goal()), Chance: xg, Near: w.gapTo})
	w.end(EndShot, c)
}
