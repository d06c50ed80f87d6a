package export

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"playout/sim"
)

// small is the least export.
func small() Config {
	return Config{Formats: []Format{CSV}, Version: "test", Scenario: []byte("title: a plan\n")}
}

func TestDirectories(t *testing.T) {
	sc := scenarioOf(2)
	export := func(dir string, cfg Config) error {
		_, err := Export(context.Background(), sc, dir, cfg)
		return err
	}
	dir := t.TempDir()
	write := func(path string) string {
		t.Helper()
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("mine"), 0o666); err != nil {
			t.Fatal(err)
		}
		return path
	}
	for _, c := range []struct{ name, dir, want string }{
		{"a file", write(filepath.Join(dir, "a")), "is a file"},
		{"below a file", filepath.Join(dir, "a", "b"), "cannot"},
		{"somebody's directory", filepath.Dir(write(filepath.Join(dir, "work", "notebook"))), `there is "notebook" in it`},
		{"somebody's manifest", filepath.Dir(write(filepath.Join(dir, "other", manifestName))), "no earlier export"},
	} {
		err := export(c.dir, small())
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.name, err, c.want)
		}
	}
	if got := files(t, filepath.Join(dir, "work")); len(got) != 1 || string(got["notebook"]) != "mine" {
		t.Errorf("a directory that was refused has changed: %d files", len(got))
	}

	// Made where there is none, taken where it is empty, replaced where an earlier one is.
	data := filepath.Join(dir, "deep", "data")
	all := everything()
	all.Formats = []Format{CSV}
	if err := export(data, all); err != nil {
		t.Fatal(err)
	}
	if err := export(data, small()); err != nil {
		t.Fatal(err)
	}
	if got := files(t, data); len(got) != 4 || got["frames.csv"] != nil {
		t.Errorf("%d files after a smaller export over a larger one", len(got))
	}
	empty := t.TempDir()
	if err := export(empty, small()); err != nil {
		t.Error(err)
	}

	// Not replaced when there is something else in it, or another is being written.
	mine := write(filepath.Join(data, "notes.txt"))
	if err := export(data, small()); err == nil || !strings.Contains(err.Error(), "notes.txt") {
		t.Errorf("over a file of somebody else: %v", err)
	}
	os.Remove(mine)
	left := write(filepath.Join(data, stagePrefix+"1"+stageSuffix, "actions.csv"))
	if err := export(data, small()); err == nil || !strings.Contains(err.Error(), "another export") {
		t.Errorf("while another is written: %v", err)
	}
	old := time.Now().Add(-2 * staleAfter)
	for _, path := range []string{left, filepath.Dir(left)} {
		if err := os.Chtimes(path, old, old); err != nil {
			t.Fatal(err)
		}
	}
	if err := export(data, small()); err != nil {
		t.Errorf("over what a killed export has left: %v", err)
	}
	if got := files(t, data); len(got) != 4 {
		t.Errorf("%d files over what a killed export has left", len(got))
	}
}

// full is a disk with room for so many bytes.
type full struct {
	*os.File
	room *int
}

func (f full) Write(p []byte) (int, error) {
	if *f.room -= len(p); *f.room < 0 {
		return 0, syscall.ENOSPC
	}
	return f.File.Write(p)
}

// On a full disk nothing is left, wherever it happens; an earlier export stays.
func TestFullDisk(t *testing.T) {
	sc := scenarioOf(3)
	dir := filepath.Join(t.TempDir(), "data")
	if _, err := Export(context.Background(), sc, dir, small()); err != nil {
		t.Fatal(err)
	}
	before := files(t, dir)
	failed := 0
	for room := 0; ; room = room*3/2 + 1000 {
		left := room
		cfg := everything()
		cfg.Sample = 1
		cfg.create = func(path string) (file, error) {
			f, err := os.Create(path)
			return full{f, &left}, err
		}
		_, err := Export(context.Background(), sc, dir, cfg)
		if err == nil {
			break
		}
		failed++
		if !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), "nothing of this export was kept") {
			t.Fatalf("room for %d bytes: %v", room, err)
		}
		after := files(t, dir)
		if len(after) != len(before) {
			t.Fatalf("room for %d bytes: %d files, there were %d", room, len(after), len(before))
		}
		for name, data := range before {
			if !bytes.Equal(data, after[name]) {
				t.Fatalf("room for %d bytes: %s has changed", room, name)
			}
		}
		fresh := filepath.Join(t.TempDir(), "new")
		left = room
		if _, err := Export(context.Background(), sc, fresh, cfg); err == nil {
			t.Fatal("it fits into a new directory only")
		}
		if _, err := os.Stat(fresh); err == nil {
			t.Fatalf("room for %d bytes: a directory is left", room)
		}
	}
	if failed < 8 {
		t.Errorf("the disk was full %d times only", failed)
	}
}

