package replay

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/model"
)

//go:embed page.css
var pageCSS string

//go:embed page.js
var pageJS string

// data is what the page's script moves: places in tenths of a metre, x and y by
// turns, frame by frame.
type data struct {
	Tick    []int        `json:"tick"`   // of each frame, 0.1 s
	Bodies  [22][]int    `json:"bodies"` // 0 to 10 of the side that started, 11 to 21 of the block
	Ball    []int        `json:"ball"`
	Carried []int        `json:"carried"` // 1: it is drawn beside a man: see atFeet
	Presser []int        `json:"presser"` // body; -1: nobody
	Cuts    []int        `json:"cuts"`    // frames to which no motion leads
	Legs    [][2]int     `json:"legs"`    // frames at which a way of the ball begins and ends
	Left    [][2]int     `json:"left"`    // frames at which the passes that a step left are seen first and no more
	Steps   []dataStep   `json:"steps"`
	Views   [2][]float64 `json:"views"` // draw.View.Matrix of the flat and the tall picture, and how far beside its man the ball is drawn
}

type dataStep struct {
	Frame   int     `json:"frame"`
	Seconds float64 `json:"seconds"`
	Event   string  `json:"event"`
	Place   string  `json:"place"`
	X       float64 `json:"x"` // m
	Y       float64 `json:"y"`
	What    string  `json:"what"`
}

func (st *Story) data(views [2]draw.View) *data {
	d := &data{}
	dm := func(way []int, p r2.Vec) []int {
		return append(way, int(math.Round(10*p.X)), int(math.Round(10*p.Y)))
	}
	for i := range st.Reel {
		f := &st.Reel[i]
		d.Tick = append(d.Tick, f.Tick)
		for b := range d.Bodies {
			d.Bodies[b] = dm(d.Bodies[b], f.Players[b/11][b%11])
		}
		d.Ball = dm(d.Ball, f.Ball)
		carried, presser := 0, -1
		if atFeet(f) {
			carried = 1
		}
		if f.Presser >= 0 {
			presser = 11*(1-f.OnBall) + f.Presser
		}
		d.Carried, d.Presser = append(d.Carried, carried), append(d.Presser, presser)
		if f.Cut && i > 0 {
			d.Cuts = append(d.Cuts, i)
		}
	}
	for _, l := range st.legs() {
		d.Legs = append(d.Legs, [2]int{l.begins, l.ends})
	}
	for i := range st.Steps {
		s := &st.Steps[i]
		if len(s.Left) > 0 {
			from, until := st.leftFrames(i)
			d.Left = append(d.Left, [2]int{from, until})
		}
		d.Steps = append(d.Steps, dataStep{s.Frame, s.Seconds(), s.Kind.String(), s.Place, round(s.From.X), round(s.From.Y), s.What})
	}
	for i, v := range views {
		a, b, c, dd, e, f := v.Matrix()
		d.Views[i] = []float64{a, b, c, dd, e, f, beside(v).X}
	}
	return d
}

// round keeps centimetres.
func round(x float64) float64 { return math.Round(100*x)/100 + 0 }

// pitchScene is the picture that the page's script moves; without a script it shows
// the end and the whole way of the ball.
func (st *Story) pitchScene(width float64, up bool, id string) (*draw.Scene, draw.View) {
	v := draw.NewView(st.Scenario.Pitch, width, up)
	w, h := v.Size()
	s := &draw.Scene{W: w, H: h, ID: id, Title: "The possession on the pitch", Desc: strings.Join(st.Headline(), " ") + " The list beside the picture tells every step."}
	s.Field(v)
	s.Lanes(v)
	legs := st.legs()
	for i := range legs {
		s.Begin(draw.Group{Class: "leg"})
		drawLeg(s, v, &legs[i], 1)
		s.End()
	}
	for i := range st.Steps {
		if e := &st.Steps[i]; len(e.Left) > 0 {
			s.Begin(draw.Group{Class: "left", Hidden: true})
			drawLeft(s, v, e)
			s.End()
		}
	}
	last := &st.Reel[len(st.Reel)-1]
	for _, team := range []int{1, 0} {
		for i := range 11 {
			s.Begin(draw.Group{Class: fmt.Sprintf("t%d", 11*team+i)})
			s.Path(trailStyle(team), v.At(last.Players[team][i]))
			s.End()
		}
	}
	for _, team := range []int{1, 0} {
		for i, p := range st.Scenario.Teams[team].Players {
			b := 11*team + i
			s.Begin(draw.Group{Class: fmt.Sprintf("b%d", b), Title: st.named(p), Move: v.At(last.Players[team][i])})
			s.Begin(draw.Group{Class: fmt.Sprintf("r%d", b), Hidden: true})
			s.Ring(v, team, r2.Vec{})
			s.End()
			s.PlayerMark(v, team, p.Number, r2.Vec{})
			s.End()
		}
	}
	s.Begin(draw.Group{Class: "ball", Move: ballMark(v, last)})
	s.BallMark(v, r2.Vec{})
	s.End()
	st.letter(s, v, legs, func(int) draw.Group { return draw.Group{Class: "chance"} },
		func(int) draw.Group { return draw.Group{Class: "left", Hidden: true} })
	return s, v
}

