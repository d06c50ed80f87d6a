package parts

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const recordBytes = 8

var theManifest = Manifest{
	Version: "v1.2.3", Revision: 7, Arch: "amd64", Seed: 1,
	Command: []string{"compare", "--possessions=400", "--", "a.yaml", "b.yaml"},
	Inputs:  map[string]string{"a.yaml": "title: A\n", "b.yaml": "extends: a.yaml\ntitle: B <é>\n"},
}

func keyOf(cell int) Key { return sha256.Sum256([]byte{byte(cell)}) }

// records are what possessions first to first+n-1 of a cell are taken to give.
func records(cell, first, n int) []byte {
	var out []byte
	for i := first; i < first+n; i++ {
		out = binary.LittleEndian.AppendUint64(out, uint64(cell)<<32|uint64(i))
	}
	return out
}

func open(t *testing.T, path string, m Manifest, sh Shard) *Dir {
	t.Helper()
	d, err := Open(path, m, sh, recordBytes)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// fill saves one part with possessions first to first+n-1 of a cell and returns its path.
func fill(t *testing.T, path string, m Manifest, sh Shard, cell, first, n int) string {
	t.Helper()
	before := names(t, path)
	d := open(t, path, m, sh)
	if err := errors.Join(d.Save(keyOf(cell), first, records(cell, first, n)), d.Flush()); err != nil {
		t.Fatal(err)
	}
	for name := range names(t, path) {
		if !before[name] && strings.HasSuffix(name, partSuffix) {
			return filepath.Join(path, name)
		}
	}
	t.Fatal("no part was written")
	return ""
}

// names are the files in a directory; none if it is not there.
func names(t *testing.T, path string) map[string]bool {
	t.Helper()
	entries, err := os.ReadDir(path)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for _, e := range entries {
		out[e.Name()] = true
	}
	return out
}

// refused insists on a fault that names a file and holds every one of some words, from
// Open and from Join.
func refused(t *testing.T, dir, file string, words ...string) {
	t.Helper()
	_, opened := Open(dir, theManifest, Shard{}, recordBytes)
	_, joined := Join([]string{dir}, recordBytes)
	for _, err := range []error{opened, joined} {
		var f *Fault
		if !errors.As(err, &f) {
			t.Errorf("%v is no fault", err)
			continue
		}
		if f.File != file || f.Mend == "" {
			t.Errorf("%v: names %q, not %q", err, f.File, file)
		}
		for _, w := range words {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%v: does not say %q", err, w)
			}
		}
	}
}

func TestGoesOn(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "work")
	fill(t, dir, theManifest, Shard{}, 0, 0, 300)
	fill(t, dir, theManifest, Shard{}, 1, 100, 50)
	d := open(t, dir, theManifest, Shard{})
	if got := d.Find(keyOf(0), 20, 280); !bytes.Equal(got, records(0, 20, 280)) {
		t.Error("other records than were saved")
	}
	if got := d.Find(keyOf(1), 100, 50); !bytes.Equal(got, records(1, 100, 50)) {
		t.Error("other records than were saved")
	}
	for _, no := range []struct{ cell, first, n int }{{0, 0, 301}, {0, 300, 1}, {1, 99, 2}, {1, 149, 2}, {2, 0, 1}} {
		if d.Find(keyOf(no.cell), no.first, no.n) != nil {
			t.Errorf("found %v, which nobody has saved", no)
		}
	}
	if err := d.Save(keyOf(0), 50, records(0, 50, 100)); err != nil || len(d.waiting) > 0 {
		t.Errorf("what is there is to be written again: %v", err)
	}
}

func TestManifestSaysWhatItWasGiven(t *testing.T) {
	dir := t.TempDir()
	open(t, dir, theManifest, Shard{})
	d, err := Join([]string{dir}, recordBytes)
	if err != nil || d.Manifest.Against(&theManifest) != "" || !maps.Equal(d.Manifest.Inputs, theManifest.Inputs) {
		t.Fatalf("%+v, %v", d, err)
	}
	m := theManifest
	m.Inputs = map[string]string{"latin.csv": "Jos\xe9"}
	if _, err := Open(t.TempDir(), m, Shard{}, recordBytes); err == nil || !strings.Contains(err.Error(), "latin.csv: is not UTF-8") {
		t.Errorf("err = %v", err)
	}
}

