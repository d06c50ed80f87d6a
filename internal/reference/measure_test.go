package reference

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"playout/model"
)

// TestWorkers: the same values, bit for bit, for any number of workers.
func TestWorkers(t *testing.T) {
	var first map[string]Value
	for _, workers := range []int{1, 2, 7} {
		got, err := Measure(context.Background(), Config{Possessions: Least, Seed: 3, Workers: workers, Intervals: true})
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = got
		}
		if len(got) != len(first) {
			t.Errorf("%d workers: %d figures, want %d", workers, len(got), len(first))
		}
		for name, want := range first {
			x := got[name]
			if math.Float64bits(x.Value) != math.Float64bits(want.Value) || math.Float64bits(x.Low) != math.Float64bits(want.Low) || x.N != want.N {
				t.Errorf("%d workers: %s is %+v, with one %+v", workers, name, x, want)
			}
		}
	}
}

// TestParamsAndSeed: other parameters and another seed change what is measured, and
// stopping at the loss leaves all but turnover_cost as it was.
func TestParamsAndSeed(t *testing.T) {
	cfg := Config{Possessions: Least, Seed: 3}
	base := mustMeasure(t, cfg)
	cfg.StopAtLoss = true
	stopped := mustMeasure(t, cfg)
	for name, want := range base {
		x := stopped[name]
		switch {
		case strings.HasPrefix(name, "turnover_cost/"):
			if x.N != 0 {
				t.Errorf("%s has %d cases though nothing is played after the loss", name, x.N)
			}
		case math.Float64bits(x.Value) != math.Float64bits(want.Value):
			t.Errorf("%s is %v when play stops at the loss, %v else", name, x.Value, want.Value)
		}
	}
	const figure = "possession_outcomes/build_up/duration_s"
	cfg.Seed = 4
	if x := mustMeasure(t, cfg)[figure].Value; x == base[figure].Value {
		t.Error("another seed gives the same duration")
	}
	par := model.DefaultParams()
	par.HoldShare *= 1.3
	cfg.Seed, cfg.Params = 3, &par
	if x := mustMeasure(t, cfg)[figure].Value; x == base[figure].Value {
		t.Error("other parameters give the same duration")
	}
}

func mustMeasure(t *testing.T, cfg Config) map[string]Value {
	t.Helper()
	got, err := Measure(context.Background(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func TestInterrupted(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	done := 0
	got, err := Measure(ctx, Config{Possessions: 3000, Progress: func(n, of int) {
		if done = n; done > 100 {
			stop()
		}
	}})
	if !errors.Is(err, context.Canceled) || got != nil {
		t.Errorf("%d values, error %v: want none and the context's", len(got), err)
	}
	stop()
}

// TestShares: the shares add up, come in whole groups, keep to the weights and give
// every tercile of pressing the same.
func TestShares(t *testing.T) {
	settings := League()
	sum := 0.0
	for _, s := range settings {
		sum += s.Weight
	}
	if len(settings) != 21 || math.Abs(sum-1) > 1e-9 {
		t.Errorf("%d settings weigh %v", len(settings), sum)
	}
	if want := groups * len(settings); Least != want {
		t.Errorf("the least is %d, want %d: a group of each setting", Least, want)
	}
	for _, n := range []int{Least, 6000, 29990} {
		total := 0
		var press [NumPresses]int
		for i, k := range shareOut(settings, n) {
			total += k
			press[settings[i].Press] += k
			if k < groups || k%groups != 0 || math.Abs(float64(k)-settings[i].Weight*float64(n)) > groups && n > Least {
				t.Errorf("%s has %d of %d possessions", settings[i].Block, k, n)
			}
		}
		if total != n/groups*groups {
			t.Errorf("%d possessions shared out as %d", n, total)
		}
		for p, k := range press {
			if math.Abs(float64(k)-float64(n)/3) > 3*groups {
				t.Errorf("%d possessions against %s pressing of %d", k, Press(p), n)
			}
		}
	}
}
