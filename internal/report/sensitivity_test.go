package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"playout/internal/experiment"
	"playout/internal/hinge"
	"playout/internal/sensitivity"
	"playout/internal/stats"
)

func around(value, half float64) stats.Estimate {
	return stats.Estimate{Value: value, Lo: value - half, Hi: value + half, Level: 0.95, N: 64}
}

// studyOf is a study of three inputs with these shares and the rest together.
func studyOf(half float64, shares [3]float64, rest float64) *hinge.Study {
	f, _ := experiment.FigureNamed("final_third")
	st := &hinge.Study{
		Question: hinge.Question{Figure: f, Seed: 1, Points: 64, Possessions: 200},
		Whole:    true, Played: 150000, Stars: 8,
		Shares: &sensitivity.Decomposition{Rows: 64, Mean: around(50, 1), Variance: around(36, 5), Noise: 9, Together: around(0.05, 0.1)},
	}
	for i, label := range []string{"height of the press", "width of the block", "time on the ball", "fourth", "fifth"} {
		st.Inputs = append(st.Inputs, hinge.Input{Path: string(rune('a' + i)), Label: label, Unit: "m from somewhere", Now: 50, From: 40, To: 60, Step: 5})
		st.Effects = append(st.Effects, sensitivity.Effect{Mean: around(-8, 2), Size: around(8-float64(i), 2), Sigma: 1})
	}
	for i, x := range shares {
		st.Factors = append(st.Factors, []int{i})
		st.Shares.Factors = append(st.Shares.Factors, sensitivity.Index{
			First: around(x, half), Total: around(x, half), Slope: around(-12, 4),
			Third: [3]stats.Estimate{around(55, 1), around(50, 1), around(45, 1)},
		})
	}
	st.Factors = append(st.Factors, []int{3, 4})
	none := stats.Estimate{Value: math.NaN(), Lo: math.NaN(), Hi: math.NaN()}
	st.Shares.Factors = append(st.Shares.Factors, sensitivity.Index{First: around(rest, half), Total: around(rest, half), Slope: none, Third: [3]stats.Estimate{none, none, none}})
	return st
}

func TestSensitivityAnswer(t *testing.T) {
	for _, c := range []struct {
		half   float64
		shares [3]float64
		rest   float64
		says   string
	}{
		{0.05, [3]float64{0.85, 0.08, 0.05}, 0.02, `Nearly all hangs on the height of the press (85%, 80 to 90, of what moves final-third entries).`},
		{0.05, [3]float64{0.2, 0.6, 0.1}, 0.1, `Most hangs on the width of the block (60%, 55 to 65, of what moves final-third entries).`},
		{0.05, [3]float64{0.4, 0.25, 0.2}, 0.15, `More hangs on the height of the press (40%, 35 to 45, of what moves final-third entries) than on anything else.`},
		{0.05, [3]float64{0.43, 0.38, 0.1}, 0.1, `It hangs most on the height of the press (43%, 38 to 48, of what moves final-third entries) or the width of the block (38%, 33 to 43): too close to call which.`},
		{0.1, [3]float64{0.3, 0.28, 0.25}, 0.1, `It hangs on several things: the height of the press (30%, 20 to 40, of what moves`},
		{0.1, [3]float64{0.2, 0.1, 0.1}, 0.6, `the 2 lesser inputs together count for more (60%, 50 to 70, of what moves final-third entries) than the first, the height of the press (20%`},
	} {
		s := DescribeSensitivity("A plan", studyOf(c.half, c.shares, c.rest), "v1", 2)
		if !strings.Contains(s.Answer[0], c.says) {
			t.Errorf("shares %v, rest %v: %q, want %q", c.shares, c.rest, s.Answer[0], c.says)
		}
	}
	s := DescribeSensitivity("A plan", studyOf(0.05, [3]float64{0.85, 0.08, 0.04}, 0.02), "v1", 2)
	// -12 over a span of 20 is -3 for 5; the spread is √36.
	text := strings.Join(s.Answer, " ")
	for _, want := range []string{"The height of the press, +5 m: -3.0 per 100 build-ups (-4.0 to -2.0).", "it is 50.0 per 100 build-ups on average; two in three combinations lie within about 6.0"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q does not say %q", text, want)
		}
	}
	if s.Inputs[3].Path != "d" || s.Inputs[3].Total.Value.Known() || len(s.Rest.Paths) != 2 {
		t.Errorf("the rest: %+v", s.Inputs[3])
	}
}

