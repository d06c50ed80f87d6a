package replay

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/sim"
)

// inkOf is the ink of a team: that of the side that started, and that of the block.
func inkOf(team int) draw.Ink { return [...]draw.Ink{draw.Side, draw.Block}[team] }

// legTicks is how far back the ways of the ball are drawn: those that ended in the
// last 4 s.
const legTicks = 40

// drawLeg draws a way of the ball.
func drawLeg(s *draw.Scene, v draw.View, l *leg, opacity float64) {
	a, b, ink := v.At(l.from), v.At(l.to), inkOf(l.team)
	switch l.kind {
	case played:
		s.Arrow(a, b, 2, draw.Line(ink, 2).Faded(opacity))
	case carried:
		s.Wave(a, b, 1, draw.Line(ink, 1.6).Faded(opacity))
	case running:
		s.Arrow(a, b, 2, draw.Line(draw.Pencil, 1.4, 7, 4).Faded(opacity))
	}
}

// trailTicks is how far back the trails of the players reach: 2 s.
const trailTicks = 20

func trailStyle(team int) draw.Style { return draw.Line(inkOf(team), 1.2, 1, 3).Faded(0.7) }

// drawTrails draws where everybody has come from in the last 2 s.
func (st *Story) drawTrails(s *draw.Scene, v draw.View, frame int) {
	from := frame
	for from > 0 && frame-from < trailTicks && !st.Reel[from].Cut {
		from--
	}
	for team := range 2 {
		for i := range 11 {
			var way []r2.Vec
			for f := from; f <= frame; f += 2 {
				way = append(way, v.At(st.Reel[f].Players[team][i]))
			}
			if len(way) > 1 && r2.Norm(r2.Sub(way[0], way[len(way)-1])) > v.PlayerRadius() {
				s.Path(trailStyle(team), way...)
			}
		}
	}
}

// drawPlayers draws everybody and the ball at a frame, with a ring around the
// presser.
func (st *Story) drawPlayers(s *draw.Scene, v draw.View, frame int) {
	f := &st.Reel[frame]
	order := []int{1, 0}
	if f.OnBall == 1 {
		order = []int{0, 1} // the side on the ball on top
	}
	for _, team := range order {
		for i, p := range st.Scenario.Teams[team].Players {
			c := v.At(f.Players[team][i])
			if team != f.OnBall && i == f.Presser {
				s.Ring(v, team, c)
			}
			s.PlayerMark(v, team, p.Number, c)
		}
	}
	s.BallMark(v, ballMark(v, f))
}

// marks are the boxes that the players and the ball take at a frame.
func (st *Story) marks(v draw.View, frame int) []draw.Box {
	f := &st.Reel[frame]
	r := v.PlayerRadius()
	taken := []draw.Box{draw.Around(ballMark(v, f), 0.7*r, 0.7*r)}
	for team := range 2 {
		for _, p := range f.Players[team] {
			taken = append(taken, draw.Around(v.At(p), r, r))
		}
	}
	return taken
}

// ballMark is where the ball is drawn: beside the number of the man at whose feet
// it is.
func ballMark(v draw.View, f *sim.Frame) r2.Vec {
	c := v.At(f.Ball)
	if atFeet(f) {
		c = r2.Add(c, beside(v))
	}
	return c
}

// atFeet reports whether somebody has the ball, or stands so near that its mark
// would hide his number.
func atFeet(f *sim.Frame) bool {
	if f.Carrier >= 0 {
		return true
	}
	for team := range f.Players {
		for _, p := range f.Players[team] {
			if r2.Norm(r2.Sub(p, f.Ball)) < 0.8 {
				return true
			}
		}
	}
	return false
}

// beside is how far from its place the mark of a ball at somebody's feet is drawn,
// px.
func beside(v draw.View) r2.Vec {
	r := 0.95 * v.PlayerRadius()
	return r2.Vec{X: r, Y: r}
}

// drawLeft draws the passes forward that a step left out.
func drawLeft(s *draw.Scene, v draw.View, e *Step) {
	for _, o := range e.Left {
		s.Arrow(v.At(e.From), v.At(o.To), v.PlayerRadius(), draw.Line(draw.Pencil, 1.2, 2, 4))
	}
}

// leftChances are the labels of the passes that a step left out.
func leftChances(v draw.View, e *Step) (labels []draw.Label) {
	for _, o := range e.Left {
		labels = append(labels, label(v, r2.Add(e.From, r2.Scale(0.6, r2.Sub(o.To, e.From))), o.Chance, draw.Pencil))
	}
	return labels
}

