package draw

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/plain"
)

// SVG is the scene as a file of its own, light or dark as the reader prefers.
// extra is added to its style sheet.
func (s *Scene) SVG(extra string) []byte {
	return s.svg("<style>" + CSS() + extra + "</style>\n")
}

// Inline is the scene as an element of an HTML page that has the style sheet CSS.
func (s *Scene) Inline() []byte { return s.svg("") }

func (s *Scene) svg(style string) []byte {
	if s.open != 0 {
		panic("draw: a group was not closed")
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s"`, num(s.W), num(s.H))
	if style != "" {
		fmt.Fprintf(&b, ` width="%s" height="%s"`, num(s.W), num(s.H))
	}
	title, desc := s.ID+"-title", s.ID+"-desc"
	fmt.Fprintf(&b, ` role="img" aria-labelledby="%s %s" stroke-linejoin="round" stroke-linecap="round">`+"\n", title, desc)
	fmt.Fprintf(&b, `<title id="%s">%s</title><desc id="%s">%s</desc>`+"\n", title, Escape(s.Title), desc, escapeLong(s.Desc))
	b.WriteString(style)
	fmt.Fprintf(&b, `<rect class="fill-paper" width="%s" height="%s"/>`+"\n", num(s.W), num(s.H))
	for i := range s.shapes {
		s.shapes[i].svg(&b)
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

func (p *shape) svg(b *bytes.Buffer) {
	switch p.kind {
	case groupBegins:
		p.group.svg(b)
		return
	case groupEnds:
		b.WriteString("</g>\n")
		return
	case words:
		p.writeText(b)
		return
	case circle:
		fmt.Fprintf(b, `<circle cx="%s" cy="%s" r="%s"`, num(p.points[0].X), num(p.points[0].Y), num(p.r))
	case arc:
		from, to := p.onArc(p.from), p.onArc(p.to)
		large := 0
		if p.to-p.from > math.Pi {
			large = 1
		}
		fmt.Fprintf(b, `<path d="M%s %sA%s %s 0 %d 0 %s %s"`, num(from.X), num(from.Y), num(p.r), num(p.r), large, num(to.X), num(to.Y))
	case path:
		b.WriteString(`<path d="`)
		for i, q := range p.points {
			b.WriteByte("ML"[min(i, 1)])
			b.WriteString(num(q.X) + " " + num(q.Y))
		}
		if p.closed {
			b.WriteByte('Z')
		}
		b.WriteByte('"')
	}
	b.WriteString(p.style.attributes() + "/>\n")
}

// onArc is the point of an arc at an angle.
func (p *shape) onArc(angle float64) r2.Vec {
	return r2.Vec{X: p.points[0].X + p.r*math.Cos(angle), Y: p.points[0].Y - p.r*math.Sin(angle)}
}

func (st Style) attributes() string {
	class, rest := "", ` fill="none"`
	if st.Fill != NoInk {
		class, rest = "fill-"+st.Fill.String(), ""
	}
	if st.Line != NoInk {
		class += " line-" + st.Line.String()
		rest += ` stroke-width="` + num(st.Width) + `"`
	}
	if len(st.Dash) > 0 {
		dash := make([]string, len(st.Dash))
		for i, d := range st.Dash {
			dash[i] = num(d)
		}
		rest += ` stroke-dasharray="` + strings.Join(dash, " ") + `"`
	}
	if st.Opacity > 0 && st.Opacity < 1 {
		rest += ` opacity="` + num(st.Opacity) + `"`
	}
	return ` class="` + strings.TrimSpace(class) + `"` + rest
}

// writeText keeps the measured width whatever face the reader has.
func (p *shape) writeText(b *bytes.Buffer) {
	w := p.words
	class := "words fill-" + w.Ink.String()
	if w.Bold {
		class += " bold"
	}
	if w.Halo {
		class += " line-paper"
	}
	fmt.Fprintf(b, `<text x="%s" y="%s" class="%s" font-size="%s"`, num(p.points[0].X), num(p.points[0].Y), class, num(w.Size))
	if w.Anchor != Start {
		fmt.Fprintf(b, ` text-anchor="%s"`, [...]string{Middle: "middle", End: "end"}[w.Anchor])
	}
	if w.Halo {
		b.WriteString(` stroke-width="3" paint-order="stroke"`)
	}
	if len(p.text) > 3 {
		fmt.Fprintf(b, ` textLength="%s" lengthAdjust="spacingAndGlyphs"`, num(w.Width(p.text)))
	}
	b.WriteString(">" + html.EscapeString(p.text) + "</text>\n")
}

func (g Group) svg(b *bytes.Buffer) {
	b.WriteString("<g")
	if g.ID != "" {
		b.WriteString(` id="` + Escape(g.ID) + `"`)
	}
	if g.Class != "" {
		b.WriteString(` class="` + Escape(g.Class) + `"`)
	}
	if g.Move != (r2.Vec{}) {
		b.WriteString(` transform="translate(` + num(g.Move.X) + " " + num(g.Move.Y) + `)"`)
	}
	if g.Hidden {
		b.WriteString(` visibility="hidden"`)
	}
	b.WriteByte('>')
	if g.Title != "" {
		b.WriteString("<title>" + Escape(g.Title) + "</title>")
	}
	b.WriteByte('\n')
}

// Escape makes a text of any origin fit to stand in SVG and HTML, as content or
// between double quotes: cleaned, cut to plain.MaxText and escaped.
func Escape(s string) string { return html.EscapeString(safe(s)) }

// escapeLong does so with a text that may be longer.
func escapeLong(s string) string { return html.EscapeString(plain.Long(s)) }

// num writes a length with two decimals at most.
func num(x float64) string {
	x = math.Round(x*100) / 100
	if x == 0 {
		return "0" // not -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}
