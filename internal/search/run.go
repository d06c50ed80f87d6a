package search

import (
	"context"
	"errors"
	"fmt"

	"playout/internal/evolution"
	"playout/internal/experiment"
	"playout/internal/scenario"
	"playout/model"
)

// Player plays cells: experiment.Play, or the same with parts.
type Player func(context.Context, []experiment.Cell, experiment.Config) (*experiment.Results, error)

// Config sizes a search.
type Config struct {
	Figure   experiment.Figure // what is to be better
	Budget   int               // possessions in all
	Seed     uint64            // of the possessions, and of the variants tried
	Workers  int
	Progress func(done, of int)
	Play     Player // nil: experiment.Play
}

// judged is the part of the budget kept for the last comparison, of two cells.
const judged, judgedCells = 0.2, 2

// Least is the smallest budget that a freedom can be searched with.
func Least(f *Freedom) int {
	least := int(float64(evolution.Least(f.Dimensions(), 0))/(1-judged)) + 1
	return (least + 99) / 100 * 100
}

// Result is what a search found and what fresh possessions say about it.
type Result struct {
	Config  Config
	Title   string
	Freedom *Freedom
	Search  *evolution.Found // leads in the sense of the figure: positive is better

	Tried   int      // variants looked at
	Changes []Change // of what it settled on; none: it settled on the original

	First, Fresh int                   // the fresh possessions: [First, First+Fresh)
	Judged       int                   // of them that the original and what was found have both played
	Comparison   experiment.Comparison // on these, with the original; zero when fewer than two were played

	Stopped bool // the search was cut short
	Partial bool // so was the last comparison
}

// Sign is +1 where more of the figure is better and -1 where less is.
func (c *Config) Sign() float64 {
	if c.Figure.Sense < 0 {
		return -1
	}
	return 1
}

// Run searches until ctx is over or its part of the budget is spent, and judges what
// it settled on until judging is over. Each generation has possessions of its own
// and the judgement again others. An error without a result says why there is none.
func Run(ctx, judging context.Context, f *Freedom, cfg Config) (*Result, error) {
	if cfg.Play == nil {
		cfg.Play = experiment.Play
	}
	r := &Result{Config: cfg, Title: f.base.Scenario().Title, Freedom: f}
	box, start := f.space()
	fresh := int(judged * float64(cfg.Budget) / judgedCells)
	t := &table{ctx: ctx, f: f, cfg: cfg, known: map[string]*model.Scenario{}}
	problem := evolution.Problem{Box: box, Start: start, Valid: t.valid, Observe: t.observe}
	found, err := evolution.Search(ctx, problem, evolution.Config{Budget: cfg.Budget - judgedCells*fresh, Seed: cfg.Seed})
	if err != nil && (found == nil || ctx.Err() == nil || !errors.Is(err, ctx.Err())) {
		return nil, err
	}
	r.Search, r.Stopped = found, err != nil
	for _, g := range found.Generations {
		r.Tried += g.Points
	}
	if r.Stopped { // a judgement in proportion to the search
		fresh = min(fresh, int(float64(found.Spent)*judged/(1-judged)/judgedCells))
	}
	r.First, r.Fresh = found.Used, fresh
	if err := r.judge(judging, t); err != nil {
		return nil, err
	}
	return r, nil
}

// table is where the variants are played.
type table struct {
	ctx   context.Context
	f     *Freedom
	cfg   Config
	known map[string]*model.Scenario // by their settings
	done  int
}

// variant makes the scenario of a point.
func (t *table) variant(x []float64) (*model.Scenario, error) {
	settings := Settings(t.f.Changes(x))
	key := fmt.Sprint(settings)
	if sc := t.known[key]; sc != nil {
		return sc, nil
	}
	sc, err := t.f.base.With(settings...)
	if err == nil {
		t.known[key] = sc
	}
	return sc, err
}

// valid reports whether a variant passes the checks of a scenario file.
func (t *table) valid(x []float64) bool {
	_, err := t.variant(x)
	return err == nil
}

// observe plays possessions of variants and reads the figure, its sign such that
// more is better.
func (t *table) observe(points [][]float64, first, n int) ([][]float64, error) {
	cells := make([]experiment.Cell, len(points))
	for i, x := range points {
		sc, err := t.variant(x)
		if err != nil { // only where nothing near the middle of the search passes either
			sc = t.f.base.Scenario()
		}
		cells[i] = experiment.Cell{Name: fmt.Sprint("variant ", i), Scenario: sc}
	}
	if first == 0 || len(t.known) > 1000 {
		t.known = map[string]*model.Scenario{}
	}
	results, err := t.play(t.ctx, cells, first, n)
	if err != nil {
		return nil, err
	}
	out := make([][]float64, len(points))
	for i := range points {
		for _, o := range results.Outcomes(i) {
			out[i] = append(out[i], t.cfg.Sign()*t.cfg.Figure.Of(&o))
		}
	}
	return out, nil
}

// play counts on where the last call ended.
func (t *table) play(ctx context.Context, cells []experiment.Cell, first, n int) (*experiment.Results, error) {
	cfg := experiment.Config{Seed: t.cfg.Seed, First: first, Possessions: n, Workers: t.cfg.Workers}
	if t.cfg.Progress != nil {
		cfg.Progress = func(done, of int) { t.cfg.Progress(t.done+done, t.cfg.Budget) }
	}
	results, err := t.cfg.Play(ctx, cells, cfg)
	t.done += n * len(cells)
	return results, err
}

// judge plays what was settled on and the original on possessions that the search
// has not seen. That ctx ends is no error.
func (r *Result) judge(ctx context.Context, t *table) error {
	r.Changes = r.Freedom.Changes(r.Search.Point)
	variant, err := t.variant(r.Search.Point)
	if err != nil {
		return err
	}
	cells := []experiment.Cell{{Name: "original", Scenario: r.Freedom.base.Scenario()}, {Name: "found", Scenario: variant}}
	pair, err := t.play(ctx, cells, r.First, r.Fresh)
	if err != nil && (pair == nil || ctx.Err() == nil || !errors.Is(err, ctx.Err())) {
		return fmt.Errorf("judging what was found: %w", err)
	}
	r.Partial = err != nil
	if r.Judged = pair.Paired(); r.Judged < 2 {
		return nil
	}
	r.Comparison = experiment.Compare(pair, r.Judged, r.Config.Figure, 0)[0]
	return nil
}

// Better reports whether the fresh possessions show that what the search settled on
// is better than the original: more of the figure, or less where that is better.
func (r *Result) Better() bool {
	v := r.Comparison.Asked.Verdict
	return len(r.Changes) > 0 && r.Judged >= 2 && (v == experiment.Better || v == experiment.More)
}

// Settings are the values of what the search settled on.
func (r *Result) Settings() []scenario.Setting { return Settings(r.Changes) }
