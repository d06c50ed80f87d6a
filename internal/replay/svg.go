package replay

import (
	"fmt"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/sim"
)

// svgWidth of the moving picture, px.
const svgWidth = 900.0

// fadedLeg is how strongly a way of the ball is drawn when it is over.
const fadedLeg = 0.35

// SVG is the possession as a picture that moves, by CSS, at the speed of play and
// over again. Where nothing moves (a reader who prefers no motion, a printer, a
// program without CSS) it shows the end and the whole way of the ball.
func (st *Story) SVG() []byte {
	b := st.newBoard(svgWidth)
	s, v, n := b.scene, b.view, len(st.Reel)
	var css strings.Builder
	fmt.Fprintf(&css, ".m{animation:%ss linear infinite}.s{animation-timing-function:step-end}", strconv.FormatFloat(float64(n-1)*sim.TickSeconds, 'f', 1, 64))
	animate := func(class, frames string) {
		css.WriteString("." + class + "{animation-name:" + class + "}" + frames)
	}

	legs := st.legs()
	for i, l := range legs {
		class := "l" + strconv.Itoa(i)
		s.Begin(draw.Group{Class: "m s " + class})
		drawLeg(s, v, &l, 1)
		s.End()
		animate(class, shown(class, n, func(f int) float64 {
			switch {
			case f < l.begins:
				return 0
			case f < l.ends+5:
				return 1
			}
			return fadedLeg
		}))
	}
	for i := range st.Steps {
		if e := &st.Steps[i]; len(e.Left) > 0 {
			class := "o" + strconv.Itoa(i)
			from, until := st.leftFrames(i)
			s.Begin(draw.Group{Class: "m s unseen " + class})
			drawLeft(s, v, e)
			s.End()
			animate(class, shown(class, n, func(f int) float64 { return seen(f >= from && f < until) }))
		}
	}
	for _, team := range []int{1, 0} {
		for i, p := range st.Scenario.Teams[team].Players {
			t := st.track(func(f *sim.Frame) r2.Vec { return v.At(f.Players[team][i]) })
			class := "p" + strconv.Itoa(11*team+i)
			s.Begin(draw.Group{Class: "m " + class, Move: t.at[n-1]})
			if presses := func(f int) bool { return st.Reel[f].OnBall != team && st.Reel[f].Presser == i }; anyFrame(n, presses) {
				ring := "r" + strconv.Itoa(11*team+i)
				s.Begin(draw.Group{Class: "m s unseen " + ring})
				s.Ring(v, team, r2.Vec{})
				s.End()
				animate(ring, shown(ring, n, func(f int) float64 { return seen(presses(f)) }))
			}
			s.PlayerMark(v, team, p.Number, r2.Vec{})
			s.End()
			animate(class, t.css(class))
		}
	}
	ball := st.track(func(f *sim.Frame) r2.Vec { return ballMark(v, f) })
	s.Begin(draw.Group{Class: "m ball", Move: ball.at[n-1]})
	s.BallMark(v, r2.Vec{})
	s.End()
	animate("ball", ball.css("ball"))
	st.letter(s, v, legs, func(i int) draw.Group {
		class, l := "n"+strconv.Itoa(i), legs[i]
		animate(class, shown(class, n, func(f int) float64 { return seen(f >= l.begins && f < l.ends+5) }))
		return draw.Group{Class: "m s " + class}
	}, func(i int) draw.Group { return draw.Group{Class: "m s unseen o" + strconv.Itoa(i)} })

	captions := st.captions()
	for i, c := range captions {
		class, until := "c"+strconv.Itoa(i), n
		look := "m s unseen "
		if i+1 < len(captions) {
			until = captions[i+1].frame
		} else {
			look = "m s "
		}
		s.Begin(draw.Group{Class: look + class})
		b.write(s, c)
		s.End()
		animate(class, shown(class, n, func(f int) float64 { return seen(f >= c.frame && f < until) }))
	}
	s.Begin(draw.Group{Class: "m clock", Move: r2.Vec{X: b.bar.Max.X}})
	s.Circle(r2.Vec{Y: (b.bar.Min.Y + b.bar.Max.Y) / 2}, 5, draw.Fill(draw.Side))
	s.End()
	animate("clock", fmt.Sprintf("@keyframes clock{0%%{transform:translate(%s,0px)}100%%{transform:translate(%s,0px)}}", px(b.bar.Min.X), px(b.bar.Max.X)))

	css.WriteString(".unseen{opacity:0}@media (prefers-reduced-motion:reduce),print{.m{animation:none}}")
	return s.SVG(css.String())
}

func seen(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func anyFrame(n int, is func(f int) bool) bool {
	for f := range n {
		if is(f) {
			return true
		}
	}
	return false
}

// track is the way of a mark through the whole reel.
func (st *Story) track(at func(f *sim.Frame) r2.Vec) track {
	t := track{at: make([]r2.Vec, len(st.Reel)), cut: make([]bool, len(st.Reel))}
	for i := range st.Reel {
		t.at[i] = at(&st.Reel[i])
		t.cut[i] = i > 0 && st.Reel[i].Cut
	}
	return t
}
