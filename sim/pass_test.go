package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// A ball through the air strays the wider the nearer to full power it is struck, to the
// side as much as in length, and its passer knows it; up to easyKick there is no strain.
func TestStrain(t *testing.T) {
	judged := func(full, length float64) (turn, long float64) {
		w := worldWith(func(p *model.Params) { p.FullPower = full })
		f, _, l := w.errant(r2.Vec{X: length}, length, Clipped, 0.05, 1)
		return f.Dir.Y, l - length
	}
	played := func(full, length float64) (turn, long float64) {
		w := worldWith(func(p *model.Params) { p.FullPower = full })
		w.carrier, w.face = 3, r2.Vec{X: 1}
		f := w.struck(&option{act: playPass, aim: 9, kind: Clipped, target: r2.Vec{X: length}}, false)
		return math.Asin(f.Dir.Y), f.s1 - length
	}
	for _, c := range []struct {
		name   string
		strays func(full, length float64) (turn, long float64)
	}{{"judged", judged}, {"played", played}} {
		last := 1.0
		for _, length := range []float64{30, 52, 56, 60} {
			turn0, long0 := c.strays(0, length)
			turn, long := c.strays(2, length)
			ratio := turn / turn0
			if math.Abs(long/long0-ratio) > 1e-9 {
				t.Errorf("%s, %v m: %.3f times as far to the side, %.3f times in length", c.name, length, ratio, long/long0)
			}
			switch {
			case length == 30 && ratio != 1:
				t.Errorf("%s, 30 m: strays %.3f times as far, want once", c.name, ratio)
			case length > 30 && (ratio <= last || ratio > 3):
				t.Errorf("%s, %v m: strays %.2f times as far, want more than %.2f and at most 3", c.name, length, ratio, last)
			}
			last = ratio
		}
	}
}

// A headed pass strays HeadError times as far as one played with the time to look, a pass played
// first time OneTouchError times.
func TestHeadedPassStrays(t *testing.T) {
	turn := func(head float64, first, header bool) float64 {
		w := worldWith(func(p *model.Params) { p.HeadError, p.OneTouchError = head, 1.5 })
		w.carrier, w.face, w.since = 3, r2.Vec{X: 1}, w.tick
		if !first {
			w.since = w.tick - 10
		}
		f := w.struck(&option{act: playPass, aim: 9, kind: Ground, target: r2.Vec{X: 20}, launch: 12}, header)
		return math.Asin(f.Dir.Y)
	}
	plain := turn(1, false, false)
	for _, c := range []struct {
		name          string
		first, header bool
		want          float64
	}{{"headed", true, true, 3}, {"first time", true, false, 1.5}} {
		if got := turn(3, c.first, c.header) / plain; math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: strays %.4f times as far, want %v", c.name, got, c.want)
		}
	}
}

// A pass along the ground strays to the side, and only there, by FirmPass more for each firmFrom
// that it is struck harder than that; a softer one and one through the air by nothing.
func TestFirmPass(t *testing.T) {
	struck := func(firm, launch float64, kind FlightKind) Flight {
		w := worldWith(func(p *model.Params) { p.FirmPass = firm })
		w.carrier, w.face = 3, r2.Vec{X: 1}
		return w.struck(&option{act: playPass, aim: 9, kind: kind, target: r2.Vec{X: 30}, launch: launch}, false)
	}
	for _, c := range []struct {
		name   string
		launch float64
		kind   FlightKind
		want   float64
	}{
		{"half as hard again", 1.5 * firmFrom, Ground, 2}, {"just so hard", firmFrom, Ground, 1},
		{"soft", 8, Ground, 1}, {"through the air", 1.5 * firmFrom, Clipped, 1},
	} {
		plain, firm := struck(0, c.launch, c.kind), struck(2, c.launch, c.kind)
		if got := math.Asin(firm.Dir.Y) / math.Asin(plain.Dir.Y); math.Abs(got-c.want) > 1e-6 {
			t.Errorf("%s: strays %.4f times as far, want %v", c.name, got, c.want)
		}
		if firm.Launch != plain.Launch {
			t.Errorf("%s: leaves at %v m/s for %v", c.name, firm.Launch, plain.Launch)
		}
	}
}

// No pass is driven harder than a passer strikes who must also aim.
func TestAirKind(t *testing.T) {
	for length := shortestAir; length <= MaxRange(Clipped); length++ {
		if kind := airKind(length); kind == Driven {
			if f := LoftedFlight(r2.Vec{}, r2.Vec{X: 1}, length, kind); f.Launch > easyKick {
				t.Errorf("%v m: driven at %.1f m/s, want at most %.1f", length, f.Launch, easyKick)
			}
		}
	}
	if airKind(48) != Driven || airKind(50) != Clipped {
		t.Errorf("48 m is %v, 50 m %v; want driven and clipped", airKind(48), airKind(50))
	}
}

// TestSlip: most kicks stray as a normal error of the same spread would, some much further.
// For a normal z, P(|sinh(kz)/k| > x) = P(|z| > asinh(kx)/k), by the monotony of sinh. 40,000
// draws with a fixed seed; a share beyond 4.5 standard errors of what is expected is a false
// alarm in 1 of 70,000 for each of the three.
func TestSlip(t *testing.T) {
	const k, n = 0.8, 40000
	w := worldWith(func(p *model.Params) { p.Mishit = k })
	w.execution.Reset(7, 1, Execution)
	beyond := [...]float64{1, 3, 6}
	var count [len(beyond)]float64
	for range n {
		z := math.Abs(w.slip())
		for i, x := range beyond {
			if z > x {
				count[i]++
			}
		}
	}
	for i, x := range beyond {
		p := math.Erfc(math.Asinh(k*x) / k / math.Sqrt2)
		if sd := math.Sqrt(p * (1 - p) / n); math.Abs(count[i]/n-p) > 4.5*sd {
			t.Errorf("%.5f of the kicks beyond %v spreads, want %.5f", count[i]/n, x, p)
		}
	}
}
