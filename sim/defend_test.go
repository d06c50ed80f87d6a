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

// TestThreatsTaken: whom the ball may find in front of goal the nearest defender takes, not the
// one to whose slot he is nearest, the man nearest to goal first and each by one of his own; and
// a man of the last line steps out of it to him. Common practice, no source.
func TestThreatsTaken(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.ThreatReach, p.StepOut = 9, 6 })
	const def = int(model.Defence)
	w.onBall, w.state, w.carrier = 0, held, 8
	w.ball = r2.Vec{X: 28, Y: -12}
	w.def.presser, w.def.second, w.def.stance = nobody, nobody, compact
	for b := range w.pos {
		w.pos[b] = r2.Vec{X: -20, Y: float64(b)} // out of the way
	}
	w.pos[8], w.pos[9], w.pos[10] = w.ball, r2.Vec{X: 36}, r2.Vec{X: 41, Y: 3}
	w.pos[11+2], w.pos[11+3] = r2.Vec{X: 43, Y: 2}, r2.Vec{X: 41, Y: -3}
	w.viewLines()
	w.def.height = 10
	w.layOut(def)
	w.mark(def)
	for i, want := range map[int]int{2: 10, 3: 9} {
		if got := w.def.marks[i]; got != want {
			t.Errorf("centre-back %d marks %d, want %d", i, got, want)
		}
	}
	line := -w.halfL + w.def.height
	if x := w.lastLine(def, 3, line+20); math.Abs(x-line-2.5-6) > 1e-9 {
		t.Errorf("he steps %.1f m out of the line, want 8.5", x-line)
	}
	w.pos[9].X = w.halfL - shotRange - 1
	if x := w.lastLine(def, 3, line+20); math.Abs(x-line-2.5) > 1e-9 {
		t.Errorf("to a man out of shooting distance he steps %.1f m out, want 2.5", x-line)
	}
}

// TestRecoveryRuns: defenders whom the ball has passed run back to their own places in front of
// goal, not all to the ball. Common practice, no source.
func TestRecoveryRuns(t *testing.T) {
	w := worldWith(func(*model.Params) {})
	const def = int(model.Defence)
	w.onBall, w.state, w.carrier, w.ball = 0, held, 8, r2.Vec{X: 25, Y: 28}
	ball := own(def, w.ball)
	for _, y := range []float64{-30, -5, 10} {
		const b = 11*def + 6
		w.pos[b] = own(def, r2.Vec{X: ball.X + 8, Y: y})
		w.recover(b, ball, y)
		at := own(def, w.target[b])
		if at.X > ball.X-goalSideBy+1e-9 {
			t.Errorf("he runs to %.1f m from the line, the ball is %.1f m from it", at.X+w.halfL, ball.X+w.halfL)
		}
		if want := max(y, -model.PenaltyAreaWidth/2); math.Abs(at.Y-want) > 1e-9 {
			t.Errorf("who belongs %.0f m across runs to %.1f m, want %.1f", y, at.Y, want)
		}
	}
}

// However compact a block is, it gets tight to a carrier who is within TightWithin of the goal;
// on the wing, as near to the goal line, he is further from it and is held up from JockeyAt.
func TestTightInFrontOfGoal(t *testing.T) {
	const def, presser = int(model.Defence), 14
	gap := func(x, y float64) float64 {
		w := worldWith(func(p *model.Params) { p.TightWithin, p.PressAt, p.JockeyAt, p.ShowOff = 28, 1, 2, 0 })
		at := r2.Vec{X: x, Y: y}
		w.ball, w.state, w.carrier, w.pos[3] = at, held, 3, at
		w.pos[presser] = r2.Vec{X: 48}
		w.confront(presser)
		return dist(w.target[presser], at)
	}
	for _, c := range []struct{ x, y, want float64 }{
		{26, 0, 1}, {24, 0, 2}, {30, 10, 1}, {30, 26, 2}, {46, 28, 2}, {46, 20, 1},
	} {
		if got := gap(c.x, c.y); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("carrier at %v, %v, %.0f m from goal: held from %.2f m, want %v", c.x, c.y, math.Hypot(52.5-c.x, c.y), got, c.want)
		}
	}
}
