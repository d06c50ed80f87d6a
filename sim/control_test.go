package sim

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// The published constants: reaction 0.7 s, speed 5 m/s, spread 0.45 s, control
// rate 4.3 1/s, as in the public teaching implementation (Shaw 2020) of
// Spearman 2018.
var published = ControlModel{Spread: 0.45, FootHeight: 1.1, HeadHeight: 2.4, HeadRate: 0.5, Step: 0.002}

func standing(x, y float64) Contender {
	return Contender{Pos: r2.Vec{X: x, Y: y}, Reaction: 0.7, Speed: 5, Top: 9, Rate: 4.3}
}

// TestContenderTimeTo checks the time to reach a point against its closed form,
// worked by hand: tau = 0.7 + |r - (p + 0.7 v)| / 5.
func TestContenderTimeTo(t *testing.T) {
	for _, c := range []struct {
		name   string
		player Contender
		to     r2.Vec
		want   float64
	}{
		{"standing, 10 m", standing(0, 0), r2.Vec{X: 10}, 2.7},
		{"standing, 3-4-5 triangle", standing(0, 0), r2.Vec{X: 3, Y: 4}, 1.7},
		{"running towards it at 4 m/s", Contender{Vel: r2.Vec{X: 4}, Reaction: 0.7, Speed: 5}, r2.Vec{X: 10}, 0.7 + 7.2/5},
		{"running away at 4 m/s", Contender{Vel: r2.Vec{X: -4}, Reaction: 0.7, Speed: 5}, r2.Vec{X: 10}, 0.7 + 12.8/5},
		{"there already", standing(2, 2), r2.Vec{X: 2, Y: 2}, 0.7},
	} {
		if got := c.player.TimeTo(c.to); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// TestControlLimits checks limits that follow from the equations by hand.
func TestControlLimits(t *testing.T) {
	still := GroundFlight(r2.Vec{}, r2.Vec{X: 1}, 0)
	t.Run("a receiver alone gets it", func(t *testing.T) {
		var p [1]float64
		published.Control([]Contender{standing(4, 0)}, &still, 12, p[:])
		if p[0] < 0.999 {
			t.Errorf("alone: %v, want close to 1", p[0])
		}
	})
	t.Run("alone and long since there he controls at his rate", func(t *testing.T) {
		// f = 1 throughout, so P(t) = 1 - exp(-4.3 t); the reaction lies in the past.
		c := Contender{Reaction: -5, Speed: 5, Top: 9, Rate: 4.3}
		var p [1]float64
		published.Control([]Contender{c}, &still, 0.3, p[:])
		if want := 1 - math.Exp(-4.3*0.3); math.Abs(p[0]-want) > 2e-3 {
			t.Errorf("after 0.3 s: %v, want %v", p[0], want)
		}
	})
	t.Run("two equal players split by their rates", func(t *testing.T) {
		a, b := standing(3, 0), standing(-3, 0)
		b.Rate = 3 * a.Rate
		var p [2]float64
		published.Control([]Contender{a, b}, &still, 12, p[:])
		if math.Abs(p[0]-0.25) > 1e-3 || math.Abs(p[1]-0.75) > 1e-3 {
			t.Errorf("split %v, want 0.25 and 0.75", p)
		}
	})
	t.Run("nobody near, nobody has it", func(t *testing.T) {
		var p [1]float64
		if sum := published.Control([]Contender{standing(60, 0)}, &still, 3, p[:]); sum != 0 {
			t.Errorf("sum %v, want 0", sum)
		}
	})
	t.Run("a ball in the air is out of reach", func(t *testing.T) {
		high := LoftedFlight(r2.Vec{}, r2.Vec{X: 1}, 40, Floated)
		var p [1]float64
		sum := published.Control([]Contender{standing(20, 0)}, &high, high.LandingTime()/2, p[:])
		if sum > 0.01 {
			t.Errorf("under a ball at its highest: %v, want 0", sum)
		}
	})
}

// euler integrates the same equations anew with a step of 0.1 ms: no table, no
// pruning, no exponential step.
func euler(players []Contender, ball *Flight, until, spread float64) []float64 {
	const dt = 1e-4
	p := make([]float64, len(players))
	sum := 0.0
	for t := dt / 2; t < until; t += dt {
		at := ball.Pos(t)
		_, h := ball.At(t)
		if h > 2.4 {
			continue
		}
		gain := 0.0
		free := 1 - sum
		for i, c := range players {
			if math.Hypot(at.X-c.Pos.X, at.Y-c.Pos.Y) > c.Top*t+1.5 {
				continue
			}
			f := 1 / (1 + math.Exp(-math.Pi/math.Sqrt(3)/spread*(t-c.TimeTo(at))))
			lambda := c.Rate
			if h > 1.1 {
				lambda /= 2
			}
			p[i] += free * f * lambda * dt
			gain += free * f * lambda * dt
		}
		sum += gain
	}
	return p
}

// TestControlAgainstFineStep compares the model with an independent integration
// on random scenes, at a fine step and at the step the engine uses.
func TestControlAgainstFineStep(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	for _, c := range []struct {
		step, tol float64
	}{{0.002, 0.003}, {controlStep, 0.02}} {
		m := published
		m.Step = c.step
		worst := 0.0
		for range 25 {
			players := make([]Contender, 8)
			for i := range players {
				players[i] = standing(40*rng.Float64()-20, 40*rng.Float64()-20)
				players[i].Vel = r2.Vec{X: 6 * (rng.Float64() - 0.5), Y: 6 * (rng.Float64() - 0.5)}
				players[i].Rate *= 0.5 + rng.Float64()
			}
			angle := 2 * math.Pi * rng.Float64()
			dir := r2.Vec{X: math.Cos(angle), Y: math.Sin(angle)}
			ball := GroundFlight(r2.Vec{}, dir, 8+14*rng.Float64())
			if rng.Float64() < 0.3 {
				ball = LoftedFlight(r2.Vec{}, dir, 15+25*rng.Float64(), Clipped)
			}
			got := make([]float64, len(players))
			sum := m.Control(players, &ball, 4, got)
			if sum > 1+1e-12 {
				t.Fatalf("probabilities sum to %v", sum)
			}
			for i, want := range euler(players, &ball, 4, 0.45) {
				worst = max(worst, math.Abs(got[i]-want))
			}
		}
		t.Logf("step %v: largest difference %.4f", c.step, worst)
		if worst > c.tol {
			t.Errorf("step %v: a probability is off by %v, allowed %v", c.step, worst, c.tol)
		}
	}
}

// TestRaceFollowsTheControlModel: who wins the race for a ball has the probabilities
// that the control model gives, whether the first man meets the ball like anybody, shields
// it, or shields it and lets it come. Five standard errors for each of three men, three
// times: false alarm below 6e-6. Fixed seed.
func TestRaceFollowsTheControlModel(t *testing.T) {
	m := published
	m.Step = 0.05
	ball := GroundFlight(r2.Vec{}, r2.Vec{X: 1}, 15)
	var first [3]float64 // the first man's probability
	for k, meet := range []meeting{anybody, {shield: 0.9, feet: 1}, {shield: 0.5, feet: 1.2, at: 12, within: 2}} {
		begin := func() course {
			return courseOf(&ball, 5, meet, standing(12, 2), standing(14, -3), standing(9, 5))
		}
		var p, count [bodies]float64
		c := begin()
		c.run(&m, p[:])
		sum, won := c.sum, 0.0
		first[k] = p[0]
		s := NewStream()
		const n = 40_000
		for id := range uint64(n) {
			s.Reset(5, id, Execution)
			c := begin()
			for _, r := range c.who[:c.n] {
				r.left = s.ExpFloat64()
			}
			if c.race(&m) {
				count[c.index]++
				won++
			}
		}
		for _, i := range []int{0, 11, 12} {
			if got := count[i] / n; math.Abs(got-p[i]) > 5*math.Sqrt(p[i]*(1-p[i])/n) || p[i] < 0.05 {
				t.Errorf("%v, contender %d: has it in %v of cases, probability %v", meet, i, got, p[i])
			}
		}
		if math.Abs(won/n-sum) > 0.001 {
			t.Errorf("%v: somebody has it in %v of cases, probability %v", meet, won/n, sum)
		}
	}
	if first[1] < first[0]+0.03 {
		t.Errorf("who shields the ball has it with %v, else with %v", first[1], first[0])
	}
}

// anybody meets a ball that is meant for him like any other.
var anybody = meeting{feet: 1}

// courseOf is the contest for a ball between the first man, whom it is meant for, and others
// of the other team.
func courseOf(ball *Flight, until float64, meet meeting, players ...Contender) course {
	c := course{ball: ball, until: until, enough: decided, meet: meet}
	ready := make([]runner, len(players))
	for i := range players {
		ready[i].prepare(10*min(i, 1)+i, &players[i])
		ready[i].ours = i == 0
		c.admit(&ready[i])
	}
	c.aim = &ready[0]
	return c
}

// TestShield: the man a ball is meant for keeps his body between it and an opponent behind
// or beside him, hardly one who stands in its way, and not in the air.
func TestShield(t *testing.T) {
	adds := func(m *ControlModel, at r2.Vec, ball Flight, until float64) float64 {
		var chance [2]float64
		for i := range chance {
			c := courseOf(&ball, until, meeting{shield: float64(i), feet: 1}, standing(12, 0), standing(at.X, at.Y))
			c.run(m, nil)
			chance[i] = c.ours
		}
		return chance[1] - chance[0]
	}
	ground := GroundFlight(r2.Vec{}, ahead, 12)
	within(t, "behind him", adds(&published, r2.Vec{X: 15}, ground, 5), 0.1, 0.4)
	within(t, "beside him", adds(&published, r2.Vec{X: 12, Y: 3}, ground, 5), 0.1, 0.4)
	within(t, "in the way", adds(&published, r2.Vec{X: 6}, ground, 5), 0, 0.05)
	high := LoftedFlight(r2.Vec{}, ahead, 14, Clipped)
	heads := published
	heads.FootHeight = 0
	within(t, "in the air", adds(&heads, r2.Vec{X: 13}, high, high.LandingTime()-0.01), 0, 0)
}

// TestMeets: a free man lets a ball that is meant for him come as far as it is meant to; with
// an opponent on its way he goes to meet it, and so he does when it stops short.
func TestMeets(t *testing.T) {
	ball := GroundFlight(r2.Vec{}, ahead, GroundLaunch(16, 7))
	waiting := func(x, y float64) Contender {
		p := standing(x, y)
		p.Reaction = 0.25
		return p
	}
	had := func(meet meeting, players ...Contender) (chance, where float64) {
		c := courseOf(&ball, 5, meet, players...)
		c.run(&published, nil)
		return c.ours, c.where / c.ours
	}
	waits := meeting{feet: 3, at: 16, within: 2}
	_, goes := had(anybody, waiting(16, 0))
	_, lets := had(waits, waiting(16, 0))
	within(t, "where who goes to meet it has it", goes, 11, 14)
	within(t, "where who lets it come has it", lets, 14.6, 16.5)
	chance, early := had(waits, waiting(16, 0), standing(11, 3))
	within(t, "where he has it before an opponent", early, 10, 14.5)
	if alone, _ := had(waits, waiting(16, 0)); !(chance > 0.5 && chance < alone) {
		t.Errorf("he has it with %.2f before an opponent and with %.2f alone", chance, alone)
	}
	ball = GroundFlight(r2.Vec{}, ahead, 6)
	rest, _ := ball.Rest()
	waits.at = rest
	chance, short := had(waits, waiting(16, 0))
	within(t, "where he fetches a ball that stops short", short, rest-2, rest)
	within(t, "a ball that stops short", chance, 0.9, 1)
}

// TestTooSoon: at 6 m/s² nobody is 4 m off his course before 0.2 s and the square root of
// 2 (4 - 1.5)/6 s have passed, 1.11 s; a player without a bound is.
func TestTooSoon(t *testing.T) {
	var r runner
	p := standing(0, 0)
	p.Vel, p.Accel = r2.Vec{X: 3}, 6
	r.prepare(0, &p)
	for at, want := range map[float64]bool{0.3: true, 1.1: true, 1.12: false} {
		if got := r.tooSoon(3*at, 4, at); got != want {
			t.Errorf("4 m beside his course after %v s: too soon %v, want %v", at, got, want)
		}
		if r.tooSoon(3*at+1.4, 0, at) {
			t.Errorf("within reach of his course after %v s: too soon", at)
		}
	}
	p.Accel = 0
	r.prepare(0, &p)
	if r.tooSoon(0, 4, 0.3) {
		t.Error("no bound, and yet too soon")
	}
}
