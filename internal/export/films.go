package export

import (
	"context"

	"playout/sim"
)

// films records possessions 0 to n-1 and shows each to see, in order, from this
// goroutine. At most 2*workers+1 films exist at a time. It returns how many were seen; on a
// context that ends, those are a whole prefix.
func films(ctx context.Context, n, workers int, record func(id int) *sim.Film, see func(*sim.Film) error) (int, error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	type job struct {
		id   int
		done chan<- *sim.Film
	}
	jobs := make(chan job)
	coming := make(chan (<-chan *sim.Film), workers) // in order
	go func() {
		defer close(coming)
		defer close(jobs)
		for id := range n {
			done := make(chan *sim.Film, 1)
			select {
			case jobs <- job{id, done}:
			case <-ctx.Done():
				return
			}
			select {
			case coming <- done:
			case <-ctx.Done():
				return
			}
		}
	}()
	for range workers {
		go func() {
			for j := range jobs {
				j.done <- record(j.id)
			}
		}()
	}
	seen := 0
	for film := range coming {
		if err := see(<-film); err != nil {
			return seen, err
		}
		seen++
	}
	if seen < n {
		return seen, ctx.Err()
	}
	return seen, nil
}
