//go:build unix

package experiment

import (
	"context"
	"syscall"
	"testing"
	"time"

	"playout/model"
	"playout/sim"
)

// BenchmarkSweep plays 8 cells of 500 possessions, as one experiment and cell by
// cell with sim.Run, in turn, and reports by how much the experiment costs more: at
// most 3 % is wanted. It counts the processor's time, so that other programs do not
// disturb it much.
func BenchmarkSweep(b *testing.B) {
	const n = 500
	var cells []Cell
	for i := range 8 {
		sc := model.AverageScenario()
		sc.Teams[model.Defence].Block.Width = 28 + 2*float64(i)
		sc.Possessions = n
		cells = append(cells, Cell{Scenario: &sc})
	}
	var experiment, runs time.Duration
	for b.Loop() {
		experiment += spent(func() {
			if _, err := Play(context.Background(), cells, Config{Seed: cells[0].Scenario.Seed, Possessions: n}); err != nil {
				b.Fatal(err)
			}
		})
		runs += spent(func() {
			for _, c := range cells {
				if _, err := sim.Run(context.Background(), c.Scenario, sim.Config{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.ReportMetric(100*(experiment.Seconds()/runs.Seconds()-1), "%more")
	b.ReportMetric(experiment.Seconds()/float64(b.N)/n/8*1e6, "µs/possession")
}

// spent is the processor's time that f takes.
func spent(f func()) time.Duration {
	now := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			panic(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	start := now()
	f()
	return now() - start
}
