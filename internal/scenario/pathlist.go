package scenario

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"playout/model"
	"playout/scenarios"
)

// Kind is what may stand at a path.
type Kind uint8

// Kinds of value.
const (
	Number Kind = iota
	Whole       // whole number
	Word        // one of Path.Words
	Rows        // a shape such as 4-3-3
	Place       // [x, y]
	List        // [...]
)

var kindNames = [...]string{"number", "whole number", "word", "shape", "place", "list"}

func (k Kind) String() string { return kindNames[k] }

// Path is a value of a scenario: where it is, what it may be and what it is now.
type Path struct {
	Path   string
	Label  string // what it is, in words: "height of the defence's press"
	Unit   string // "" where there is none
	Kind   Kind
	Lo, Hi float64  // admissible range of a Number or Whole
	Words  []string // of a Word
	Value  string   // present value as a file would give it; "" when it has none of its own
	Now    float64  // present value of a Number or Whole; 0 when Value is ""
}

func (p *Path) numeric() bool { return p.Kind == Number || p.Kind == Whole }

// Paths lists every value of the scenario in the order of the file format.
func (b *Base) Paths() []Path {
	paths, _ := b.paths()
	return slices.Clone(paths)
}

// Path describes the value at a path. The error names the nearest paths.
func (b *Base) Path(path string) (Path, error) {
	paths, index := b.paths()
	if i, ok := index[path]; ok {
		return paths[i], nil
	}
	return Path{}, b.noPath(path)
}

// Numeric describes a number: its range, unit and present value.
func (b *Base) Numeric(path string) (Path, error) {
	p, err := b.Path(path)
	if err == nil && !p.numeric() {
		return p, fmt.Errorf("%s is no number but a %s", path, p.Kind)
	}
	return p, err
}

// format writes a number as a file would.
func format(x float64) string { return numeral(x).Value }

// FormatNumber writes a number as the value of a setting; it reads back as the
// same number.
func FormatNumber(x float64) string { return format(x) }

// lister walks the document that says every value of the scenario.
type lister struct {
	base  *Base
	team  *model.Team // nil outside the teams
	whose string      // "the attack's"
	out   []Path
}

func (b *Base) list() ([]Path, map[string]int) {
	l := lister{base: b}
	l.keys("", reflect.ValueOf(documentOf(b.scenario)).Elem(), "")
	index := map[string]int{}
	for i, p := range l.out {
		index[p.Path] = i
	}
	return l.out, index
}

// keys lists the values of a document type; whose is the word for what they
// belong to.
func (l *lister) keys(at string, v reflect.Value, whose string) {
	fields, inline := fieldsOf(v.Type())
	for _, f := range fields {
		if inline >= 0 && inline < f.index {
			l.inline(at, v.Field(inline), whose)
			inline = -1
		}
		l.value(strings.TrimPrefix(at+"."+f.name, "."), v.Field(f.index), f, whose)
	}
	if inline >= 0 {
		l.inline(at, v.Field(inline), whose)
	}
}

func (l *lister) value(at string, v reflect.Value, f field, whose string) {
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if at == model.Attack.String() || at == model.Defence.String() {
		l.team, whose = &l.base.scenario.Teams[sideNamed(at)], "the "+at+"'s"
		l.whose = whose
	}
	word := t == reflect.TypeFor[behaviour]()
	if f.says != "" && (word || t.Kind() != reflect.Struct) || t == reflect.TypeFor[phaseDoc]() || t == reflect.TypeFor[blockDoc]() {
		l.leaf(at, v, f, whose)
	}
	switch {
	case t.Kind() == reflect.Struct && !word && !v.IsNil():
		l.keys(at, v.Elem(), whose)
	case t == reflect.TypeFor[[]playerDoc]():
		for i := range v.Len() {
			number := l.team.Players[i].Number
			l.keys(fmt.Sprintf("%s.%d", at, number), v.Index(i), fmt.Sprintf("%s number %d", whose, number))
		}
	case t == reflect.TypeFor[[]runDoc]():
		for i := range v.Len() {
			l.keys(fmt.Sprintf("%s.%d", at, i+1), v.Index(i), fmt.Sprintf("%s run %d", whose, i+1))
		}
	case t == reflect.TypeFor[map[int]slotDoc]():
		slots := v.Interface().(map[int]slotDoc)
		for _, number := range slices.Sorted(maps.Keys(slots)) {
			l.keys(fmt.Sprintf("%s.%d", at, number), reflect.ValueOf(slots[number]), fmt.Sprintf("%s number %d", whose, number))
		}
	case t == reflect.TypeFor[point]():
		p, _ := v.Interface().(*point)
		l.point(at, p, f.says)
	}
}

