package export

import (
	"context"
	"errors"
	"fmt"

	"playout/sim"
)

// open begins a table in every format of tables.
func open[R any](x *exporter, s *sheet[R], t *table[R]) error {
	s.table = t
	for _, f := range []Format{Parquet, CSV} {
		if !x.cfg.has(f) {
			continue
		}
		o, err := x.stage.output(t.name+"."+string(f), t.says)
		if err != nil {
			return err
		}
		w, err := newCSV(o, t.heads())
		if f == Parquet {
			w, err = newParquet(o, t.name, t.heads(), x.m.notes())
		}
		if err != nil {
			return x.stage.cannotWrite(err)
		}
		s.out, s.files = append(s.out, w), append(s.files, o)
	}
	return nil
}

// closeSheet ends a table that covers so many possessions.
func closeSheet[R any](x *exporter, s *sheet[R], covers int) error {
	if err := s.close(); err != nil {
		return x.stage.cannotWrite(err)
	}
	for _, o := range s.files {
		o.covers = covers
	}
	return nil
}

// playTables plays all possessions into the tables of players, possessions and
// actions.
func (x *exporter) playTables(ctx context.Context) error {
	if !x.cfg.tables() {
		return nil
	}
	if err := errors.Join(open(x, &x.players, &playerTable), open(x, &x.possessions, &possessionTable), open(x, &x.actions, &actionTable)); err != nil {
		return err
	}
	for side := range x.sc.Teams {
		t := &x.sc.Teams[side]
		for i := range t.Players {
			if err := x.players.add(&playerRow{side, t.Name, &t.Players[i]}); err != nil {
				return x.stage.cannotWrite(err)
			}
		}
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	o := &observer{x: x, stop: stop}
	filmed := x.cfg.filmed(x.sc)
	cfg := sim.Config{Workers: x.cfg.Workers, Observer: o}
	if x.cfg.Progress != nil {
		cfg.Progress = func(done, of int) { x.cfg.Progress(done, of+filmed) }
	}
	_, err := sim.Run(ctx, x.sc, cfg)
	if o.err != nil {
		return x.stage.cannotWrite(o.err)
	}
	x.m.Possessions = o.seen
	if failed := errors.Join(closeSheet(x, &x.players, o.seen), closeSheet(x, &x.possessions, o.seen), closeSheet(x, &x.actions, o.seen)); failed != nil {
		return failed
	}
	return err
}

// observer takes possessions into the tables.
type observer struct {
	x    *exporter
	stop func()
	seen int
	err  error // of writing; then it stops the run and takes nothing more
}

func (o *observer) Possession(p *sim.Possession, events []sim.Event) {
	if o.err != nil || p.ID != o.seen { // a run cut short may leave some out
		return
	}
	if o.err = o.x.possession(p, events); o.err != nil {
		o.stop()
		return
	}
	o.seen++
}

func (x *exporter) possession(p *sim.Possession, events []sim.Event) error {
	if err := x.possessions.add(&possessionRow{p, x.names}); err != nil {
		return err
	}
	for i, list := 0, x.tell.tell(p, events); i < len(list); i++ {
		if err := x.actions.add(&actionRow{p.ID, i, &list[i], x.names}); err != nil {
			return err
		}
	}
	return nil
}

// playFilms films the sample into the tables of frames and options and the Common
// Data Format.
func (x *exporter) playFilms(ctx context.Context) error {
	n := x.cfg.filmed(x.sc)
	if n == 0 {
		return nil
	}
	if x.cfg.Frames {
		if err := open(x, &x.frames, &frameTable); err != nil {
			return err
		}
	}
	if x.cfg.Options {
		if err := open(x, &x.options, &optionTable); err != nil {
			return err
		}
	}
	if x.cfg.has(CDF) {
		if err := x.openCDF(); err != nil {
			return err
		}
	}
	before, of := x.m.Possessions, x.m.Possessions+n
	seen := 0
	filmed, err := films(ctx, n, x.cfg.Workers, func(id int) *sim.Film { return sim.Record(x.sc, nil, id) }, func(f *sim.Film) error {
		if err := x.film(f); err != nil {
			return x.stage.cannotWrite(err)
		}
		if seen++; x.cfg.Progress != nil {
			x.cfg.Progress(before+seen, of)
		}
		return nil
	})
	x.m.Filmed = filmed
	if !x.cfg.tables() {
		x.m.Possessions = filmed
	}
	if failed := errors.Join(closeSheet(x, &x.frames, filmed), closeSheet(x, &x.options, filmed)); failed != nil {
		return failed
	}
	return err
}

func (x *exporter) film(f *sim.Film) error {
	id := f.Possession.ID
	for i := range f.Frames {
		fr := &f.Frames[i]
		for side := range fr.Players {
			for k := range fr.Players[side] {
				if err := x.frames.add(&frameRow{id, fr, side, k, x.names}); err != nil {
					return err
				}
			}
		}
		if x.cdf != nil {
			if err := x.cdf.frame(id, fr); err != nil {
				return err
			}
		}
	}
	for i := range f.Decisions {
		d := &f.Decisions[i]
		for k := range d.Options {
			if err := x.options.add(&optionRow{id, i, d, k, x.names}); err != nil {
				return err
			}
		}
	}
	if x.cdf == nil {
		return nil
	}
	for i, list := 0, x.tell.tell(&f.Possession, f.Events); i < len(list); i++ {
		if err := x.cdf.event(id, i, &list[i]); err != nil {
			return err
		}
	}
	return nil
}

func (x *exporter) openCDF() error {
	events, err := x.stage.output("event.jsonl", "Common Data Format: events of the filmed possessions")
	if err != nil {
		return err
	}
	tracking, err := x.stage.output("tracking.jsonl", "Common Data Format: frames of the filmed possessions")
	if err != nil {
		return err
	}
	x.m.CDF, x.m.MatchID = CDFVersion, fmt.Sprintf("synthetic_%s_seed_%d", x.m.ScenarioSHA256[:8], x.sc.Seed)
	x.cdf = newCDF(x.sc, x.m.MatchID, events, tracking)
	x.m.SlotS = x.cdf.slot
	return nil
}
