package experiment

import (
	"bytes"
	"context"
	"errors"
	"reflect"
	"testing"

	"playout/model"
	"playout/sim"
)

// pair are two variants: a block as it is, and one that stands 12 m wider.
func pair() []Cell {
	a, b := model.AverageScenario(), model.AverageScenario()
	b.Teams[model.Defence].Block.Width += 12
	a.Seed, b.Seed = 7, 9 // to be ignored
	a.Possessions, b.Possessions = 3, 5
	return []Cell{{Name: "as it is", Scenario: &a}, {Name: "wider", Scenario: &b}}
}

func encoded(r *Results, cells int) []byte {
	var out []byte
	for c := range cells {
		for i := range r.Outcomes(c) {
			out = r.Outcomes(c)[i].Append(out)
		}
	}
	return out
}

func mustPlay(t *testing.T, cells []Cell, cfg Config) *Results {
	t.Helper()
	r, err := Play(context.Background(), cells, cfg)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestSameForAnyWorkers(t *testing.T) {
	cfg := Config{Seed: 3, First: 70, Possessions: 260}
	var want []byte
	for _, workers := range []int{1, 2, 7} {
		cfg.Workers = workers
		last := 0
		cfg.Progress = func(done, of int) {
			if of != 520 || done <= last {
				t.Errorf("progress %d of %d after %d", done, of, last)
			}
			last = done
		}
		r := mustPlay(t, pair(), cfg)
		got := encoded(r, 2)
		if want == nil {
			want = got
		}
		if !r.Complete() || last != 520 || !bytes.Equal(got, want) || len(got) != 520*OutcomeBytes {
			t.Errorf("%d workers: other outcomes", workers)
		}
	}
}

// TestOutcomesAddUpToTheRun compares the outcomes of a cell with the tally that
// sim.Run makes of the same scenario.
func TestOutcomesAddUpToTheRun(t *testing.T) {
	cells := pair()
	before := *cells[1].Scenario
	const n = 400
	o := mustPlay(t, cells, Config{Seed: 5, Possessions: n}).Outcomes(1)
	if !reflect.DeepEqual(before, *cells[1].Scenario) {
		t.Error("the scenario was written to")
	}
	sc := *cells[1].Scenario
	sc.Seed, sc.Possessions = 5, n
	res, err := sim.Run(context.Background(), &sc, sim.Config{})
	if err != nil {
		t.Fatal(err)
	}
	y := &res.Tally
	switches := func(v sim.Verdict) int64 { return y.Switches[sim.SinglePass][v] + y.Switches[sim.PassChain][v] }
	want := map[string]int64{
		"final_third": y.FinalThird, "exit_own_third": y.ExitOwnThird, "halfway": y.Halfway, "box": y.Box,
		"shot": y.Shot, "goal": y.Goal, "lost": y.Turnover, "forced_back": y.ForcedBack, "stalled": y.Stalled,
		"xg": y.XG.X, "shots_against": y.After.All.Shots, "xg_against": y.After.Against.X, "net_xg": y.After.Net.X,
		"switches/progressed": switches(sim.SwitchProgressed), "switches/forced_back": switches(sim.SwitchForcedBack),
		"switches/lost": switches(sim.SwitchLost), "switches/held": switches(sim.SwitchHeld),
	}
	for _, v := range []string{"progressed", "forced_back", "lost", "held"} {
		want["switches"] += want["switches/"+v]
	}
	for l := range model.NumLanes {
		want["final_third/"+l.String()] = y.EntryLane[l]
		want["shot/"+l.String()] = y.ShotsByEntry[l]
		want["xg/"+l.String()] = y.XGByEntry[l]
	}
	for _, f := range Figures {
		scale := 1.0
		if f.Unit == xgPerHundred {
			scale = xgScale
		}
		sum := 0.0
		for i := range o {
			x := f.Of(&o[i])
			if f.Rate && x != 0 && x != 1 {
				t.Fatalf("%s is said to be 0 or 1 and is %g", f.Name, x)
			}
			sum += x * scale
		}
		w, ok := want[f.Name]
		if d := sum - float64(w); !ok || d > 0.01 || d < -0.01 {
			t.Errorf("%s adds up to %g, in the run to %d", f.Name, sum, w)
		}
	}
	var ticks, attempted, completed, entry int64
	zones := [model.NumThirds][model.NumLanes]int64{}
	for _, o := range o {
		ticks, attempted, completed, entry = ticks+int64(o.Ticks), attempted+int64(o.Attempted), completed+int64(o.Completed), entry+int64(o.EntryTick)
		if o.LostIn != None {
			zones[o.LostIn/uint8(model.NumLanes)][o.LostIn%uint8(model.NumLanes)]++
		}
	}
	if ticks != y.Duration.X || attempted != y.PassSum.X || completed != y.PassSumDone.X || entry != y.EntryTicks.X || zones != y.LostIn {
		t.Error("durations, passes or zones of losses differ from the run's")
	}
}

func TestEncoding(t *testing.T) {
	o := mustPlay(t, pair(), Config{Seed: 5, Possessions: 300}).Outcomes(0)
	for i := range o {
		b := o[i].Append([]byte{0xff})[1:]
		var back Outcome
		if err := back.Decode(b); err != nil || back != o[i] {
			t.Fatalf("possession %d: %+v came back as %+v, %v", i, o[i], back, err)
		}
	}
	// By hand: an entry by the right wing after 258 ticks, then a shot of 0.1 xG from a cut-back.
	hand := Outcome{
		Flags: FinalReached | FinalThird | Shot, End: sim.EndShot, EntryLane: 4, ShotLane: 4, Method: uint8(sim.ByCarry),
		Source: uint8(sim.FromCutBack), LostIn: None, XG: 100_000, Ticks: 300, EntryTick: 258, Attempted: 6, Completed: 5,
	}
	hand.Switches[sim.PassChain][sim.SwitchHeld] = 2
	want := []byte{0x2c, 0, 9, 4, 4, 3, 2, 255, 0xa0, 0x86, 1, 0, 0, 0, 0, 0, 44, 1, 2, 1, 6, 0, 5, 0, 0, 0, 0, 0, 0, 0, 0, 2}
	if got := hand.Append(nil); !bytes.Equal(got, want) {
		t.Errorf("encoded as %v, want %v", got, want)
	}
	for at, bad := range map[int]byte{1: 0x80, 2: 11, 3: 5, 4: None, 7: 1, 11: 1, 12: 1, 19: 2, 22: 7} {
		spoilt := bytes.Clone(want)
		spoilt[at] = bad
		if new(Outcome).Decode(spoilt) == nil {
			t.Errorf("byte %d may be %d", at, bad)
		}
	}
	if new(Outcome).Decode(want[:31]) == nil {
		t.Error("31 bytes were taken")
	}
}

// TestCancelled stops in the middle: every cell has a whole prefix of what the
// full experiment gives.
func TestCancelled(t *testing.T) {
	cfg := Config{Seed: 5, First: 10, Possessions: 1000, Workers: 3}
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	cfg.Progress = func(done, _ int) {
		if done > 300 {
			cancel()
		}
	}
	got, err := Play(ctx, pair(), cfg)
	if !errors.Is(err, context.Canceled) || got.Complete() {
		t.Fatalf("err = %v, complete: %v", err, got.Complete())
	}
	cfg.Progress = nil
	cfg.Possessions = max(len(got.Outcomes(0)), len(got.Outcomes(1)))
	whole := mustPlay(t, pair(), cfg)
	n := 0
	for c := range 2 {
		o := got.Outcomes(c)
		n += len(o)
		if len(o) == 0 || !reflect.DeepEqual(o, whole.Outcomes(c)[:len(o)]) {
			t.Errorf("cell %d: %d outcomes are not the first ones", c, len(o))
		}
	}
	if n >= 2000 || got.Paired() != min(len(got.Outcomes(0)), len(got.Outcomes(1))) {
		t.Errorf("%d outcomes, %d paired", n, got.Paired())
	}
}

func TestBlocks(t *testing.T) {
	got := Blocks(2, Config{First: 250, Possessions: 180})
	want := []Block{{4, 0, 250, 50}, {5, 1, 250, 50}, {6, 0, 300, 100}, {7, 1, 300, 100}, {8, 0, 400, 30}, {9, 1, 400, 30}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %v", got)
	}
	if Blocks(3, Config{}) != nil {
		t.Error("blocks of no possessions")
	}
}

// kept is Parts in memory; it plays every n-th block.
type kept struct {
	blocks map[Block][]Outcome
	i, n   int
	fail   error
}

func (k *kept) Load(b Block) ([]Outcome, bool, error) { o, ok := k.blocks[b]; return o, ok, nil }
func (k *kept) Mine(b Block) bool                     { return b.Number%k.n == k.i }
func (k *kept) Save(b Block, o []Outcome) error {
	k.blocks[b] = append([]Outcome(nil), o...)
	return k.fail
}

func TestPartsMakeTheWhole(t *testing.T) {
	cfg := Config{Seed: 5, Possessions: 350, Workers: 2}
	want := encoded(mustPlay(t, pair(), cfg), 2)
	all := &kept{blocks: map[Block][]Outcome{}, n: 3}
	for i := range 3 {
		all.i = i
		cfg.Parts = all
		if i == 2 {
			if r := mustPlay(t, pair(), Config{Seed: 5, Possessions: 350, Parts: &kept{blocks: all.blocks, i: 9, n: 10}}); r.Complete() {
				t.Error("complete without the third part")
			}
		}
		mustPlay(t, pair(), cfg)
	}
	cfg.Parts = &kept{blocks: all.blocks, i: 9, n: 10} // plays nothing
	r := mustPlay(t, pair(), cfg)
	if !r.Complete() || !bytes.Equal(encoded(r, 2), want) {
		t.Error("three parts do not make the whole")
	}
	full := errors.New("disk full")
	cfg.Parts = &kept{blocks: map[Block][]Outcome{}, n: 1, fail: full}
	if _, err := Play(context.Background(), pair(), cfg); !errors.Is(err, full) {
		t.Errorf("err = %v", err)
	}
}
