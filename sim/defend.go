package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// stance is what the block as a whole is doing.
type stance uint8

const (
	compact stance = iota
	pressing
)

// defence is the state of the block without the ball, in its own frame: u is
// the distance from the goal line it defends, v its lateral place.
type defence struct {
	height  float64 // of the last line, m
	centre  float64 // lateral middle of the block, m
	stance  stance
	until   int        // tick at which a press dies down
	presser int        // body that goes to the carrier; nobody
	second  int        // body that covers him or, in a press, closes the nearest way out
	marks   [11]int    // attacker each defender looks after; nobody
	shape   [11]r2.Vec // where each slot is, own frame (x from the centre spot)
	pinned  [11]bool
	holds   [11]int // attacker who holds each defender where he is; nobody
}

// ball as the block sees it: late.
func (w *world) seenBall() r2.Vec {
	late := ticks(w.par.SeeDelay)
	if w.state == flying && w.tick-w.fly.left > late {
		// They read where it is going.
		b, f := w.ball, w.fly.where
		return r2.Vec{X: (b.X + f.X) / 2, Y: (b.Y + f.Y) / 2}
	}
	return w.seen[(w.tick-late+8)&7]
}

// resetBlock puts the block in its shape for the ball where it is.
func (w *world) resetBlock(def int, regain bool) {
	w.def.presser, w.def.second = nobody, nobody
	ball := own(def, w.ball)
	b := &w.team(def).Block
	w.def.height = w.lineHeight(b, w.halfL+ball.X)
	w.def.centre = w.follows(b) * ball.Y
	out := 1.0
	if regain {
		// They have just lost it: still up the pitch, out of shape, and after it.
		w.def.height = min(w.def.height+regainUp, w.halfL-1)
		w.counterPress(b)
		out = regainStray
	}
	w.layOut(def)
	for i := 1; i < 11; i++ {
		body := 11*def + i
		stray := w.strayed(body)
		w.stray[body] = r2.Vec{X: out * stray.X, Y: out * stray.Y}
		w.place(body, own(def, w.def.shape[i]))
		w.stray[body] = stray
	}
	if regain {
		w.gather(def)
	}
	w.stray[11*def] = w.strayed(11 * def)
	w.place(11*def, own(def, w.keeperPlace(def, ball)))
}

// Where the two nearest opponents are when a ball has just been won, m: this near
// at least, and this much further by a half-normal draw. The first is then 2.7 m away
// in the median: in chaotic play it is 3.3, q25-q75 2.1-4.6 m (movement tables), and
// the moment of winning is its closest. The second is assumed.
var gathered = [2][2]float64{{1.2, 2.2}, {3, 3.5}}

// gather brings the two nearest of the team that has just lost the ball to it.
func (w *world) gather(def int) {
	first := nobody
	for _, g := range gathered {
		best, who := math.Inf(1), nobody
		for b := 11*def + 1; b < 11*def+11; b++ {
			if d := dist2(w.pos[b], w.ball); b != first && d < best {
				best, who = d, b
			}
		}
		d := g[0] + g[1]*math.Abs(w.setup.NormFloat64())
		if to := towards(w.ball, w.pos[who], r2.Vec{X: sign(w.onBall)}); d < math.Sqrt(best) {
			w.pos[who] = w.inside(r2.Vec{X: w.ball.X + d*to.X, Y: w.ball.Y + d*to.Y}, 0.5)
			w.target[who] = w.pos[who]
		}
		first = who
	}
}

// counterPress sends the block after a ball it has just lost, for as long as its
// intensity says.
func (w *world) counterPress(b *model.Block) {
	w.def.stance, w.def.until = pressing, w.tick+ticks(2*b.Press.Intensity*w.par.CounterPress)
}

// nearGoal is the ball's distance from the goal line at which every block stands alike,
// m; common practice, no source.
const nearGoal = 20.0

