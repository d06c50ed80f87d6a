package experiment

import (
	"context"
	"errors"
	"slices"
	"testing"
)

// TestPlayRows: row j is Play from possession First + j n, whoever plays it.
func TestPlayRows(t *testing.T) {
	cells := pair()
	rows := [][]Cell{{cells[0], cells[1]}, {cells[1]}, {cells[0]}}
	for _, workers := range []int{1, 4} {
		got := make([]*Results, len(rows))
		most, of := 0, 0
		cfg := Config{Seed: 3, First: 50, Possessions: 30, Workers: workers, Progress: func(done, all int) { most, of = max(most, done), all }}
		if err := PlayRows(context.Background(), rows, cfg, func(row int, r *Results) { got[row] = r }); err != nil {
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
				if !slices.Equal(got[j].Outcomes(c), want.Outcomes(c)) {
					t.Errorf("%d workers: row %d, cell %d differs from Play", workers, j, c)
				}
			}
		}
	}
}

func TestPlayRowsStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	whole := 0
	rows := make([][]Cell, 50)
	for j := range rows {
		rows[j] = pair()[:1]
	}
	err := PlayRows(ctx, rows, Config{Seed: 3, Possessions: 5, Workers: 2}, func(int, *Results) {
		if whole++; whole == 3 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || whole < 3 || whole > 10 {
		t.Errorf("%d rows played, error %v", whole, err)
	}
}