// letter sets the chances of all ways of the ball and of all passes that were left,
// each in a group of its own: those of the ways so that they may all be seen at
// once, those that were left so that each step's may be seen with them.
func (st *Story) letter(s *draw.Scene, v draw.View, legs []leg, way, left func(i int) draw.Group) {
	var taken []draw.Box
	for i := range legs {
		s.Begin(way(i))
		_, boxes := s.Labels(st.chances(v, &legs[i]), append(st.marks(v, legs[i].begins), taken...))
		s.End()
		taken = append(taken, boxes...)
	}
	for i := range st.Steps {
		if e := &st.Steps[i]; len(e.Left) > 0 {
			s.Begin(left(i))
			s.Labels(leftChances(v, e), append(st.marks(v, e.Frame), taken...))
			s.End()
		}
	}
}

// leftFrames are the frames at which the passes that step i left are shown: a second
// or so, but not together with those of another step.
func (st *Story) leftFrames(i int) (from, until int) {
	from, until = st.Steps[i].Frame-3, st.Steps[i].Frame+9
	for j := i + 1; j < len(st.Steps); j++ {
		if len(st.Steps[j].Left) > 0 {
			return from, max(min(until, st.Steps[j].Frame-3), from)
		}
	}
	return from, until
}

// label writes a chance beside a place.
func label(v draw.View, at r2.Vec, chance float64, ink draw.Ink) draw.Label {
	return draw.Label{At: v.At(at), Text: fmt.Sprintf("%.0f%%", 100*chance), Clear: 5,
		Words: draw.Words{Ink: ink, Size: max(1.3*v.Scale, 10.5), Bold: ink != draw.Pencil, Halo: true}}
}

// chances are the labels of a leg that was chosen with a chance.
func (st *Story) chances(v draw.View, l *leg) []draw.Label {
	e := &st.Steps[l.step]
	if e.Kind != sim.EventPass {
		return nil
	}
	return []draw.Label{label(v, r2.Scale(0.5, r2.Add(l.from, l.to)), e.Chance, inkOf(l.team))}
}

// Panel is the picture of one step: everybody where he stood, where he had come
// from, what was done and which passes forward were left. ID is unique in a page.
func (st *Story) Panel(step int, width float64, up bool, id string) *draw.Scene {
	e := &st.Steps[step]
	v := draw.NewView(st.Scenario.Pitch, width, up)
	w, h := v.Size()
	words := draw.Words{Size: 14}
	clock := draw.Words{Size: 14, Bold: true}
	stamp := fmt.Sprintf("%.1f s", e.Seconds())
	indent := clock.Width("00.0 s") + 12
	what := e.What
	if n := step + 1; (e.Kind == sim.EventEnd || e.Kind == sim.EventShot) && n < len(st.Steps) {
		what += " " + st.Steps[n].What // who has it now, or whether it went in
	}
	lines := words.Wrap(what, w-indent-2*draw.Margin*v.Scale, 3)
	head := 19*float64(max(len(lines), 2)) + 4
	s := &draw.Scene{W: w, H: h + head, ID: id, Title: stamp + ": " + e.What, Desc: e.Place}
	s.Write(r2.Vec{X: draw.Margin * v.Scale, Y: 22}, stamp, clock)
	for i, line := range lines {
		s.Write(r2.Vec{X: draw.Margin*v.Scale + indent, Y: 22 + 19*float64(i)}, line, words)
	}
	v = v.Down(head)
	s.Field(v)
	st.drawTrails(s, v, e.Frame)
	drawLeft(s, v, e)
	labels := leftChances(v, e)
	past := 0.35 // how strongly the ways are drawn by which the ball came here
	if e.Kind == sim.EventEnd {
		past = 0.8
	}
	for _, l := range st.legs() {
		switch {
		case l.step == step:
			drawLeg(s, v, &l, 1)
			labels = append(st.chances(v, &l), labels...)
		case l.ends <= e.Frame && l.ends > e.Frame-legTicks:
			drawLeg(s, v, &l, past)
		}
	}
	if e.Kind == sim.EventJump {
		s.Run(v, e.Team, e.From, e.To)
	}
	st.drawPlayers(s, v, e.Frame)
	s.Labels(labels, st.marks(v, e.Frame))
	return s
}
