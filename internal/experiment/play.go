package experiment

import (
	"context"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"playout/model"
	"playout/sim"
)

// Cell is one variant of an experiment. The scenario must be valid; it is only
// read, and its own seed and number of possessions are ignored: Config decides.
type Cell struct {
	Name     string
	Scenario *model.Scenario
	Params   *model.Params // of the engine; nil: the defaults
	First    int           // its possessions have the luck of as many later ones
}

// Config says which possessions are played, and how.
type Config struct {
	Seed               uint64
	First, Possessions int                // of every cell, possessions First to First+Possessions-1 are played
	Workers            int                // goroutines; 0: one for each processor
	Progress           func(done, of int) // told how many possessions of all cells are done, from one goroutine; may be nil
	Parts              Parts              // keeps and shares out blocks; may be nil
}

// BlockSize is the number of possessions in a block: some tenths of a second, long
// against what it takes to hand one out and short against any experiment.
const BlockSize = 100

// Block is a run of possessions of one cell. Blocks begin at multiples of BlockSize,
// save for the first of a Config that does not, so an experiment that is prolonged
// keeps the blocks it had.
type Block struct {
	Number   int // First/BlockSize x number of cells + Cell: the order in which blocks are played, all cells abreast
	Cell     int
	First, N int // possessions First to First+N-1
}

// Parts keeps the blocks of an experiment between processes and says which of them
// are to be played by this one. Its methods are called from one goroutine.
type Parts interface {
	// Load returns the outcomes of a block if it has them. It is asked for every
	// block in order before any is played.
	Load(b Block) ([]Outcome, bool, error)
	// Mine reports whether a block that is not kept is to be played here.
	Mine(b Block) bool
	// Save takes a block that has just been played. The outcomes may be read
	// during the call only.
	Save(b Block, o []Outcome) error
}

// Results are the outcomes of the cells' possessions.
type Results struct {
	outcomes    [][]Outcome // by cell, as long as its whole prefix
	possessions int         // of every cell that were asked for
}

// NewResults are results of cells of which so many possessions were asked for.
func NewResults(possessions int, outcomes ...[]Outcome) *Results {
	return &Results{outcomes, possessions}
}

// Outcomes are those of a cell, index 0 being possession Config.First: all that
// were asked for, or as many from the first as are there without a gap.
func (r *Results) Outcomes(cell int) []Outcome { return r.outcomes[cell] }

// Complete reports whether every cell has all possessions that were asked for.
func (r *Results) Complete() bool {
	for _, o := range r.outcomes {
		if len(o) < r.possessions {
			return false
		}
	}
	return true
}

// Paired is the number of possessions that every cell has.
func (r *Results) Paired() int {
	n := r.possessions
	for _, o := range r.outcomes {
		n = min(n, len(o))
	}
	return n
}

// Blocks lists the blocks of an experiment in the order of their numbers.
func Blocks(cells int, cfg Config) []Block {
	var out []Block
	end := cfg.First + cfg.Possessions
	for first := cfg.First; first < end; {
		next := min((first/BlockSize+1)*BlockSize, end)
		for c := range cells {
			out = append(out, Block{first/BlockSize*cells + c, c, first, next - first})
		}
		first = next
	}
	return out
}

// Play plays the possessions of every cell that Parts does not have. When the
// context ends first, or Parts fails, the error comes with what has been played.
// It panics when First or Possessions is negative.
func Play(ctx context.Context, cells []Cell, cfg Config) (*Results, error) {
	if cfg.First < 0 || cfg.Possessions < 0 {
		panic("experiment: negative number of possessions")
	}
	s := newSession(cells, cfg)
	err := s.load()
	if err == nil {
		err = s.play(ctx)
	}
	return s.results(), err
}

// session is one call of Play.
type session struct {
	cfg      Config
	cells    []Cell
	outcomes [][]Outcome // by cell, in full length
	blocks   []Block
	ready    []bool // by block
	queue    []int  // blocks to be played here
	done     int    // possessions that are ready
}

