package page

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"playout/internal/draw"
)

// Text has a contrast of 4.5 to 1 or more on the paper and on cards, in both themes.
// Source: WCAG 2.2, success criterion 1.4.3 and the definition of relative luminance.
func TestContrast(t *testing.T) {
	themes := regexp.MustCompile(`:root\{([^}]*)\}`).FindAllStringSubmatch(looks, -1)
	if len(themes) < 2 {
		t.Fatal("there are no two themes")
	}
	for i, theme := range themes[:2] {
		colour := map[string]string{}
		for _, rule := range strings.Split(theme[1], ";") {
			name, value, _ := strings.Cut(rule, ":")
			colour[strings.TrimPrefix(name, "--")] = value
		}
		for _, ink := range []string{"ink", "pencil", "side", "block"} {
			for _, ground := range []string{"paper", "card"} {
				if c := contrast(colour[ink], colour[ground]); c < 4.5 {
					t.Errorf("theme %d: %s on %s has a contrast of %.2f", i, ink, ground, c)
				}
			}
		}
		paper := draw.Paper.Colour(draw.Theme(i))
		if got := fmt.Sprintf("#%02x%02x%02x", paper.R, paper.G, paper.B); got != colour["paper"] {
			t.Errorf("theme %d: the paper of scenes is %s, that of the page %s", i, got, colour["paper"])
		}
	}
}

// Black on white is 21 to 1, by the definition.
func TestContrastOfBlackOnWhite(t *testing.T) {
	if c := contrast("#000000", "#ffffff"); math.Abs(c-21) > 1e-9 {
		t.Errorf("got %.3f, want 21", c)
	}
}

func contrast(a, b string) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

func luminance(hex string) float64 {
	n, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32)
	if err != nil {
		return math.NaN()
	}
	part := func(shift uint) float64 {
		v := float64(n>>shift&255) / 255
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}
