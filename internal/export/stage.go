package export

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

// Names in the directory of an export.
const (
	manifestName = "manifest.json"
	stagePrefix  = ".playout-"
	stageSuffix  = ".tmp"
)

// staleAfter is the age of its last writing at which a stage has lost its writer.
const staleAfter = 10 * time.Minute

// stage is a directory within the target in which files grow until all are whole.
type stage struct {
	dir     string // target
	path    string
	made    bool     // the target did not exist
	earlier []string // files of an earlier export that is there
	outputs []*output
	create  func(path string) (file, error)
}

// openStage makes dir the place of an export. It refuses one that holds anything
// but an earlier export, and changes nothing in it.
func openStage(dir string) (*stage, error) {
	s := &stage{dir: dir, create: func(path string) (file, error) {
		return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	}}
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		s.made = true
		if err := os.MkdirAll(dir, 0o777); err != nil {
			return nil, fmt.Errorf("cannot make %q: %w; name a directory in a place where you may write", dir, plain.Cause(err))
		}
	case err != nil:
		return nil, fmt.Errorf("cannot look into %q: %w", dir, plain.Cause(err))
	case !info.IsDir():
		return nil, fmt.Errorf("%q is a file, and an export needs a directory; name one, it is made if there is none", dir)
	default:
		if s.earlier, err = earlierExport(dir); err != nil {
			return nil, err
		}
	}
	s.path, err = os.MkdirTemp(dir, stagePrefix+"*"+stageSuffix)
	if err != nil {
		s.discard()
		return nil, fmt.Errorf("cannot write into %q: %w; name a directory where you may write", dir, plain.Cause(err))
	}
	return s, nil
}

// earlierExport lists the files of an earlier export in dir, nil when it is empty.
// What killed exports have left is taken away.
func earlierExport(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot look into %q: %w", dir, plain.Cause(err))
	}
	var names []string
	for _, e := range entries {
		name := e.Name()
		if strings.HasPrefix(name, stagePrefix) && strings.HasSuffix(name, stageSuffix) {
			left := filepath.Join(dir, name)
			if time.Since(lastWritten(left)) < staleAfter {
				return nil, fmt.Errorf("%q: another export is being written there; wait for it or, if there is none, delete %q", dir, left)
			}
			if err := os.RemoveAll(left); err != nil {
				return nil, fmt.Errorf("%q: cannot take away %q, which a killed export has left: %w", dir, name, plain.Cause(err))
			}
			continue
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return nil, nil
	}
	m, err := readManifest(filepath.Join(dir, manifestName))
	if err != nil {
		return nil, fmt.Errorf("%q is not empty and no earlier export: there is %q in it; name a new directory or empty this one", dir, names[0])
	}
	own := []string{manifestName}
	for _, f := range m.Files {
		own = append(own, f.Name)
	}
	for _, name := range names {
		if !slices.Contains(own, name) {
			return nil, fmt.Errorf("%q holds an earlier export and something else: %q; move that away or name a new directory", dir, name)
		}
	}
	return names, nil
}

// lastWritten is when a file under path was last written.
func lastWritten(path string) time.Time {
	var last time.Time
	_ = filepath.WalkDir(path, func(_ string, d fs.DirEntry, err error) error {
		if err == nil {
			if info, err := d.Info(); err == nil && info.ModTime().After(last) {
				last = info.ModTime()
			}
		}
		return nil
	})
	return last
}

// output begins a file.
func (s *stage) output(name, says string) (*output, error) {
	f, err := s.create(filepath.Join(s.path, name))
	if err != nil {
		return nil, s.cannotWrite(err)
	}
	o := newOutput(name, says, f)
	s.outputs = append(s.outputs, o)
	return o, nil
}

func (s *stage) cannotWrite(err error) error {
	return fmt.Errorf("cannot write into %q: %w; nothing of this export was kept", s.dir, plain.Cause(err))
}

// publish gives the files their names. The manifest, which says that an export is
// whole, goes first when it is an earlier one's and comes last.
func (s *stage) publish() error {
	if s.earlier != nil {
		if err := os.Remove(filepath.Join(s.dir, manifestName)); err != nil {
			return s.cannotWrite(err)
		}
	}
	kept := []string{}
	for _, o := range s.outputs {
		if err := os.Rename(filepath.Join(s.path, o.name), filepath.Join(s.dir, o.name)); err != nil {
			return s.cannotWrite(err)
		}
		kept = append(kept, o.name)
	}
	for _, name := range s.earlier {
		if !slices.Contains(kept, name) && name != manifestName {
			if err := os.Remove(filepath.Join(s.dir, name)); err != nil {
				return s.cannotWrite(err)
			}
		}
	}
	if err := os.RemoveAll(s.path); err != nil {
		return s.cannotWrite(err)
	}
	return nil
}

// discard leaves the target as it was found. It may be called after publish.
func (s *stage) discard() {
	for _, o := range s.outputs {
		o.f.Close()
	}
	if s.path != "" {
		os.RemoveAll(s.path)
	}
	if s.made {
		os.Remove(s.dir) // succeeds only while it is empty
	}
}
