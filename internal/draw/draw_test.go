package draw

import (
	"bytes"
	"encoding/xml"
	"image/png"
	"io"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/plain"
	"playout/model"
)

var pitch = model.DefaultPitch

// The corners of the pitch, worked by hand for a picture of 1120 px: 10 px a metre.
func TestViewAtTheCorners(t *testing.T) {
	flat, up := NewView(pitch, 1120, false), NewView(pitch, 750, true)
	for _, c := range []struct{ on, flat, up r2.Vec }{
		{r2.Vec{X: -52.5, Y: 34}, r2.Vec{X: 35, Y: 35}, r2.Vec{X: 35, Y: 1085}},
		{r2.Vec{X: 52.5, Y: 34}, r2.Vec{X: 1085, Y: 35}, r2.Vec{X: 35, Y: 35}},
		{r2.Vec{X: 52.5, Y: -34}, r2.Vec{X: 1085, Y: 715}, r2.Vec{X: 715, Y: 35}},
		{r2.Vec{X: -52.5, Y: -34}, r2.Vec{X: 35, Y: 715}, r2.Vec{X: 715, Y: 1085}},
		{r2.Vec{}, r2.Vec{X: 560, Y: 375}, r2.Vec{X: 375, Y: 560}},
	} {
		for _, v := range []struct {
			view View
			want r2.Vec
		}{{flat, c.flat}, {up, c.up}} {
			got := v.view.At(c.on)
			if r2.Norm(r2.Sub(got, v.want)) > 1e-9 {
				t.Errorf("up %v: %v lies at %v, want %v", v.view.Up, c.on, got, v.want)
			}
			if back := v.view.Back(got); r2.Norm(r2.Sub(back, c.on)) > 1e-9 {
				t.Errorf("up %v: %v comes back as %v", v.view.Up, c.on, back)
			}
			a, b, cc, d, e, f := v.view.Matrix()
			if m := (r2.Vec{X: a*c.on.X + cc*c.on.Y + e, Y: b*c.on.X + d*c.on.Y + f}); r2.Norm(r2.Sub(m, got)) > 1e-9 {
				t.Errorf("up %v: by the matrix %v lies at %v, not %v", v.view.Up, c.on, m, got)
			}
		}
	}
	if w, h := up.Size(); math.Abs(w-750) > 1e-9 || math.Abs(h-1120) > 1e-9 {
		t.Errorf("size %v x %v", w, h)
	}
}

// The markings lie at the distances of Law 1 (IFAB, Laws of the Game), written
// here anew: penalty area 16.5 m deep and 40.32 m wide, goal area 5.5 and 18.32 m,
// marks 11 m and circles 9.15 m.
func TestMarkingsOfLaw1(t *testing.T) {
	for _, up := range []bool{false, true} {
		v := NewView(pitch, 1120, up)
		s := Scene{}
		s.Field(v)
		has := func(want func(p *shape) bool) bool {
			for i := range s.shapes {
				if want(&s.shapes[i]) {
					return true
				}
			}
			return false
		}
		same := func(a, b r2.Vec) bool { return r2.Norm(r2.Sub(a, b)) < 0.01 }
		for _, end := range []float64{1, -1} {
			for _, c := range []struct{ x0, x1, y float64 }{{52.5, 36, 20.16}, {52.5, 47, 9.16}} {
				if !has(func(p *shape) bool {
					return p.kind == path && p.closed && same(v.Back(p.points[0]), r2.Vec{X: end * c.x0, Y: -c.y}) && same(v.Back(p.points[2]), r2.Vec{X: end * c.x1, Y: c.y})
				}) {
					t.Errorf("up %v, end %v: no area %v m deep", up, end, c.x0-c.x1)
				}
			}
			mark := r2.Vec{X: end * 41.5}
			if !has(func(p *shape) bool {
				return p.kind == circle && p.style.Fill == Chalk && same(v.Back(p.points[0]), mark)
			}) {
				t.Errorf("up %v, end %v: no penalty mark", up, end)
			}
			// The penalty arc begins and ends on the line of the area, 9.15 m from the
			// mark, and its middle lies outside the area.
			if !has(func(p *shape) bool {
				if p.kind != arc || !same(v.Back(p.points[0]), mark) {
					return false
				}
				a, b, m := v.Back(p.onArc(p.from)), v.Back(p.onArc(p.to)), v.Back(p.onArc((p.from+p.to)/2))
				return math.Abs(a.X-end*36) < 0.01 && math.Abs(b.X-end*36) < 0.01 && same(m, r2.Vec{X: end * (41.5 - 9.15)})
			}) {
				t.Errorf("up %v, end %v: no penalty arc", up, end)
			}
			for _, wing := range []float64{1, -1} {
				corner := r2.Vec{X: end * 52.5, Y: wing * 34}
				if !has(func(p *shape) bool {
					if p.kind != arc || !same(v.Back(p.points[0]), corner) {
						return false
					}
					a, b := v.Back(p.onArc(p.from)), v.Back(p.onArc(p.to))
					return pitch.Contains(r2.Scale(0.9999, a)) && pitch.Contains(r2.Scale(0.9999, b)) && math.Abs(r2.Norm(r2.Sub(a, b))-math.Sqrt2) < 0.01
				}) {
					t.Errorf("up %v: no corner arc at %v", up, corner)
				}
			}
		}
		if !has(func(p *shape) bool {
			return p.kind == circle && same(v.Back(p.points[0]), r2.Vec{}) && math.Abs(p.r/v.Scale-9.15) < 1e-9
		}) {
			t.Errorf("up %v: no centre circle", up)
		}
	}
}

