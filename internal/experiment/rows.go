package experiment

import "context"

// batch is how many cells PlayRows hands to Play at once: many blocks for every
// processor, so that none waits long for the last, and few enough scenarios at work.
const batch = 64

// PlayRows plays lists of cells, each list, a row, with luck of its own: row j plays
// possessions First + j n to First + (j + 1) n - 1 of its cells, n being
// cfg.Possessions. Cells of a row share their luck, rows do not. play is Play, or what
// keeps parts besides. done gets the outcomes, by cell, of every row that was played
// whole. The error is that of play.
func PlayRows(ctx context.Context, rows [][]Cell, cfg Config, play func(context.Context, []Cell, Config) (*Results, error), done func(row int, outcomes [][]Outcome)) error {
	played, of := 0, 0
	for _, row := range rows {
		of += len(row) * cfg.Possessions
	}
	for j := 0; j < len(rows); {
		var cells []Cell
		from := j
		for ; j < len(rows) && (j == from || len(cells)+len(rows[j]) <= batch); j++ {
			for _, c := range rows[j] {
				c.First += j * cfg.Possessions
				cells = append(cells, c)
			}
		}
		one := cfg
		if cfg.Progress != nil {
			one.Progress = func(now, _ int) { cfg.Progress(played+now, of) }
		}
		r, err := play(ctx, cells, one)
		if r != nil {
			wholeRows(rows[from:j], r, cfg.Possessions, func(row int, o [][]Outcome) { done(from+row, o) })
		}
		if err != nil {
			return err
		}
		played += len(cells) * cfg.Possessions
	}
	return nil
}

// wholeRows hands on the rows of a batch of which nothing is missing.
func wholeRows(rows [][]Cell, r *Results, possessions int, done func(row int, outcomes [][]Outcome)) {
	at := 0
	for j, row := range rows {
		var outcomes [][]Outcome
		whole := true
		for range row {
			o := r.Outcomes(at)
			whole = whole && len(o) == possessions
			outcomes = append(outcomes, o)
			at++
		}
		if whole {
			done(j, outcomes)
		}
	}
}
