package scenario

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"playout/model"
)

// Base is a scenario that was read once and from which variants are made by
// naming values. It is safe for concurrent use.
type Base struct {
	file     string
	root     *node // whole tree, both teams with their players
	scenario *model.Scenario
	files    []string
	paths    func() ([]Path, map[string]int)
}

// Setting gives the value at a path a new value, both in the words of the
// scenario file: defence.block.press.height and 58. Steps are keys, shirt
// numbers (attack.players.7.pace), and entries of the list of runs from 1
// (attack.runs.2.chance). A place is [x, y], or has .x and .y.
type Setting struct{ Path, Value string }

func (s Setting) String() string { return s.Path + "=" + s.Value }

// Open reads a scenario file, "-" being standard input, to make variants of.
// The error is an *Error.
func Open(file string) (*Base, error) { return OpenFrom(file, ReadFile) }

// OpenFrom is Open with another way to read files, as in LoadFrom.
func OpenFrom(file string, read func(name string) ([]byte, error)) (*Base, error) {
	var l loader
	name, data, err := l.open(file, read)
	if err != nil {
		return nil, err
	}
	return l.basis(name, data)
}

// OpenBytes is Open for a scenario in memory, which extends no file.
func OpenBytes(name string, data []byte) (*Base, error) {
	var l loader
	return l.basis(name, data)
}

func (l *loader) basis(name string, data []byte) (*Base, error) {
	root, _ := l.tree(name, data)
	if root == nil {
		return nil, l.faults.err(root)
	}
	averagePlayers(root)
	sc := l.build(root)
	if err := l.faults.err(root); err != nil {
		return nil, err
	}
	if sc.Title == "" {
		sc.Title = titleOf(name)
	}
	b := &Base{file: name, root: root, scenario: sc, files: l.files}
	b.paths = sync.OnceValues(b.list)
	return b, nil
}

// Scenario is the scenario as the file gives it. Do not change it.
func (b *Base) Scenario() *model.Scenario { return b.scenario }

// File is the name of the file, or "standard input".
func (b *Base) File() string { return b.file }

// Files lists the files that were read: the first one, unless it was standard
// input, and those it extends.
func (b *Base) Files() []string { return b.files }

// With is the scenario with other values, made by the same reading and checks
// as if a file that extends this one had given them. More general settings
// count before more particular ones, whatever their order. The error names the
// path, the value and what the value may be.
func (b *Base) With(settings ...Setting) (*model.Scenario, error) {
	over, sources, err := b.overlay(settings)
	if err != nil {
		return nil, err
	}
	var l loader
	root := l.merge(b.root, over)
	sc := l.build(root)
	if err := settingFault(l.faults, root, settings, sources); err != nil {
		return nil, err
	}
	if sc.Title == "" {
		sc.Title = b.scenario.Title
	}
	return sc, nil
}

// settingFault picks the fault that lies in a setting; without one, values of
// the file no longer fit those that were set, which the error says.
func settingFault(faults faults, root *node, settings []Setting, sources []*source) error {
	for _, f := range faults {
		if i := slices.Index(sources, f.at.src); i >= 0 {
			return refused(settings[i], f.what, f.mend)
		}
	}
	if len(faults) == 0 {
		return nil
	}
	f := faults[0]
	said := make([]string, len(settings))
	for i, s := range settings {
		said[i] = clip(s.String())
	}
	what := f.what
	if f.path != "" {
		what = root.say(f.path) + ": " + what
	}
	return fmt.Errorf("with %s: %s; %s", strings.Join(said, ", "), what, f.mend)
}

// refused is the error of one setting.
func refused(s Setting, what, mend string) error {
	if mend != "" {
		what += "; " + mend
	}
	return fmt.Errorf("%s: %s", cut(s.String(), excerptWidth), what)
}

// overlay makes the tree of a file that would extend the base and say the
// settings, and for each setting the source that stands for it.
func (b *Base) overlay(settings []Setting) (*node, []*source, error) {
	o := overlay{base: b, root: &node{kind: mapping}}
	sources := make([]*source, len(settings))
	order := make([]int, len(settings))
	for i, s := range settings {
		order[i] = i
		sources[i] = &source{name: s.Path, text: []byte(s.Value)}
		for _, t := range settings[:i] {
			if t.Path == s.Path {
				return nil, nil, refused(s, "this value is set twice", "keep one of the two")
			}
		}
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(strings.Count(settings[i].Path, "."), strings.Count(settings[j].Path, "."))
	})
	for _, i := range order {
		p, err := b.Path(settings[i].Path)
		if err != nil {
			return nil, nil, err
		}
		value, err := p.parse(settings[i], sources[i])
		if err != nil {
			return nil, nil, err
		}
		if err := o.put(settings[i], value); err != nil {
			return nil, nil, err
		}
	}
	return o.root, sources, nil
}

// parse reads the value of a setting as it would be written in a file.
func (p *Path) parse(s Setting, src *source) (*node, error) {
	if strings.TrimSpace(s.Value) == "" {
		return nil, refused(s, "has no value", "write PATH=VALUE, such as "+p.Path+"="+p.Value)
	}
	var found faults
	value := parse(src, &found)
	if value == nil && len(found) > 0 && found[0].what == nothingThere {
		return nil, refused(s, "has no value", "write PATH=VALUE, such as "+p.Path+"="+p.Value)
	}
	if len(found) > 0 {
		return nil, refused(s, found[0].what, found[0].mend)
	}
	if p.Kind == Word && value.kind == scalar && len(p.Words) > 0 && !slices.Contains(p.Words, value.text) {
		return nil, refused(s, "unknown word "+quote(value.text), "write one of "+strings.Join(p.Words, ", "))
	}
	if p.numeric() {
		return value, p.within(s, value, src)
	}
	return value, nil
}

// within checks a number against the range of its path before anything is
// built of it, so that the message gives the range for every kind of number.
func (p *Path) within(s Setting, value *node, src *source) error {
	var found faults
	d := decoder{faults: &found}
	f := field{lo: p.Lo, hi: p.Hi, unit: p.Unit}
	x, ok := d.number(value, "", f)
	if ok && p.Kind == Whole {
		_, ok = d.whole(value, "", f)
	}
	if !ok {
		return refused(s, found[0].what, found[0].mend)
	}
	if x < p.Lo || x > p.Hi {
		return refused(s, fmt.Sprintf("%s is outside %s to %s", clip(value.text), format(p.Lo), strings.TrimSpace(format(p.Hi)+" "+p.Unit)), "give a value in that range")
	}
	return nil
}
