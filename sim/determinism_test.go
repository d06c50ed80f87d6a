package sim

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"playout/model"
)

func averageOf(n int) *model.Scenario {
	sc := model.AverageScenario()
	sc.Possessions = n
	return &sc
}

type record struct{ lines [][]byte }

func (r *record) Possession(p *Possession, events []Event) {
	line, _ := json.Marshal(struct {
		P *Possession
		E []Event
	}{p, events})
	r.lines = append(r.lines, line)
}

// TestSameForAnyWorkers plays one scenario with 1, 2 and 7 workers: every
// possession with its events, and the tally, must be the same bytes.
func TestSameForAnyWorkers(t *testing.T) {
	var want *Result
	var first *record
	for _, workers := range []int{1, 2, 7} {
		got := &record{}
		res, err := Run(context.Background(), averageOf(320), Config{Workers: workers, Observer: got})
		if err != nil {
			t.Fatal(err)
		}
		if want == nil {
			want, first = res, got
			continue
		}
		if !reflect.DeepEqual(res, want) {
			t.Errorf("%d workers: another tally", workers)
		}
		if len(got.lines) != len(first.lines) {
			t.Fatalf("%d workers: %d possessions, want %d", workers, len(got.lines), len(first.lines))
		}
		for i := range got.lines {
			if !bytes.Equal(got.lines[i], first.lines[i]) {
				t.Fatalf("%d workers: possession %d differs", workers, i)
			}
		}
	}
}

// TestReplayIsThePossessionOfTheRun replays single possessions and compares
// them with the run.
func TestReplayIsThePossessionOfTheRun(t *testing.T) {
	run := &record{}
	sc := averageOf(120)
	if _, err := Run(context.Background(), sc, Config{Observer: run}); err != nil {
		t.Fatal(err)
	}
	for _, id := range []int{0, 7, 64, 119} {
		again := &record{}
		p, events := Replay(sc, nil, id)
		again.Possession(p, events)
		if !bytes.Equal(again.lines[0], run.lines[id]) {
			t.Errorf("replay of possession %d differs from the run's", id)
		}
	}
}

// TestPartsMerge adds up the tallies of two halves played by themselves.
func TestPartsMerge(t *testing.T) {
	sc := averageOf(100)
	whole, err := Run(context.Background(), sc, Config{})
	if err != nil {
		t.Fatal(err)
	}
	w := newWorld(sc, model.DefaultParams())
	var sum Tally
	for _, part := range [][2]int{{50, 100}, {0, 50}} { // out of order on purpose
		var tally Tally
		for id := part[0]; id < part[1]; id++ {
			tally.Add(w.play(id), sc.Pitch)
		}
		sum.Merge(&tally)
	}
	if !reflect.DeepEqual(sum, whole.Tally) {
		t.Error("the tallies of two parts do not add up to that of the whole")
	}
}

// TestRunStops checks that a run ends with its context and says what it has, and
// that it stops by itself, at the same possession for any number of workers,
// once the precision is reached.
func TestRunStops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	res, err := Run(ctx, averageOf(1_000_000), Config{Workers: 2, Progress: func(done, _ int) {
		if done >= 100 {
			cancel()
		}
	}})
	if !errors.Is(err, context.Canceled) || !res.Partial() || res.Played < 100 || res.Tally.Possessions != int64(res.Played) {
		t.Errorf("cancelled run: played %d, tally %d, partial %v, error %v", res.Played, res.Tally.Possessions, res.Partial(), err)
	}
	var played []int
	for _, workers := range []int{1, 3} {
		res, err := Run(context.Background(), averageOf(50_000), Config{Workers: workers, Precision: 0.025})
		if err != nil || !res.Reached || res.Partial() || res.halfWidth() > 0.025 {
			t.Fatalf("%d workers: reached %v, half-width %v, error %v", workers, res.Reached, res.halfWidth(), err)
		}
		played = append(played, res.Played)
	}
	if played[0] != played[1] {
		t.Errorf("stopped after %v possessions with 1 and 3 workers", played)
	}
}

// TestNothingIsAllocated plays possessions on a warm world.
func TestNothingIsAllocated(t *testing.T) {
	w := newWorld(averageOf(1), model.DefaultParams())
	id := 0
	w.play(id)
	if n := testing.AllocsPerRun(50, func() { id++; w.play(id) }); n != 0 {
		t.Errorf("%v allocations a possession, want none", n)
	}
}
