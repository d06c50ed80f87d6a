package sim

import (
	"math"
	"testing"
)

// What a judgement says of an option is what the carrier judged, and its parts give
// its chance.
func TestJudgementAgreesWithChoice(t *testing.T) {
	for i := range allStills {
		scene, _ := allStills[i].scene(t, 1)
		w := allStills[i].world(t, 1)
		j := scene.Judge(nil)
		shares := 0.0
		for _, o := range j.Options {
			shares += o.Share
			if math.Abs(o.Risk-(1-o.Chance)*o.Cost) > 1e-12 || o.Cost < 0 {
				t.Errorf("%s: risk %v of chance %v and cost %v", allStills[i].name, o.Risk, o.Chance, o.Cost)
			}
			if o.Pass == nil {
				continue
			}
			p, ours, all := o.Pass, 0.0, 0.0
			for k := range 11 {
				ours += p.Takes[0][k]
				all += p.Takes[0][k] + p.Takes[1][k]
			}
			if all > 1+1e-9 || p.Takes[0][scene.Carrier] != 0 {
				t.Errorf("%s: control sums to %v, the carrier has %v", allStills[i].name, all, p.Takes[0][scene.Carrier])
			}
			if got := p.Touch * (ours + p.Unclaimed/2); math.Abs(got-o.Chance) > 1e-9 {
				t.Errorf("%s: %v to %d, %v: the parts give a chance of %v, the carrier sees %v", allStills[i].name, o.Pass, o.Player, o.Flight, got, o.Chance)
			}
		}
		if math.Abs(shares-1) > 1e-9 {
			t.Errorf("%s: shares sum to %v", allStills[i].name, shares)
		}
		for k := range w.opt.n { // every option of a single look is there, with the same chance and worth
			o := &w.opt.o[k]
			shown, found := o.shown(), false
			for _, got := range j.Options {
				got.Share = 0
				found = found || got.Option == shown
			}
			if !found {
				t.Errorf("%s: option %+v of a look is not in the judgement", allStills[i].name, shown)
			}
		}
	}
}

// The surface is the mirror image for the mirror image, and lies in [0, 1].
func TestSurface(t *testing.T) {
	s := stillNamed(t, "between the lines, no screen")
	scene, _ := s.scene(t, 1)
	mirrored, _ := s.scene(t, -1)
	a, b := scene.Judge(nil).Surface, mirrored.Judge(nil).Surface
	if math.Abs(float64(a.Columns)*a.Length-scene.Scenario.Pitch.Length) > 1e-9 || math.Abs(float64(a.Rows)*a.Width-scene.Scenario.Pitch.Width) > 1e-9 {
		t.Fatalf("cells of %v x %v do not fill the pitch", a.Length, a.Width)
	}
	for k := range a.Rows {
		for i := range a.Columns {
			x, y := a.Chance[i+k*a.Columns], b.Chance[i+(a.Rows-1-k)*a.Columns]
			if math.Abs(x-y) > 1e-9 {
				t.Fatalf("cell %d, %d: %v, its mirror image %v", i, k, x, y)
			}
			if !(x >= 0 && x <= 1) {
				t.Fatalf("cell %d, %d: chance %v", i, k, x)
			}
		}
	}
}

// Level with the second-last opponent is onside, a metre beyond is not (Law 11); the
// surface takes what a man offside would get as lost.
func TestStillMarksOffside(t *testing.T) {
	scene, body := stillNamed(t, "one offside, one level").scene(t, 1)
	j := scene.Judge(nil)
	for b, off := range j.Offside {
		if off != (b == body["CF"]) {
			t.Errorf("body %d offside: %t", b, off)
		}
	}
}
