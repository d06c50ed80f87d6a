package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Worked by hand: the ball leaves along x from the centre spot. An opponent 0.4 m off
// its way and 8 m off, who stretches 0.8 + 0.1 (8 - 2.5) = 1.35 m to either side, covers
// 1 - (0.4/1.35)^2 = 0.912 of what one in the middle of it does, 0.547 for 0.6.
func TestBlocked(t *testing.T) {
	w := &world{}
	w.par.BlockChance = 0.6
	for b := range w.pos {
		w.pos[b] = r2.Vec{X: -30, Y: float64(b)}
	}
	dir := r2.Vec{X: 1}
	w.pos[12], w.pos[13], w.pos[14] = r2.Vec{X: 2}, r2.Vec{X: 8, Y: 0.4}, r2.Vec{X: 20}
	w.nearest, w.gapTo = 12, 2
	far := 0.6 * (1 - 0.4*0.4/(1.35*1.35))
	for _, c := range []struct {
		name string
		low  float64
		want float64
	}{
		{"any ball: only the man in front", 0, 0.6},
		{"low cross of 15 m: who stands beyond it does not matter", 15, 1 - 0.4*(1-far)},
		{"low cross of 25 m: all three", 25, 1 - 0.4*(1-far)*0.4},
	} {
		if got, by := w.blocked(dir, c.low); math.Abs(got-c.want) > 1e-12 || by != 12 {
			t.Errorf("%s: %.4f by %d, want %.4f by 12", c.name, got, by, c.want)
		}
	}
	w.beaten[12] = 1 // he is out of it
	if got, by := w.blocked(dir, 15); math.Abs(got-far) > 1e-12 || by != 13 {
		t.Errorf("man in front beaten: %.4f by %d, want %.4f by 13", got, by, far)
	}
	if got, _ := w.blocked(r2.Vec{X: -1}, 0); got != 0 {
		t.Errorf("a ball the other way: %.4f, want 0", got)
	}
}

// By definition: from out wide near the goal line a ball to a man in
// the penalty area is a cross and offered once, to one outside it a pass.
func TestCrossIsOfferedOnce(t *testing.T) {
	w := &world{pitch: model.Pitch{Length: 105, Width: 68}, halfL: 52.5, halfW: 34}
	for _, c := range []struct {
		ball, mate r2.Vec
		from, to   bool
	}{
		{r2.Vec{X: 44, Y: 28}, r2.Vec{X: 44, Y: -4}, true, true},
		{r2.Vec{X: 44, Y: 28}, r2.Vec{X: 33, Y: -4}, true, false},
		{r2.Vec{X: 44, Y: 8}, r2.Vec{X: 44, Y: -4}, false, true},
		{r2.Vec{X: 20, Y: 28}, r2.Vec{X: 44, Y: -4}, false, true},
	} {
		w.ball = c.ball
		if from, to := w.canCross(), w.awaitsCross(c.mate); from != c.from || to != c.to {
			t.Errorf("ball %v, mate %v: %v and %v", c.ball, c.mate, from, to)
		}
	}
}