// lineHeight is where the last line wants to be for a ball u metres from the goal
// line it defends. However high a block stands in midfield, the nearer the ball comes
// to its goal the less higher than the average block it is.
func (w *world) lineHeight(b *model.Block, u float64) float64 {
	h := b.LineHeight + b.Follow*(u-w.halfL)
	if usual := model.AverageLineHeight + model.AverageFollow*(u-w.halfL); h > usual {
		h = usual + (h-usual)*min(max((u-nearGoal)/(w.halfL-nearGoal), 0), 1)
	}
	return min(max(h, 3), w.halfL-1)
}

// layOut places the slots for the present height and centre of the block.
func (w *world) layOut(def int) {
	b := &w.team(def).Block
	near := squeeze(w.def.height)
	for i := 1; i < 11; i++ {
		s := &b.Slot[i]
		depth := s.Depth
		if s.Row > 0 && s.Row < w.rows[def]-1 {
			depth *= near
		}
		w.def.shape[i] = r2.Vec{
			X: -w.halfL + w.def.height + depth*b.Length,
			Y: w.def.centre + s.Side*b.Width,
		}
	}
}

// squeeze is how near the midfield stands to a last line at the given height, as
// a share of the usual gap: a deep block is short. Source: movement tables (one
// optical match), gap of 8.8, 12.3 and 13.6 m with the ball in the defended, the
// middle and the far third, where the line stands at about 14.5, 31 and 46 m.
func squeeze(height float64) float64 {
	return max(min(0.437+0.0167*height, 0.83+0.0045*height), 0.5)
}

// blockEvery is how often the block looks about itself, in ticks.
const blockEvery = 2

// moveBlock shifts the block with the ball, decides whether to press and who
// goes, and gives every defender his place.
func (w *world) moveBlock() {
	if w.tick%blockEvery != 0 {
		return
	}
	def := 1 - w.onBall
	b := &w.team(def).Block
	ball := own(def, w.seenBall())
	w.shift(b, ball)
	w.layOut(def)
	w.mark(def)
	w.takeStance(b)
	w.choosePresser(def, b)
	for i := 1; i < 11; i++ {
		body := 11*def + i
		if w.beaten[body] > w.tick {
			continue
		}
		switch body {
		case w.def.presser:
			w.confront(body)
		case w.def.second:
			if w.halfL+ball.X < coverWithin {
				w.cover(body)
			} else {
				w.closeOut(body)
			}
		default:
			w.holdSlot(def, i, ball)
		}
	}
	keeper := 11 * def
	w.target[keeper] = own(def, w.keeperPlace(def, ball))
	w.cap[keeper] = 5
	w.chase(def)
}

// shift moves height and centre of the block towards where the ball asks for
// them: a first-order response. The players' legs add to the time constant and those
// who go to the ball to the gain, so the command is quicker and smaller by that much.
func (w *world) shift(b *model.Block, ball r2.Vec) {
	const dt = blockEvery * TickSeconds
	d := &w.def
	tau := max(b.ShiftDelay-w.par.LegsLag, 0.15)
	v := (w.follows(b)*ball.Y - d.centre) / tau
	v = min(max(v, -b.ShiftSpeed), b.ShiftSpeed)
	d.centre += v * dt

	want := w.lineHeight(b, w.halfL+ball.X)
	if w.state == held && w.pressure < 0.25 && w.face.X*sign(w.onBall) > 0.5 && w.halfL+ball.X-d.height < 32 {
		want -= w.par.GiveGround // free and facing forward
	}
	if w.goingBack() {
		want = min(want+w.par.StepUp, w.halfL-1)
	}
	if d.stance == pressing {
		// All step up behind a press, the less the nearer the ball is to goal.
		far := min(max((w.halfL+ball.X-30)/30, 0), 1)
		want = min(want+w.par.PressUp*b.Press.Intensity*far, w.halfL-1)
	}
	lag := w.par.LineLag
	if want < d.height {
		lag = w.par.LineFall
	}
	u := (want - d.height) / max(lag, dt)
	d.height += min(max(u, -w.par.LineDrop), w.par.LineUp) * dt
}

// follows is the share of the ball's lateral offset that the slots follow; those who go
// to the ball add the rest of the block's gain.
func (w *world) follows(b *model.Block) float64 { return max(b.ShiftGain-w.par.PullGain, 0) }

