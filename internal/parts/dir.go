package parts

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"playout/internal/plain"
)

// Dir is a directory of parts, or several that are read as one. It is not for
// concurrent use within a process; any number of processes may use a directory.
type Dir struct {
	Manifest *Manifest

	path   string // where parts are written; "" after Join
	shard  Shard
	stamp  stamp
	index  index
	shards []Shard // of the parts that were read, each once
	notes  []string

	create  func(dir string) (file, error)
	now     func() time.Time
	opened  time.Time
	written time.Time // when the last part was, or the directory was opened
	waiting []block   // not yet in a part
	bytes   int       // of them
}

// Open makes path the directory of an experiment, or goes on with it if it
// is, and reads what is kept there. record is the length of a record in bytes.
// Nothing is changed in a directory that belongs to another experiment or in which
// a part is damaged.
func Open(path string, m Manifest, sh Shard, record int) (*Dir, error) {
	d := &Dir{Manifest: &m, path: path, shard: sh, stamp: m.stamp(), index: newIndex(record), create: createTemp, now: time.Now}
	if info, err := os.Stat(path); err == nil && !info.IsDir() {
		return nil, &Fault{path, "is a file, and parts need a directory", "name a directory; it is made if there is none"}
	}
	if err := os.MkdirAll(path, 0o777); err != nil {
		return nil, &Fault{path, "cannot be made: " + plain.Cause(err).Error(), "name a directory in a place where you may write"}
	}
	if err := d.claim(&m); err != nil {
		return nil, err
	}
	if err := d.clean(); err != nil {
		return nil, err
	}
	if err := d.read(path); err != nil {
		return nil, err
	}
	d.opened = d.now()
	d.written = d.opened
	return d, nil
}

// Join reads the directories of one experiment, as of several machines, as one.
// Nothing can be saved to it and nothing is written.
func Join(paths []string, record int) (*Dir, error) {
	d := &Dir{index: newIndex(record)}
	for _, path := range paths {
		m, err := readManifest(path)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil, &Fault{path, "is no directory of parts: there is no " + manifestName + " in it", "name what --parts named when the experiment was run"}
		case err != nil:
			return nil, unreadable(path, err)
		case d.Manifest == nil:
			d.Manifest, d.stamp = m, m.stamp()
		}
		if what := m.Against(d.Manifest); what != "" {
			return nil, &Fault{path, fmt.Sprintf("does not belong with %s: %s", paths[0], what), "merge directories of one command line only"}
		}
	}
	for _, path := range paths {
		if err := d.read(path); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// Keeps reports whether a file of this name in a directory of parts is one of its own.
func Keeps(name string) bool { return name == manifestName || strings.HasSuffix(name, partSuffix) }

func newIndex(record int) index { return index{record, map[Key][]piece{}} }

// read adds the parts of a directory.
func (d *Dir) read(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return unreadable(dir, err)
	}
	for _, e := range entries { // in the order of their names
		if !strings.HasSuffix(e.Name(), partSuffix) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		data, err := os.ReadFile(path)
		if err != nil {
			return unreadable(path, err)
		}
		h, err := decode(path, data, d.index.record)
		if err != nil {
			return err
		}
		if what := h.Stamp.against(d.stamp); what != "" {
			return &Fault{path, "does not belong to the experiment of this directory: " + what, "take it out of the directory"}
		}
		if err := d.add(path, h); err != nil {
			return err
		}
	}
	return nil
}

// add takes the blocks of a part into the index.
func (d *Dir) add(path string, h *header) error {
	twin, doubled := "", 0
	for _, b := range h.Blocks {
		other, n, differs := d.index.insert(b, path)
		if differs {
			return &Fault{path, fmt.Sprintf("contradicts %s: the same possessions have other outcomes there", other),
				"one of the two was not played by the version it names: delete both and run the same command again"}
		}
		if n > 0 {
			twin, doubled = other, doubled+n
		}
	}
	if doubled > 0 {
		d.notes = append(d.notes, fmt.Sprintf("%s: %s build-ups are also in %s or other parts, with the same outcomes; they count once", path, count(doubled), twin))
	}
	if !slices.Contains(d.shards, h.Shard) {
		d.shards = append(d.shards, h.Shard)
	}
	return nil
}

// Notes are sentences on what was found and does no harm.
func (d *Dir) Notes() []string { return d.notes }

// Shards are the shares that the parts come from, each once.
func (d *Dir) Shards() []Shard { return d.shards }

// Mine reports whether the block of this number, from 0, is to be played here.
func (d *Dir) Mine(number int) bool { return d.path != "" && d.shard.Has(number) }

// Find returns the records of possessions first to first+n-1 of a cell; nil unless
// all of them are there.
func (d *Dir) Find(cell Key, first, n int) []byte { return d.index.find(cell, first, n) }

// pace and most say when finished blocks are written: after a second at first, later
// after a hundredth of the time the run has taken, so that a killed run loses little
// and a long one does not leave thousands of files; and before they fill the memory.
const (
	pace = time.Second
	most = 32 << 20 // bytes
)

// Save keeps the records of possessions first, first+1, ... of a cell. They are
// safe once the next part is written, at the latest by Flush.
func (d *Dir) Save(cell Key, first int, records []byte) error {
	b := block{Cell: cell, First: first, Possessions: len(records) / d.index.record, data: records}
	if _, n, differs := d.index.insert(b, "this run"); differs {
		panic("parts: one possession has had two outcomes")
	} else if n == b.Possessions {
		return nil
	}
	d.waiting = append(d.waiting, b)
	d.bytes += len(records)
	now := d.now()
	if d.bytes < most && now.Sub(d.written) < max(pace, now.Sub(d.opened)/100) {
		return nil
	}
	return d.Flush()
}

// Flush writes what waits. After a fault it still waits and can be flushed again.
func (d *Dir) Flush() error {
	if len(d.waiting) == 0 {
		return nil
	}
	if err := d.writePart(encode(d.stamp, d.shard, d.index.record, d.waiting)); err != nil {
		return err
	}
	d.waiting, d.bytes, d.written = nil, 0, d.now()
	return nil
}
