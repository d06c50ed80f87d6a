package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// The average block's last line is that of SkillCorner open data (MIT) for any place of
// the ball, 2.6 + 0.54 d; a high block's is its own at halfway and the average one once
// the ball is near its goal; a deep block's is its own everywhere.
func TestLineHeightNearGoal(t *testing.T) {
	w := worldWith(func(*model.Params) {})
	average := &model.Block{LineHeight: 30.95, Follow: 0.54}
	high := &model.Block{LineHeight: 38.5, Follow: 0.306}
	deep := &model.Block{LineHeight: 28.4, Follow: 0.488}
	for _, c := range []struct {
		name  string
		block *model.Block
		u     float64
		want  float64
	}{
		{"average, deep ball", average, 20, 2.6 + 0.54*20},
		{"average, ball on halfway", average, 52.5, 2.6 + 0.54*52.5},
		{"high, ball on halfway", high, 52.5, 38.5},
		{"high, ball beyond it", high, 70, 38.5 + 0.306*17.5},
		{"high, ball near goal", high, 20, 2.6 + 0.54*20},
		{"deep, ball near goal", deep, 20, 28.4 - 0.488*32.5},
	} {
		if got := w.lineHeight(c.block, c.u); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.3f m, want %.3f", c.name, got, c.want)
		}
	}
	last := 0.0
	for u := 15.0; u <= 60; u++ {
		h := w.lineHeight(high, u)
		if h <= last {
			t.Errorf("high block, ball %v m from goal: %.2f m after %.2f, want it higher", u, h, last)
		}
		last = h
	}
}

// When the first line steps up to the ball, the lines behind it go along in proportion
// to the depth of their slots.
func TestLinesGoAlong(t *testing.T) {
	target := func(share float64) (x float64, depth, lift float64) {
		w := worldWith(func(p *model.Params) { p.GoAlong = share })
		const def = int(model.Defence)
		w.ball, w.state, w.carrier = r2.Vec{X: -25}, held, 3
		w.def.presser, w.def.second = nobody, nobody
		for i := range w.def.marks {
			w.def.marks[i], w.def.holds[i] = nobody, nobody
		}
		ball := own(def, w.ball)
		b := &w.team(def).Block
		w.def.height = w.lineHeight(b, w.halfL+ball.X)
		w.layOut(def)
		for i := 1; i < 11; i++ {
			if r := b.Slot[i].Row; r > 0 && r < w.rows[def]-1 {
				w.holdSlot(def, i, ball)
				first := w.def.height + b.Length - w.halfL
				return own(def, w.target[11*def+i]).X, b.Slot[i].Depth, w.firstLine(b, first, ball.X) - first
			}
		}
		t.Fatal("no line between")
		return 0, 0, 0
	}
	still, depth, lift := target(0)
	if lift <= 0 {
		t.Fatalf("the first line does not step up: %.2f m", lift)
	}
	for _, share := range []float64{0.5, 1} {
		if along, _, _ := target(share); math.Abs(along-still-share*depth*lift) > 1e-9 {
			t.Errorf("share %v: %.3f m further up, want %.3f", share, along-still, share*depth*lift)
		}
	}
}

// TestTightNearTheBall: a defender stands the nearer to his man the nearer this one is to the
// ball, up to nextWithin. Common practice, no source.
func TestTightNearTheBall(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.BallTight, p.MarkLeash = 0.6, 12 })
	const def, i = int(model.Defence), 6
	block := w.team(def).Block
	block.ManLoyalty = 0.2
	slot, man := r2.Vec{X: -10}, r2.Vec{X: -6}
	before := 0.0
	for k, far := range []float64{5, 15, 25, nextWithin, nextWithin + 10} {
		w.ball = own(def, r2.Vec{X: man.X + far, Y: man.Y})
		gap := dist(w.tighten(def, i, slot, man, &block), man)
		if k > 0 && k < 4 && gap < before+0.2 || k == 4 && gap != before {
			t.Errorf("%v m from the ball: %v m off the man, nearer it %v", far, gap, before)
		}
		before = gap
	}
}
