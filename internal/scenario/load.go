package scenario

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"playout/model"
	"playout/scenarios"
)

// maxChain is how many files a variant may build on, itself included.
const maxChain = 8

// Load reads a scenario file; "-" is standard input. The error is an *Error.
func Load(path string) (*model.Scenario, error) {
	sc, _, err := LoadFiles(path)
	return sc, err
}

// LoadFiles is Load and also tells which files were read: path itself, unless
// it is "-", and those it extends.
func LoadFiles(path string) (*model.Scenario, []string, error) {
	var l loader
	name, data, err := l.open(path, ReadFile)
	if err != nil {
		return nil, nil, err
	}
	sc, err := l.scenario(name, data)
	return sc, l.files, err
}

// LoadFrom is Load with another way to read files: read is asked for path and
// for the files it extends, by name.
func LoadFrom(path string, read func(name string) ([]byte, error)) (*model.Scenario, error) {
	var l loader
	name, data, err := l.open(path, read)
	if err != nil {
		return nil, err
	}
	return l.scenario(name, data)
}

// LoadBytes reads a scenario from memory; name stands for it in messages. It
// reads no other file, so extends is a fault. The error is an *Error.
func LoadBytes(name string, data []byte) (*model.Scenario, error) {
	l := loader{}
	return l.scenario(name, data)
}

// loader reads one scenario and the files it extends.
type loader struct {
	read   func(path string) ([]byte, error) // nil: no other files
	chain  []string                          // files being read, the variant first
	files  []string                          // files read
	faults faults
	root   *node // of the scenario, once its files are merged
	parent *node // of what the first file extends; nil: nothing
}

// open reads the file a scenario begins with, "-" being standard input, and
// lets it extend others.
func (l *loader) open(path string, read func(name string) ([]byte, error)) (name string, data []byte, err error) {
	l.read = func(name string) ([]byte, error) {
		if err := refuseSpecial(name); err != nil {
			return nil, err
		}
		l.files = append(l.files, name)
		if name == "-" { // a file of that name, not standard input
			name = "." + string(filepath.Separator) + name
		}
		return read(name)
	}
	name = path
	if path == "-" {
		name = "standard input"
	} else {
		l.files = append(l.files, path)
	}
	if data, err = read(path); err != nil {
		return "", nil, unread(name, err)
	}
	return name, data, nil
}

func (l *loader) scenario(name string, data []byte) (*model.Scenario, error) {
	root, _ := l.tree(name, data)
	if root == nil {
		return nil, l.faults.err(root)
	}
	l.root = root
	sc := l.build(root)
	if err := l.faults.err(root); err != nil {
		return nil, err
	}
	if sc.Title == "" {
		sc.Title = titleOf(name)
	}
	return sc, nil
}

// build makes a scenario of a whole tree and notes its faults.
func (l *loader) build(root *node) *model.Scenario {
	root = l.libraries(root)
	var doc document
	decodeRoot(root, &doc, &l.faults)
	return build(&doc, root, &l.faults)
}

// titleOf makes a title of the name of a file.
func titleOf(name string) string {
	base := filepath.Base(name)
	return clip(strings.TrimSuffix(base, filepath.Ext(base)))
}

// tree reads a file and all that it extends into one tree, nil when that
// cannot be done. rank counts the files before this one.
func (l *loader) tree(name string, data []byte) (root *node, rank int) {
	src := &source{name: name, text: data, begins: scenarioBegins}
	l.chain = append(l.chain, filepath.Clean(name))
	root = parse(src, &l.faults)
	if root == nil {
		return nil, 0
	}
	if root = keyed(root, "a scenario", scenarioBegins, &l.faults); root == nil {
		return nil, 0
	}
	if otherKind(root, &l.faults) {
		return nil, 0
	}
	extends := root.get("extends")
	if extends == nil {
		return root, 0
	}
	base, rank := l.base(extends)
	src.rank = rank + 1
	if base == nil {
		return nil, src.rank
	}
	averagePlayers(base)
	if root.get("title") == nil { // another scenario, so it does not go by the same name
		base.entries = slices.DeleteFunc(base.entries, func(v *node) bool { return v.key.text == "title" })
	}
	l.parent = base
	return l.merge(base, root), src.rank
}

// scenarioBegins says how to begin a scenario.
const scenarioBegins = "start with a line such as title: our build-up; every other key has a default"

// keyed is the root of a file if it is made of keys, as it must be; else nil.
func keyed(root *node, what, begins string, faults *faults) *node {
	if root.kind == mapping {
		return root
	}
	if root.kind != broken {
		faults.add(root, "", what+" is made of keys with values, not "+root.describe(), begins)
	}
	return nil
}

