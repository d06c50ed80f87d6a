package parts

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Names of files in a directory of parts.
const (
	partSuffix = ".part"
	tempPrefix = ".playout-"
	tempSuffix = ".tmp"
)

// staleAfter is the age at which a temporary file has lost its writer: writing one
// takes a moment. The margin is for clocks of several machines.
const staleAfter = 10 * time.Minute

// file is what is needed of an *os.File; a test puts a full disk behind it.
type file interface {
	io.WriteCloser
	Name() string
	Sync() error
}

// createTemp makes a new file in a directory, under a name that no other process
// and no other machine uses.
func createTemp(dir string) (file, error) {
	f, err := os.CreateTemp(dir, tempPrefix+"*"+tempSuffix)
	if err != nil {
		return nil, err
	}
	// CreateTemp shuts others out; parts are for whoever may read the directory.
	if err := f.Chmod(0o644); err != nil {
		f.Close()
		os.Remove(f.Name())
		return nil, err
	}
	return f, nil
}

// writeTemp writes a temporary file that is safe on the disk, or none.
func (d *Dir) writeTemp(data []byte) (name string, err error) {
	f, err := d.create(d.path)
	if err != nil {
		return "", cannotKeep(d.path, err)
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		os.Remove(f.Name())
		return "", cannotKeep(d.path, err)
	}
	return f.Name(), nil
}

// writePart puts a part into the directory, whole or not at all.
func (d *Dir) writePart(data []byte) error {
	sum := data[len(data)-sha256.Size:]
	path := filepath.Join(d.path, hex.EncodeToString(sum[:8])+partSuffix)
	tmp, err := d.writeTemp(data)
	if err != nil {
		return err
	}
	if err := os.Rename(tmp, path); err != nil {
		os.Remove(tmp)
		return cannotKeep(path, err)
	}
	// The name, too, is to survive a loss of power. Not every file system can
	// promise that; the part is whole either way.
	if dir, err := os.Open(d.path); err == nil {
		_ = dir.Sync()
		dir.Close()
	}
	return nil
}

// clean takes away what killed processes have left.
func (d *Dir) clean() error {
	entries, err := os.ReadDir(d.path)
	if err != nil {
		return unreadable(d.path, err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), tempPrefix) || !strings.HasSuffix(e.Name(), tempSuffix) {
			continue
		}
		info, err := e.Info()
		if err == nil && time.Since(info.ModTime()) > staleAfter {
			os.Remove(filepath.Join(d.path, e.Name())) // or another process is quicker
		}
	}
	return nil
}

// count is a number of possessions for people.
func count(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
