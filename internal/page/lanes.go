package page

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/internal/terms"
	"playout/model"
)

// laneName is a lane's name for people.
func laneName(l model.Lane) string { return terms.Lanes[l.String()] }

// laneEdges are the lateral borders of the lanes from left to right, m.
func laneEdges(p model.Pitch) [model.NumLanes + 1]float64 {
	return [...]float64{p.Width / 2, model.PenaltyAreaWidth / 2, model.GoalAreaWidth / 2, -model.GoalAreaWidth / 2, -model.PenaltyAreaWidth / 2, -p.Width / 2}
}

// lane is what came through one lane.
type lane struct {
	entries float64 // controlled, per 100 build-ups
	xg      float64 // per 100 build-ups, after entries by it
}

// mostXG is the largest disc of pictures that are to be compared.
func mostXG(all ...[model.NumLanes]lane) float64 {
	most := 0.0
	for _, lanes := range all {
		for _, x := range lanes {
			most = math.Max(most, x.xg)
		}
	}
	return most
}

// entries draws the ways into the final third on the attacking half: an arrow for each
// lane as wide as its entries are many, and above it a disc for what the chances were
// worth; most is what the largest disc stands for.
func entries(name, title string, pitch model.Pitch, lanes [model.NumLanes]lane, most float64) Figure {
	f := Figure{Name: name, Title: title,
		Caption: "Arrows: controlled entries of the final third by lane, per 100 build-ups. Discs: what the chances after them were worth, in xG per 100 build-ups."}
	v := draw.NewView(pitch, sceneWidth, true)
	h := v.At(r2.Vec{X: -15}).Y
	var desc []string
	for l, x := range lanes {
		desc = append(desc, fmt.Sprintf("%s %.1f entries, %.2f xG", laneName(model.Lane(l)), x.entries, x.xg))
	}
	f.Desc = "Per 100 build-ups, by lane: " + strings.Join(desc, "; ") + "."
	s := scene(name, title, f.Desc, sceneWidth, h)
	s.Field(v)
	s.Lanes(v)
	line := pitch.Length / 6
	s.Path(draw.Line(draw.Pencil, 1, 6, 4), v.At(r2.Vec{X: line, Y: pitch.Width / 2}), v.At(r2.Vec{X: line, Y: -pitch.Width / 2}))
	edges := laneEdges(pitch)
	for l, x := range lanes {
		y := (edges[l] + edges[l+1]) / 2
		foot, tip := v.At(r2.Vec{X: line - 10, Y: y}), v.At(r2.Vec{X: line + 8, Y: y})
		thick(s, foot, tip, math.Min(math.Max(2.6*x.entries, 1), 44))
		if x.xg > 0 && most > 0 {
			s.Circle(v.At(r2.Vec{X: line + 20, Y: y}), 16*math.Sqrt(x.xg/most), draw.Style{Fill: draw.Block, Opacity: 0.35})
		}
		c := v.At(r2.Vec{X: line + 20, Y: y})
		s.Write(c, fmt.Sprintf("%.2f", x.xg), draw.Words{Size: 12, Bold: true, Anchor: draw.Middle, Centre: true, Halo: true})
		s.Write(v.At(r2.Vec{X: line - 12.5, Y: y}), number(x.entries), draw.Words{Size: 15, Bold: true, Anchor: draw.Middle, Centre: true, Halo: true})
		side, rest, two := strings.Cut(laneName(model.Lane(l)), " ")
		at := v.At(r2.Vec{X: line - 21.5, Y: y})
		s.Write(at, side, draw.Words{Ink: draw.Pencil, Size: 9.5, Anchor: draw.Middle, Centre: true, Halo: true})
		if two {
			at.Y += 11
			s.Write(at, rest, draw.Words{Ink: draw.Pencil, Size: 9.5, Anchor: draw.Middle, Centre: true, Halo: true})
		}
	}
	f.Scene = s
	return f
}

// losses draws where the ball is lost: a tone and a number for each third and lane;
// per 100 build-ups.
func losses(name string, pitch model.Pitch, lost [model.NumThirds][model.NumLanes]float64) Figure {
	f := Figure{Name: name, Title: "Where the ball is lost", Caption: "Losses per 100 build-ups; the attack plays up."}
	v := draw.NewView(pitch, sceneWidth, true)
	_, h := v.Size()
	most := 0.0
	var desc []string
	for t := range lost {
		for l, x := range lost[t] {
			most = math.Max(most, x)
			desc = append(desc, fmt.Sprintf("%s third, %s %.1f", model.Third(t), laneName(model.Lane(l)), x))
		}
	}
	f.Desc = "Per 100 build-ups: " + strings.Join(desc, "; ") + "."
	s := scene(name, f.Title, f.Desc, sceneWidth, h)
	s.Field(v)
	edges := laneEdges(pitch)
	for t := range lost {
		x0, x1 := pitch.Length*(float64(t)/3-0.5), pitch.Length*(float64(t+1)/3-0.5)
		for l, x := range lost[t] {
			if most > 0 && x > 0 {
				s.Polygon(draw.Style{Fill: draw.Block, Opacity: 0.04 + 0.46*x/most},
					v.At(r2.Vec{X: x0, Y: edges[l]}), v.At(r2.Vec{X: x1, Y: edges[l]}), v.At(r2.Vec{X: x1, Y: edges[l+1]}), v.At(r2.Vec{X: x0, Y: edges[l+1]}))
			}
		}
	}
	for t := range lost {
		x0, x1 := pitch.Length*(float64(t)/3-0.5), pitch.Length*(float64(t+1)/3-0.5)
		if t > 0 {
			s.Path(draw.Line(draw.Pencil, 1, 6, 4), v.At(r2.Vec{X: x0, Y: pitch.Width / 2}), v.At(r2.Vec{X: x0, Y: -pitch.Width / 2}))
		}
		for l, x := range lost[t] {
			s.Write(v.At(r2.Vec{X: (x0 + x1) / 2, Y: (edges[l] + edges[l+1]) / 2}), fmt.Sprintf("%.1f", x),
				draw.Words{Size: 14, Bold: true, Anchor: draw.Middle, Centre: true, Halo: true})
		}
	}
	s.Lanes(v)
	f.Scene = s
	return f
}

// thick draws a broad arrow up the picture.
func thick(s *draw.Scene, foot, tip r2.Vec, width float64) {
	head := math.Min(8+0.5*width, 20)
	half, wing := width/2, width/2+4
	s.Polygon(draw.Fill(draw.Side).Faded(0.85),
		r2.Vec{X: foot.X - half, Y: foot.Y}, r2.Vec{X: foot.X - half, Y: tip.Y + head}, r2.Vec{X: foot.X - wing, Y: tip.Y + head}, tip,
		r2.Vec{X: foot.X + wing, Y: tip.Y + head}, r2.Vec{X: foot.X + half, Y: tip.Y + head}, r2.Vec{X: foot.X + half, Y: foot.Y})
}
