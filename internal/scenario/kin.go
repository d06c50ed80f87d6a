package scenario

import (
	"path/filepath"

	"playout/model"
)

// A Kin is a file that is no scenario but is written and read in the same way: YAML,
// strict, every mistake with its place and how to mend it. A still is one.
type Kin struct {
	root   *node
	faults faults
}

// Enum is an enumeration of another format: a uint8 that numbers the words.
type Enum interface{ Words() []string }

// Point is [x, y] in metres from the centre spot.
type Point = point

// ReadKin fills doc from a file ("-": standard input) of a kind that is called what, as
// in "a still"; begins says how to begin one. doc points to a struct whose fields
// have tags as those of a scenario: yaml for the key, jsonschema for what is required
// and how long it may be; keys that were left out keep nil pointers and maps. In a struct, a
// field tagged `yaml:"key,scalar"` or `yaml:"key,list"` is meant by a value written
// without keys. The error, when the text cannot be taken apart at all, is an *Error;
// other faults wait for Err, so that those of the values join them.
func ReadKin(path, what, begins string, doc any) (*Kin, error) {
	name := path
	if path == "-" {
		name = "standard input"
	}
	data, err := ReadFile(path)
	if err != nil {
		return nil, unread(name, err)
	}
	return ParseKin(name, data, what, begins, doc)
}

// ParseKin is ReadKin for a text in memory; name stands for it in messages.
func ParseKin(name string, data []byte, what, begins string, doc any) (*Kin, error) {
	k := &Kin{}
	root := parse(&source{name: name, text: data, begins: begins}, &k.faults)
	if root != nil {
		root = keyed(root, what, begins, &k.faults)
	}
	if root != nil && isScenario(root) {
		k.faults.add(root.entries[0].key, "", "this file is a scenario, not "+what, "give it to playout run, and "+what+" here")
		root = nil
	}
	if root == nil {
		return nil, k.faults.err(nil)
	}
	k.root = root
	decodeRoot(root, doc, &k.faults)
	return k, nil
}

// Fault notes a mistake at a path such as attack.8; the deepest value there is on it is
// pointed at.
func (k *Kin) Fault(path, what, mend string) { k.faults.add(k.root.at(path), path, what, mend) }

// Sound reports whether no fault has been found so far.
func (k *Kin) Sound() bool { return len(k.faults) == 0 }

// Err is the first fault in the order of the lines, nil when there are none.
func (k *Kin) Err() error { return k.faults.err(k.root) }

// LoadBeside is LoadFiles for the scenario that a file of another kind names, relative
// to itself.
func LoadBeside(file, ref string) (*model.Scenario, []string, error) {
	path := filepath.FromSlash(ref)
	if file != "-" && !filepath.IsAbs(path) {
		path = filepath.Join(filepath.Dir(file), path)
	}
	if path == "-" { // a file of that name, not standard input
		path = "." + string(filepath.Separator) + path
	}
	if err := refuseSpecial(path); err != nil {
		return nil, nil, unread(path, err)
	}
	return LoadFiles(path)
}