// stepBack is how far a ball must travel away from the goal for the block to
// step up behind it, m; as in the table of line speeds (movement tables).
const stepBack = 5.0

// goingBack reports whether the ball is played away from the goal the block
// defends, or held by a man who faces his own.
func (w *world) goingBack() bool {
	s := sign(w.onBall)
	if w.state == held {
		return w.face.X*s < -0.3
	}
	return w.fly.pass && s*(w.fly.flight.Origin.X-w.fly.where.X) > stepBack
}

// backSpeed is the fastest that men who are out of place run back while enough are behind
// the ball, m/s: the mean speed of a recovery run is 6.2 at q90 (movement tables), and its
// fastest moment, by judgement, a tenth more.
const backSpeed = 6.8

// goalSideBy is how far goal-side of the ball all but the first line want to be,
// m; common practice, no source.
const goalSideBy = 4.0

// holdSlot gives defender i his place: his slot, drawn towards the opponent he
// looks after, towards the gap a pressing neighbour has left, and goal-side of
// the ball.
func (w *world) holdSlot(def, i int, ball r2.Vec) {
	d := &w.def
	block := &w.team(def).Block
	body := 11*def + i
	p := d.shape[i]
	p.X += w.stray[body].X
	p.Y += w.stray[body].Y
	slot := &block.Slot[i]
	if slot.Row > 0 && slot.Row < w.rows[def]-1 {
		// The lines between go along with a first line that steps up to the ball, by the
		// depth of their slots.
		first := d.height + block.Length - w.halfL
		p.X += w.par.GoAlong * slot.Depth * (w.firstLine(block, first, ball.X) - first)
	}
	if pr := d.presser; pr != nobody && pr != body {
		from := &block.Slot[pr%11]
		if from.Row == slot.Row {
			if gap := d.shape[pr%11].Y - d.shape[i].Y; math.Abs(gap) < 0.45*block.Width {
				slide := 0.3
				if d.pinned[i] {
					slide *= 1 - block.ManLoyalty // he has a man of his own to mind
				}
				p.Y += slide * gap
				p.X -= 1
			}
		}
	}
	if a := d.marks[i]; a != nobody {
		p = w.tighten(def, i, p, own(def, w.pos[a]), block)
	}
	if a := d.holds[i]; a != nobody && slot.Row < w.rows[def]-1 {
		// He does not slide away from a man whom nobody else could take.
		y, slack := own(def, w.pos[a]).Y, slackZonal+(slackMan-slackZonal)*block.ManLoyalty
		p.Y = min(max(p.Y, y-slack), y+slack)
	}
	switch slot.Row {
	case 0:
		p.X = w.lastLine(def, i, p.X)
	case w.rows[def] - 1:
		p.X = w.firstLine(block, p.X, ball.X)
	}
	behind := p.X > ball.X-goalSideBy && slot.Row < w.rows[def]-1
	if behind {
		p.X = max(ball.X-goalSideBy, -w.halfL+3) // back to the goal side of the ball
	}
	if slot.Row < w.rows[def]-1 && w.passedBy(body, own(def, ball)) {
		w.recover(body, ball, p.Y)
		return
	}
	w.target[body] = w.inside(own(def, p), 0.5)
	w.cap[body] = w.effort(body) + 0.8
	if behind || slot.Row == 0 {
		w.hurry(body)
	}
}

// hurry lets a body that is more than 3 m from his place run there, up to backSpeed.
func (w *world) hurry(b int) {
	if d := dist(w.pos[b], w.target[b]); d > 3 {
		w.cap[b] = max(w.cap[b], min(backSpeed, 1.5+0.55*d))
	}
}

// fewBehind is how far a block must be beaten, 0 to 1, for those whom the ball has
// passed to sprint: two men fewer than usual are left goal-side of it. Common
// practice, no source.
const fewBehind = 0.5

// passedBy reports whether the ball at at has passed defender b and few are left
// behind it.
func (w *world) passedBy(b int, at r2.Vec) bool {
	def := teamOf(b)
	return w.att.open >= fewBehind && own(def, w.pos[b]).X > own(def, at).X
}

