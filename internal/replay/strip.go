package replay

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/sim"
)

// moments is how many panels a strip has at most.
const moments = 6

// Key lists the steps that tell the possession best, in order: how it began, how
// it ended, and between them the actions that moved or risked most.
func (st *Story) Key() []int {
	weight := func(s *Step) float64 {
		switch s.Kind {
		case sim.EventShot:
			return 100
		case sim.EventPass, sim.EventTakeOn:
			return math.Abs(s.To.X-s.From.X)/10 + 3*(1-s.Chance) + 0.3*float64(len(s.Left))
		case sim.EventDuel:
			return 1
		}
		return 0
	}
	var keys []int
	first, end := -1, -1
	for i := range st.Steps {
		s := &st.Steps[i]
		switch {
		case s.Kind == sim.EventEnd:
			end = i
		case weight(s) > 0 && first < 0:
			first = i
		case weight(s) > 0 && (end < 0 || s.Kind == sim.EventShot): // of the opponent's attack only its shot
			keys = append(keys, i)
		}
	}
	slices.SortStableFunc(keys, func(a, b int) int {
		if wa, wb := weight(&st.Steps[a]), weight(&st.Steps[b]); wa > wb {
			return -1
		} else if wa < wb {
			return 1
		}
		return 0
	})
	var fixed []int
	if !st.Film.Possession.Shot { // a shot tells its end itself
		fixed = append(fixed, end)
	}
	if first < 0 || end >= 0 && first > end {
		keys = append(keys, 0) // no action: at least how it stood
	}
	if first >= 0 {
		fixed = append(fixed, first)
	}
	keys = append(fixed, keys[:min(len(keys), moments-len(fixed))]...)
	slices.Sort(keys)
	return keys
}

// Strip is the key moments side by side, for a slide.
func (st *Story) Strip() *draw.Scene {
	const wide, between, across = 640.0, 24.0, 2
	keys := st.Key()
	heading, words := draw.Words{Size: 22, Bold: true}, draw.Words{Size: 15}
	columns := min(across, len(keys))
	w := float64(columns)*wide + float64(columns+1)*between
	s := &draw.Scene{W: w, ID: "strip", Title: st.Title, Desc: st.Alternative()}
	s.Write(r2.Vec{X: between, Y: 42}, heading.Fit(st.Title, w-2*between), heading)
	y := 66.0
	for _, line := range st.Headline() {
		s.Write(r2.Vec{X: between, Y: y}, words.Fit(line, w-2*between), words)
		y += 21
	}
	for row := 0; row < len(keys); row += columns {
		tall := 0.0
		for i, key := range keys[row:min(row+columns, len(keys))] {
			p := st.Panel(key, wide, false, "")
			s.Put(p, r2.Vec{X: between + float64(i)*(wide+between), Y: y})
			tall = max(tall, p.H)
		}
		y += tall + 8
	}
	y += st.legend(s, r2.Vec{X: between, Y: y + 10}, w-2*between)
	small := draw.Words{Size: 12, Ink: draw.Pencil}
	s.Write(r2.Vec{X: between, Y: y + 24}, small.Fit(st.Facts()+" "+caution, w-2*between), small)
	s.H = y + 40
	return s
}

// legend explains the marks in lines of at most a width and returns their height.
func (st *Story) legend(s *draw.Scene, at r2.Vec, width float64) float64 {
	v := draw.View{Scale: 7}
	words := draw.Words{Size: 13}
	start := at.X
	line := 0.0
	entry := func(mark float64, text string, drawMark func(c r2.Vec)) {
		need := mark + 8 + words.Width(text) + 22
		if at.X+need > start+width && at.X > start {
			at.X = start
			line += 26
		}
		c := r2.Vec{X: at.X + mark/2, Y: at.Y + line}
		drawMark(c)
		s.Write(r2.Vec{X: at.X + mark + 8, Y: c.Y}, text, draw.Words{Size: 13, Centre: true})
		at.X += need
	}
	ends := func(c r2.Vec) (a, b r2.Vec) { return r2.Vec{X: c.X - 16, Y: c.Y}, r2.Vec{X: c.X + 16, Y: c.Y} }
	entry(18, st.team(0)+" (starts with the ball)", func(c r2.Vec) { s.PlayerMark(v, 0, 8, c) })
	entry(18, st.team(1), func(c r2.Vec) { s.PlayerMark(v, 1, 8, c) })
	entry(26, "presses", func(c r2.Vec) { s.Ring(v, 1, c); s.PlayerMark(v, 1, 8, c) })
	entry(14, "ball", func(c r2.Vec) { s.BallMark(v, c) })
	entry(32, "pass, with its chance when chosen", func(c r2.Vec) { a, b := ends(c); s.Arrow(a, b, 0, draw.Line(draw.Side, 2)) })
	entry(32, "carry", func(c r2.Vec) { a, b := ends(c); s.Wave(a, b, 0, draw.Line(draw.Side, 1.6)) })
	entry(32, "open pass forward that was left", func(c r2.Vec) { a, b := ends(c); s.Arrow(a, b, 0, draw.Line(draw.Pencil, 1.2, 2, 4)) })
	entry(32, "loose ball", func(c r2.Vec) { a, b := ends(c); s.Arrow(a, b, 0, draw.Line(draw.Pencil, 1.4, 7, 4)) })
	entry(32, "where he came from (2 s)", func(c r2.Vec) {
		a, b := ends(c)
		s.Path(trailStyle(0), a, b)
	})
	return line + 14
}
