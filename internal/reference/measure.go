package reference

import (
	"cmp"
	"context"
	"runtime"
	"slices"
	"sync"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// Level is the level of the intervals.
const Level = 0.95

// Least is the least number of possessions that can be shared out over the
// league: one for each group of each setting. The settings themselves are read when the league plays,
// not whenever the program starts.
var Least = groups * len(shapes) * int(NumPresses)

// FewestCases is the number of cases below which a figure is too noisy to judge.
const FewestCases = 30

// Config says how the engine is measured.
type Config struct {
	Possessions int           // in all, rounded down to whole groups; at least Least
	Seed        uint64        // names the luck
	Workers     int           // goroutines; 0: one for each processor
	Params      *model.Params // of the engine; nil: the league average
	Intervals   bool          // compute Low and High
	// StopAtLoss leaves out what the opponent makes of a lost ball, and with it the
	// figures of turnover_cost: less to play by a third.
	StopAtLoss bool
	// Adjust, when set, changes the block of a setting before it is played.
	Adjust func(p Press, b *model.Block)
	// Progress, when set, is told how many possessions are done. It is called by
	// one goroutine at a time.
	Progress func(done, of int)
}

// Value is a figure as the engine shows it. Low and High bound the 95 % interval,
// infinite when there is none; N is the number of cases behind it. With no cases
// Value is NaN.
type Value struct {
	Value     float64
	Low, High float64
	N         int64
}

// Played is how many possessions will be played in all.
func (c *Config) Played() int {
	n := 0
	for _, k := range shareOut(league(), c.Possessions) {
		n += k
	}
	return n
}

// Measure plays the settings of the league and returns the engine's value of every
// figure, by name. The result depends on the possessions, the seed and the
// parameters only. When the context ends first it returns its error and no values.
func Measure(ctx context.Context, cfg Config) (map[string]Value, error) {
	meters, err := play(ctx, cfg)
	if err != nil {
		return nil, err
	}
	all := figuresOf(meters, -1)
	if cfg.Intervals {
		bound(all, meters)
	}
	return all, nil
}

// play runs every setting under its own meter, the longest first and several at a
// time: a setting is played by one worker unless there are more workers than
// settings.
func play(ctx context.Context, cfg Config) ([]*meter, error) {
	settings := League()
	shares := shareOut(settings, cfg.Possessions)
	workers := cfg.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	order := make([]int, len(settings))
	of := 0
	for i, n := range shares {
		order[i] = i
		of += n
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(shares[b], shares[a]) })

	meters := make([]*meter, len(settings))
	errs := make([]error, len(settings))
	tell := teller(cfg.Progress, of)
	jobs := make(chan int)
	var wg sync.WaitGroup
	for range min(workers, len(settings)) {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for i := range jobs {
				sc := *settings[i].Scenario
				sc.Possessions = shares[i]
				sc.AfterLoss = lossWindow
				if cfg.StopAtLoss {
					sc.AfterLoss = 0
				}
				sc.Seed = cfg.Seed + uint64(i)*apart
				if cfg.Adjust != nil {
					cfg.Adjust(settings[i].Press, &sc.Teams[model.Defence].Block)
				}
				meters[i] = &meter{pitch: sc.Pitch}
				_, errs[i] = sim.Run(ctx, &sc, sim.Config{
					Workers: max(workers/len(settings), 1), Params: cfg.Params, Observer: meters[i], Progress: tell(),
				})
			}
		}()
	}
	for _, i := range order {
		jobs <- i
	}
	close(jobs)
	wg.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return meters, nil
}

// lossWindow is the time after a loss that the table of its price looks at, s.
const lossWindow = 20

// apart keeps the luck of one setting from that of the next: were it shared, the
// pool would hold less news than its size promises.
const apart = 0x9e3779b97f4a7c15

// teller adds up the progress of runs that go on side by side.
func teller(progress func(done, of int), of int) func() func(done, of int) {
	if progress == nil {
		return func() func(int, int) { return nil }
	}
	var mu sync.Mutex
	sum := 0
	return func() func(int, int) {
		before := 0
		return func(done, _ int) {
			mu.Lock()
			defer mu.Unlock()
			sum += done - before
			before = done
			progress(sum, of)
		}
	}
}

// figuresOf computes the figures from all groups but the one left out (-1: none).
func figuresOf(meters []*meter, without int) map[string]Value {
	var all sums
	var press [NumPresses]sums
	for i, s := range League() {
		for g := range meters[i].group {
			if g != without {
				stats.AddIntegers(&press[s.Press], &meters[i].group[g])
			}
		}
	}
	v := values{}
	for p := range press {
		stats.AddIntegers(&all, &press[p])
		v.pressed(Press(p), &press[p])
	}
	v.league(&all)
	return v
}

// bound gives every figure its interval, by the delete-one-group jackknife.
func bound(all map[string]Value, meters []*meter) {
	without := map[string][]float64{}
	for g := range groups {
		for name, v := range figuresOf(meters, g) {
			without[name] = append(without[name], v.Value)
		}
	}
	for name, v := range all {
		e := stats.Jackknife(v.Value, without[name], Level)
		v.Low, v.High = e.Lo, e.Hi
		all[name] = v
	}
}
