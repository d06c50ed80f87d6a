package replay

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
)

// caption is what is written under the picture from a frame on: what happens at
// that frame, steps at one moment together.
type caption struct {
	frame int
	clock string
	what  string
}

func (st *Story) captions() []caption {
	var out []caption
	for i := range st.Steps {
		s := &st.Steps[i]
		if n := len(out); n > 0 && out[n-1].frame == s.Frame {
			out[n-1].what += " " + s.What
			continue
		}
		out = append(out, caption{s.Frame, fmt.Sprintf("%.1f s", s.Seconds()), s.What})
	}
	return out
}

// board is the picture that moves: heading, pitch, a bar for the time and captions.
type board struct {
	scene *draw.Scene
	view  draw.View
	bar   draw.Box
}

var (
	boardTitle = draw.Words{Size: 20, Bold: true}
	boardWords = draw.Words{Size: 14.5}
	boardClock = draw.Words{Size: 14.5, Bold: true}
)

// newBoard draws what stands still.
func (st *Story) newBoard(width float64) board {
	b := board{view: draw.NewView(st.Scenario.Pitch, width, false)}
	edge := draw.Margin * b.view.Scale
	b.scene = &draw.Scene{W: width, ID: "film", Title: st.Title, Desc: st.Alternative()}
	s := b.scene
	s.Write(r2.Vec{X: edge, Y: 34}, boardTitle.Fit(st.Title, width-2*edge), boardTitle)
	y := 56.0
	for _, line := range st.Headline() {
		s.Write(r2.Vec{X: edge, Y: y}, boardWords.Fit(line, width-2*edge), boardWords)
		y += 19
	}
	b.view = b.view.Down(y - 19)
	_, h := b.view.Size()
	s.Field(b.view)
	s.Lanes(b.view)
	y += h - 19
	b.bar = draw.Box{Min: r2.Vec{X: edge, Y: y - 6}, Max: r2.Vec{X: width - edge, Y: y - 2}}
	s.Rect(b.bar, draw.Fill(draw.Chalk).Faded(0.5))
	for i := range st.Steps {
		x := b.at(st, st.Steps[i].Frame)
		s.Path(draw.Line(draw.Pencil, 1), r2.Vec{X: x, Y: y - 9}, r2.Vec{X: x, Y: y - 6})
	}
	y += st.legend(s, r2.Vec{X: edge, Y: y + 62}, width-2*edge) + 62
	s.H = y + 14
	return b
}

// at is where a frame lies on the bar.
func (b *board) at(st *Story, frame int) float64 {
	return b.bar.Min.X + (b.bar.Max.X-b.bar.Min.X)*float64(frame)/float64(len(st.Reel)-1)
}

// write sets a caption under the bar.
func (b *board) write(s *draw.Scene, c caption) {
	at := r2.Vec{X: b.bar.Min.X, Y: b.bar.Max.Y + 20}
	s.Write(at, c.clock, boardClock)
	indent := boardClock.Width("00.0 s") + 12
	for i, line := range boardWords.Wrap(c.what, b.bar.Max.X-b.bar.Min.X-indent, 2) {
		s.Write(r2.Vec{X: at.X + indent, Y: at.Y + 19*float64(i)}, line, boardWords)
	}
}
