package draw

import (
	"image/color"
	"math"
	"testing"
)

// Matrices that simulate full protanopia and deuteranopia in linear RGB. Source:
// Machado, Oliveira and Fernandes (2009), A physiologically-based model for
// simulation of color vision deficiency, IEEE Transactions on Visualization and
// Computer Graphics 15, 1291-1298, severity 1.0 (from memory).
var blindness = map[string][3][3]float64{
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"none":         {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	// Grey as printed: the luminance weights of ITU-R BT.709.
	"grey": {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}},
}

// linear undoes the transfer function of sRGB (IEC 61966-2-1).
func linear(c color.NRGBA) [3]float64 {
	var out [3]float64
	for i, x := range []uint8{c.R, c.G, c.B} {
		v := float64(x) / 255
		if v <= 0.04045 {
			out[i] = v / 12.92
		} else {
			out[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return out
}

// lab is CIE L*a*b* under D65 (CIE 15).
func lab(c [3]float64) [3]float64 {
	x := (0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.9505
	y := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	z := (0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.089
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return [3]float64{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

func seen(c color.NRGBA, eye [3][3]float64) [3]float64 {
	in := linear(c)
	var out [3]float64
	for i, row := range eye {
		out[i] = min(max(row[0]*in[0]+row[1]*in[1]+row[2]*in[2], 0), 1)
	}
	return lab(out)
}

// The inks of the two teams and the paper stay apart for everybody. A difference
// of 2.3 in CIE 1976 is just noticeable (Mahy et al. 1994, from memory); 18 is seen
// at a glance (common practice, no source).
func TestInksApart(t *testing.T) {
	pairs := [][2]Ink{{Side, Block}, {Side, Paper}, {Block, Paper}, {Side, Grass}, {Block, Grass}, {Ball, Block}, {Ball, Paper}, {Text, Paper}, {Chalk, Side}, {Chalk, Block}}
	for theme := range NumThemes {
		for name, eye := range blindness {
			for _, p := range pairs {
				a, b := seen(p[0].Colour(theme), eye), seen(p[1].Colour(theme), eye)
				if d := math.Hypot(math.Hypot(a[0]-b[0], a[1]-b[1]), a[2]-b[2]); d < 18 {
					t.Errorf("theme %d, %s: %v and %v differ by %.1f only", theme, name, p[0], p[1], d)
				}
			}
		}
	}
}

// Words can be read: contrast at least 4.5 (WCAG 2.2, criterion 1.4.3).
func TestContrastOfWords(t *testing.T) {
	light := func(c color.NRGBA) float64 {
		l := linear(c)
		return 0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2] + 0.05
	}
	for theme := range NumThemes {
		for _, i := range []Ink{Text, Pencil, Side, Block} {
			for _, on := range []Ink{Paper, Grass} {
				a, b := light(i.Colour(theme)), light(on.Colour(theme))
				if r := max(a, b) / min(a, b); r < 4.5 {
					t.Errorf("theme %d: %v on %v has contrast %.2f", theme, i, on, r)
				}
			}
		}
	}
}