// named is a player with all that is known of his name.
func (st *Story) named(p model.Player) string {
	return strings.TrimSpace(fmt.Sprintf("%d %s %s", p.Number, p.Position, p.Name))
}

// HTML is the possession as one page that needs nothing else: it plays, stops, goes
// from event to event and prints.
func (st *Story) HTML() ([]byte, error) {
	flat, v0 := st.pitchScene(900, false, "flat")
	tall, v1 := st.pitchScene(400, true, "tall")
	film, err := json.Marshal(st.data([2]draw.View{v0, v1})) // escapes <, > and &
	if err != nil {
		return nil, err
	}
	css := draw.CSS() + "\n" + pageCSS
	var b bytes.Buffer
	put := func(format string, a ...any) { fmt.Fprintf(&b, format+"\n", a...) }
	title := draw.Escape(st.Title)
	put(`<!DOCTYPE html>`)
	put(`<html lang="en">`)
	put(`<head>`)
	put(`<meta charset="utf-8">`)
	put(`<meta name="viewport" content="width=device-width, initial-scale=1">`)
	put(`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-%s'; script-src 'sha256-%s'; base-uri 'none'; form-action 'none'">`, hash(css), hash(pageJS))
	put(`<title>%s, build-up %d</title>`, title, st.Film.Possession.ID)
	put(`<style>%s</style>`, css)
	put(`</head>`)
	put(`<body>`)
	put(`<main>`)
	put(`<h1>%s</h1>`, title)
	put(`<p class="lead">%s</p>`, draw.Escape(strings.Join(st.Headline(), " ")))
	put(`<div class="film">`)
	put(`<div>`)
	put(`<figure>`)
	put(`<div class="flat">%s</div>`, flat.Inline())
	put(`<div class="tall">%s</div>`, tall.Inline())
	put(`<figcaption>The whole way of the ball, and where everybody was at the end.</figcaption>`)
	put(`</figure>`)
	put(`<div class="controls" id="controls" hidden>`)
	put(`<button type="button" id="play">Play</button>`)
	put(`<button type="button" id="back">Step back</button>`)
	put(`<button type="button" id="next">Next step</button>`)
	put(`<label>Speed <select id="speed"><option value="0.25">a quarter</option><option value="0.5">half</option><option value="1" selected>as played</option><option value="2">double</option></select></label>`)
	put(`<span id="clock"></span>`)
	put(`<input type="range" id="slider" min="0" max="1" step="1" value="0" aria-label="Time">`)
	put(`</div>`)
	put(`</div>`)
	put(`<section class="steps" aria-labelledby="steps-title">`)
	put(`<h2 id="steps-title">What happens</h2>`)
	put(`<ol tabindex="0" aria-labelledby="steps-title">`)
	for i := range st.Steps {
		s := &st.Steps[i]
		put(`<li><span class="t">%.1f s</span>%s <span class="p">%s; %d m up, %d m across</span></li>`, s.Seconds(), draw.Escape(s.What), s.Place,
			Up(st.Scenario.Pitch, s.From), Across(st.Scenario.Pitch, s.From))
	}
	put(`</ol>`)
	put(`</section>`)
	put(`</div>`)
	put(`<h2>How to read it</h2>`)
	put(`<div class="key flat">%s</div>`, st.key(900, "key").Inline())
	put(`<div class="key tall">%s</div>`, st.key(360, "key-tall").Inline())
	st.lineUps(put)
	put(`<p class="small">Keys: space plays and stops, the arrows go from step to step, Home and End to the start and the end.</p>`)
	for _, n := range st.Notes() {
		put(`<p class="small">%s</p>`, draw.Escape(capital(n)))
	}
	put(`</main>`)
	put(`<script type="application/json" id="film-data">%s</script>`, film)
	put(`<script>%s</script>`, pageJS)
	put(`</body>`)
	put(`</html>`)
	return b.Bytes(), nil
}

// hash is how a policy names a script or a style sheet that it lets in.
func hash(s string) string {
	sum := sha256.Sum256([]byte(s))
	return base64.StdEncoding.EncodeToString(sum[:])
}

// key is the legend as a picture of its own.
func (st *Story) key(width float64, id string) *draw.Scene {
	s := &draw.Scene{W: width, ID: id, Title: "What the marks mean",
		Desc: "Filled circles: the side that starts with the ball. Hollow squares: the block. A second square around one: he presses. Solid arrow: pass. Wavy: carry. Dotted: a pass that was left. Broken: loose ball."}
	s.H = st.legend(s, r2.Vec{X: 4, Y: 18}, width-8) + 22
	return s
}

// lineUps lists both elevens.
func (st *Story) lineUps(put func(format string, a ...any)) {
	put(`<div class="men">`)
	for side := range 2 {
		put(`<table><caption>%s</caption><tbody>`, draw.Escape(st.team(side)))
		for _, p := range st.Scenario.Teams[side].Players {
			put(`<tr><th scope="row">%d</th><td>%s</td><td>%s</td></tr>`, p.Number, p.Position, draw.Escape(p.Name))
		}
		put(`</tbody></table>`)
	}
	put(`</div>`)
}