func TestSensitivityDoubt(t *testing.T) {
	st := studyOf(0.05, [3]float64{0.85, 0.08, 0.04}, 0.02)
	st.Shares.Variance = around(3, 4)
	if s := DescribeSensitivity("", st, "v1", 2); len(s.Answer) != 3 || !strings.HasPrefix(s.Answer[0], "Cannot tell yet how much") || !strings.Contains(s.Answer[1], "+5 m: -3.0") {
		t.Errorf("%q", s.Answer)
	}
	for k := range st.Shares.Factors {
		st.Shares.Factors[k].Slope = around(1, 4)
	}
	if s := DescribeSensitivity("", st, "v1", 2); len(s.Answer) != 1 || !strings.HasPrefix(s.Answer[0], "Cannot tell yet: over these spans nothing") {
		t.Errorf("%q", s.Answer)
	}
	st.Shares, st.Whole = nil, false
	s := DescribeSensitivity("", st, "v1", 2)
	if !strings.HasPrefix(s.Answer[0], "Only the screening was played. In it the height of the press moved") {
		t.Errorf("%q", s.Answer)
	}
	if r, err := s.Picture(); err != nil || len(r.Names) != 5 || r.Level == nil {
		t.Errorf("picture of the screening: %v", err)
	}
	var b bytes.Buffer
	if err := s.Write(&b, Table); err != nil || !strings.Contains(b.String(), "PARTIAL: interrupted after 150,000 build-ups") {
		t.Errorf("%v\n%s", err, b.String())
	}
	st.Shares = studyOf(0.05, [3]float64{0.5, 0.2, 0.1}, 0.2).Shares
	st.Shares.Factors[0].Slope = around(0.5, 4)
	s = DescribeSensitivity("", st, "v1", 2)
	if !strings.Contains(strings.Join(s.Answer, " "), "has no clear direction: 55.0 in the lowest third of its span, 50.0 in the middle, 45.0 in the highest") {
		t.Errorf("%q", s.Answer)
	}
}

// TestSensitivityFormats: lines fit the terminal, JSON is an object without NaN, CSV
// has a row for each input and one for the rest.
func TestSensitivityFormats(t *testing.T) {
	s := DescribeSensitivity("A plan", studyOf(0.05, [3]float64{0.85, 0.08, 0.04}, 0.02), "v1", 2)
	for _, f := range Formats {
		var b bytes.Buffer
		if err := s.Write(&b, f); err != nil {
			t.Fatal(err)
		}
		switch f {
		case Table:
			for line := range strings.Lines(b.String()) {
				if width(strings.TrimSuffix(line, "\n")) > maxColumns {
					t.Errorf("too wide: %s", line)
				}
			}
		case JSON:
			var object map[string]any
			if err := json.Unmarshal(b.Bytes(), &object); err != nil || len(object["inputs"].([]any)) != 5 {
				t.Errorf("%v\n%s", err, b.String())
			}
		case CSV:
			if n := strings.Count(b.String(), "\n"); n != 7 || strings.Contains(b.String(), "NaN") {
				t.Errorf("%d lines\n%s", n, b.String())
			}
		}
	}
	if r, err := s.Picture(); err != nil || len(r.Names) != 4 || len(r.Series[0].Values) != 4 {
		t.Errorf("picture: %v", err)
	}
}
