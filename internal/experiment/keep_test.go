package experiment

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"playout/internal/parts"
	"playout/model"
)

var keptManifest = parts.Manifest{Version: "v1", Revision: 1, Arch: "amd64", Seed: 5, Command: []string{"compare"}, Inputs: map[string]string{}}

// brief are two variants of which a possession is soon played.
func brief() []Cell {
	cells := pair()
	for _, c := range cells {
		c.Scenario.Clock, c.Scenario.AfterLoss = model.MinClock, 0
	}
	return cells
}

func openDir(t *testing.T, path string, sh parts.Shard) *parts.Dir {
	t.Helper()
	d, err := parts.Open(path, keptManifest, sh, OutcomeBytes)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func keep(t *testing.T, d *parts.Dir) *Kept {
	t.Helper()
	k, err := Keep(d, brief(), 5)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// Shares in a directory each, out of order, one of them twice, joined: the same
// outcomes as in one go. Before that the lacking shares are named.
func TestSharesJoined(t *testing.T) {
	cfg := Config{Seed: 5, First: 30, Possessions: 520}
	want := encoded(mustPlay(t, brief(), cfg), 2)
	var dirs []string
	root := t.TempDir()
	for _, i := range []int{4, 1, 3, 1, 2} {
		if len(dirs) == 4 {
			joined, err := parts.Join(dirs, OutcomeBytes)
			if err != nil {
				t.Fatal(err)
			}
			k := keep(t, joined)
			cfg.Parts = k
			if mustPlay(t, brief(), cfg).Complete() {
				t.Error("whole without share 2/4")
			}
			if err := k.Missing(); err == nil || !strings.Contains(err.Error(), "of 1040 build-ups are missing, of the shares 2/4;") {
				t.Errorf("missing: %v", err)
			}
		}
		dir := filepath.Join(root, "machine"+string(rune('a'+len(dirs))))
		dirs = append(dirs, dir)
		d := openDir(t, dir, parts.Shard{I: i, Of: 4})
		k := keep(t, d)
		cfg.Parts = k
		mustPlay(t, brief(), cfg)
		if err := d.Flush(); err != nil {
			t.Fatal(err)
		}
		if k.Played < 100 || k.Played > 400 {
			t.Errorf("share %d/4 is %d of 1040 possessions", i, k.Played)
		}
	}
	joined, err := parts.Join(dirs, OutcomeBytes)
	if err != nil {
		t.Fatal(err)
	}
	k := keep(t, joined)
	cfg.Parts = k
	r := mustPlay(t, brief(), cfg)
	if !r.Complete() || k.Missing() != nil || k.Played > 0 || !bytes.Equal(encoded(r, 2), want) {
		t.Errorf("the shares give other outcomes: %v", k.Missing())
	}
	if len(joined.Notes()) == 0 {
		t.Error("nothing said of the share played twice")
	}
}

func TestGoesOnAfterCancel(t *testing.T) {
	cfg := Config{Seed: 5, Possessions: 600, Workers: 2}
	want := encoded(mustPlay(t, brief(), cfg), 2)
	path := t.TempDir()
	d := openDir(t, path, parts.Shard{})
	ctx, cancel := context.WithCancel(context.Background())
	defer cancel()
	cfg.Progress = func(done, _ int) {
		if done >= 500 {
			cancel()
		}
	}
	cfg.Parts = keep(t, d)
	if _, err := Play(ctx, brief(), cfg); !errors.Is(err, context.Canceled) {
		t.Fatalf("err = %v", err)
	}
	if err := d.Flush(); err != nil {
		t.Fatal(err)
	}
	k := keep(t, openDir(t, path, parts.Shard{}))
	cfg.Parts, cfg.Progress = k, nil
	if got := encoded(mustPlay(t, brief(), cfg), 2); !bytes.Equal(got, want) || k.Taken < 500 || k.Taken+k.Played != 1200 {
		t.Errorf("other outcomes, or %d taken and %d played", k.Taken, k.Played)
	}
	if err := keep(t, d).Missing(); err != nil {
		t.Errorf("missing: %v", err)
	}
}

func TestMissingWithoutShares(t *testing.T) {
	path := t.TempDir()
	d := openDir(t, path, parts.Shard{})
	cfg := Config{Seed: 5, Possessions: 100, Parts: keep(t, d)}
	mustPlay(t, brief(), cfg)
	if err := d.Flush(); err != nil {
		t.Fatal(err)
	}
	joined, err := parts.Join([]string{path}, OutcomeBytes)
	if err != nil {
		t.Fatal(err)
	}
	k := keep(t, joined)
	mustPlay(t, brief(), Config{Seed: 5, Possessions: 180, Parts: k})
	if err := k.Missing(); err == nil || !strings.HasPrefix(err.Error(), "160 of 360 build-ups are missing; ") {
		t.Errorf("missing: %v", err)
	}
}

func TestLostDirectory(t *testing.T) {
	path := filepath.Join(t.TempDir(), "work")
	d := openDir(t, path, parts.Shard{})
	cfg := Config{Seed: 5, Possessions: 100, Parts: keep(t, d)}
	if err := os.RemoveAll(path); err != nil {
		t.Fatal(err)
	}
	mustPlay(t, brief(), cfg)
	if err := d.Flush(); err == nil || !strings.Contains(err.Error(), path+": cannot be written: no such file") {
		t.Errorf("err = %v", err)
	}
}

// Two cells have one key exactly if they have the same outcomes for sure.
func TestKey(t *testing.T) {
	key := func(f func(*Cell), seed uint64) parts.Key {
		c := pair()[0]
		f(&c)
		k, err := keyOf(c, seed)
		if err != nil {
			t.Fatal(err)
		}
		return k
	}
	par := model.DefaultParams()
	same := key(func(*Cell) {}, 1)
	for name, k := range map[string]parts.Key{
		"name":        key(func(c *Cell) { c.Name = "x" }, 1),
		"title":       key(func(c *Cell) { c.Scenario.Title = "x" }, 1),
		"possessions": key(func(c *Cell) { c.Scenario.Possessions++ }, 1),
		"own seed":    key(func(c *Cell) { c.Scenario.Seed++ }, 1),
	} {
		if k != same {
			t.Errorf("%s changes the key", name)
		}
	}
	seen := map[parts.Key]string{same: "as it is"}
	for name, k := range map[string]parts.Key{
		"seed":       key(func(*Cell) {}, 2),
		"parameters": key(func(c *Cell) { c.Params = &par }, 1),
		"percentile": key(func(c *Cell) { c.Scenario.Teams[1].Players[10].Percentile[model.Pace] += 1e-9 }, 1),
		"foot":       key(func(c *Cell) { c.Scenario.Teams[0].Players[3].Foot = model.BothFeet }, 1),
		"width":      key(func(c *Cell) { c.Scenario.Teams[1].Block.Width += 1e-9 }, 1),
		"trigger": key(func(c *Cell) {
			c.Scenario.Teams[1].Block.Press.Triggers[model.Touchline] = !c.Scenario.Teams[1].Block.Press.Triggers[model.Touchline]
		}, 1),
		"anchor": key(func(c *Cell) { c.Scenario.Teams[0].Structure.Anchor[0][4].Y += 1e-9 }, 1),
		"clock":  key(func(c *Cell) { c.Scenario.Clock++ }, 1),
	} {
		if other, twice := seen[k]; twice {
			t.Errorf("%s has the key of %s", name, other)
		}
		seen[k] = name
	}
	// JSON sees exported fields only.
	var walk func(ty reflect.Type)
	walk = func(ty reflect.Type) {
		switch ty.Kind() {
		case reflect.Slice, reflect.Array, reflect.Pointer:
			walk(ty.Elem())
		case reflect.Struct:
			for i := range ty.NumField() {
				if f := ty.Field(i); !f.IsExported() || f.Tag.Get("json") != "" {
					t.Errorf("%v.%s would not be part of the key", ty, f.Name)
				} else {
					walk(f.Type)
				}
			}
		case reflect.Map, reflect.Interface, reflect.Func:
			t.Errorf("%v in a scenario: can it be part of a key?", ty)
		}
	}
	walk(reflect.TypeFor[model.Scenario]())
	walk(reflect.TypeFor[model.Params]())
}

// BenchmarkKey is what a cell costs beyond its possessions when parts are kept.
func BenchmarkKey(b *testing.B) {
	c := pair()[0]
	for b.Loop() {
		if _, err := keyOf(c, 1); err != nil {
			b.Fatal(err)
		}
	}
}
