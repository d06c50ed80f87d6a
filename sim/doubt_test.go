package sim

import (
	"bytes"
	"context"
	"math"
	"reflect"
	"strings"
	"testing"

	"playout/internal/stats"
	"playout/model"
)

// TestDoubtIsTheSameForAnyWorkers plays under doubt with 1, 2 and 7 workers: the
// result must be the same to the last integer, and single possessions replay
// with the parameters of their draw.
func TestDoubtIsTheSameForAnyWorkers(t *testing.T) {
	sc, u := averageOf(470), model.DefaultUncertainty()
	var want *Result
	run := &record{}
	for _, workers := range []int{1, 2, 7} {
		cfg := Config{Workers: workers, Uncertainty: u}
		if workers == 7 {
			cfg.Observer = run
		}
		res, err := Run(context.Background(), sc, cfg)
		if err != nil {
			t.Fatal(err)
		}
		if want == nil {
			want = res
		} else if !reflect.DeepEqual(res, want) {
			t.Errorf("%d workers: another result", workers)
		}
	}
	if !want.Doubt || want.Draws.Shot.N != 2 || want.Draws.Shot.Of != 400 { // two full draws of 200, and 70 over
		t.Errorf("draws %+v", want.Draws.Shot)
	}
	for _, id := range []int{0, 199, 200, 469} {
		par := ParamsOf(u, sc.Seed, id)
		again := &record{}
		p, events := Replay(sc, &par, id)
		again.Possession(p, events)
		if !bytes.Equal(again.lines[0], run.lines[id]) {
			t.Errorf("replay of possession %d differs from the run's", id)
		}
	}
	if ParamsOf(u, sc.Seed, DrawEvery-1) != ParamsOf(u, sc.Seed, 0) || ParamsOf(u, sc.Seed, DrawEvery) == ParamsOf(u, sc.Seed, 0) {
		t.Error("a group must share its parameters, and the next one have others")
	}
	if ParamsOf(u, sc.Seed+1, 0) == ParamsOf(u, sc.Seed, 0) {
		t.Error("another seed draws the same parameters")
	}
}

// TestDoubtOfNothing: where the calibration leaves nothing open the run is the
// plain one, possession by possession and event by event.
func TestDoubtOfNothing(t *testing.T) {
	none, err := model.ParseUncertainty(strings.NewReader("parameter,sd,d1,d2\nLook,0,0,0\nDuelWon,0,0,0\n"))
	if err != nil {
		t.Fatal(err)
	}
	plain, doubted := &record{}, &record{}
	a, err := Run(context.Background(), averageOf(200), Config{Observer: plain})
	if err != nil {
		t.Fatal(err)
	}
	b, err := Run(context.Background(), averageOf(200), Config{Observer: doubted, Uncertainty: none})
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(plain.lines, doubted.lines) || a.Tally != b.Tally || a.BuildUp != b.BuildUp {
		t.Error("parameters without doubt change the run")
	}
	if a.Doubt || a.Draws != (Draws{}) {
		t.Error("a plain run tallies draws")
	}
}

// TestDrawsMerge adds the groups up in two parts and as the run does.
func TestDrawsMerge(t *testing.T) {
	sc, u := averageOf(600), model.DefaultUncertainty()
	whole, err := Run(context.Background(), sc, Config{Uncertainty: u})
	if err != nil {
		t.Fatal(err)
	}
	w, draw := newWorld(sc, model.DefaultParams()), newDrawing(u, sc.Seed)
	var sum Draws
	for _, part := range [][]int{{2, 0}, {1}} { // out of order on purpose
		var d Draws
		for _, group := range part {
			var tally Tally
			w.setParams(draw.params(group * DrawEvery))
			for id := group * DrawEvery; id < (group+1)*DrawEvery; id++ {
				tally.Add(w.play(id), sc.Pitch)
			}
			d.add(&tally)
		}
		sum.Merge(&d)
	}
	if sum != whole.Draws {
		t.Error("the draws of two parts do not add up to those of the whole")
	}
	if got, want := sum.Shot.X, whole.Tally.Shot; got != want {
		t.Errorf("%d shots in the draws, %d in the tally", got, want)
	}
	xg, exact := float64(sum.XG.X)*DrawXGUnit, float64(whole.Tally.XG.X)*XGUnit
	if math.Abs(xg-exact) > 3*DrawXGUnit/2 { // half a step for each draw
		t.Errorf("xG %g in the draws, %g in the tally", xg, exact)
	}
}

// TestSetParamsIsANewWorld: a world that is given other parameters plays like one
// made with them.
func TestSetParamsIsANewWorld(t *testing.T) {
	par := ParamsOf(model.DefaultUncertainty(), 1, 0)
	par.ArriveSpeed, par.ArriveSpread, par.HeadHeight = 4.6, 0.5, 2.6 // not drawn, but derived from
	sc := averageOf(10)
	fresh, used := newWorld(sc, par), newWorld(sc, model.DefaultParams())
	used.play(0)
	used.setParams(par)
	for id := range 10 {
		if a, b := *fresh.play(id), *used.play(id); !reflect.DeepEqual(a, b) {
			t.Fatalf("possession %d differs", id)
		}
	}
}

// TestDoubtWidens plays a doubt about how good all passing and receiving is, so large
// that most draws lie at one end of the admissible ranges: entries must show it. If doubt did not
// reach the engine, chance would get as far as that in one of a million runs (F
// beyond its 1 - 1e-6 quantile).
func TestDoubtWidens(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	wide, err := model.ParseUncertainty(strings.NewReader("parameter,sd,d1\nLengthError,0.2,0.2\nLoftError,0.3,0.3\n" +
		"PressureError,4,4\nTouchPressure,5,5\nMisjudge,2,2\n"))
	if err != nil {
		t.Fatal(err)
	}
	res, err := Run(context.Background(), averageOf(4000), Config{Uncertainty: wide})
	if err != nil {
		t.Fatal(err)
	}
	c := stats.OneWay(res.Draws.FinalThird)
	if c.Limit(1e-6) == 0 {
		t.Errorf("components %+v: the doubt does not show", c)
	}
	s, ok := stats.SplitProportion(res.Tally.FinalThird, res.Tally.Possessions, res.Draws.FinalThird, 0.95)
	if e := stats.Proportion(res.Tally.FinalThird, res.Tally.Possessions, 0.95); !ok || !(s.Lo < e.Lo && s.Hi > e.Hi) {
		t.Errorf("%+v is no wider than %+v", s, e)
	}
}
