package reference

import (
	"math"
	"testing"

	"playout/model"
	"playout/sim"
)

// TestGoesForward: a man who stands still has the ball half a metre nearer to the other goal when he
// lets it go than where he got it; only one who moves goes forward.
func TestGoesForward(t *testing.T) {
	for _, c := range []struct{ x, want float64 }{{sim.BallAhead, 0}, {sim.BallAhead + 0.1, 1}, {-1, 0}} {
		got, left := event(sim.EventReceive, 100, 0, 0), passAt(120, c.x, 0, sim.GroundPass)
		got.Player = 6
		var m movementSums
		m.spell(&got, &left, nil, model.DefaultPitch)
		if p := m.Forward; p.N != 1 || float64(p.K) != c.want {
			t.Errorf("ball %v m ahead: %+v, want %v", c.x, p, c.want)
		}
	}
}

// TestSpell works one spell by hand: received 12 m from the nearest opponent, held for
// 2 s over 6 m to the front, released with him at 5 m, after he had been at 1.5 m; the
// last line fell from 40 to 37 m. The ball had come 32 m across in 3 s.
func TestSpell(t *testing.T) {
	from := passAt(70, -30, -16, sim.HighPass)
	got, left := event(sim.EventReceive, 100, -10, 16), passAt(120, -4, 16, sim.GroundPass)
	got.Near, got.Line, got.Player = 12, 40, 6
	left.Near, left.Closest, left.Path, left.Line = 5, 1.5, 7, 37
	var m movementSums
	m.spell(&got, &left, &from, model.DefaultPitch)
	v := values{}
	v.players(&m)
	for name, want := range map[string]float64{
		"nearest_defender/reception/middle":          12.1, // the end of its bin
		"nearest_defender/release/middle":            5.1,
		"nearest_defender/reception/middle/below_4m": 0,
		"time_on_ball/one_touch/nearest/above_8m":    0,
		"time_on_ball/held/nearest/above_8m":         2,
		"press_broadcast/below_2m/middle":            1,
		"press_broadcast/below_2m/middle/from_4m":    1,
		"time_on_ball/middle/mean":                   2,
		"time_on_ball/one_touch":                     0,
		"closing_speed/held_1s":                      3.5,
		"carrier_mean_speed/held_1s":                 3.5,
		"carrier/goes_forward":                       1,
		"switches_broadcast/closing_speed":           3.5,
		"switches_broadcast/below_5m_at_release":     0,
		"switches_broadcast/nearest_at_reception":    12.1,
	} {
		if x := v[name].Value; math.Abs(x-want) > 0.1+1e-9 || math.IsNaN(x) {
			t.Errorf("%s is %v, want %v", name, x, want)
		}
	}
	if m.LineForward != (total{-150, 1}) {
		t.Errorf("last line %+v, want -150 cm/s once", m.LineForward)
	}
	got.Player = 0
	m.spell(&got, &left, &from, model.DefaultPitch)
	if m.Forward != (part{1, 1}) {
		t.Errorf("%+v spells go forward, want one of one: the keeper's does not count", m.Forward)
	}
	back := passAt(150, -17, 0, sim.GroundPass)
	back.Line = 45
	m.playedBack(&got, &back)
	if m.LineBack != (total{100, 1}) {
		t.Errorf("last line %+v when the ball goes back 7 m in 5 s, want +100 cm/s", m.LineBack)
	}
}

// TestTravelled works one pass by hand: 22 m along the ground, received by tick 20 after it left,
// so under way for 1.95 s. A high one and one of 4 m are not timed.
func TestTravelled(t *testing.T) {
	var m movementSums
	pass, got := passAt(50, -20, 5, sim.GroundPass), event(sim.EventReceive, 70, 2, 5)
	m.travelled(&pass, &got)
	high, short := passAt(50, -20, 5, sim.HighPass), event(sim.EventReceive, 55, -16, 5)
	m.travelled(&high, &got)
	m.travelled(&pass, &short)
	v := values{}
	v.players(&m)
	if x := v["pass_speed/ground/20-25"]; math.Abs(x.Value-22/1.95) > speedBin || x.N != 1 {
		t.Errorf("%+v, want %v once", x, 22/1.95)
	}
	if x := v["pass_speed/ground/5-10"]; x.N != 0 {
		t.Errorf("%d short passes timed", x.N)
	}
}

