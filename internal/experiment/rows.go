package experiment

import (
	"context"
	"runtime"
	"sync"
)

// PlayRows plays lists of cells, each list, a row, with luck of its own: row j plays
// possessions First + j n to First + (j + 1) n - 1 of its cells, n being
// cfg.Possessions. Cells of a row share their luck, rows do not. Each worker plays
// one row at a time. done is called once for every row that was played whole, from one goroutine
// at a time and in no fixed order. On a cancelled context it returns ctx.Err().
// cfg.Parts is not used.
func PlayRows(ctx context.Context, rows [][]Cell, cfg Config, done func(row int, r *Results)) error {
	workers := cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	of := 0
	for _, row := range rows {
		of += len(row) * cfg.Possessions
	}
	var mu sync.Mutex // of next, played, failed, and of done and Progress
	next, played := 0, 0
	var failed error
	var wg sync.WaitGroup
	for range min(workers, len(rows)) {
		wg.Go(func() {
			for {
				mu.Lock()
				j := next
				next++
				mu.Unlock()
				if j >= len(rows) {
					return
				}
				before := 0
				one := Config{Seed: cfg.Seed, First: cfg.First + j*cfg.Possessions, Possessions: cfg.Possessions, Workers: 1}
				one.Progress = func(now, _ int) {
					mu.Lock()
					defer mu.Unlock()
					played += now - before
					before = now
					if cfg.Progress != nil {
						cfg.Progress(played, of)
					}
				}
				r, err := Play(ctx, rows[j], one)
				mu.Lock()
				if err == nil {
					done(j, r)
				} else if failed == nil {
					failed = err
				}
				mu.Unlock()
				if err != nil {
					return
				}
			}
		})
	}
	wg.Wait()
	return failed
}
