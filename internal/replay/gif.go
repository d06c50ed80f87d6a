package replay

import (
	"bytes"
	"image"
	"image/color"
	"image/gif"

	scene "playout/internal/draw"
)

// gifWidth of the moving picture, px; gifStep is how many frames of 0.1 s one
// frame of it lasts.
const (
	gifWidth = 720.0
	gifStep  = 2
)

// GIF is the possession as a moving picture for slides, at the speed of play and
// over again.
func (st *Story) GIF() ([]byte, error) {
	b := st.newBoard(gifWidth)
	still := b.scene.Image(scene.Light, 1)
	pal := palette()
	nearest := map[color.RGBA]uint8{}
	out := gif.GIF{}
	var last *image.Paletted
	captions, legs := st.captions(), st.legs()
	for f := 0; ; f = min(f+gifStep, len(st.Reel)-1) {
		img := image.NewRGBA(still.Bounds())
		copy(img.Pix, still.Pix)
		st.shot(b, f, captions, legs).Over(img, scene.Light, 1)
		now := image.NewPaletted(img.Bounds(), pal)
		for i := 0; i < len(img.Pix); i += 4 {
			c := color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], 0xff}
			at, known := nearest[c]
			if !known {
				at = uint8(1 + pal[1:].Index(c)) // 0 is kept for what has not changed
				nearest[c] = at
			}
			now.Pix[i/4] = at
		}
		out.Image = append(out.Image, changed(last, now))
		out.Delay = append(out.Delay, 10*gifStep)
		out.Disposal = append(out.Disposal, gif.DisposalNone)
		last = now
		if f == len(st.Reel)-1 {
			break
		}
	}
	var w bytes.Buffer
	err := gif.EncodeAll(&w, &out)
	return w.Bytes(), err
}

// changed is what of a frame differs from the last one: the smallest box, with the
// same dots in it transparent.
func changed(last, now *image.Paletted) *image.Paletted {
	if last == nil {
		return now
	}
	var box image.Rectangle
	for y := range now.Rect.Dy() {
		for x := range now.Rect.Dx() {
			if i := y*now.Stride + x; now.Pix[i] != last.Pix[i] {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	if box.Empty() {
		box = image.Rect(0, 0, 1, 1)
	}
	out := image.NewPaletted(box, now.Palette)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if i := y*now.Stride + x; now.Pix[i] != last.Pix[i] {
				out.Pix[out.PixOffset(x, y)] = now.Pix[i]
			}
		}
	}
	return out
}

// palette holds every ink and the shades between an ink and each ground it may be
// drawn on. Its first colour is transparent.
func palette() color.Palette {
	pal := color.Palette{color.RGBA{}}
	seen := map[color.RGBA]bool{}
	add := func(c color.NRGBA, over color.NRGBA, share, of int) {
		mix := func(a, b uint8) uint8 { return uint8((int(a)*share + int(b)*(of-share)) / of) }
		m := color.RGBA{mix(c.R, over.R), mix(c.G, over.G), mix(c.B, over.B), 0xff}
		if !seen[m] && len(pal) < 256 {
			seen[m] = true
			pal = append(pal, m)
		}
	}
	colour := func(i scene.Ink) color.NRGBA { return i.Colour(scene.Light) }
	for ink := scene.Paper; ink < scene.NumInks; ink++ {
		add(colour(ink), colour(ink), 1, 1)
	}
	for _, ground := range []scene.Ink{scene.Grass, scene.Paper} {
		for ink := scene.Chalk; ink < scene.NumInks; ink++ {
			for share := 1; share < 12; share++ {
				add(colour(ink), colour(ground), share, 12)
			}
		}
	}
	for share := 1; share < 8; share++ {
		add(colour(scene.Side), colour(scene.Block), share, 8)
	}
	return pal
}

// shot draws what moves, at a frame.
func (st *Story) shot(b board, frame int, captions []caption, legs []leg) *scene.Scene {
	s := &scene.Scene{W: b.scene.W, H: b.scene.H}
	var labels []scene.Label
	for i := range legs {
		l := &legs[i]
		switch {
		case frame < l.begins:
		case frame < l.ends+5:
			drawLeg(s, b.view, l, 1)
			labels = append(labels, st.chances(b.view, l)...)
		case frame < l.ends+legTicks:
			drawLeg(s, b.view, l, fadedLeg)
		}
	}
	st.drawTrails(s, b.view, frame)
	for i := range st.Steps {
		if from, until := st.leftFrames(i); frame >= from && frame < until {
			drawLeft(s, b.view, &st.Steps[i])
			labels = append(labels, leftChances(b.view, &st.Steps[i])...)
		}
	}
	st.drawPlayers(s, b.view, frame)
	s.Labels(labels, st.marks(b.view, frame))
	for i := len(captions) - 1; i >= 0; i-- {
		if captions[i].frame <= frame {
			b.write(s, captions[i])
			break
		}
	}
	bar := b.bar
	bar.Max.X = b.at(st, frame)
	s.Rect(bar, scene.Fill(scene.Side))
	return s
}
