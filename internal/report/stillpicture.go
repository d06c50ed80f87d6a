package report

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/sim"
)

// Sizes of a still's picture, px.
const (
	stillWide   = 1000.0 // lying
	stillUp     = 430.0  // upright, for a phone
	stillMargin = 14.0
)

// The chances at which the control surface is ruled, and how dark it is between them.
var (
	stillLevels = []float64{0.5, 0.8}
	stillTones  = []float64{0, 0.13, 0.30}
)

// leastArea of a patch of the surface that is drawn, cells.
const leastArea = 3.0

// Scene is the still as a picture: pitch, players, the best ball for each man, and the
// control surface as tone and contour lines; upright: the attack plays up.
func (s *Still) Scene(upright bool) *draw.Scene {
	width, size := stillWide, 15.0
	if upright {
		width, size = stillUp, 12.5
	}
	sc := &draw.Scene{W: width, ID: "still", Title: s.Title, Desc: s.description()}
	v := draw.NewView(s.run.Still.Scenario.Pitch, width, upright)
	y := stillMargin
	write := func(text string, w draw.Words, most int) {
		for _, line := range w.Wrap(text, width-2*stillMargin, most) {
			y += 1.3 * w.Size
			sc.Write(r2.Vec{X: stillMargin, Y: y}, line, w)
		}
	}
	write(s.Title, draw.Words{Size: 1.3 * size, Bold: true}, 2)
	for _, text := range s.Answer {
		write(text, draw.Words{Size: size}, 4)
	}
	v = v.Down(y)
	_, high := v.Size()
	sc.H = y + high // labels keep within what is drawn so far
	sc.Field(v)
	s.drawSurface(sc, v)
	sc.Markings(v)
	labels, taken := s.drawOptions(sc, v)
	s.drawMen(sc, v, labels, taken)
	y += high - stillMargin/2
	for _, text := range s.legend() {
		write(text, draw.Words{Size: 0.8 * size, Ink: draw.Pencil}, 5)
	}
	sc.H = y + stillMargin
	return sc
}

func (s *Still) legend() []string {
	return []string{
		"Circles: the side on the ball; squares: the block. Dashed arrow: who is running.",
		"Arrow: his best ball for each man, the thicker the more often he would choose it; curved: through the air; wavy: he carries it.",
		"Number: how many of 100 come off. Dotted: the opponent likeliest to cut it out (5 of 100 or more).",
		"Shaded: his side has 50 of 100 balls he plays there (broken line); darker: 80 of 100 (solid line). Small patches are left out.",
		"A model's estimate, to compare options with; see playout help limits.",
	}
}

// description is the picture in words.
func (s *Still) description() string {
	text := ""
	for _, a := range s.Answer {
		text += a + " "
	}
	for _, o := range s.best() {
		text += s.sentence(o) + ". "
	}
	return text
}

// drawSurface paints the control surface, largest patches first.
func (s *Still) drawSurface(sc *draw.Scene, v draw.View) {
	f := &s.run.Judgement.Surface
	at := func(i, k int) float64 { return f.Chance[i+k*f.Columns] }
	for _, c := range draw.Contours(f.Columns, f.Rows, at, stillLevels) {
		if c.Area < leastArea {
			continue
		}
		points := make([]r2.Vec, len(c.Points))
		first := f.At(0, 0)
		for i, p := range c.Points {
			points[i] = v.At(r2.Vec{X: first.X + p.X*f.Length, Y: first.Y + p.Y*f.Width})
		}
		band := c.Level + 1
		if c.Hole {
			band--
		}
		sc.Polygon(draw.Fill(draw.Grass), points...)
		if band > 0 {
			sc.Polygon(draw.Fill(draw.Side).Faded(stillTones[band]), points...)
		}
		line := draw.Line(draw.Side, 0.7)
		if c.Level == 0 {
			line = draw.Line(draw.Side, 0.7, 3, 2)
		}
		sc.Polygon(line.Faded(0.6), points...)
	}
}

// drawOptions draws the arrows and returns the numbers that belong to them, and the
// boxes that the arrows' ends take.
func (s *Still) drawOptions(sc *draw.Scene, v draw.View) (labels []draw.Label, taken []draw.Box) {
	from := r2.Vec{X: s.Ball.At[0], Y: s.Ball.At[1]}
	ball := s.ballMark(v)
	best := s.best()
	for i := len(best) - 1; i >= 0; i-- { // the likeliest on top
		o := best[i]
		to := r2.Vec{X: o.To[0], Y: o.To[1]}
		if o.Act == sim.ActKeep.String() && o.To == s.stands() {
			continue
		}
		line := draw.Line(draw.Text, 1+3*math.Sqrt(o.Share))
		if o.Share < 0.01 {
			line = line.Faded(0.7)
		}
		a, b := ball, v.At(to)
		stop := 2.0
		if o.Player != nil && s.feet(o) {
			stop = v.PlayerRadius() + 2
		}
		switch {
		case o.Act == sim.ActKeep.String() || o.Act == sim.ActTakeOn.String():
			sc.Wave(a, b, 2, line)
		case o.Flight != nil && *o.Flight != sim.Ground.String():
			s.cutLine(sc, v, o, from, to)
			a, b = curved(sc, a, b, stop, line)
		default:
			s.cutLine(sc, v, o, from, to)
			u := r2.Unit(r2.Sub(b, a))
			b = r2.Sub(b, r2.Scale(stop-2, u))
			sc.Arrow(a, b, 2, line)
		}
		if d := r2.Norm(r2.Sub(b, a)); d > 0 {
			for _, back := range []float64{3, 10, 17, 24, 31} {
				taken = append(taken, draw.Around(r2.Sub(b, r2.Scale(min(back, d)/d, r2.Sub(b, a))), 3, 3))
			}
		}
		labels = append([]draw.Label{{
			At: v.At(to), Text: short(o.Chance), Words: draw.Words{Size: 1.15 * v.PlayerRadius(), Bold: true, Halo: true}, Clear: stop + 1,
		}}, labels...)
	}
	return labels, taken
}

