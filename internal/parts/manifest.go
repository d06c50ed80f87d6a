package parts

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"
)

// Manifest is all that an experiment's answer depends on. Two experiments with
// equal manifests have the same answer, byte for byte.
type Manifest struct {
	Version  string            `json:"version"`  // of the program
	Revision int               `json:"revision"` // of the engine
	Arch     string            `json:"arch"`     // results are the same bytes on one architecture only
	Seed     uint64            `json:"seed"`
	Command  []string          `json:"command"` // the command line, without what only says how to work or to show
	Inputs   map[string]string `json:"inputs"`  // text of the files that were read, by the name the command gave them
}

// manifestName is the file of the manifest.
const manifestName = "manifest.json"

// stamp is a manifest in short, carried by every part.
type stamp struct {
	Version  string `json:"version"`
	Revision int    `json:"revision"`
	Arch     string `json:"arch"`
	Seed     uint64 `json:"seed"`
	Command  string `json:"command"`
	Inputs   string `json:"inputs"` // SHA-256 of names and texts
}

func (m *Manifest) stamp() stamp {
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(m.Inputs)) {
		fmt.Fprintf(h, "%q %q\n", name, m.Inputs[name])
	}
	return stamp{m.Version, m.Revision, m.Arch, m.Seed, m.CommandLine(), hex.EncodeToString(h.Sum(nil))}
}

// CommandLine is the command for people.
func (m *Manifest) CommandLine() string {
	var line []string
	for _, w := range m.Command {
		if w == "" || strings.ContainsAny(w, " \t\n\"'\\$&|;<>()*?`") {
			w = "'" + strings.ReplaceAll(w, "'", `'\''`) + "'"
		}
		if w != "--" {
			line = append(line, w)
		}
	}
	return strings.Join(line, " ")
}

// against says in what s is not of the experiment of want, "" when it is.
func (s stamp) against(want stamp) string {
	switch {
	case s == want:
		return ""
	case s.Revision != want.Revision:
		return fmt.Sprintf("engine revision %d, not %d", s.Revision, want.Revision)
	case s.Version != want.Version:
		return fmt.Sprintf("version %s of playout, not %s", s.Version, want.Version)
	case s.Arch != want.Arch:
		return fmt.Sprintf("played on %s, not %s, and figures agree to the last digit only on one architecture", s.Arch, want.Arch)
	case s.Seed != want.Seed:
		return fmt.Sprintf("seed %d, not %d", s.Seed, want.Seed)
	case s.Command != want.Command:
		return fmt.Sprintf("%q, not %q", s.Command, want.Command)
	}
	return "other scenarios: a file of the same name had other contents"
}

// Against says in what an experiment is not the same as another, "" when it is.
func (m *Manifest) Against(want *Manifest) string {
	a, b := m.stamp(), want.stamp()
	if a.Inputs == b.Inputs {
		return a.against(b)
	}
	names := maps.Clone(m.Inputs)
	maps.Copy(names, want.Inputs)
	for _, name := range slices.Sorted(maps.Keys(names)) {
		text, inA := m.Inputs[name]
		other, inB := want.Inputs[name]
		if text != other || inA != inB {
			a.Inputs, b.Inputs = "", ""
			return cmp.Or(a.against(b), fmt.Sprintf("the file %s had other contents", name))
		}
	}
	return a.against(b)
}

// encode refuses an input that is not text, which JSON cannot hold as it is.
func (m *Manifest) encode() ([]byte, error) {
	for name, text := range m.Inputs {
		if !utf8.ValidString(text) {
			return nil, &Fault{name, "is not UTF-8 text, so it cannot be kept with the parts", "save it as UTF-8"}
		}
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(m)
	return b.Bytes(), err
}

// readManifest reads the manifest of a directory; the error is fs.ErrNotExist when there is none.
func readManifest(dir string) (*Manifest, error) {
	path := filepath.Join(dir, manifestName)
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	m := &Manifest{}
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(m); err != nil || len(m.Command) == 0 {
		return nil, &Fault{path, "is damaged: it is not the manifest of an experiment", "start again with an empty directory, or put back a copy of this file"}
	}
	return m, nil
}

// claim makes the directory that of the experiment, or makes sure that it is.
func (d *Dir) claim(m *Manifest) error {
	data, err := m.encode()
	if err != nil {
		return err
	}
	// The probe tells before a long run that files can be made here.
	tmp, err := d.writeTemp(data)
	if err != nil {
		return err
	}
	defer os.Remove(tmp)
	path := filepath.Join(d.path, manifestName)
	if err := os.Link(tmp, path); err != nil && !errors.Is(err, fs.ErrExist) {
		// A file system without links: the last of several that start at once wins,
		// and the others find out below.
		if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
			if err := os.Rename(tmp, path); err != nil {
				return cannotKeep(path, err)
			}
		}
	}
	found, err := readManifest(d.path)
	if err != nil {
		return unreadable(path, err)
	}
	if what := found.Against(m); what != "" {
		return &Fault{d.path, "holds another experiment: " + what, "give --parts a directory of its own for every experiment"}
	}
	return nil
}
