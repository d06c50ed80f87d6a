package scenario

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"playout/model"
)

// field is a key of the format: a field of one of the document types.
type field struct {
	name     string
	index    int
	typ      reflect.Type
	flow     bool // written on one line
	short    kind // the kind of a value that stands for this key alone; mapping: none
	required bool
	maxItems int // 0: no limit
	maxRunes int
	lo, hi   float64 // of a number
	says     string  // what it is, for people; "": not a value by itself
	unit     string
}

// fieldsOf lists the keys of a document type, and the index of the field that
// takes the keys without a field of their own (-1: there is none).
func fieldsOf(t reflect.Type) (fields []field, inline int) {
	inline = -1
	for i := range t.NumField() {
		sf := t.Field(i)
		name, option, _ := strings.Cut(sf.Tag.Get("yaml"), ",")
		if option == "inline" {
			inline = i
			continue
		}
		f := field{name: name, index: i, typ: sf.Type, flow: option == "flow", short: shortKind(option), says: sf.Tag.Get("says"), unit: sf.Tag.Get("unit")}
		for rule := range strings.SplitSeq(sf.Tag.Get("jsonschema"), ",") {
			key, value, _ := strings.Cut(rule, "=")
			switch key {
			case "required":
				f.required = true
			case "maxItems":
				f.maxItems, _ = strconv.Atoi(value)
			case "maxLength":
				f.maxRunes, _ = strconv.Atoi(value)
			case "minimum":
				f.lo, _ = strconv.ParseFloat(value, 64)
			case "maximum":
				f.hi, _ = strconv.ParseFloat(value, 64)
			}
		}
		fields = append(fields, f)
	}
	return fields, inline
}

// shortKind reads the options scalar and list of a tag: a value of that kind in the
// place of the mapping stands for this key of it.
func shortKind(option string) kind {
	switch option {
	case "scalar":
		return scalar
	case "list":
		return list
	}
	return mapping
}

// shortField is the key that a value stands for which is no mapping; if none takes its
// kind, one whose faults say what is needed.
func shortField(fields []field, n *node) (short field, ok bool) {
	for _, f := range fields {
		if f.short == n.kind {
			return f, true
		}
		if f.short != mapping && !ok {
			short, ok = f, true
		}
	}
	return short, ok
}

// maxFaults ends the reading of a file that is no scenario at all.
const maxFaults = 100

// decoder fills the document types from a tree. Every decode method reports
// whether the node was of the right kind; if not, a fault is noted and the
// target keeps its zero value.
type decoder struct {
	root   *node
	faults *faults
	homes  map[string]string // where the keys of the format belong
	strays map[*node]bool    // keys that unindented has found
}

// decodeRoot fills doc, a pointer to a document type.
func decodeRoot(root *node, doc any, faults *faults) {
	d := decoder{root, faults, homesOf(reflect.TypeOf(doc).Elem()), map[*node]bool{}}
	d.keys(root, "", reflect.ValueOf(doc).Elem())
}

func (d *decoder) wrong(n *node, path, what, mend string) bool {
	d.faults.add(n, path, what, mend)
	return false
}

func (d *decoder) decode(n *node, path string, v reflect.Value, f field) bool {
	if n.kind == broken {
		return false
	}
	if n.null && v.Kind() == reflect.Struct {
		if keys := d.unindented(n, v.Type()); len(keys) > 0 {
			return d.wrong(n, path, "has no value: what follows is not indented", indent(keys, n.key.text))
		}
	}
	if n.null && v.Kind() != reflect.Pointer {
		return d.wrong(n, path, "has no value", "give it one, or leave the line out")
	}
	switch p := v.Addr().Interface().(type) {
	case *behaviour:
		return d.behaviour(n, path, p)
	case *model.Shape:
		return d.shape(n, path, p)
	case *point:
		return d.point(n, path, p, f)
	}
	if known, ok := vocabulary[v.Type()]; ok {
		return d.word(n, path, v, known)
	}
	if w, ok := v.Interface().(Enum); ok && v.Kind() == reflect.Uint8 {
		return d.word(n, path, v, w.Words())
	}
	switch v.Kind() {
	case reflect.Pointer:
		p := reflect.New(v.Type().Elem())
		ok := d.decode(n, path, p.Elem(), f)
		if ok {
			v.Set(p)
		}
		return ok
	case reflect.Struct:
		return d.structure(n, path, v)
	case reflect.Map:
		return d.numbered(n, path, v, f)
	case reflect.Slice:
		return d.list(n, path, v, f)
	case reflect.String:
		return d.text(n, path, v, f)
	case reflect.Float64:
		x, ok := d.number(n, path, f)
		v.SetFloat(x)
		return ok
	case reflect.Int:
		x, ok := d.whole(n, path, f)
		v.SetInt(int64(x))
		return ok
	case reflect.Uint64:
		return d.seed(n, path, v)
	}
	panic("scenario: no decoder for " + v.Type().String())
}