// recover sends a defender whom a ball at ball has passed back to the goal side of it: to where
// he belongs across the pitch, at y, but no wider than the penalty area, and so far ahead as the
// ball is carried before he is there. Own frame. To stop the ball is for those who go to it.
func (w *world) recover(body int, ball r2.Vec, y float64) {
	def := teamOf(body)
	from := own(def, w.pos[body])
	pace := 0.0 // of the ball towards the goal line, m/s
	if w.state == held {
		pace = max(-own(def, w.vel[w.carrier]).X, 0)
	}
	far := ball.X + w.halfL
	most := max(far-model.GoalAreaDepth, far/2)
	at := r2.Vec{Y: clamp(y, -model.PenaltyAreaWidth/2, model.PenaltyAreaWidth/2)}
	lead := min(goalSideBy, most)
	for range 2 { // the place moves with the time he needs to it
		at.X = ball.X - lead
		lead = min(goalSideBy+pace*dist(from, at)/backSpeed, most)
	}
	at.X = ball.X - lead
	w.target[body] = w.inside(own(def, at), 0.5)
	w.cap[body] = backSpeed
}

// firstLine brings the foremost players up to the ball, as far as the line of
// engagement lets them and no further than leash from their slots.
func (w *world) firstLine(b *model.Block, x, ball float64) float64 {
	const leash = 10
	far := ball - w.par.FirstLineOff - w.par.ShowOff*max(w.halfL+ball-b.Press.Height, 0)
	return min(max(x, far), x+leash)
}

// lastLine keeps a defender of the last line in line, unless the man he looks
// after is running in behind: then he goes with him.
func (w *world) lastLine(def, i int, x float64) float64 {
	a := w.def.marks[i]
	line := -w.halfL + w.def.height
	slack := 1.5
	switch {
	case w.goingBack():
		slack = 0.5 // up together: who stays behind plays them onside
	case a != nobody && w.runs[a].until > w.tick:
		run := own(def, w.pos[a]).X - 1
		return min(x, max(run-1, -w.halfL+3))
	}
	out := 2.5
	if a != nobody && w.inRange(w.pos[a]) {
		out += w.par.StepOut
	}
	return min(max(x, line-slack), line+out)
}

// rushWithin is how near a free carrier must be for the keeper to come at him,
// m; common practice, no source.
const rushWithin = 17.0

// keeperPlace is between ball and goal, further out the higher the last line.
func (w *world) keeperPlace(def int, ball r2.Vec) r2.Vec {
	k := 11 * def
	out := 2 + w.able[k].Value[model.Sweeping]*max(w.def.height-8, 0)
	goal := r2.Vec{X: -w.halfL}
	d := towards(goal, ball, r2.Vec{X: 1})
	far := dist(goal, ball)
	out = min(out, 0.5*far)
	if w.state == held && far < rushWithin && w.pressure < 0.75 {
		out = 0.75 * far // nobody else is on him: the keeper closes the angle
	}
	return r2.Vec{X: goal.X + out*d.X, Y: out * d.Y * 0.8}
}

// chase sends the defender who is nearest to it after a loose ball, and to where a
// ball through the air comes down when he can be there with it.
func (w *world) chase(def int) {
	if w.state != flying || w.tick-w.fly.left < 3 {
		return
	}
	f := &w.fly
	if f.pass && f.winner != nobody && f.flight.Kind == Ground {
		return
	}
	best, who := math.Inf(1), nobody
	for i := 1; i < 11; i++ {
		b := 11*def + i
		if w.beaten[b] > w.tick {
			continue
		}
		if d := dist2(w.pos[b], f.where); d < best {
			best, who = d, b
		}
	}
	if who == nobody {
		return
	}
	if f.pass && f.winner != nobody {
		left := f.when - float64(w.tick-f.left)*TickSeconds
		if math.Sqrt(best) > w.arrive[who]*(left+lateDuel) {
			return // he waits for what comes of it
		}
	}
	w.target[who] = f.where
	w.cap[who] = w.able[who].TopSpeed
}

// lateDuel is how late a defender still goes for a ball in the air, s; common
// practice, no source.
const lateDuel = 0.3
