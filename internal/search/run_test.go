package search

import (
	"context"
	"errors"
	"reflect"
	"testing"

	"playout/internal/experiment"
)

func figure(t *testing.T, name string) experiment.Figure {
	t.Helper()
	f, err := experiment.FigureNamed(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func tempo(t *testing.T) *Freedom {
	f := NewFreedom(open(t, "late-switch.yaml"))
	if err := f.Number("attack.plan.tempo=0.8:3"); err != nil {
		t.Fatal(err)
	}
	return f
}

// A switch that comes too late comes earlier: the known better value of the demo pair
// late-switch and quick-switch is found, and fresh luck confirms it.
func TestFindsTheTempo(t *testing.T) {
	ctx := context.Background()
	used := map[int]bool{} // possessions that the search has played
	cfg := Config{Figure: figure(t, "switches/progressed"), Budget: 8000, Seed: 1}
	cfg.Play = func(ctx context.Context, cells []experiment.Cell, c experiment.Config) (*experiment.Results, error) {
		judging := cells[1].Name == "found"
		for id := c.First; id < c.First+c.Possessions; id++ {
			if judging && used[id] {
				t.Fatalf("possession %d judges what was found with it", id)
			}
			used[id] = true
		}
		return experiment.Play(ctx, cells, c)
	}
	r, err := Run(ctx, ctx, tempo(t), cfg)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Changes) != 1 || !(r.Changes[0].Size < -0.5) || !r.Better() {
		t.Errorf("changes %v, %+v", r.Changes, r.Comparison.Asked.Difference)
	}
	if r.Partial || r.Stopped || r.Judged != 800 {
		t.Errorf("judged on %d", r.Judged)
	}
}

// The answer does not depend on how many possessions are played at once. Less of the
// figure is better here.
func TestSameForAnyWorkers(t *testing.T) {
	ctx := context.Background()
	run := func(workers int) *Result {
		f := tempo(t)
		if err := f.Move("2:6@final_third"); err != nil {
			t.Fatal(err)
		}
		r, err := Run(ctx, ctx, f, Config{Figure: figure(t, "forced_back"), Budget: Least(f), Seed: 3, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		r.Freedom = nil
		r.Config = Config{}
		r.Comparison.Asked.Figure = experiment.Figure{} // functions are never equal
		r.Comparison.Others, r.Comparison.Lanes = nil, nil
		return r
	}
	one := run(1)
	for _, workers := range []int{2, 7} {
		if many := run(workers); !reflect.DeepEqual(one, many) {
			t.Errorf("%d workers: %+v, one: %+v", workers, many, one)
		}
	}
}

// Cut short, it still judges the best so far, on no more than its share of what was
// played; cut short twice it says so.
func TestCutShort(t *testing.T) {
	for _, twice := range []bool{false, true} {
		ctx, stop := context.WithCancel(context.Background())
		judging, stopJudging := context.WithCancel(context.Background())
		f := tempo(t)
		cfg := Config{Figure: figure(t, "final_third"), Budget: 4000, Seed: 1}
		calls := 0
		cfg.Play = func(ctx context.Context, cells []experiment.Cell, c experiment.Config) (*experiment.Results, error) {
			if calls++; calls == 4 {
				stop()
				if twice {
					stopJudging()
				}
			}
			return experiment.Play(ctx, cells, c)
		}
		r, err := Run(ctx, judging, f, cfg)
		if err != nil {
			t.Fatal(err)
		}
		if !r.Stopped || r.Partial != twice || len(r.Search.Generations) == 0 {
			t.Errorf("stopped %v, partial %v", r.Stopped, r.Partial)
		}
		if !twice && (r.Judged < 50 || r.Judged > r.Search.Spent) {
			t.Errorf("judged on %d after %d", r.Judged, r.Search.Spent)
		}
		if twice && r.Better() {
			t.Error("better without having been judged")
		}
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if r, err := Run(ctx, context.Background(), tempo(t), Config{Figure: figure(t, "shot"), Budget: 5000}); !errors.Is(err, context.Canceled) || r != nil {
		t.Errorf("cut short at once: %v, %v", r, err)
	}
}
