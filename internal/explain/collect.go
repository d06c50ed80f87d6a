package explain

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"playout/model"
	"playout/sim"
)

// Config says which possessions are filmed.
type Config struct {
	Seed        uint64
	Possessions int           // from the first, number 0
	Workers     int           // goroutines; 0: one for each processor
	Progress    func(add int) // told from one goroutine how many more are done; may be nil
}

// Collect films the possessions and keeps what read makes of each: index i is of
// possession i. Possession i has the same luck in every variant of a scenario. When
// the context ends first, what comes with its error is whole up to its length. What
// follows a loss is not played: no possession depends on it. nil par: the defaults.
func Collect[T any](ctx context.Context, sc *model.Scenario, par *model.Params, cfg Config, read func(*sim.Film) T) ([]T, error) {
	own := *sc
	own.Seed, own.AfterLoss = cfg.Seed, 0
	workers := cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	out := make([]T, cfg.Possessions)
	ready := make([]bool, cfg.Possessions)
	done := make(chan int, workers)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(workers, cfg.Possessions) {
		wg.Go(func() {
			for id := int(next.Add(1) - 1); id < cfg.Possessions && ctx.Err() == nil; id = int(next.Add(1) - 1) {
				out[id] = read(sim.Record(&own, par, id))
				done <- id
			}
		})
	}
	go func() {
		wg.Wait()
		close(done)
	}()
	for id := range done {
		ready[id] = true
		if cfg.Progress != nil {
			cfg.Progress(1)
		}
	}
	for id, ok := range ready {
		if !ok {
			return out[:id], ctx.Err()
		}
	}
	return out, nil
}
