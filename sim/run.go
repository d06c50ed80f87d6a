package sim

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"playout/internal/stats"
	"playout/model"
)

// Config says how a run is carried out; it never changes what comes out, save
// for Precision.
type Config struct {
	// Workers is the number of goroutines; 0: one for each processor.
	Workers int
	// Precision, when positive, stops the run once the half-width of the 95 %
	// interval of the final-third rate is at most this: the interval of chance
	// alone, whatever Uncertainty. It is judged after
	// every CheckEvery possessions in order, so the result does not depend on
	// Workers.
	Precision float64
	// Progress, when set, is told how many possessions are done. It is called
	// from one goroutine.
	Progress func(done, of int)
	// Params replaces the league-average constants of the engine; nil keeps them.
	Params *model.Params
	// Uncertainty, when set, gives every DrawEvery possessions parameters of their
	// own, drawn from what the calibration leaves open, in the place of Params.
	Uncertainty *model.Uncertainty
	// Observer, when set, is handed every possession with its events, in order
	// of ID, from one goroutine.
	Observer Observer
}

// CheckEvery is the number of possessions between looks at the precision.
const CheckEvery = 1000

// Result is what a run found.
type Result struct {
	Asked   int  // possessions asked for
	Played  int  // possessions played
	Reached bool // stopped because the precision was reached
	Tally   Tally
	BuildUp Tally // of the possessions that pass the filter of the reference tables
	Doubt   bool  // played with Config.Uncertainty
	Draws   Draws // the draws of the parameters by themselves, under Config.Uncertainty

	group Tally // of the draw that is being played
}

// Partial reports whether the run was cut short.
func (r *Result) Partial() bool { return r.Played < r.Asked && !r.Reached }

// Observer is handed the possessions of a run.
type Observer interface {
	Possession(p *Possession, events []Event)
}

// batch is the number of possessions a worker takes at a time. It divides
// CheckEvery.
const batch = 50

// part is a batch that has been played.
type part struct {
	index      int
	all, build Tally
	played     int
	histories  []history
}

type history struct {
	p      Possession
	events []Event
}

// Run plays the scenario's possessions. It returns what was played so far
// together with the context's error when the context ends first. The scenario
// must be valid (Scenario.Validate) and must not change during the run. It panics
// when both Params and Uncertainty are set.
func Run(ctx context.Context, sc *model.Scenario, cfg Config) (*Result, error) {
	workers := cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	par := model.DefaultParams()
	if cfg.Params != nil {
		par = *cfg.Params
	}
	if cfg.Params != nil && cfg.Uncertainty != nil {
		panic("sim: Config.Params and Config.Uncertainty exclude each other")
	}
	batches := (sc.Possessions + batch - 1) / batch
	workers = min(workers, batches)

	ctx, stop := context.WithCancel(ctx)
	defer stop()
	var next atomic.Int64
	parts := make(chan *part, workers)
	// A worker may be at most this many batches ahead of the slowest one, so
	// that memory stays flat.
	ahead := make(chan struct{}, 4*workers)
	var wg sync.WaitGroup
	for range workers {
		wg.Add(1)
		go func() {
			defer wg.Done()
			w := newWorld(sc, par)
			w.rec = cfg.Observer != nil
			draw := newDrawing(cfg.Uncertainty, sc.Seed)
			for {
				select {
				case <-ctx.Done():
					return
				case ahead <- struct{}{}:
				}
				i := int(next.Add(1) - 1)
				if i >= batches {
					return
				}
				if draw != nil {
					w.setParams(draw.params(i * batch))
				}
				pt := w.playBatch(ctx, i)
				select {
				case parts <- pt:
				case <-ctx.Done():
					return
				}
			}
		}()
	}
	go func() {
		wg.Wait()
		close(parts)
	}()
	return collect(ctx, stop, sc, cfg, parts, ahead)
}

// playBatch plays batch i of the run.
func (w *world) playBatch(ctx context.Context, i int) *part {
	pt := &part{index: i}
	for id := i * batch; id < min((i+1)*batch, w.sc.Possessions) && ctx.Err() == nil; id++ {
		p := w.play(id)
		pt.all.Add(p, w.pitch)
		if p.buildUp(w.pitch) {
			pt.build.Add(p, w.pitch)
		}
		pt.played++
		if w.rec {
			pt.histories = append(pt.histories, history{*p, append([]Event(nil), w.events...)})
		}
	}
	return pt
}

// collect adds up the batches in order of index.
func collect(ctx context.Context, stop func(), sc *model.Scenario, cfg Config, parts <-chan *part, ahead <-chan struct{}) (*Result, error) {
	res := &Result{Asked: sc.Possessions, Doubt: cfg.Uncertainty != nil}
	waiting := map[int]*part{}
	for next := 0; ; {
		pt, ok := <-parts
		if !ok {
			break
		}
		waiting[pt.index] = pt
		for pt = waiting[next]; pt != nil && !res.Reached; pt = waiting[next] {
			delete(waiting, next)
			next++
			<-ahead
			res.add(pt, cfg.Observer)
			if cfg.Progress != nil {
				cfg.Progress(res.Played, res.Asked)
			}
			if cfg.Precision > 0 && res.Played%CheckEvery == 0 && res.halfWidth() <= cfg.Precision {
				res.Reached = true
				stop()
			}
		}
		if res.Played == res.Asked {
			return res, nil
		}
	}
	if res.Reached {
		return res, nil
	}
	return res, ctx.Err()
}

func (r *Result) add(pt *part, obs Observer) {
	r.Played += pt.played
	r.Tally.Merge(&pt.all)
	r.BuildUp.Merge(&pt.build)
	for i := range pt.histories {
		obs.Possession(&pt.histories[i].p, pt.histories[i].events)
	}
	if !r.Doubt {
		return
	}
	r.group.Merge(&pt.all)
	if (pt.index+1)*batch%DrawEvery == 0 { // the last batch of a draw
		if r.group.Possessions == DrawEvery { // none was interrupted
			r.Draws.add(&r.group)
		}
		r.group = Tally{}
	}
}

// halfWidth of the 95 % interval of the rate of controlled final-third entries.
func (r *Result) halfWidth() float64 {
	e := stats.Proportion(r.Tally.FinalThird, r.Tally.Possessions, 0.95)
	return (e.Hi - e.Lo) / 2
}

// Replay plays one possession of the scenario by itself and returns it with its
// events: the same as possession id of any run under the same seed. For one of a
// run under doubt, par is ParamsOf that possession.
func Replay(sc *model.Scenario, par *model.Params, id int) (*Possession, []Event) {
	if par == nil {
		p := model.DefaultParams()
		par = &p
	}
	w := newWorld(sc, *par)
	w.rec = true
	p := *w.play(id)
	return &p, w.events
}

// buildUp applies the filter of the reference tables: a start in the own third
// and at least two completed passes that start and end in the own half.
func (p *Possession) buildUp(pitch model.Pitch) bool {
	return p.Start.X < -pitch.Length/6 && p.OwnHalf >= 2
}