// TestFitShift recovers the constants of a block that follows a ball exactly as the
// first-order response does: dc/dt = (0.44 b + 1.5 - c)/tau, started away from rest.
// Between the time constants tried, the parabola may miss by a few hundredths.
func TestFitShift(t *testing.T) {
	const gain, offset, dt = 0.44, 1.5, 0.4
	for _, tau := range []float64{2.25, 3.3} {
		var s [len(sim.ShiftTimes)]sim.ShiftSum
		for spell := range 20 {
			c0 := 4 - 0.5*float64(spell)
			c := c0
			var z [len(sim.ShiftTimes)]float64
			for k := 1; k <= 50; k++ {
				b := 25 * math.Sin(float64(k*(spell+3))/17)
				c += (1 - math.Exp(-dt/tau)) * (gain*b + offset - c)
				for i, try := range sim.ShiftTimes {
					z[i] += (1 - math.Exp(-dt/try)) * (b - z[i])
					rest := math.Exp(-float64(k) * dt / try)
					y, u := c-c0*rest, 1-rest
					q := &s[i]
					q.CC += int64(1e4 * y * y)
					q.CZ += int64(1e4 * y * z[i])
					q.CU += int64(1e5 * y * u)
					q.ZZ += int64(1e4 * z[i] * z[i])
					q.ZU += int64(1e5 * z[i] * u)
					q.UU += int64(1e6 * u * u)
				}
			}
		}
		g, found := fitShift(&s)
		if math.Abs(g-gain) > 0.02 || math.Abs(found-tau) > 0.15 {
			t.Errorf("gain %.3f, time constant %.3f s, want %.3f and %.2f", g, found, gain, tau)
		}
	}
}

// TestQuantile takes the counts of a bin as evenly spread: of 1, 1, 2 and 4 cases in the
// first bins of 0.5 m, half lie below the end of the third, three quarters in the
// middle of the fourth.
func TestQuantile(t *testing.T) {
	h := []int64{1, 1, 2, 4}
	for p, want := range map[float64]float64{0.125: 0.5, 0.5: 1.5, 0.75: 1.75, 1: 2} {
		if x, n := quantile(h, p, 0.5); x != want || n != 8 {
			t.Errorf("quantile %v is %v of %d, want %v of 8", p, x, n, want)
		}
	}
	if x, n := quantile([]int64{0, 0}, 0.5, 1); !math.IsNaN(x) || n != 0 {
		t.Errorf("quantile of nothing is %v", x)
	}
}

// TestStandardised weighs rates of 1/2 and 3/4 with 3 and 1 passes of the reference
// (0.5625), and gives no rate when most of the reference's passes are without cases.
func TestStandardised(t *testing.T) {
	v := values{}
	v.standardised([numThirds]part{{10, 20}, {15, 20}, {}}, [numThirds]float64{3, 1, 0}, "a")
	v.standardised([numThirds]part{{10, 20}, {15, 20}, {1, 2}}, [numThirds]float64{3, 1, 4}, "b")
	if x := v["a"]; x.Value != 0.5625 || x.N != 40 {
		t.Errorf("%+v, want 0.5625 of 40", x)
	}
	if x := v["b"]; !math.IsNaN(x.Value) || x.N != 0 {
		t.Errorf("%+v, want none", x)
	}
}

// TestFound: a man who got the ball at (-30, 0) and carried it into the middle third finds one
// ahead of where he got it, with an opponent 5 m off; the high ball that follows does not count.
func TestFound(t *testing.T) {
	first, second, third := event(sim.EventReceive, 10, -30, 0), event(sim.EventReceive, 30, -20, 3), event(sim.EventReceive, 70, 20, 3)
	second.Near, third.Near = 5, 2
	var m movementSums
	m.possession(&sim.Possession{Ticks: 90}, []sim.Event{first, passAt(20, -16, 8, sim.GroundPass), second,
		passAt(40, -18, 3, sim.HighPass), third, event(sim.EventEnd, 90, 22, 3)}, model.DefaultPitch)
	v := values{}
	v.players(&m)
	if x := v["nearest_defender/pass_from/own/forward"]; x.N != 1 || math.Abs(x.Value-5.1) > 0.1+1e-9 {
		t.Errorf("found %+v, want one opponent 5 m off", x)
	}
	if x := v["nearest_defender/pass_from/own/sideways"]; x.N != 0 {
		t.Errorf("%d found sideways", x.N)
	}
}