// others are experiments that differ from theManifest in one thing each, with the
// words that say so.
func others() map[string]Manifest {
	out := map[string]Manifest{}
	change := func(words string, f func(m *Manifest)) {
		m := theManifest
		m.Inputs = maps.Clone(m.Inputs)
		f(&m)
		out[words] = m
	}
	change("engine revision 6, not 7", func(m *Manifest) { m.Revision = 6 })
	change("version v1.2.2 of playout, not v1.2.3", func(m *Manifest) { m.Version = "v1.2.2" })
	change("played on arm64, not amd64", func(m *Manifest) { m.Arch = "arm64" })
	change("seed 2, not 1", func(m *Manifest) { m.Seed = 2 })
	change("400 a.yaml c.yaml", func(m *Manifest) { m.Command = []string{"compare", "--possessions=400", "--", "a.yaml", "c.yaml"} })
	change("other contents", func(m *Manifest) { m.Inputs["a.yaml"] = "title: A\nattack: {}\n" })
	return out
}

func TestPartOfAnotherExperiment(t *testing.T) {
	for words, m := range others() {
		dir, other := t.TempDir(), t.TempDir()
		fill(t, dir, theManifest, Shard{}, 0, 0, 100)
		stray := fill(t, other, m, Shard{}, 0, 100, 100)
		data, err := os.ReadFile(stray)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, "copied.part")
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
		refused(t, dir, path, words, "take it out")
	}
}

func TestDirectoryOfAnotherExperiment(t *testing.T) {
	for words, m := range others() {
		dir, other := t.TempDir(), t.TempDir()
		fill(t, dir, m, Shard{}, 0, 0, 100)
		before := names(t, dir)
		_, err := Open(dir, theManifest, Shard{}, recordBytes)
		if err == nil || !strings.Contains(err.Error(), dir+": holds another experiment: ") || !strings.Contains(err.Error(), words) {
			t.Errorf("err = %v", err)
		}
		if !maps.Equal(names(t, dir), before) {
			t.Error("the directory was changed")
		}
		fill(t, other, theManifest, Shard{}, 0, 100, 100)
		if _, err := Join([]string{other, dir}, recordBytes); err == nil || !strings.Contains(err.Error(), dir+": does not belong with "+other) || !strings.Contains(err.Error(), words) {
			t.Errorf("err = %v", err)
		}
	}
	m := others()["other contents"]
	if what := m.Against(&theManifest); what != "the file a.yaml had other contents" {
		t.Errorf("what differs: %q", what)
	}
}

