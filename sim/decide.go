package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// decide lets the carrier choose when his moment has come: after the time on
// the ball that the plan's tempo gives him, or at once when he is put under
// pressure.
func (w *world) decide() {
	if w.state != held {
		return
	}
	if w.tick < w.think {
		if w.pressure < w.alarm() || w.tick-w.since < ticks(touchTime) || w.trk.alarmed {
			return
		}
		w.trk.alarmed = true
	}
	header := w.fly.height > w.par.FootHeight && w.tick == w.since
	w.looks++
	w.weigh(header)
	if w.opt.n == 0 { // a restart with nobody to play it to
		w.think = w.tick + ticks(w.par.Look)
		return
	}
	o := w.choose()
	if w.film != nil {
		w.film.chose(w, o)
	}
	w.carryOut(o, header)
}

// weigh lists everything the carrier may do, with its chance and worth. A ball
// in the air is headed on or at goal; only where there is nobody to head it to
// is it brought down.
func (w *world) weigh(header bool) {
	w.opt.n, w.opt.scale = 0, w.scale()
	w.contenders()
	w.passOptions()
	if w.restart != inPlay {
		return // it is played, not carried or shot
	}
	w.shotOption(header)
	if !header || w.opt.n == 0 {
		w.keepOptions()
		w.takeOnOption()
	}
}

// alarm is the pressure at which the carrier looks for a way out at once: a keeper,
// behind whom there is only the goal, at 0.2 at the latest; assumed.
func (w *world) alarm() float64 {
	if w.carrier%11 == 0 {
		return min(w.par.Alarm, 0.2)
	}
	return w.par.Alarm
}

// choose draws an option by its log odds.
func (w *world) choose() *option {
	l := &w.opt
	best, top := 0, math.Inf(-1)
	for i := 0; i < l.n; i++ {
		o := &l.o[i]
		if s := o.score + gumbel(w.choices.of(w.thing(o))); s > top {
			best, top = i, s
		}
	}
	return &l.o[best]
}

// carryOut does what was chosen.
func (w *world) carryOut(o *option, header bool) {
	switch o.act {
	case playPass:
		w.pass(o, header)
	case shoot:
		w.shootBall(header)
	case takeOn:
		w.tryTakeOn(o)
	case keepBall:
		w.carryOn(o)
	}
	w.trk.lastOwn = w.tick
}

// carryOn keeps the ball and takes it towards the option's target.
func (w *world) carryOn(o *option) {
	w.setDribble(o.target)
	w.think = w.tick + w.nextLook()
	if dist(w.ball, o.target) > 4 {
		w.emit(Event{Kind: EventCarry, Team: w.onBall, Player: w.carrier % 11, Other: nobody, From: w.ball, To: o.target, Chance: o.chance})
	}
}

// Within shotRange of the goal, m, a carrier looks up every shotLook, s: there is no
// time to lose there. Nine shots in ten are taken within it (Pappalardo et al. 2019,
// shot_conversion); the time is common practice, no source.
const (
	shotRange = 30.0
	shotLook  = 0.3
)

// inRange reports whether p is within shooting distance of the goal that the team on the ball
// attacks.
func (w *world) inRange(p r2.Vec) bool {
	return dist2(p, own(w.onBall, w.pitch.Goal())) < shotRange*shotRange
}

// nextLook is when the carrier decides again, in ticks from now.
func (w *world) nextLook() int {
	if w.inRange(w.ball) {
		return ticks(min(shotLook, w.par.Look))
	}
	return ticks(w.par.Look)
}

// breaking reports whether body b, on the ball in the other half, and the
// team-mates level with him or ahead outnumber the few opponents between him and
// the goal, the keeper left out.
func (w *world) breaking(b int) bool {
	x := own(w.onBall, w.pos[b]).X
	left := w.goalSide(x)
	if x < 0 || left > fewLeft {
		return false
	}
	mates := 0
	for _, m := range w.att.mates[1:] {
		if m > x-keepsUp {
			mates++ // himself among them
		}
	}
	return left < mates
}

// fewLeft is how many defenders left goal-side of the ball are few; keepsUp how far
// behind it a team-mate still keeps up, m. Common practice, no source.
const (
	fewLeft = 3
	keepsUp = 5.0
)