// hostile are names that try to break out of where they stand.
var hostile = []string{
	`</text></svg><script>alert(1)</script>`, `" onload="alert(1)`, `' onclick='x`, "]]><!--", "&lt;b&gt;", "a\u202eb\u0000c\x1b[31m",
	strings.Repeat("W", 10000), "Z" + strings.Repeat("\u0301", 3000), "\xff\xfe", "שלום", "=1+1",
}

func hostileScene(name string) *Scene {
	v := NewView(pitch, 800, false)
	s := &Scene{W: 800, H: 560, ID: "x", Title: name, Desc: name}
	s.Field(v)
	s.Begin(Group{ID: name, Class: name, Title: name})
	s.Player(v, 0, 9, r2.Vec{X: 10})
	s.Write(r2.Vec{X: 400, Y: 550}, name, Words{Size: 12, Anchor: Middle})
	s.Labels([]Label{{At: r2.Vec{X: 100, Y: 100}, Text: name, Words: Words{Size: 10}}}, nil)
	s.End()
	return s
}

func TestHostileNames(t *testing.T) {
	for _, name := range hostile {
		svg := hostileScene(name).SVG("")
		d := xml.NewDecoder(bytes.NewReader(svg))
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatalf("%.40q: not well-formed: %v", name, err)
			}
			el, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			if el.Name.Local == "script" {
				t.Errorf("%.40q: a script got in", name)
			}
			for _, a := range el.Attr {
				if strings.HasPrefix(a.Name.Local, "on") {
					t.Errorf("%.40q: attribute %s got in", name, a.Name.Local)
				}
			}
		}
		if len(svg) > 30000 {
			t.Errorf("%.40q: %d bytes", name, len(svg))
		}
		for _, r := range string(svg) {
			if r == '\u202e' || r < ' ' && r != '\n' || r == '\uFFFE' {
				t.Errorf("%.40q: %U got in", name, r)
			}
		}
		if _, err := hostileScene(name).PNG(Light, 1); err != nil {
			t.Errorf("%.40q: %v", name, err)
		}
	}
}

func TestSameBytesTwice(t *testing.T) {
	if !bytes.Equal(hostileScene("a").SVG(""), hostileScene("a").SVG("")) {
		t.Error("two SVGs of one scene differ")
	}
	a, _ := hostileScene("a").PNG(Dark, 1.5)
	b, _ := hostileScene("a").PNG(Dark, 1.5)
	if !bytes.Equal(a, b) {
		t.Error("two PNGs of one scene differ")
	}
	img, err := png.Decode(bytes.NewReader(a))
	if err != nil || img.Bounds().Dx() != 1200 || img.Bounds().Dy() != 840 {
		t.Errorf("PNG: %v, %v", img.Bounds(), err)
	}
	// Where the filled circle is drawn there is the ink of the side on the ball.
	v := NewView(pitch, 800, false)
	c := v.At(r2.Vec{X: 10})
	r, g, bl, _ := img.At(int(1.5*(c.X-7)), int(1.5*c.Y)).RGBA()
	if want := Side.Colour(Dark); uint8(r>>8) != want.R || uint8(g>>8) != want.G || uint8(bl>>8) != want.B {
		t.Errorf("the player is drawn in %x %x %x, not in %v", r>>8, g>>8, bl>>8, want)
	}
}

// Labels of a crowd never overlap, stay in the picture and off what is taken; those
// without room are handed back.
func TestLabelsNeverOverlap(t *testing.T) {
	s := &Scene{W: 300, H: 200}
	var labels []Label
	var taken []Box
	for i := range 60 {
		at := r2.Vec{X: float64(i*37%300) + 0.5, Y: float64(i*53%200) + 0.5}
		labels = append(labels, Label{At: at, Text: strings.Repeat("ab ", 1+i%4), Words: Words{Size: 10}, Clear: 6})
		if i%6 == 0 {
			taken = append(taken, Around(at, 6, 6))
		}
	}
	left, placed := s.Labels(labels, taken)
	if len(left)+len(placed) != len(labels) || len(placed) < 15 || len(left) == 0 {
		t.Fatalf("%d placed, %d left of %d", len(placed), len(left), len(labels))
	}
	var written []Box
	for i := range s.shapes {
		if p := &s.shapes[i]; p.kind == words {
			written = append(written, p.words.Extent(p.points[0], p.text))
		}
	}
	if len(written) != len(placed) {
		t.Fatalf("%d texts for %d places", len(written), len(placed))
	}
	for i, b := range written {
		if !b.Within(Box{Max: r2.Vec{X: s.W, Y: s.H}}) {
			t.Errorf("label %d leaves the picture: %v", i, b)
		}
		for j, o := range append(append([]Box(nil), written[:i]...), taken...) {
			if b.Meets(o) {
				t.Errorf("label %d overlaps %d", i, j)
			}
		}
	}
}

func TestFitAndWrap(t *testing.T) {
	w := Words{Size: 10}
	if got := w.Fit("abc", 100); got != "abc" {
		t.Errorf("%q", got)
	}
	if got := w.Fit(strings.Repeat("w", 500), 60); w.Width(got) > 60 || !strings.HasSuffix(got, "…") {
		t.Errorf("%q is %v px wide", got, w.Width(got))
	}
	lines := w.Wrap(strings.Repeat("word ", 30), 90, 3)
	if len(lines) != 3 || !strings.HasSuffix(lines[2], "…") {
		t.Errorf("%q", lines)
	}
	for _, l := range lines {
		if w.Width(l) > 90 {
			t.Errorf("%q is %v px wide", l, w.Width(l))
		}
	}
	if long := strings.Repeat("x", 10000); len([]rune(safe(long))) > plain.MaxText {
		t.Error("a long text is not cut")
	}
}
