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
	holder  [11]int // attacker who holds this defender: nobody else could take him; nobody
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
	w.def.centre = b.ShiftGain * ball.Y
	out := 1.0
	if regain {
		// They have just lost it: still up the pitch, out of shape, and after it.
		w.def.height = min(w.def.height+regainUp, w.halfL-1)
		w.def.stance, w.def.until = pressing, ticks(2*b.Press.Intensity*w.par.PressHold)
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
	w.stray[11*def] = w.strayed(11 * def)
	w.place(11*def, own(def, w.keeperPlace(def, ball)))
}

// lineHeight is where the last line wants to be for a ball u metres from the
// goal line it defends.
func (w *world) lineHeight(b *model.Block, u float64) float64 {
	return min(max(b.LineHeight+b.Follow*(u-w.halfL), 3), w.halfL-1)
}

// layOut places the slots for the present height and centre of the block.
func (w *world) layOut(def int) {
	b := &w.team(def).Block
	for i := 1; i < 11; i++ {
		s := &b.Slot[i]
		w.def.shape[i] = r2.Vec{
			X: -w.halfL + w.def.height + s.Depth*b.Length,
			Y: w.def.centre + s.Side*b.Width,
		}
	}
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
// them: a first-order response. The players' legs add to the time constant, so
// the command is quicker by that much.
func (w *world) shift(b *model.Block, ball r2.Vec) {
	const dt = blockEvery * TickSeconds
	d := &w.def
	tau := max(b.ShiftDelay-w.par.LegsLag, 0.15)
	v := (b.ShiftGain*ball.Y - d.centre) / tau
	v = min(max(v, -b.ShiftSpeed), b.ShiftSpeed)
	d.centre += v * dt

	want := w.lineHeight(b, w.halfL+ball.X)
	if w.state == held && w.pressure < 0.25 && w.face.X*sign(w.onBall) > 0.5 && w.halfL+ball.X-d.height < 32 {
		want -= 2.5 // free and facing forward: the line gives ground
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

// mark hands every attacker in reach to the defender whose slot is nearest, and
// notes which defenders an opponent holds.
func (w *world) mark(def int) {
	d := &w.def
	for i := range d.marks {
		d.marks[i], d.pinned[i], d.holder[i] = nobody, false, nobody
	}
	near := [11]float64{}
	reach := w.par.ZoneReach
	if d.stance == pressing {
		reach *= 1 + 0.5*w.par.PressLeash*w.team(def).Block.Press.Intensity
	}
	reach2 := reach * reach
	rows := &w.team(def).Block.Slot
	first := 11 * w.onBall
	taken := w.takeOutlets(def)
	for a := first + 1; a < first+11; a++ {
		if a == w.carrier {
			continue
		}
		p := own(def, w.pos[a])
		w.hold(def, a)
		if taken[a-first] {
			continue
		}
		best, who := reach2, 0
		for i := 1; i < 11; i++ {
			if 11*def+i == d.presser {
				continue
			}
			q := dist2(p, d.shape[i])
			if rows[i].Row == w.rows[def]-1 {
				q *= 0.4 // the first line looks furthest up the pitch
			}
			if q < best {
				best, who = q, i
			}
		}
		if who > 0 && (d.marks[who] == nobody || near[who] > 0 && best < near[who]) {
			d.marks[who], near[who] = a, best
		}
	}
}

// Whom a press takes man for man: the carrier's team-mates within outlet of the
// ball, each by a defender of the lines in front within takeWithin of him, m.
// Common practice, no source.
const (
	outlet     = 25.0
	takeWithin = 18.0
)

// takeOutlets gives the carrier's outlets to the nearest defenders of a press, the
// deepest outlet first; the last line stays. It reports which attackers are taken.
func (w *world) takeOutlets(def int) (taken [11]bool) {
	d := &w.def
	if d.stance != pressing {
		return taken
	}
	rows := &w.team(def).Block.Slot
	at := w.focus()
	first := 11 * w.onBall
	var seen [11]bool
	for {
		a, deepest := nobody, math.Inf(1)
		for o := first + 1; o < first+11; o++ {
			if x := own(w.onBall, w.pos[o]).X; o != w.carrier && !seen[o-first] && dist2(w.pos[o], at) < outlet*outlet && x < deepest {
				a, deepest = o, x
			}
		}
		if a == nobody {
			return taken
		}
		seen[a-first] = true
		if w.state == flying && a == w.fly.aim {
			continue
		}
		best, who := takeWithin*takeWithin, 0
		for i := 1; i < 11; i++ {
			b := 11*def + i
			if b == d.presser || rows[i].Row == 0 || d.marks[i] != nobody || w.beaten[b] > w.tick {
				continue
			}
			if q := dist2(w.pos[b], w.pos[a]); q < best {
				best, who = q, i
			}
		}
		if who > 0 {
			d.marks[who], taken[a-first] = a, true
		}
	}
}

// holdWithin is how near an opponent must be to hold a defender, m; a defender who
// is held slides across no further from him than the slack, from man to man to
// zonal, m. Common practice, no source.
const (
	holdWithin       = 6.0
	slackMan         = 2.0
	slackZonal       = 7.0
	levelWithTheBall = 2.0 // how far behind the ball an attacker may be and still hold somebody
)

// hold notes that attacker a, level with the ball or ahead of it, holds the
// defender who is nearest to him: nobody else is there to take him over. Of two
// the nearer holds him.
func (w *world) hold(def, a int) {
	p := w.pos[a]
	if own(def, p).X > own(def, w.ball).X+levelWithTheBall {
		return
	}
	best, who := holdWithin*holdWithin, 0
	for i := 1; i < 11; i++ {
		b := 11*def + i
		if b == w.def.presser {
			continue
		}
		if q := dist2(p, w.pos[b]); q < best {
			best, who = q, i
		}
	}
	if who == 0 {
		return
	}
	if h := w.def.holder[who]; h == nobody || best < dist2(w.pos[h], w.pos[11*def+who]) {
		w.def.holder[who] = a
	}
	w.def.pinned[who] = true
}

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
	if pr := d.presser; pr != nobody && pr != body {
		from := &block.Slot[pr%11]
		if from.Row == slot.Row {
			if gap := d.shape[pr%11].Y - d.shape[i].Y; math.Abs(gap) < 0.45*block.Width {
				p.Y += 0.3 * gap
				p.X -= 1
			}
		}
	}
	if a := d.marks[i]; a != nobody {
		p = w.tighten(def, i, p, own(def, w.pos[a]), block)
	}
	if a := d.holder[i]; a != nobody && slot.Row < w.rows[def]-1 {
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
	behind := p.X > ball.X-1 && slot.Row < w.rows[def]-1
	if behind {
		p.X = max(ball.X-1.5, -w.halfL+3) // back to the goal side of the ball
	}
	w.target[body] = w.inside(own(def, p), 0.5)
	w.cap[body] = w.effort(body) + 0.8
	if d := dist(w.pos[body], w.target[body]); d > 4 && (behind || slot.Row == 0) {
		w.cap[body] = min(w.par.RunSpeed, 2+0.7*d)
	}
}

// tighten draws a defender from his slot towards the goal side of the opponent
// he looks after: further the more he is loyal to the man and the nearer the
// play is to his goal.
func (w *world) tighten(def, i int, p, a r2.Vec, block *model.Block) r2.Vec {
	goal := r2.Vec{X: -w.halfL}
	to := towards(a, goal, r2.Vec{X: -1})
	at := r2.Vec{X: a.X + 1.5*to.X, Y: a.Y + 1.5*to.Y}
	deep := min(max((45-(a.X+w.halfL))/35, 0), 1)
	loyal := min(block.ManLoyalty+w.par.DeepTight*deep, 1)
	if behind := a.X - own(def, w.ball).X; behind > 0 && w.def.stance == compact {
		loyal *= max(1-behind/8, 0.2) // who is behind the ball threatens nothing yet
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
	if block.Slot[i].Row == 0 && dx > 0 {
		dx *= 0.5 // the last line does not follow far up the pitch
	}
	if n := math.Sqrt(dx*dx + dy*dy); n > leash {
		dx, dy = dx*leash/n, dy*leash/n
	}
	return r2.Vec{X: p.X + dx, Y: p.Y + dy}
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
	if a != nobody && w.runs[a].until > w.tick {
		run := own(def, w.pos[a]).X - 1
		return min(x, max(run-1, -w.halfL+3))
	}
	return min(max(x, line-3), line+2.5)
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

// chase sends the defender who is nearest to a loose ball after it.
func (w *world) chase(def int) {
	if w.state != flying || w.fly.pass && w.fly.winner != nobody || w.tick-w.fly.left < 3 {
		return
	}
	best, who := math.Inf(1), nobody
	for i := 1; i < 11; i++ {
		b := 11*def + i
		if w.beaten[b] > w.tick {
			continue
		}
		if d := dist2(w.pos[b], w.fly.where); d < best {
			best, who = d, b
		}
	}
	if who != nobody {
		w.target[who] = w.fly.where
		w.cap[who] = w.able[who].TopSpeed
	}
}
