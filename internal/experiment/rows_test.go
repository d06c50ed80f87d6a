package experiment

import (
	"context"
	"errors"
	"slices"
	"testing"
)

// TestPlayRows: row j is Play from possession First + j n.
func TestPlayRows(t *testing.T) {
	cells := pair()
	rows := [][]Cell{{cells[0], cells[1]}, {cells[1]}, {cells[0]}}
	got := make([][][]Outcome, len(rows))
	most, of := 0, 0
	cfg := Config{Seed: 3, First: 50, Possessions: 30, Workers: 3, Progress: func(done, all int) { most, of = max(most, done), all }}
	if err := PlayRows(context.Background(), rows, cfg, Play, func(row int, o [][]Outcome) { got[row] = o }); err != nil {
		t.Fatal(err)
	}
	if most != 120 || of != 120 {
		t.Errorf("progress ends at %d of %d, want 120 of 120", most, of)
	}
	for j, row := range rows {
		want, err := Play(context.Background(), row, Config{Seed: 3, First: 50 + 30*j, Possessions: 30})
		if err != nil {
			t.Fatal(err)
		}
		for c := range row {
			if !slices.Equal(got[j][c], want.Outcomes(c)) {
				t.Errorf("row %d, cell %d differs from Play", j, c)
			}
		}
	}
}

// TestPlayRowsStops: of what was cut short only whole rows come out.
func TestPlayRowsStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	rows := make([][]Cell, 200)
	for j := range rows {
		rows[j] = pair()
	}
	cfg := Config{Seed: 3, Possessions: 2, Workers: 1, Progress: func(done, of int) {
		if done >= 150 { // in the second batch of 64 cells
			stop()
		}
	}}
	whole := 0
	err := PlayRows(ctx, rows, cfg, Play, func(_ int, o [][]Outcome) {
		whole++
		if len(o) != 2 || len(o[0]) != 2 || len(o[1]) != 2 {
			t.Error("a row that is not whole")
		}
	})
	if !errors.Is(err, context.Canceled) || whole < 32 || whole > 50 {
		t.Errorf("%d rows played, error %v", whole, err)
	}
}
