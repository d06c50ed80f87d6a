package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// TestLaw1 checks the markings against IFAB, Laws of the Game 2024/25, Law 1.
func TestLaw1(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"goal, between the posts", GoalWidth, 7.32},
		{"goal, to the bar", GoalHeight, 2.44},
		{"goal area: 5.5 m from the inside of each post", GoalAreaWidth, 7.32 + 2*5.5},
		{"goal area, into the field", GoalAreaDepth, 5.5},
		{"penalty area: 16.5 m from the inside of each post", PenaltyAreaWidth, 7.32 + 2*16.5},
		{"penalty area, into the field", PenaltyAreaDepth, 16.5},
		{"penalty mark", PenaltyMark, 11},
		{"centre circle", CircleRadius, 9.15},
		{"corner arc", CornerRadius, 1},
		{"shortest touchline", MinLength, 90}, {"longest touchline", MaxLength, 120},
		{"shortest goal line", MinWidth, 45}, {"longest goal line", MaxWidth, 90},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %v m, want %v m", c.name, c.got, c.want)
		}
	}
}

// TestLanesAndThirds checks that every place lies in the zone the marks say, and
// that a mirrored place lies in the mirrored lane.
func TestLanesAndThirds(t *testing.T) {
	f := DefaultPitch
	for _, c := range []struct {
		y    float64
		want Lane
	}{{34, LeftWing}, {20.17, LeftWing}, {20.15, LeftHalfSpace}, {9.17, LeftHalfSpace}, {9.15, Centre}, {0, Centre}, {-9.15, Centre},
		{-9.17, RightHalfSpace}, {-20.15, RightHalfSpace}, {-20.17, RightWing}, {-34, RightWing}} {
		if got := LaneOf(c.y); got != c.want {
			t.Errorf("y = %v lies in %v, want %v", c.y, got, c.want)
		}
	}
	for _, c := range []struct {
		x    float64
		want Third
	}{{-52.5, OwnThird}, {-17.51, OwnThird}, {-17.5, MiddleThird}, {17.5, MiddleThird}, {17.51, FinalThird}} {
		if got := f.ThirdOf(c.x); got != c.want {
			t.Errorf("x = %v lies in the %v third, want %v", c.x, got, c.want)
		}
	}
	rng := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		y := 68 * (rng.Float64() - 0.5)
		if LaneOf(-y) != LaneOf(y).Mirror() {
			t.Errorf("y = %v: the mirrored lane is %v", y, LaneOf(-y))
		}
	}
}

func TestPenaltyArea(t *testing.T) {
	for _, c := range []struct {
		p    r2.Vec
		want bool
	}{{r2.Vec{X: 36}, true}, {r2.Vec{X: 35.9}, false}, {r2.Vec{X: 40, Y: 20.16}, true}, {r2.Vec{X: 40, Y: 20.2}, false}, {r2.Vec{X: 52.5, Y: -5}, true}} {
		if got := DefaultPitch.InPenaltyArea(c.p); got != c.want {
			t.Errorf("%v in the penalty area: %v, want %v", c.p, got, c.want)
		}
	}
}

// TestLaw11 checks offside positions against IFAB, Laws of the Game 2024/25,
// Law 11: in the opponents' half (the halfway line excluded) and nearer to
// their goal line than both the ball and the second-last opponent; level is
// onside.
func TestLaw11(t *testing.T) {
	back := []float64{50, 20, 20, 18, 5} // keeper first
	for _, c := range []struct {
		name      string
		x, ball   float64
		opponents []float64
		want      bool
	}{
		{"beyond ball and second-last", 25, 10, back, true},
		{"level with the second-last", 20, 10, back, false},
		{"level with the last two", 20, 10, []float64{20, 20, 3}, false},
		{"behind the ball", 25, 26, back, false},
		{"level with the ball", 25, 25, back, false},
		{"own half", -2, -20, []float64{50, -10, -10}, false},
		{"on the halfway line", 0, -20, []float64{50, -10, -10}, false},
		{"just over it", 0.1, -20, []float64{50, -10, -10}, true},
		{"keeper up the pitch: the last outfield player is the last man", 30, 10, []float64{12, 40, 25}, true},
		{"between the last and the second-last opponent", 45, 10, []float64{50, 40, 30}, true},
		{"onside of the second-last when the keeper is out", 24, 10, []float64{12, 40, 25}, false},
	} {
		if got := OffsidePosition(c.x, c.ball, c.opponents); got != c.want {
			t.Errorf("%s: offside %v, want %v", c.name, got, c.want)
		}
	}
}