// comeOut is what a player does with the ball while he looks up. His touch takes it on the
// way it came, he brings it forward, the more so the more room he has in front of him, and turns
// away with it from an opponent who is near: he seldom runs at a man before he has looked up. A
// side that takes its time over the ball walks it; breaking, he makes for goal as fast as he can.
func (w *world) comeOut(b int, how gaining) {
	s := sign(w.onBall)
	w.dribble = r2.Vec{X: s}
	w.stride = 0
	carrying := w.able[b].Value[model.Carrying]
	if w.breaking(b) {
		w.dribble = towards(w.pos[b], own(w.onBall, w.pitch.Goal()), w.dribble)
		w.stride = min(carrying, w.roomAhead(w.dribble))
		return
	}
	crowded := clamp((roomy-w.gapTo)/(roomy-tight), 0, 1)
	grass := clamp((w.ahead(w.dribble)-roomy)/(openGrass-roomy), 0, 1)
	open := w.att.open * (1 - crowded)
	way := r2.Vec{X: s * max(w.par.DriveOn*(1-crowded), grass, open)}
	if how == received && w.fly.pass {
		way = r2.Add(way, r2.Scale(w.par.TouchOn, w.fly.flight.Dir))
	}
	if w.nearest != nobody {
		away := towards(w.pos[w.nearest], w.pos[b], w.dribble)
		way = r2.Add(way, r2.Scale(w.par.ShyOff*crowded, away))
	}
	sure := min(r2.Norm(way), 1) // the less his reasons agree, the slower he goes
	w.dribble = towards(r2.Vec{}, way, w.dribble)
	haste := min(1, model.AverageTempo/w.team(w.onBall).Plan.Tempo)
	fast := max(haste*w.par.CarrySpeed, open*carrying)
	w.stride = min(sure*fast, w.roomAhead(w.dribble))
}

// tight is how near an opponent is to a man whom he leaves no way forward, openGrass how far
// ahead the next one is to a man who has nothing but room in front of him, m; common practice,
// no source.
const (
	tight     = 3.0
	openGrass = 20.0
)

// setDribble sends the carrier towards at, at a speed that the room ahead allows.
func (w *world) setDribble(at r2.Vec) {
	c := w.carrier
	at = w.inside(at, 0.7)
	d := dist(w.pos[c], at)
	if d < 0.5 {
		w.dribble, w.stride = r2.Vec{}, 0
		return
	}
	w.dribble = towards(w.pos[c], at, w.face)
	w.stride = min(d/0.9, w.able[c].Value[model.Carrying], w.roomAhead(w.dribble))
}

// A man who stands in the way makes the carrier slow down, the more the nearer he is:
// to stopAt m/s at arm's length, by slowBy m/s for each metre nearer. Common practice,
// no source.
const (
	stopAt    = 0.5
	slowBy    = 0.8
	armLength = 1.5
)

// roomAhead is the speed at which the carrier dares to go in direction dir for the
// opponents who stand in his way, m/s.
func (w *world) roomAhead(dir r2.Vec) float64 {
	return stopAt + slowBy*max(w.ahead(dir)-armLength, 0)
}

// ahead is how far away the nearest opponent is who stands in the carrier's way in direction
// dir, m; infinite where there is none.
func (w *world) ahead(dir r2.Vec) float64 {
	const inTheWay = 0.8 // cosine: 37 degrees either side
	p, near := w.pos[w.carrier], math.Inf(1)
	for o := 11 * (1 - w.onBall); o < 11*(1-w.onBall)+11; o++ {
		x, y := w.pos[o].X-p.X, w.pos[o].Y-p.Y
		if d := math.Sqrt(x*x + y*y); d < near && x*dir.X+y*dir.Y > inTheWay*d && w.beaten[o] <= w.tick {
			near = d
		}
	}
	return near
}

func ticks(s float64) int { return int(math.Round(s / TickSeconds)) }

// keepDirections are the ways a carrier may take the ball, as turns from the
// direction of attack (rad): on, half left and right, square, back.
var keepDirections = [...]struct{ cos, sin float64 }{
	{1, 0}, {0.7071, 0.7071}, {0.7071, -0.7071}, {0, 1}, {0, -1}, {-0.7071, 0.7071}, {-0.7071, -0.7071},
}

// keepOptions adds standing on the ball and carrying it, as far as the opponents in the way let
// him. The chance of keeping it falls with the opponents who can be there first.
func (w *world) keepOptions() {
	p := w.pos[w.carrier]
	s := sign(w.onBall)
	speed := w.able[w.carrier].Value[model.Carrying]
	w.keep(p, 0, 0)
	for i, d := range keepDirections {
		dir := r2.Vec{X: s * d.cos, Y: s * d.sin}
		length := 0.9 * min(speed, w.roomAhead(dir))
		at := r2.Vec{X: p.X + length*dir.X, Y: p.Y + length*dir.Y}
		if length < 1 || at != w.inside(at, 1) {
			continue
		}
		w.keep(at, length, uint8(i)+1)
	}
}