// Cut short, an export keeps what is whole and says so.
func TestInterrupted(t *testing.T) {
	cut := func(at int, cfg Config) (string, *Manifest, error) {
		ctx, stop := context.WithCancel(context.Background())
		defer stop()
		cfg.Workers = 1
		cfg.Progress = func(done, of int) {
			if done >= at {
				stop()
			}
		}
		dir := filepath.Join(t.TempDir(), "data")
		m, err := Export(ctx, scenarioOf(400), dir, cfg)
		return dir, m, err
	}
	dir, m, err := cut(50, everything())
	if !errors.Is(err, context.Canceled) || m == nil || !m.Partial || m.Possessions < 50 || m.Possessions >= 400 || m.Filmed != 0 {
		t.Fatalf("in the tables: %+v, %v", m, err)
	}
	got := files(t, dir)
	if _, rows := rowsOf(t, got["possessions.csv"]); len(rows) != m.Possessions || got["frames.csv"] != nil {
		t.Errorf("%d rows of %d possessions", len(rows), m.Possessions)
	}
	var again Manifest
	if err := json.Unmarshal(got[manifestName], &again); err != nil || !again.Partial || again.Asked != 400 {
		t.Errorf("the manifest says partial %v, asked %d: %v", again.Partial, again.Asked, err)
	}

	film := everything()
	film.Formats, film.Frames, film.Options, film.Sample = []Format{CDF}, false, false, 100
	dir, m, err = cut(4, film)
	if !errors.Is(err, context.Canceled) || m == nil || !m.Partial || m.Filmed < 4 || m.Filmed > 20 {
		t.Fatalf("in the films: %+v, %v", m, err)
	}
	if got := files(t, dir); !bytes.Contains(got["tracking.jsonl"], []byte(`"possession":3,`)) || bytes.Contains(got["tracking.jsonl"], []byte(`"possession":30,`)) {
		t.Error("the frames are not those of the films seen")
	}

	ctx, stop := context.WithCancel(context.Background())
	stop()
	dir = filepath.Join(t.TempDir(), "data")
	if m, err := Export(ctx, scenarioOf(10), dir, small()); m != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("at once: %+v, %v", m, err)
	}
	if _, err := os.Stat(dir); err == nil {
		t.Error("at once: a directory is left")
	}
}

// Several workers that are cut short leave batches unfinished in the middle. What is
// kept has no gaps: it is the first so many possessions.
func TestInterruptedLeavesNoGap(t *testing.T) {
	sc := scenarioOf(1)
	cfg := small()
	x := &exporter{sc: sc, cfg: &cfg, m: newManifest(sc, &cfg), names: newRoster(sc)}
	x.stage = &stage{create: func(string) (file, error) { return nowhere{}, nil }}
	if err := open(x, &x.possessions, &possessionTable); err != nil {
		t.Fatal(err)
	}
	o := &observer{x: x, stop: func() { t.Error("stopped") }}
	for _, id := range []int{0, 1, 2, 5, 6, 3} {
		p := sim.Possession{ID: id, Loser: nobody}
		if o.Possession(&p, nil); id == 6 && o.seen != 3 {
			t.Errorf("%d possessions seen, want 3", o.seen)
		}
	}
	if rows := x.possessions.files[0].rows; rows != 4 {
		t.Errorf("%d rows, want 4", rows)
	}
}