// Every possible truncation and every single flipped bit of a part is found.
func TestDamagedPart(t *testing.T) {
	dir := t.TempDir()
	path := fill(t, dir, theManifest, Shard{2, 3}, 0, 0, 7)
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := decode(path, whole, recordBytes); err != nil {
		t.Fatal(err)
	}
	for n := range whole {
		if _, err := decode(path, whole[:n], recordBytes); err == nil || !strings.Contains(err.Error(), path) {
			t.Fatalf("%d of %d bytes pass: %v", n, len(whole), err)
		}
		for bit := range 8 {
			spoilt := bytes.Clone(whole)
			spoilt[n] ^= 1 << bit
			if _, err := decode(path, spoilt, recordBytes); err == nil || !strings.Contains(err.Error(), path) {
				t.Fatalf("bit %d of byte %d flipped passes: %v", bit, n, err)
			}
		}
	}
	put := func(data []byte) {
		if err := os.WriteFile(path, data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	put(whole[:len(whole)-40])
	refused(t, dir, path, "is cut off after", "delete this file", "run the same command again")
	spoilt := bytes.Clone(whole)
	spoilt[len(whole)-50] ^= 1
	put(spoilt)
	refused(t, dir, path, "is damaged", "checksum", "delete this file")
	put(append(bytes.Clone(whole), whole...))
	refused(t, dir, path, "is damaged")
	put(nil)
	refused(t, dir, path, "is cut off after 0 bytes")
	put([]byte("holiday.jpg"))
	refused(t, dir, path, "is not a part", "take it out")
	put(bytes.Replace(whole, []byte("part 1"), []byte("part 2"), 1))
	refused(t, dir, path, "another format")
	put(whole)
	manifest := filepath.Join(dir, manifestName)
	if err := os.WriteFile(manifest, []byte(`{"version": "v1`), 0o666); err != nil {
		t.Fatal(err)
	}
	refused(t, dir, manifest, "damaged")
}

// The same possessions twice: once if they agree, as when the shares of two layouts
// overlap; a fault if they do not.
func TestDoubled(t *testing.T) {
	dir := t.TempDir()
	fill(t, dir, theManifest, Shard{1, 2}, 0, 0, 100)
	fill(t, dir, theManifest, Shard{2, 2}, 0, 200, 100)
	layout := filepath.Join(dir, "layout.part")
	if err := os.WriteFile(layout, encode(theManifest.stamp(), Shard{1, 3}, recordBytes, []block{{keyOf(0), 50, 200, records(0, 50, 200)}}), 0o666); err != nil {
		t.Fatal(err)
	}
	d, err := Join([]string{dir}, recordBytes)
	if err != nil {
		t.Fatal(err)
	}
	if got := d.Find(keyOf(0), 0, 300); !bytes.Equal(got, records(0, 0, 300)) {
		t.Error("overlapping parts give other records")
	}
	if len(d.Notes()) == 0 || !strings.Contains(d.Notes()[0], "count once") || len(d.Shards()) != 3 {
		t.Errorf("notes %q, shards %v", d.Notes(), d.Shards())
	}
	path := filepath.Join(dir, "zz.part")
	liar := records(0, 90, 20)
	liar[15*recordBytes]++
	if err := os.WriteFile(path, encode(theManifest.stamp(), Shard{}, recordBytes, []block{{keyOf(0), 90, 20, liar}}), 0o666); err != nil {
		t.Fatal(err)
	}
	refused(t, dir, path, "contradicts "+layout, "delete both")
}

// The index against a plain map, with random ranges that overlap.
func TestIndex(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		x := newIndex(recordBytes)
		var want [100]bool
		for range 12 {
			first := r.IntN(90)
			n := 1 + r.IntN(10)
			doubled := 0
			for i := first; i < first+n; i++ {
				if want[i] {
					doubled++
				}
				want[i] = true
			}
			if _, got, differs := x.insert(block{keyOf(3), first, n, records(3, first, n)}, "x"); got != doubled || differs {
				t.Fatalf("%d doubled, want %d; differs %v", got, doubled, differs)
			}
		}
		for range 50 {
			first := r.IntN(95)
			n := 1 + r.IntN(min(15, 100-first))
			all := true
			for i := first; i < first+n; i++ {
				all = all && want[i]
			}
			got := x.find(keyOf(3), first, n)
			if all != (got != nil) || all && !bytes.Equal(got, records(3, first, n)) {
				t.Fatalf("possessions %d to %d: all there %v, got %d bytes", first, first+n-1, all, len(got))
			}
		}
	}
}

func TestPace(t *testing.T) {
	dir := t.TempDir()
	d := open(t, dir, theManifest, Shard{})
	clock := time.Now()
	d.now = func() time.Time { return clock }
	d.opened, d.written = clock, clock
	const blocks, step = 600, 250 * time.Millisecond
	for i := range blocks { // for 150 s
		clock = clock.Add(step)
		if err := d.Save(keyOf(0), i, records(0, i, 1)); err != nil {
			t.Fatal(err)
		}
		if lost := clock.Sub(d.written); lost > max(pace, clock.Sub(d.opened)/100)+step {
			t.Fatalf("after %v a killed run would lose %v", clock.Sub(d.opened), lost)
		}
	}
	if n := len(names(t, dir)); n > 100+41 { // 100 in the first 100 s, then 100 for each factor e
		t.Errorf("%d files", n)
	}
	if err := d.Flush(); err != nil {
		t.Fatal(err)
	}
	if open(t, dir, theManifest, Shard{}).Find(keyOf(0), 0, blocks) == nil {
		t.Error("something was lost")
	}
}

func TestShards(t *testing.T) {
	for block := range 20 {
		n := 0
		for i := range 7 {
			if (Shard{i + 1, 7}).Has(block) {
				n++
			}
		}
		if n != 1 || !(Shard{}).Has(block) {
			t.Errorf("block %d is in %d of 7 shares", block, n)
		}
	}
	for _, bad := range []string{"", "3", "0/4", "5/4", "-1/4", "1/0", "a/b", "1/2/3", "1/100001", " 1/2"} {
		if s, err := ParseShard(bad); err == nil {
			t.Errorf("%q is read as %v", bad, s)
		}
	}
	if s, err := ParseShard("3/8"); err != nil || s != (Shard{3, 8}) || s.String() != "3/8" {
		t.Errorf("3/8 is %v, %v", s, err)
	}
}