// ballMark is where the ball is drawn, px: in front of the carrier, clear of his number.
func (s *Still) ballMark(v draw.View) r2.Vec {
	at := s.stands()
	c := v.At(r2.Vec{X: at[0], Y: at[1]})
	ahead := v.At(r2.Vec{X: at[0] + s.Ball.Facing[0], Y: at[1] + s.Ball.Facing[1]})
	return r2.Add(c, r2.Scale(v.PlayerRadius()+4+v.BallRadius(), r2.Unit(r2.Sub(ahead, c))))
}

// short is chanceText for the pitch.
func short(p float64) string {
	text := strconv.FormatFloat(math.Round(100*p), 'f', 0, 64)
	if text == "100" && p < 1 {
		return "99"
	}
	return text
}

// feet reports whether a pass goes to where its man stands.
func (s *Still) feet(o *StillOption) bool {
	for _, p := range s.Attack {
		if p.Number == *o.Player {
			return math.Hypot(p.At[0]-o.To[0], p.At[1]-o.To[1]) < 1.5
		}
	}
	return false
}

// cutLine ties the opponent who is likeliest to have the ball to its way.
func (s *Still) cutLine(sc *draw.Scene, v draw.View, o *StillOption, from, to r2.Vec) {
	if o.Detail == nil {
		return
	}
	t := o.cutter()
	if t.Chance < 0.05 {
		return
	}
	for _, p := range s.Defence {
		if p.Number != t.Number {
			continue
		}
		at := r2.Vec{X: p.At[0], Y: p.At[1]}
		d := r2.Sub(to, from)
		along := min(max(r2.Dot(r2.Sub(at, from), d)/r2.Norm2(d), 0), 1)
		if *o.Flight != sim.Ground.String() {
			along = 1 // he waits where it comes down
		}
		sc.Path(draw.Line(draw.Block, 1.3, 1, 3.5), v.At(at), v.At(r2.Add(from, r2.Scale(along, d))))
	}
}

// curved draws a ball through the air, bent to its left, and returns its last piece.
func curved(sc *draw.Scene, a, b r2.Vec, stop float64, line draw.Style) (from, tip r2.Vec) {
	d := r2.Sub(b, a)
	mid := r2.Add(r2.Add(a, r2.Scale(0.5, d)), r2.Scale(0.14, r2.Vec{X: d.Y, Y: -d.X}))
	end := r2.Sub(b, r2.Scale(stop, r2.Unit(r2.Sub(b, mid))))
	const pieces = 24
	var points []r2.Vec
	for i := range pieces + 1 {
		t := float64(i) / pieces
		p := r2.Add(r2.Add(r2.Scale((1-t)*(1-t), a), r2.Scale(2*t*(1-t), mid)), r2.Scale(t*t, end))
		points = append(points, p)
	}
	last := len(points) - 3
	sc.Path(line, points[:last+1]...)
	sc.Arrow(points[last], end, 0, line)
	return points[last-8], end
}

// drawMen draws everybody, the ball, and the words.
func (s *Still) drawMen(sc *draw.Scene, v draw.View, labels []draw.Label, taken []draw.Box) {
	r := v.PlayerRadius()
	offside := false
	for t, list := range [][]StillPlayer{s.Attack, s.Defence} {
		for _, p := range list {
			at, vel := r2.Vec{X: p.At[0], Y: p.At[1]}, r2.Vec{X: p.Velocity[0], Y: p.Velocity[1]}
			if r2.Norm(vel) > 1 {
				sc.Run(v, t, at, r2.Add(at, vel))
				for _, ahead := range []float64{0.6, 0.8, 1} {
					taken = append(taken, draw.Around(v.At(r2.Add(at, r2.Scale(ahead, vel))), 4, 4))
				}
			}
			offside = offside || p.Offside
		}
	}
	if offside {
		half := v.Pitch.Width / 2
		x := max(s.LastLine, 0)
		sc.Path(draw.Line(draw.Pencil, 1.2, 6, 4), v.At(r2.Vec{X: x, Y: -half}), v.At(r2.Vec{X: x, Y: half}))
	}
	for t, list := range [][]StillPlayer{s.Defence, s.Attack} {
		for _, p := range list {
			c := v.At(r2.Vec{X: p.At[0], Y: p.At[1]})
			sc.PlayerMark(v, 1-t, p.Number, c)
			taken = append(taken, draw.Around(c, r, r))
			if p.Carrier {
				sc.Ring(v, 0, c)
			}
			if p.Offside {
				labels = append(labels, draw.Label{At: c, Text: "offside", Words: draw.Words{Size: r, Ink: draw.Block, Bold: true, Halo: true}, Clear: r + 1})
			}
		}
	}
	ball := s.ballMark(v)
	sc.BallMark(v, ball)
	taken = append(taken, draw.Around(ball, 2*v.BallRadius(), 2*v.BallRadius()))
	sc.Labels(labels, taken)
}
