package page

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/model"
	"playout/sim"
)

// Moment is a possession at the tick that decided it.
type Moment struct {
	Name, Title, Caption string
	Film                 *sim.Film
	Tick                 int
	Rival                int    // defender who decided it; below 0: nobody
	Meant                r2.Vec // where a pass that did not arrive was meant to go, as long as Missed
	Missed               bool
}

// How much of what came before a still shows, ticks of sim.TickSeconds.
const (
	pathFor  = 80 // the ball's way: 8 s
	trailFor = 15 // the players': 1.5 s
)

// still draws a moment: where everybody is, the ball's way to it, the way the players
// came.
func (m *Moment) still(sc *model.Scenario) Figure {
	f := Figure{Name: m.Name, Title: m.Title, Caption: m.Caption}
	at := min(max(m.Tick, 0), len(m.Film.Frames)-1)
	now := &m.Film.Frames[at]
	v, h := m.window(draw.NewView(sc.Pitch, sceneWidth, true), at)
	s := scene(m.Name, m.Title, "", sceneWidth, h)
	s.Field(v)
	s.Lanes(v)
	from := at
	for from > 0 && at-from < trailFor && !m.Film.Frames[from].Cut {
		from--
	}
	for t := range now.Players {
		for i := range now.Players[t] {
			s.Path(draw.Line([...]draw.Ink{draw.Side, draw.Block}[t], 1.6).Faded(0.45), v.At(m.Film.Frames[from].Players[t][i]), v.At(now.Players[t][i]))
		}
	}
	passes := m.way(s, v, at)
	if m.Missed && r2.Norm(r2.Sub(m.Meant, now.Ball)) > 4 {
		s.Path(draw.Line(draw.Side, 1.2, 1.5, 4), v.At(now.Ball), v.At(m.Meant))
	}
	var marks []mark
	who := -1
	for t := 1; t >= 0; t-- {
		for i, p := range now.Players[t] {
			if t == 1 && i == m.Rival {
				who = len(marks)
			}
			marks = append(marks, mark{t, sc.Teams[t].Players[i].Number, p})
		}
	}
	spread(marks, 2.05*v.PlayerRadius()/v.Scale)
	if who >= 0 {
		s.Ring(v, 1, v.At(marks[who].at))
	}
	for _, k := range marks {
		s.Player(v, k.team, k.number, k.at)
	}
	s.BallMark(v, beside(v, marks, v.At(now.Ball)))
	f.Desc = m.describe(sc, now, passes)
	s.Desc = f.Desc
	f.Scene = s
	return f
}

// window moves the view to the part of the pitch that the ball's way lies in, shown
// along the whole width.
func (m *Moment) window(v draw.View, at int) (draw.View, float64) {
	low, high := math.Inf(1), math.Inf(-1)
	for t := max(at-pathFor, 0); t <= at; t++ {
		x := m.Film.Frames[t].Ball.X
		low, high = math.Min(low, x), math.Max(high, x)
	}
	if m.Missed {
		low, high = math.Min(low, m.Meant.X), math.Max(high, m.Meant.X)
	}
	end := v.Pitch.Length/2 + draw.Margin
	top := math.Min(high+windowAhead, end) // x at the upper edge
	shown := math.Min(math.Max(windowLength, top-low+8), 2*end)
	top = math.Max(top, shown-end)
	return v.Down(-v.At(r2.Vec{X: top}).Y), shown * v.Scale
}

// How much of the pitch's length a still shows at least, and how much of it ahead of the
// ball, m.
const (
	windowLength = 66.0
	windowAhead  = 24.0
)

// beside is the free place nearest to the ball's where its mark covers no number.
func beside(v draw.View, marks []mark, c r2.Vec) r2.Vec {
	free := func(p r2.Vec) bool {
		for _, k := range marks {
			if r2.Norm(r2.Sub(p, v.At(k.at))) < v.PlayerRadius()+v.BallRadius() {
				return false
			}
		}
		return true
	}
	for off := 0.0; off <= 30; off++ {
		for turn := range 16 {
			sin, cos := math.Sincos(float64(turn) * math.Pi / 8)
			if p := (r2.Vec{X: c.X + off*cos, Y: c.Y - off*sin}); free(p) {
				return p
			}
		}
	}
	return c
}

// way draws the ball's way to the moment, passes as arrows and carries as waves, and
// says how many passes there were.
func (m *Moment) way(s *draw.Scene, v draw.View, at int) (passes int) {
	frames := m.Film.Frames
	first := max(at-pathFor, 0)
	for t := first; t < at; {
		end := t + 1
		same := func(k int) bool {
			return frames[k].Carrier == frames[t].Carrier && (frames[t].Carrier < 0 || frames[k].OnBall == frames[t].OnBall)
		}
		for end < at && same(end) && !frames[end].Cut {
			end++
		}
		a, b := frames[max(t-1, first)].Ball, frames[end].Ball
		if frames[t].Carrier >= 0 {
			a, b = frames[t].Ball, frames[end-1].Ball
		}
		fade := 0.35 + 0.65*float64(end-first)/float64(at-first)
		far := r2.Norm(r2.Sub(b, a))
		switch {
		case frames[end].Cut:
		case frames[t].Carrier < 0 && far > 2:
			s.Arrow(v.At(a), v.At(b), 2, draw.Line(draw.Text, 1.8).Faded(fade))
			passes++
		case frames[t].Carrier >= 0 && far > 3:
			s.Wave(v.At(a), v.At(b), 2, draw.Line(draw.Text, 1.3).Faded(fade))
		}
		t = end
	}
	return passes
}

// describe says the still in words.
func (m *Moment) describe(sc *model.Scenario, now *sim.Frame, passes int) string {
	text := fmt.Sprintf("The ball is %.0f m from the goal line it is to be brought to, in the lane %s, %.1f s after the start and after %d passes in the last %d s",
		sc.Pitch.Length/2-now.Ball.X, laneName(model.LaneOf(now.Ball.Y)), float64(now.Tick)*sim.TickSeconds, passes, pathFor/10)
	if m.Rival >= 0 {
		text += fmt.Sprintf("; number %d of the block, ringed, decides it", sc.Teams[model.Defence].Players[m.Rival].Number)
	}
	return text + "."
}