// inline lists percentiles, or the places of a phase.
func (l *lister) inline(at string, v reflect.Value, whose string) {
	if p, ok := v.Interface().(percentiles); ok {
		for a, x := range p {
			f := field{hi: 100, unit: "percentile", says: strings.ReplaceAll(attributeNames[a], "_", " ") + " of %s"}
			l.leaf(at+"."+attributeNames[a], reflect.ValueOf(x), f, whose)
		}
		return
	}
	places := v.Interface().(map[int]point)
	_, phase, _ := strings.Cut(at, ".structure.")
	for _, number := range slices.Sorted(maps.Keys(places)) {
		p, here := places[number], fmt.Sprintf("%s.%d", at, number)
		says := fmt.Sprintf("place of %s number %d in %s", whose, number, map[string]string{
			"build_up": "build-up", "progression": "progression", "final_third": "the final third"}[phase])
		l.leaf(here, reflect.ValueOf(&p), field{says: says, unit: "m"}, whose)
		l.point(here, &p, says)
	}
}

// point lists the two coordinates of a place.
func (l *lister) point(at string, p *point, says string) {
	if p == nil {
		return
	}
	half := point{l.base.scenario.Pitch.Length / 2, l.base.scenario.Pitch.Width / 2}
	for i, axis := range []string{"x", "y"} {
		towards := []string{"up the pitch", "to the left"}[i]
		l.out = append(l.out, Path{Path: at + "." + axis, Label: says + ", " + towards, Unit: "m from the centre spot",
			Kind: Number, Lo: -half[i], Hi: half[i], Value: format(p[i]), Now: p[i]})
	}
}

func (l *lister) leaf(at string, v reflect.Value, f field, whose string) {
	p := Path{Path: at, Label: f.says, Unit: f.unit, Lo: f.lo, Hi: f.hi}
	if strings.Contains(f.says, "%s") {
		p.Label = fmt.Sprintf(f.says, whose)
	}
	t := v.Type()
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == reflect.TypeFor[blockDoc]():
		p.Kind, p.Words, p.Value = Word, scenarios.BlockNames(), l.base.written(at)
	case t == reflect.TypeFor[phaseDoc]():
		p.Kind, p.Value = Rows, l.base.written(at)
	case t == reflect.TypeFor[model.Shape]():
		p.Kind = Rows
	case t == reflect.TypeFor[behaviour]():
		p.Kind, p.Words = Word, vocabulary[reflect.TypeFor[model.BehaviourKind]()]
	case t == reflect.TypeFor[point]():
		p.Kind = Place
	case vocabulary[t] != nil:
		p.Kind, p.Words = Word, vocabulary[t]
	case t.Kind() == reflect.Slice:
		p.Kind = List
	case t.Kind() == reflect.Int:
		p.Kind = Whole
	}
	if p.Value == "" && !v.IsZero() && p.Kind != List && t != reflect.TypeFor[phaseDoc]() && t != reflect.TypeFor[blockDoc]() {
		n := encode(v, field{flow: true})
		p.Value = n.Value
		if n.Kind == yaml.MappingNode { // {pin: 5}
			p.Value = "{" + n.Content[0].Value + ": " + n.Content[1].Value + "}"
		}
		if p.Kind == Place {
			p.Value = "[" + n.Content[0].Value + ", " + n.Content[1].Value + "]"
		}
	}
	if p.Kind == List {
		p.Value = l.listed(v)
	}
	l.particular(&p)
	if p.numeric() && p.Value != "" {
		p.Now, _ = strconv.ParseFloat(p.Value, 64)
	}
	l.out = append(l.out, p)
}

// listed writes a list of words or numbers; other lists have no short form.
func (l *lister) listed(v reflect.Value) string {
	var items []string
	for i := range v.Len() {
		n := encode(v.Index(i), field{})
		if n.Value == "" {
			return ""
		}
		items = append(items, n.Value)
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// particular fits what depends on other values of the scenario.
func (l *lister) particular(p *Path) {
	sc, steps := l.base.scenario, strings.Split(p.Path, ".")
	switch key := steps[len(steps)-1]; {
	case strings.HasSuffix(p.Path, ".block.width"):
		p.Hi = sc.Pitch.Width
	case strings.Contains(p.Path, ".slots.") && key == "row":
		p.Hi = float64(len(l.team.Block.Shape))
	case key == "level" && p.Value == "":
		if p.Value = l.base.written(p.Path); p.Value == "" {
			p.Value = format(model.AveragePercentile)
		}
	case (key == "top_speed" || key == "peak_acceleration") && p.Value == "":
		number, _ := strconv.Atoi(steps[2])
		able := l.team.Players[l.team.ByNumber(number)].Ability()
		x := able.TopSpeed
		if key == "peak_acceleration" {
			x = able.Accel
		}
		p.Value = strconv.FormatFloat(x, 'g', 4, 64)
	}
}

// written is the word that the file gives at a path, or the key its shorthand
// stands for; "" when it gives none or more than that.
func (b *Base) written(path string) string {
	n := b.root
	for step := range strings.SplitSeq(path, ".") {
		n = n.get(step)
	}
	if n = expand(n); n != nil && n.kind == mapping {
		if len(n.entries) > 1 { // the word and what is changed of it
			return ""
		}
		n = n.get(shorthand[n.key.text])
	}
	if n == nil || n.kind != scalar {
		return ""
	}
	return n.text
}