// keep adds one way of keeping the ball. Every opponent who can be there before
// the next look puts it at risk.
func (w *world) keep(at r2.Vec, length float64, slot uint8) {
	margin, caught := 4.0, 0.0
	t := max(length/w.able[w.carrier].Value[model.Carrying], w.par.Look) + 0.2
	other := 11 * (1 - w.onBall)
	if w.inOwnArea(other) {
		// A keeper in his area needs no reaction: he has been waiting. He need only
		// come near enough to go down at the ball.
		margin = max(dist(w.pos[other], at)-claimRange, 0)/w.arrive[other] - t
		caught = (1 - freeChance(margin)) * w.claimed
	}
	free := 1.0
	for b := other + 1; b < other+11; b++ {
		m := w.arrival(b, at) - t
		free *= freeChance(m)
		margin = min(margin, m)
	}
	lost := w.lostInDuel
	if w.inTheirArea() {
		lost = w.lostInArea
	}
	chance := min((1-caught)*(1-(1-free)*lost), 0.998)
	o := w.opt.add()
	o.act, o.target, o.chance, o.slot = keepBall, at, chance, slot
	o.worth = w.worthAt(at, margin+0.4, false, false) * expTable.at(w.par.KeepTight*min(max(margin, -1), 0))
	o.score = w.value(o, chance, o.worth, at, w.par.Misjudge) + w.tilt(at) + w.strongSide(at) + w.par.KeepTaste
	if w.tick-w.since <= 1 {
		o.score -= w.par.FirstTime // he meant to play it first time
	}
	if late := float64(w.tick-w.since)*TickSeconds - w.team(w.onBall).Plan.Tempo; late > 0 {
		o.score -= w.par.Impatience * late
	}
	if length > 0 {
		// To turn takes time that a pressed man does not have.
		dir := towards(w.pos[w.carrier], at, w.face)
		if cos := dir.X*w.face.X + dir.Y*w.face.Y; cos < 0.3 {
			o.score -= (0.3 - cos) * (0.3 + 2.5*w.pressure)
		}
	}
}

// arrival is when opponent b can be at p, s: he is already on his way, so his
// reaction does not count.
func (w *world) arrival(b int, p r2.Vec) float64 {
	r := &w.opt.near[b]
	return r.timeTo(p.X, p.Y) - min(w.react[b], r.tau0)
}

// freeChance is the chance of not being challenged by an opponent who is margin
// seconds later at the place; assumed.
func freeChance(margin float64) float64 { return logisticTable.at(1.3 + 2.2*margin) }

// duelOdds sets what a carrier expects of an opponent who reaches him before he
// looks up again: challenges come at their rate, after each the opponent is out of it
// for a while, and those of average players end as they do. A ball knocked loose is
// anybody's.
func (w *world) duelOdds() {
	p := &w.par
	lost := func(rate float64) float64 {
		return 1 - math.Exp(-p.Look/(1/rate+p.BeatenFor/2)*(p.DuelWon+p.DuelLoose/2+p.FoulByAttack))
	}
	w.lostInDuel = lost(p.ChallengeRate)
	w.lostInArea = lost(p.AreaHaste * p.ChallengeRate)
	w.claimed = 1 - math.Exp(-claimRate*p.Look)
}

// strongSide is the ease of taking the ball to the side of the strong foot: a
// left-footer goes to his left with the ball away from the opponent.
func (w *world) strongSide(at r2.Vec) float64 {
	p := w.pos[w.carrier]
	d := dist(p, at)
	if d < 0.5 {
		return 0
	}
	left := sign(w.onBall) * (at.Y - p.Y) / d
	switch w.able[w.carrier].Foot {
	case model.LeftFoot:
		return w.par.StrongSide * left
	case model.RightFoot:
		return -w.par.StrongSide * left
	}
	return 0
}

// takeOnOption adds beating the opponent who stands in the way.
func (w *world) takeOnOption() {
	o := w.nearest
	if o == nobody || w.gapTo > 3 || o%11 == 0 || w.beaten[o] > w.tick {
		return
	}
	s := sign(w.onBall)
	p := w.pos[w.carrier]
	if s*(w.pos[o].X-p.X) < -0.5 || w.face.X*s < 0 {
		return
	}
	opt := w.opt.add()
	opt.act, opt.aim = takeOn, o
	opt.chance = w.takeOnChance(w.carrier, o)
	side := -math.Copysign(1, p.Y) // with two good feet, where there is more room
	switch w.able[w.carrier].Foot {
	case model.LeftFoot:
		side = s
	case model.RightFoot:
		side = -s
	}
	opt.target = w.inside(r2.Vec{X: w.pos[o].X + s*3, Y: w.pos[o].Y + side*2}, 1)
	// Whoever covers the beaten man may be there as soon as he is.
	margin, t := 1.5, dist(p, opt.target)/w.able[w.carrier].Value[model.Carrying]
	for b := 11 * (1 - w.onBall); b < 11*(1-w.onBall)+11; b++ {
		if b != o {
			margin = min(margin, w.arrival(b, opt.target)-t)
		}
	}
	opt.worth = w.worthAt(opt.target, margin, false, false)
	opt.score = w.value(opt, opt.chance, opt.worth, p, w.par.Misjudge) + w.tilt(opt.target)
}