func newSession(cells []Cell, cfg Config) *session {
	s := &session{cfg: cfg, blocks: Blocks(len(cells), cfg)}
	s.ready = make([]bool, len(s.blocks))
	for _, c := range cells {
		sc := *c.Scenario // shares what it points to with the caller's: neither is written
		sc.Seed = cfg.Seed
		s.cells = append(s.cells, Cell{c.Name, &sc, c.Params, c.First})
		s.outcomes = append(s.outcomes, make([]Outcome, cfg.Possessions))
	}
	return s
}

// of is the place of a block's outcomes.
func (s *session) of(b Block) []Outcome {
	at := b.First - s.cfg.First
	return s.outcomes[b.Cell][at : at+b.N]
}

// load takes what Parts has and queues what is to be played here.
func (s *session) load() error {
	for i, b := range s.blocks {
		if s.cfg.Parts == nil {
			s.queue = append(s.queue, i)
			continue
		}
		kept, ok, err := s.cfg.Parts.Load(b)
		switch {
		case err != nil:
			return fmt.Errorf("reading the part of %s: %w", s.label(b), err)
		case ok && len(kept) != b.N:
			return fmt.Errorf("reading the part of %s: it has %d possessions", s.label(b), len(kept))
		case ok:
			copy(s.of(b), kept)
			s.ready[i] = true
			s.done += b.N
		case s.cfg.Parts.Mine(b):
			s.queue = append(s.queue, i)
		}
	}
	return nil
}

func (s *session) label(b Block) string {
	return fmt.Sprintf("%q, possessions %d to %d", s.cells[b.Cell].Name, b.First, b.First+b.N-1)
}

// play plays the queue. Workers write the outcomes, each to its block's place;
// all else happens here.
func (s *session) play(ctx context.Context) error {
	workers := s.cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	played := make(chan int, workers)
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(workers, len(s.queue)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			s.work(ctx, &next, played)
		}()
	}
	go func() {
		wg.Wait()
		close(played)
	}()
	var failed error
	of := s.done // possessions that will be ready in the end
	for _, i := range s.queue {
		of += s.blocks[i].N
	}
	for i := range played {
		b := s.blocks[i]
		s.ready[i] = true
		s.done += b.N
		if s.cfg.Parts != nil && failed == nil {
			if err := s.cfg.Parts.Save(b, s.of(b)); err != nil {
				failed = fmt.Errorf("keeping the part of %s: %w", s.label(b), err)
				stop(failed)
			}
		}
		if s.cfg.Progress != nil {
			s.cfg.Progress(s.done, of)
		}
	}
	if failed != nil || s.done == of {
		return failed
	}
	return ctx.Err()
}

// work plays blocks until the queue is empty or the context ends; a block that is
// broken off is not sent. A worker keeps the game of every cell it has met.
func (s *session) work(ctx context.Context, next *atomic.Int64, played chan<- int) {
	games := make([]*sim.Game, len(s.cells))
	for at := next.Add(1) - 1; at < int64(len(s.queue)); at = next.Add(1) - 1 {
		b := s.blocks[s.queue[at]]
		cell := &s.cells[b.Cell]
		if games[b.Cell] == nil {
			games[b.Cell] = sim.NewGame(cell.Scenario, cell.Params)
		}
		for i, out := 0, s.of(b); i < b.N; i++ {
			if ctx.Err() != nil {
				return
			}
			out[i] = outcomeOf(games[b.Cell].Play(cell.First+b.First+i), cell.Scenario.Pitch)
		}
		played <- s.queue[at]
	}
}

// results are the outcomes that are there without a gap.
func (s *session) results() *Results {
	r := &Results{possessions: s.cfg.Possessions}
	whole := make([]int, len(s.cells))
	for i, b := range s.blocks {
		if s.ready[i] && whole[b.Cell] == b.First-s.cfg.First {
			whole[b.Cell] += b.N
		}
	}
	for c, n := range whole {
		r.outcomes = append(r.outcomes, s.outcomes[c][:n])
	}
	return r
}
