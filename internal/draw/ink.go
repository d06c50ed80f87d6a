package draw

import (
	"fmt"
	"image/color"
	"strings"
)

// Ink is what a shape is drawn with.
type Ink uint8

// Inks. The three that carry meaning are Side, Block and Ball; they differ in
// lightness as well as in hue, so that they stay apart in grey and for the
// colour-blind.
const (
	NoInk  Ink = iota
	Paper      // the ground
	Grass      // the field, hardly darker than the paper
	Chalk      // markings of the pitch
	Text       // words and whatever is neither team's
	Pencil     // secondary words
	Side       // the team on the ball
	Block      // the team without it
	Ball       // the ball and what is to be looked at
	NumInks
)

var inkNames = [NumInks]string{"none", "paper", "grass", "chalk", "text", "pencil", "side", "block", "ball"}

func (i Ink) String() string { return inkNames[i] }

// Theme is light or dark.
type Theme uint8

// Themes.
const (
	Light Theme = iota
	Dark
	NumThemes
)

var inks = [NumThemes][NumInks]color.NRGBA{
	Light: {
		Paper: {0xfb, 0xf9, 0xf4, 0xff}, Grass: {0xf4, 0xf1, 0xe8, 0xff}, Chalk: {0xb9, 0xb3, 0xa5, 0xff},
		Text: {0x24, 0x28, 0x2c, 0xff}, Pencil: {0x62, 0x67, 0x6b, 0xff},
		Side: {0x12, 0x3c, 0x5e, 0xff}, Block: {0xb0, 0x4a, 0x1a, 0xff}, Ball: {0x08, 0x08, 0x08, 0xff},
	},
	Dark: {
		Paper: {0x17, 0x1a, 0x1d, 0xff}, Grass: {0x1e, 0x22, 0x25, 0xff}, Chalk: {0x5d, 0x63, 0x66, 0xff},
		Text: {0xe9, 0xe5, 0xdb, 0xff}, Pencil: {0xa3, 0xa5, 0xa3, 0xff},
		Side: {0xa9, 0xd4, 0xf2, 0xff}, Block: {0xe0, 0x86, 0x4c, 0xff}, Ball: {0xff, 0xff, 0xff, 0xff},
	},
}

// Colour is the ink's colour in a theme.
func (i Ink) Colour(t Theme) color.NRGBA { return inks[t][i] }

// CSS is the style sheet that the classes of every scene's SVG need: literal
// colours, and others where the reader prefers dark. Give it once in a page that
// holds scenes written by Inline; it prints in the light colours.
func CSS() string {
	return themeCSS(Light) + "@media screen and (prefers-color-scheme:dark){" + themeCSS(Dark) + "}" + fontCSS
}

func themeCSS(t Theme) string {
	var b strings.Builder
	for i := Paper; i < NumInks; i++ {
		c := hex(i.Colour(t))
		fmt.Fprintf(&b, ".fill-%s{fill:%s}.line-%s{stroke:%s}", i, c, i, c)
	}
	return b.String()
}

const fontCSS = ".words{font-family:'Liberation Sans',Arial,Helvetica,sans-serif}.bold{font-weight:700}"

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
