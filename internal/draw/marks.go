package draw

import (
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"
)

// PlayerRadius is that of a player's mark, px: 1.15 m to scale, but never too small
// for his number.
func (v View) PlayerRadius() float64 { return max(1.15*v.Scale, 8) }

// BallRadius is that of the ball's dot, px.
func (v View) BallRadius() float64 { return max(0.4*v.Scale, 3) }

// Player draws a player of the side on the ball (team 0: a filled circle) or of
// the block (team 1: a hollow square) with his shirt number.
func (s *Scene) Player(v View, team, number int, at r2.Vec) { s.PlayerMark(v, team, number, v.At(at)) }

// PlayerMark is Player with the place in the picture.
func (s *Scene) PlayerMark(v View, team, number int, c r2.Vec) {
	r := v.PlayerRadius()
	ink := Paper
	if team == 0 {
		s.Circle(c, r, Style{Fill: Side, Line: Paper, Width: 1})
	} else {
		ink = Block
		s.Rect(Around(c, 0.88*r, 0.88*r), Style{Fill: Paper, Line: Block, Width: 1.8})
	}
	s.Write(c, strconv.Itoa(number), Words{Ink: ink, Size: 1.12 * r, Bold: true, Anchor: Middle, Centre: true})
}

// BallMark draws the ball at a point of the picture: a dot in a ring.
func (s *Scene) BallMark(v View, c r2.Vec) {
	r := v.BallRadius()
	s.Circle(c, 1.75*r, Style{Fill: Paper, Line: Ball, Width: 1.1})
	s.Circle(c, r, Fill(Ball))
}

// BallAt draws the ball at a place on the pitch.
func (s *Scene) BallAt(v View, at r2.Vec) { s.BallMark(v, v.At(at)) }

// Ring draws the ring around a player that says: he presses (block: a second
// square), or look at him (side: a second circle).
func (s *Scene) Ring(v View, team int, c r2.Vec) {
	r := v.PlayerRadius()
	if team == 0 {
		s.Circle(c, r+3.5, Line(Side, 1.4))
		return
	}
	s.Rect(Around(c, 0.88*r+3.5, 0.88*r+3.5), Line(Block, 1.4))
}

// teamInk is the ink of a team.
func teamInk(team int) Ink { return [...]Ink{Side, Block}[team] }

// Pass draws a pass of a team: a solid arrow between two places.
func (s *Scene) Pass(v View, team int, from, to r2.Vec) {
	s.Arrow(v.At(from), v.At(to), 2, Line(teamInk(team), 1.8))
}

// Run draws a run: a dashed arrow.
func (s *Scene) Run(v View, team int, from, to r2.Vec) {
	s.Arrow(v.At(from), v.At(to), v.PlayerRadius(), Line(teamInk(team), 1.4, 5, 4))
}

// Carry draws a carry: a wavy arrow.
func (s *Scene) Carry(v View, team int, from, to r2.Vec) {
	s.Wave(v.At(from), v.At(to), 2, Line(teamInk(team), 1.5))
}
