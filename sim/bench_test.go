package sim

import (
	"context"
	"fmt"
	"testing"

	"playout/model"
)

// BenchmarkPossession plays one possession after another on one goroutine,
// without and with the opponent's attack after a loss; the rate of simulated to
// real seconds is the engine's speed on one core.
func BenchmarkPossession(b *testing.B) {
	for _, after := range []float64{0, model.DefaultAfterLoss} {
		b.Run(fmt.Sprintf("after_loss=%v", after), func(b *testing.B) {
			sc := model.AverageScenario()
			sc.AfterLoss = after
			w := newWorld(&sc, model.DefaultParams())
			b.ReportAllocs()
			played := 0
			for i := 0; b.Loop(); i++ {
				p := w.play(i)
				played += p.Ticks + p.After.Ticks
			}
			b.ReportMetric(float64(played)*TickSeconds/b.Elapsed().Seconds(), "sim-s/s")
		})
	}
}

// BenchmarkTick steps the players and the ball once.
func BenchmarkTick(b *testing.B) {
	w := scene()
	b.ReportAllocs()
	for b.Loop() {
		w.perceive()
		w.moveAttack()
		w.moveBlock()
		w.step()
	}
}

// BenchmarkDecision weighs every option of a carrier once.
func BenchmarkDecision(b *testing.B) {
	w := scene()
	b.ReportAllocs()
	for b.Loop() {
		w.weigh(false)
	}
}

// BenchmarkControl evaluates the control model once for all 22 players.
func BenchmarkControl(b *testing.B) {
	w := scene()
	players := make([]Contender, bodies)
	for i := range players {
		players[i] = Contender{w.pos[i], w.vel[i], w.react[i], w.arrive[i], w.able[i].TopSpeed, w.able[i].Accel, w.par.ControlRate}
	}
	f := GroundFlight(w.ball, towards(w.ball, w.pos[6], w.face), 16)
	var p [bodies]float64
	b.ReportAllocs()
	for b.Loop() {
		w.ctl.Control(players, &f, 2, p[:])
	}
}

// BenchmarkRun plays a whole run.
func BenchmarkRun(b *testing.B) {
	for _, bench := range []struct {
		name    string
		workers int
	}{{"workers=1", 1}, {"workers=2", 2}} {
		b.Run(bench.name, func(b *testing.B) {
			sc := model.AverageScenario()
			sc.Possessions = 1000
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Run(context.Background(), &sc, Config{Workers: bench.workers}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(1000*float64(b.N)/b.Elapsed().Seconds(), "possessions/s")
		})
	}
}

// scene is a world with a centre-back on the ball, 4 s into a possession.
func scene() *world {
	sc := model.AverageScenario()
	sc.Start.Kind = model.FromCentreBack
	w := newWorld(&sc, model.DefaultParams())
	w.reset(1)
	w.think = 1 << 30
	for range 40 {
		w.perceive()
		w.moveAttack()
		w.moveBlock()
		w.step()
	}
	w.perceive()
	return w
}
