package scenario

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"

	"github.com/invopop/jsonschema"

	"playout/model"
	"playout/scenarios"
)

// schemaID names the schema without pointing anywhere.
const schemaID = "urn:playout:scenario"

const shapePattern = `^[1-6](-[1-6]){1,4}$`

// Schema is the JSON Schema of scenario files, for editors. It knows keys,
// words and ranges; what concerns several values at once (two players in one
// place, a run for nobody) only the loader can see.
func Schema() ([]byte, error) {
	r := jsonschema.Reflector{
		Anonymous: true, ExpandedStruct: true, FieldNameTag: "yaml", RequiredFromJSONSchemaTags: true,
		Mapper: schemaOf,
		Namer:  schemaName,
	}
	s := r.Reflect(&document{})
	s.ID = schemaID
	s.Title = "Scenario"
	s.Description = "Two teams, a pitch, and how possessions begin. Lengths in m, times in s. Whatever is left out is the league average."
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(s)
	return out.Bytes(), err
}

// schemaName drops the "Doc" that sets document types apart from the model's.
func schemaName(t reflect.Type) string {
	return strings.TrimSuffix(t.Name(), "Doc")
}

// schemaOf is the schema of the types that are written as one word or list.
func schemaOf(t reflect.Type) *jsonschema.Schema {
	if known, ok := vocabulary[t]; ok {
		return enumeration(known)
	}
	switch t {
	case reflect.TypeFor[model.Shape]():
		return &jsonschema.Schema{Type: "string", Pattern: shapePattern, Examples: []any{"4-3-3"}}
	case reflect.TypeFor[point]():
		return &jsonschema.Schema{Type: "array", Items: &jsonschema.Schema{Type: "number"}, MinItems: new(uint64(2)), MaxItems: new(uint64(2)),
			Description: "[x, y] in m from the centre spot, x towards the goal attacked, y to the left."}
	case reflect.TypeFor[behaviour]():
		pin := jsonschema.NewProperties()
		pin.Set(model.Pin.String(), &jsonschema.Schema{OneOf: []*jsonschema.Schema{
			enumeration(vocabulary[reflect.TypeFor[model.BlockLine]()]), shirtNumber()}})
		return &jsonschema.Schema{OneOf: []*jsonschema.Schema{
			enumeration(vocabulary[reflect.TypeFor[model.BehaviourKind]()]),
			{Type: "object", Properties: pin, Required: []string{model.Pin.String()}, AdditionalProperties: jsonschema.FalseSchema},
		}}
	}
	return nil
}

func enumeration(known []string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string"}
	for _, w := range known {
		s.Enum = append(s.Enum, w)
	}
	return s
}

func shirtNumber() *jsonschema.Schema {
	return &jsonschema.Schema{Type: "integer", Minimum: "1", Maximum: "99"}
}

// numberPattern matches shirt numbers as keys.
const numberPattern = `^[1-9][0-9]?$`

// JSONSchemaExtend adds the percentiles, which are keys of the player himself.
func (playerDoc) JSONSchemaExtend(s *jsonschema.Schema) {
	for a, name := range attributeNames {
		s.Properties.Set(name, &jsonschema.Schema{Type: "number", Minimum: "0", Maximum: "100",
			Description: "Percentile, 50 the league average. Sets: " + model.Scales[a].Unit + "."})
	}
}

// JSONSchemaExtend adds the places and the shape written as one word.
func (phaseDoc) JSONSchemaExtend(s *jsonschema.Schema) {
	s.PatternProperties = map[string]*jsonschema.Schema{numberPattern: schemaOf(reflect.TypeFor[point]())}
	orWord(s, schemaOf(reflect.TypeFor[model.Shape]()))
}

// JSONSchemaExtend adds the library block written as one word.
func (blockDoc) JSONSchemaExtend(s *jsonschema.Schema) {
	name := enumeration(scenarios.BlockNames())
	s.Properties.Set("library", name)
	slots, _ := s.Properties.Get("slots")
	slots.PatternProperties = map[string]*jsonschema.Schema{numberPattern: {Ref: "#/$defs/slot"}}
	slots.AdditionalProperties = jsonschema.FalseSchema
	orWord(s, name)
}

// orWord turns the schema of a mapping into "the word, or the mapping".
func orWord(s, word *jsonschema.Schema) {
	object := *s
	*s = jsonschema.Schema{OneOf: []*jsonschema.Schema{word, &object}}
}
