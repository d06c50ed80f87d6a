package model

import (
	"math"
	"reflect"
	"strings"
	"testing"
)

// Two parameters with sd 0.05 and 0.1 m/s and correlation 0.6, by hand: L has the
// rows (0.05, 0) and (0.06, 0.08), since 0.06² + 0.08² = 0.1² and the covariance
// 0.05 · 0.06 = 0.003 = 0.6 · 0.05 · 0.1.
const twoRows = "# made up\nparameter,sd,d1,d2\nLook,0.05,0.05,0\nRunSpeed,0.1,0.06,0.08\n"

func TestDrawByHand(t *testing.T) {
	u, err := ParseUncertainty(strings.NewReader(twoRows))
	if err != nil {
		t.Fatal(err)
	}
	if u.Directions() != 2 {
		t.Fatalf("%d directions, want 2", u.Directions())
	}
	want := DefaultParams()
	if got := u.Draw([]float64{0, 0}); got != want {
		t.Errorf("the draw of zeros is %+v, want the defaults", got)
	}
	got := u.Draw([]float64{2, -1})
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("%s = %g, want %g", what, got, want)
		}
	}
	near("Look", got.Look, want.Look+2*0.05)
	near("RunSpeed", got.RunSpeed, want.RunSpeed+2*0.06-0.08)
	got.Look, got.RunSpeed = want.Look, want.RunSpeed
	if got != want {
		t.Errorf("a parameter without a row moved: %+v", got)
	}
	// Far out the admissible range ends it: 9 m/s is the fastest run, 0.3 s the shortest look.
	far := u.Draw([]float64{-1000, 5000})
	near("Look at its end", far.Look, 0.3)
	near("RunSpeed at its end", far.RunSpeed, 9)
	defer func() {
		if recover() == nil {
			t.Error("too few numbers did not panic")
		}
	}()
	u.Draw([]float64{1})
}

func TestUncertaintyIsStrict(t *testing.T) {
	for _, c := range []struct{ from, to, says string }{
		{"Look,", "LookX,", "parameter LookX: the engine has none of this name"},
		{"RunSpeed", "Look", "parameter Look stands there twice"},
		{"0.08", "x", `parameter RunSpeed: column 4 is "x", not a number`},
		{"0.08", "NaN", "not a number"},
		{"0.08", "1e999", "not a number"},
		{"0.1,", "0.12,", "parameter RunSpeed: standard deviation 0.12, but its factors give 0.1"},
		{"0.05,0.05", "-0.05,-0.05", "standard deviation -0.05"},
		{",d2", ",d3", `column 4 is "d3"`},
		{"parameter", "name", `column 1 is "name"`},
		{",0.08", "", "wrong number of fields"},
		{"Look,0.05,0.05,0\nRunSpeed,0.1,0.06,0.08\n", "", "no parameter in it"},
		{twoRows, "parameter,sd\nLook,0\n", "no direction in it"},
		{twoRows, "", "no parameter in it"},
	} {
		text := strings.Replace(twoRows, c.from, c.to, 1)
		if _, err := ParseUncertainty(strings.NewReader(text)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q for %q: error %v, want one that says %q", c.to, c.from, err, c.says)
		}
	}
}

// Every draw of the shipped table is admissible, and zeros give the defaults.
func TestDefaultUncertainty(t *testing.T) {
	u := DefaultUncertainty()
	z := make([]float64, u.Directions())
	if got := u.Draw(z); got != DefaultParams() {
		t.Error("the draw of zeros is not the defaults: one of them lies outside its admissible range")
	}
	moved := map[string]bool{}
	for k := range z {
		for _, far := range []float64{-50, -1, 1, 50} {
			z[k] = far
			v := reflect.ValueOf(u.Draw(z))
			for i, p := range ParamTable() {
				x := v.Field(i).Float()
				if x < p.Lo || x > p.Hi {
					t.Errorf("%s is drawn as %g, outside %g to %g", p.Name, x, p.Lo, p.Hi)
				}
				if x != p.Default {
					moved[p.Name] = true
				}
			}
		}
		z[k] = 0
	}
	for _, physical := range []string{"ArriveSpeed", "ArriveSpread", "ControlRate", "KeeperRate"} {
		if moved[physical] {
			t.Errorf("%s is a published constant and must not be drawn", physical)
		}
	}
	if len(moved) == 0 {
		t.Error("no parameter moves at all")
	}
}