// base reads the file that an extends key names.
func (l *loader) base(extends *node) (*node, int) {
	refuse := func(what, mend string) (*node, int) {
		l.faults.add(extends, "extends", what, mend)
		return nil, 0
	}
	if extends.kind == broken {
		return nil, 0
	}
	if extends.kind != scalar || extends.null || extends.number || extends.text == "" {
		return refuse("needs the name of a file, not "+extends.describe(), "write extends: other.yaml")
	}
	if l.read == nil {
		return refuse("this text does not come from a file, so no other file can be found from it", "write the scenario out in full")
	}
	ref := filepath.FromSlash(extends.text)
	if filepath.IsAbs(ref) {
		return refuse("is a full path", "write it relative to this file, such as extends: other.yaml")
	}
	path := filepath.Join(filepath.Dir(l.chain[len(l.chain)-1]), ref)
	for i, open := range l.chain {
		if open == path {
			return refuse("goes round in a circle: "+clipPath(strings.Join(append(l.chain[i:], path), " extends ")), "let one of these files stand alone")
		}
	}
	if len(l.chain) >= maxChain {
		return refuse(fmt.Sprintf("more than %d files build on each other", maxChain), "let a file of the chain stand alone")
	}
	data, err := l.read(path)
	if err != nil {
		e := unread(path, err)
		return refuse(clipPath(e.File)+": "+e.What, e.Mend)
	}
	return l.tree(path, data)
}

// ReadFile reads a scenario file, or standard input for "-", up to a limit; a file
// that is longer is refused when it is parsed.
func ReadFile(path string) ([]byte, error) {
	if path == "-" {
		return io.ReadAll(io.LimitReader(os.Stdin, maxBytes+1))
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, errDirectory
	}
	return io.ReadAll(io.LimitReader(f, maxBytes+1))
}

// refuseSpecial refuses a file that another one names if it is a pipe or device,
// which could keep the reader waiting.
func refuseSpecial(path string) error {
	if info, err := os.Stat(path); err == nil && !info.IsDir() && !info.Mode().IsRegular() {
		return errors.New("it is not a plain file")
	}
	return nil
}

var errDirectory = errors.New("this is a directory, not a file")

// unread says why a file could not be read.
func unread(path string, err error) *Error {
	e := &Error{File: path}
	var p *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		e.What, e.Mend = "there is no such file", "check the name and the directory"
		if near := nearFile(filepath.Base(path), siblings(path)); near != "" {
			e.Mend = "did you mean " + clipPath(filepath.Join(filepath.Dir(path), near)) + "?"
		}
	case errors.Is(err, fs.ErrPermission):
		e.What, e.Mend = "you may not read this file", "check its permissions"
	case errors.Is(err, errDirectory):
		e.What, e.Mend = err.Error(), "name a scenario file in it"
	case errors.As(err, &p):
		e.What = "cannot be read: " + clean(p.Err.Error())
	default:
		e.What, e.Mend = "cannot be read: "+clean(err.Error()), "name a scenario file"
	}
	return e
}

// nearFile is the file among others that a name was probably meant to be, or "": the
// same name with an ending, or one spelt much like it.
func nearFile(name string, others []string) string {
	for _, ending := range []string{".yaml", ".yml"} {
		if slices.Contains(others, name+ending) {
			return name + ending
		}
	}
	return Nearest(name, others)
}

// siblings lists the scenario files beside a path, and those of its own kind.
func siblings(path string) []string {
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil {
		return nil
	}
	var names []string
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); ext == ".yaml" || ext == ".yml" || ext != "" && ext == filepath.Ext(path) {
			names = append(names, e.Name())
		}
	}
	return names
}

// NearBlock says which block of the library a name may mean, or which there are.
func NearBlock(name string) string {
	if near := Nearest(name, scenarios.BlockNames()); near != "" {
		return "did you mean " + near + "?"
	}
	return "the library has " + strings.Join(scenarios.BlockNames(), ", ")
}

// libraryBlock reads a block of the library; the error says which there are.
func libraryBlock(name string, faults *faults) (*node, error) {
	data, err := scenarios.Block(name)
	if err != nil {
		return nil, errors.New(NearBlock(name))
	}
	root := parse(&source{name: "library block " + name, text: data}, faults)
	if root == nil || root.kind != mapping {
		panic("scenario: library block " + name + " is not a mapping")
	}
	return root, nil
}
