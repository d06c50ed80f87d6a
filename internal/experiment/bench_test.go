package experiment

import (
	"context"
	"testing"

	"playout/sim"
)

// BenchmarkSweep plays 8 cells of 500 possessions, as one experiment and cell by
// cell with sim.Run: the first may cost 3 % more at the most.
func BenchmarkSweep(b *testing.B) {
	var cells []Cell
	for i := range 8 {
		c := pair()[1]
		c.Scenario.Teams[1].Block.Width = 28 + 2*float64(i)
		c.Scenario.Possessions = 500
		cells = append(cells, c)
	}
	b.Run("experiment", func(b *testing.B) {
		for b.Loop() {
			if _, err := Play(context.Background(), cells, Config{Seed: cells[0].Scenario.Seed, Possessions: 500}); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("runs", func(b *testing.B) {
		for b.Loop() {
			for _, c := range cells {
				if _, err := sim.Run(context.Background(), c.Scenario, sim.Config{}); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}
