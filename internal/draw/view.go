package draw

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// View is the transform from the pitch (metres, origin at the centre spot, +x the
// way the side on the ball attacks, +y its left) to the picture (px, y down).
type View struct {
	Pitch  model.Pitch
	Scale  float64 // px for a metre
	Centre r2.Vec  // of the pitch, px
	Up     bool    // the attack plays up the picture instead of to the right
}

// Margin is what is kept free around the pitch, m: room for the goals and for
// players who stand on a line.
const Margin = 3.5

// NewView fits a pitch with its margin into a picture of that width, px, from the
// picture's top left corner.
func NewView(pitch model.Pitch, width float64, up bool) View {
	v := View{Pitch: pitch, Up: up}
	long, wide := pitch.Length+2*Margin, pitch.Width+2*Margin
	if up {
		long, wide = wide, long
	}
	v.Scale = width / long
	v.Centre = r2.Vec{X: width / 2, Y: v.Scale * wide / 2}
	return v
}

// Size is the width and height of the pitch with its margin, px.
func (v View) Size() (w, h float64) {
	w, h = v.Scale*(v.Pitch.Length+2*Margin), v.Scale*(v.Pitch.Width+2*Margin)
	if v.Up {
		w, h = h, w
	}
	return w, h
}

// Down moves the pitch down the picture, px: room for a heading.
func (v View) Down(px float64) View {
	v.Centre.Y += px
	return v
}

// At is where a place on the pitch lies in the picture.
func (v View) At(p r2.Vec) r2.Vec {
	if v.Up {
		return r2.Vec{X: v.Centre.X - v.Scale*p.Y, Y: v.Centre.Y - v.Scale*p.X}
	}
	return r2.Vec{X: v.Centre.X + v.Scale*p.X, Y: v.Centre.Y - v.Scale*p.Y}
}

// Back is the place on the pitch that a point of the picture shows: At undone.
func (v View) Back(q r2.Vec) r2.Vec {
	dx, dy := (q.X-v.Centre.X)/v.Scale, (q.Y-v.Centre.Y)/v.Scale
	if v.Up {
		return r2.Vec{X: -dy, Y: -dx}
	}
	return r2.Vec{X: dx, Y: -dy}
}

// Matrix is At as numbers: x' = a x + c y + e, y' = b x + d y + f, the order of
// SVG's matrix().
func (v View) Matrix() (a, b, c, d, e, f float64) {
	if v.Up {
		return 0, -v.Scale, -v.Scale, 0, v.Centre.X, v.Centre.Y
	}
	return v.Scale, 0, 0, -v.Scale, v.Centre.X, v.Centre.Y
}
