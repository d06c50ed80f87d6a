package export

import (
	"context"
	"io"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"playout/sim"
)

// nowhere is a disk that forgets.
type nowhere struct{}

func (nowhere) Write(p []byte) (int, error) { return len(p), nil }
func (nowhere) Close() error                { return nil }
func (nowhere) Sync() error                 { return nil }

// Memory does not grow with the number of possessions: what the tables hold after
// 20,000 is no more than what they held after the first row groups. The engine's
// part is played once, 100 possessions that come again and again.
func TestTablesNeedBoundedMemory(t *testing.T) {
	sc := scenarioOf(100)
	cfg := small()
	cfg.Formats = []Format{Parquet, CSV}
	x := &exporter{sc: sc, cfg: &cfg, m: newManifest(sc, &cfg), names: newRoster(sc)}
	x.stage = &stage{create: func(string) (file, error) { return nowhere{}, nil }}
	if err := open(x, &x.possessions, &possessionTable); err != nil {
		t.Fatal(err)
	}
	if err := open(x, &x.actions, &actionTable); err != nil {
		t.Fatal(err)
	}
	k := &keeper{}
	if _, err := sim.Run(context.Background(), sc, sim.Config{Observer: k}); err != nil {
		t.Fatal(err)
	}
	heap := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	before := heap()
	var most uint64
	for n := range 20_000 {
		p := k.p[n%100]
		p.ID = n
		if err := x.possession(&p, k.events[n%100]); err != nil {
			t.Fatal(err)
		}
		if n%1000 == 999 {
			most = max(most, heap())
		}
	}
	if err := x.possessions.close(); err != nil {
		t.Fatal(err)
	}
	rows := x.possessions.files[0].rows
	const bound = 48 << 20 // twice what it was when this was written
	if used := int64(most) - int64(before); rows != 20_000 || used > bound {
		t.Errorf("%d possessions took %d MB, more than %d", rows, used>>20, bound>>20)
	} else {
		t.Logf("%d possessions, %d actions: at most %.1f MB", rows, x.actions.files[0].rows, float64(used)/(1<<20))
	}
}

// keeper keeps possessions with their events.
type keeper struct {
	p      []sim.Possession
	events [][]sim.Event
}

func (k *keeper) Possession(p *sim.Possession, events []sim.Event) {
	k.p, k.events = append(k.p, *p), append(k.events, append([]sim.Event(nil), events...))
}

// However slow whoever looks at films is, only a few are made ahead of him, and they
// come in order.
func TestFilmsAreMadeOnDemand(t *testing.T) {
	const n, workers = 60, 3
	var made atomic.Int64
	record := func(id int) *sim.Film {
		made.Add(1)
		return &sim.Film{Possession: sim.Possession{ID: id}}
	}
	seen := 0
	done, err := films(context.Background(), n, workers, record, func(f *sim.Film) error {
		if f.Possession.ID != seen {
			t.Fatalf("film %d comes as number %d", f.Possession.ID, seen)
		}
		time.Sleep(time.Millisecond) // time to run ahead
		if ahead := int(made.Load()) - seen; ahead > 2*workers+1 {
			t.Fatalf("%d films are made and not yet seen", ahead)
		}
		seen++
		return nil
	})
	if done != n || err != nil {
		t.Fatalf("%d films, %v", done, err)
	}
	stopped, err := films(context.Background(), n, workers, record, func(f *sim.Film) error {
		if f.Possession.ID == 7 {
			return io.ErrShortWrite
		}
		return nil
	})
	if stopped != 7 || err != io.ErrShortWrite {
		t.Errorf("stopped after %d with %v", stopped, err)
	}
}
