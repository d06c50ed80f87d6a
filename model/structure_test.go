package model

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

func TestParseShape(t *testing.T) {
	for _, s := range []string{"4-4-2", "4-3-1-2", "3-2-4-1", "2-3-2-3", "5-5", "1-4-2-1-2"} {
		shape, err := ParseShape(s)
		if err != nil || shape.String() != s {
			t.Errorf("%s: %v, %v", s, shape, err)
		}
	}
	for s, says := range map[string]string{
		"4-4-3": "adds up to 11", "4-4": "adds up to 8", "10": "rows", "": "rows", "4-x-2": `"x"`,
		"7-2-1": `"7"`, "4--4-2": `""`, "1-1-1-1-1-5": "rows", "-4-6": `""`,
	} {
		if _, err := ParseShape(s); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: error %v, want one that says %q", s, err, says)
		}
	}
}

// TestAssign compares the assignment with an exhaustive search over the places
// of a few players, the others standing on theirs.
func TestAssign(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		var want, places [10]r2.Vec
		for i := range want {
			far := r2.Vec{X: 1000 * float64(i+1)}
			want[i], places[i] = far, far
		}
		perm := rng.Perm(10)[:5]
		for _, i := range perm {
			want[i] = r2.Vec{X: rng.Float64(), Y: rng.Float64()}
			places[i] = r2.Vec{X: rng.Float64(), Y: rng.Float64()}
		}
		cost := func(p [10]int) (c float64) {
			for i, j := range p {
				c += r2.Norm2(r2.Sub(want[i], places[j]))
			}
			return c
		}
		best := math.Inf(1)
		var try func(k int, p [10]int, taken int)
		try = func(k int, p [10]int, taken int) {
			if k == len(perm) {
				best = min(best, cost(p))
				return
			}
			for _, j := range perm {
				if taken&(1<<j) == 0 {
					p[perm[k]] = j
					try(k+1, p, taken|1<<j)
				}
			}
		}
		try(0, [10]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}, 0)
		if got := cost(assign(want, places)); math.Abs(got-best) > 1e-6 {
			t.Errorf("assignment costs %v, the best %v", got, best)
		}
	}
}

// TestAnchorsBlend checks that anchors move without jumps as the ball goes up
// the pitch, and hold in full at the places of the phases.
func TestAnchorsBlend(t *testing.T) {
	team := AverageTeam("", DefaultPitch)
	st := &team.Structure
	for i := range 11 {
		last := st.At(i, r2.Vec{X: -52.5}, DefaultPitch)
		for x := -52.5; x <= 52.5; x += 0.5 {
			p := st.At(i, r2.Vec{X: x}, DefaultPitch)
			if d := r2.Norm(r2.Sub(p, last)); d > 1 {
				t.Fatalf("player %d jumps %.1f m with the ball at %.1f", i, d, x)
			}
			last = p
		}
		for ph := BuildUp; ph < NumPhases; ph++ {
			ball := r2.Vec{X: PhaseBall[ph] * DefaultPitch.Length}
			if d := r2.Norm(r2.Sub(st.At(i, ball, DefaultPitch), st.Anchor[ph][i])); d > 1e-9 {
				t.Errorf("player %d is %.2f m off his %v anchor", i, d, ph)
			}
		}
	}
}

// TestAttackWidth checks how wide the average team stands, phase by phase, against the
// medians of teams on the ball against a high, a mid and a low block. Source: movement
// tables, block_shape_broadcast (SkillCorner open data, 8 matches), spread between
// matches 2.1-2.7 m.
func TestAttackWidth(t *testing.T) {
	team := AverageTeam("", DefaultPitch)
	for ph, want := range [NumPhases]float64{51.0, 48.3, 42.0} {
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range team.Structure.Anchor[ph][1:] {
			lo, hi = min(lo, p.Y), max(hi, p.Y)
		}
		if got := hi - lo; math.Abs(got-want) > 2.4 {
			t.Errorf("%v: %.1f m wide, the data %.1f", Phase(ph), got, want)
		}
	}
}

// TestSlotsFitPositions checks that left men defend on the left and defenders
// in the last line, in every shape of the library.
func TestSlotsFitPositions(t *testing.T) {
	for _, s := range []string{"4-4-2", "4-5-1", "5-3-2", "4-2-3-1", "4-3-1-2"} {
		shape, err := ParseShape(s)
		if err != nil {
			t.Fatal(err)
		}
		team := AverageTeam("", DefaultPitch)
		b := AverageBlock(shape)
		b.SetSlots(team.Players)
		rows := make([]int, len(shape))
		for i, p := range team.Players[1:] {
			slot := b.Slot[i+1]
			rows[slot.Row]++
			if p.Position.Group() == Defenders && slot.Row != 0 {
				t.Errorf("%s: %v defends in row %d", s, p.Position, slot.Row)
			}
			if p.Position == LB && slot.Side <= 0 || p.Position == RB && slot.Side >= 0 {
				t.Errorf("%s: %v defends on side %v", s, p.Position, slot.Side)
			}
		}
		for r, n := range rows {
			if n != shape[r] {
				t.Errorf("%s: row %d holds %d players", s, r, n)
			}
		}
	}
}
