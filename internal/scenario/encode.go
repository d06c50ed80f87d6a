package scenario

import (
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v4"

	"playout/model"
)

// encode turns a value of the document into YAML; nil fields are left out.
func encode(v reflect.Value, f field) *yaml.Node {
	var style yaml.Style
	if f.flow {
		style = yaml.FlowStyle
	}
	if known, ok := vocabulary[v.Type()]; ok {
		return word(known[v.Uint()])
	}
	switch x := v.Interface().(type) {
	case model.Shape:
		return word(x.String())
	case behaviour:
		return encodeBehaviour(x)
	case string:
		return word(x)
	}
	switch v.Kind() {
	case reflect.Pointer:
		return encode(v.Elem(), f)
	case reflect.Float64:
		return numeral(v.Float())
	case reflect.Int:
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.FormatInt(v.Int(), 10)}
	case reflect.Uint64:
		return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.FormatUint(v.Uint(), 10)}
	case reflect.Array, reflect.Slice:
		n := &yaml.Node{Kind: yaml.SequenceNode}
		for i := range v.Len() {
			n.Content = append(n.Content, encode(v.Index(i), f))
		}
		if v.Len() == 0 || n.Content[0].Kind == yaml.ScalarNode {
			n.Style = yaml.FlowStyle
		}
		return n
	case reflect.Map:
		n := &yaml.Node{Kind: yaml.MappingNode}
		numbered(n, v, f)
		return n
	case reflect.Struct:
		n := &yaml.Node{Kind: yaml.MappingNode, Style: style}
		encodeKeys(n, v)
		return n
	}
	panic("scenario: no writer for " + v.Type().String())
}

func encodeKeys(n *yaml.Node, v reflect.Value) {
	fields, inline := fieldsOf(v.Type())
	for _, f := range fields {
		if inline >= 0 && inline < f.index {
			encodeInline(n, v.Field(inline))
			inline = -1
		}
		if x := v.Field(f.index); !x.IsNil() {
			n.Content = append(n.Content, word(f.name), encode(x, f))
		}
	}
	if inline >= 0 {
		encodeInline(n, v.Field(inline))
	}
}

func encodeInline(n *yaml.Node, v reflect.Value) {
	p, ok := v.Interface().(percentiles)
	if !ok {
		numbered(n, v, field{flow: true})
		return
	}
	for a, x := range p {
		n.Content = append(n.Content, word(attributeNames[a]), numeral(*x))
	}
}

// numbered writes a map from shirt numbers, in their order.
func numbered(n *yaml.Node, v reflect.Value, f field) {
	switch m := v.Interface().(type) {
	case map[int]point:
		entries(n, m, f)
	case map[int]slotDoc:
		entries(n, m, f)
	}
}

func entries[T any](n *yaml.Node, m map[int]T, f field) {
	for _, number := range slices.Sorted(maps.Keys(m)) {
		n.Content = append(n.Content, &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.Itoa(number)}, encode(reflect.ValueOf(m[number]), f))
	}
}

func encodeBehaviour(b behaviour) *yaml.Node {
	if b.Kind != model.Pin {
		return word(b.Kind.String())
	}
	object := word(b.Line.String())
	if b.Opponent != 0 {
		object = &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.Itoa(b.Opponent)}
	}
	return &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle, Content: []*yaml.Node{word(b.Kind.String()), object}}
}

func word(s string) *yaml.Node { return &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: s} }

// numeral writes a number with the digits that read back as the same number.
func numeral(x float64) *yaml.Node {
	s := strconv.FormatFloat(x, 'f', -1, 64)
	if len(s) > 24 {
		s = strconv.FormatFloat(x, 'g', -1, 64)
	}
	tag := "!!float"
	if !strings.ContainsAny(s, ".e") {
		tag = "!!int"
	}
	return &yaml.Node{Kind: yaml.ScalarNode, Tag: tag, Value: s}
}