func (d *decoder) structure(n *node, path string, v reflect.Value) bool {
	n = expand(n)
	if n.kind != mapping {
		fields, _ := fieldsOf(v.Type())
		if f, ok := shortField(fields, n); ok {
			return d.decode(n, path, v.Field(f.index), f)
		}
		mend := "write it as {key: value, ...} or as indented lines key: value"
		if meant := inKeys(n, v.Type()); meant != "" {
			mend = meant
		}
		return d.wrong(n, path, "needs keys with values, not "+n.describe(), mend)
	}
	d.keys(n, path, v)
	return true
}

// keys fills a struct from a mapping.
func (d *decoder) keys(n *node, path string, v reflect.Value) {
	fields, inline := fieldsOf(v.Type())
	for _, value := range n.entries {
		if len(*d.faults) > maxFaults {
			return
		}
		if d.strays[value.key] {
			continue
		}
		key := value.key.text
		at := strings.TrimPrefix(path+"."+key, ".")
		if i := slices.IndexFunc(fields, func(f field) bool { return f.name == key }); i >= 0 {
			d.decode(value, at, v.Field(fields[i].index), fields[i])
			continue
		}
		if inline >= 0 && d.inline(value, at, v.Field(inline)) {
			continue
		}
		d.wrong(value.key, path, "unknown key "+quote(key), d.mendKey(key, known(v.Type()), path))
	}
	for _, f := range fields {
		if f.required && n.get(f.name) == nil {
			d.wrong(n, path, "has no "+f.name, "add "+f.name+":")
		}
	}
}

// known lists the keys that a document type takes.
func known(t reflect.Type) []string {
	fields, inline := fieldsOf(t)
	var out []string
	for _, f := range fields {
		out = append(out, f.name)
	}
	if inline >= 0 && t.Field(inline).Type == reflect.TypeFor[percentiles]() {
		out = append(out, attributeNames...)
	} else if inline >= 0 {
		out = append(out, "shirt numbers")
	}
	return out
}

// inline hands a value to the field that takes keys without a field of their
// own: percentiles by attribute, or places by shirt number.
func (d *decoder) inline(value *node, path string, v reflect.Value) bool {
	key := value.key.text
	if p, ok := v.Addr().Interface().(*percentiles); ok {
		a, known := model.AttributeNamed(key)
		if known {
			d.decode(value, path, reflect.ValueOf(&p[a]).Elem(), field{hi: 100, unit: "percentile"})
		}
		return known
	}
	if strings.Trim(key, "0123456789") != "" {
		return false
	}
	d.numberedEntry(value, path, v, field{})
	return true
}

// numbered fills a map from shirt numbers.
func (d *decoder) numbered(n *node, path string, v reflect.Value, f field) bool {
	if n.kind != mapping {
		return d.wrong(n, path, "needs shirt numbers with values, not "+n.describe(), "write it as {7: ..., 10: ...}")
	}
	v.Set(reflect.MakeMap(v.Type()))
	for _, value := range n.entries {
		if len(*d.faults) > maxFaults {
			break
		}
		d.numberedEntry(value, path+"."+value.key.text, v, f)
	}
	return true
}

func (d *decoder) numberedEntry(value *node, path string, v reflect.Value, f field) {
	if v.IsNil() {
		v.Set(reflect.MakeMap(v.Type()))
	}
	key := *value.key
	key.plain = true // "7": is as good as 7:
	number, ok := d.whole(&key, path, field{})
	elem := reflect.New(v.Type().Elem()).Elem()
	if ok && d.decode(value, path, elem, f) {
		v.SetMapIndex(reflect.ValueOf(number), elem)
	}
}

func (d *decoder) list(n *node, path string, v reflect.Value, f field) bool {
	if n.kind != list {
		mend := "write it in brackets: [...]"
		if n.kind == scalar && v.Type().Elem().Kind() != reflect.Struct {
			mend = "write it in brackets: [" + clip(n.text) + "]"
		}
		return d.wrong(n, path, "needs a list, not "+n.describe(), mend)
	}
	if f.maxItems > 0 && len(n.items) > f.maxItems {
		return d.wrong(n, path, fmt.Sprintf("has %d entries; %d is the most", len(n.items), f.maxItems), "take some away")
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		d.decode(item, fmt.Sprintf("%s[%d]", path, i), v.Index(i), f)
	}
	return true
}
