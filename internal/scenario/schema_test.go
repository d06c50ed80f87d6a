package scenario

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	validator "github.com/santhosh-tekuri/jsonschema/v6"
	"go.yaml.in/yaml/v4"
)

// The committed schema is the one made from the document types:
// go test ./internal/scenario -run TestSchemaIsCommitted -update
func TestSchemaIsCommitted(t *testing.T) {
	want, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(shippedDir, "playout.schema.json")
	if *update {
		if err := os.WriteFile(path, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("scenarios/playout.schema.json is out of date; run this test with -update")
	}
}

// compiled returns a check of YAML text against the schema.
func compiled(t *testing.T) func(text string) error {
	t.Helper()
	text, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := validator.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := validator.NewCompiler()
	if err := c.AddResource(schemaID, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(schemaID)
	if err != nil {
		t.Fatal(err)
	}
	return func(text string) error {
		var v any
		if err := yaml.Load([]byte(text), &v); err != nil {
			return err
		}
		return s.Validate(asJSON(v))
	}
}

// asJSON gives mappings string keys, as editors do.
func asJSON(v any) any {
	switch x := v.(type) {
	case map[string]any:
		for k, e := range x {
			x[k] = asJSON(e)
		}
	case map[any]any:
		m := map[string]any{}
		for k, e := range x {
			m[fmt.Sprint(k)] = asJSON(e)
		}
		return m
	case []any:
		for i, e := range x {
			x[i] = asJSON(e)
		}
	case int:
		return json.Number(strconv.Itoa(x))
	case uint64:
		return json.Number(strconv.FormatUint(x, 10))
	}
	return v
}

func TestSchemaTakesShippedScenarios(t *testing.T) {
	check := compiled(t)
	for name, sc := range shipped(t) {
		text, err := os.ReadFile(filepath.Join(shippedDir, name))
		if err != nil {
			t.Fatal(err)
		}
		if err := check(string(text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		full, err := Canonical(sc)
		if err != nil {
			t.Fatal(err)
		}
		if err := check(string(full)); err != nil {
			t.Errorf("%s in full: %v", name, err)
		}
	}
}

func TestSchemaRefuses(t *testing.T) {
	check := compiled(t)
	for _, text := range []string{
		"titel: x",
		"title: 3",
		"clock: long",
		"possessions: 10.5",
		"seed: -1",
		"pitch: {length: 105, breadth: 68}",
		"start: {from: corner}",
		"start: {from: settled, ball: [1]}",
		"start: {from: settled, ball: [1, 2, 3]}",
		"attack: {block: 4-4-2-medium}",
		"attack: {block: {library: 4-4-2-medium}}",
		"attack: {block: {slots: {x: {row: 1}}}}",
		"attack: {block: {slots: {7: {colour: 1}}}}",
		"attack: {block: {press: {triggers: [never]}}}",
		"attack: {structure: {build_up: 433}}",
		"attack: {structure: {build_up: {shape: 4-3-3, 100: [0, 0]}}}",
		"attack: {structure: {build_up: {shape: 4-3-3, 6: [0]}}}",
		"attack: {players: [{position: GK}]}",
		"attack: {players: [{number: 1, position: KEEPER}]}",
		"attack: {players: [{number: 1, stamina: 3}]}",
		"attack: {players: [{number: 1, behaviour: lurk}]}",
		"attack: {players: [{number: 1, behaviour: {pin: third_line}}]}",
		"attack: {players: [{number: 1, behaviour: {hold: 1}}]}",
		"attack: {players: []}",
		"attack: {runs: [{run: overlap}]}",
		"attack: {runs: [{run: overlap, player: 2, lane: right_wing}]}",
		"attack: {plan: {lanes: {center: 1}}}",
	} {
		if err := check(text); err == nil {
			t.Errorf("the schema takes %s", text)
		}
		if _, err := LoadBytes("x", []byte(text)); err == nil {
			t.Errorf("the loader takes %s", text)
		}
	}
}

// inFile writes a file in which the value of one key of the format is x. The
// rest of the file lets every value of the documented range stand.
func inFile(path, x string) string {
	key := path[strings.LastIndex(path, ".")+1:]
	pitch := "pitch: {length: 120, width: 90}\n"
	switch {
	case strings.Contains(path, ".players."):
		return pitch + eleven(map[int]string{7: "{number: 7, position: LCM, " + key + ": " + x + "}"})
	case strings.Contains(path, ".runs."):
		return "attack: {runs: [{run: overlap, player: 2, " + key + ": " + x + "}]}"
	case strings.HasSuffix(path, ".slots.depth"):
		return "attack: {block: {slots: {7: {depth: " + x + ", side: 0.3}}}}" // away from the others
	case strings.Contains(path, ".slots."):
		return "attack: {block: {shape: 4-1-2-1-2, slots: {7: {" + key + ": " + x + "}}}}"
	case strings.HasPrefix(path, "pitch."):
		pitch = ""
	}
	steps := strings.Split(path, ".")
	for i := len(steps) - 1; i > 0; i-- {
		x = "{" + steps[i] + ": " + x + "}"
	}
	return pitch + steps[0] + ": " + x
}

// The ranges in the schema are those of model.Validate: both ends are taken,
// and a hair beyond is refused by both.
func TestSchemaRangesAreTheLoaders(t *testing.T) {
	check := compiled(t)
	compared := 0
	compare := func(path, bound string, outward float64) {
		x, err := strconv.ParseFloat(bound, 64)
		if err != nil {
			t.Fatalf("%s: bound %q", path, bound)
		}
		for _, c := range []struct {
			value string
			good  bool
		}{{bound, true}, {strconv.FormatFloat(x+outward, 'f', -1, 64), false}} {
			text := inFile(path, c.value)
			_, loader := LoadBytes("x", []byte(text))
			schema := check(text)
			if (loader == nil) != c.good || (schema == nil) != c.good {
				t.Errorf("%s: %s\nloader %v\nschema %v", path, c.value, loader, schema)
			}
		}
		compared++
	}
	var walk func(t reflect.Type, path string)
	walk = func(t reflect.Type, path string) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice || t.Kind() == reflect.Map {
			t = t.Elem()
		}
		if t.Kind() != reflect.Struct {
			return
		}
		if t == reflect.TypeFor[playerDoc]() {
			for _, name := range attributeNames {
				compare(path+"."+name, "0", -0.01)
				compare(path+"."+name, "100", 0.01)
			}
		}
		for i := range t.NumField() {
			sf := t.Field(i)
			name, _, _ := strings.Cut(sf.Tag.Get("yaml"), ",")
			at := strings.TrimPrefix(path+"."+name, ".")
			walk(sf.Type, at)
			if name == "number" || name == "player" {
				continue // 1 and 99 are in range, but need not be on the pitch
			}
			step := 0.01
			if kind := sf.Type; kind == reflect.TypeFor[*int]() || kind == reflect.TypeFor[*uint64]() {
				step = 1
			}
			for rule := range strings.SplitSeq(sf.Tag.Get("jsonschema"), ",") {
				if bound, ok := strings.CutPrefix(rule, "minimum="); ok {
					compare(at, bound, -step)
				}
				if bound, ok := strings.CutPrefix(rule, "maximum="); ok {
					compare(at, bound, step)
				}
			}
		}
	}
	walk(reflect.TypeFor[document](), "")
	if compared < 120 {
		t.Errorf("only %d bounds compared", compared)
	}
}

// The commented scenario says of every word of start what the help says.
func TestStartsAreExplained(t *testing.T) {
	text, err := os.ReadFile("../../scenarios/league-average.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.SplitSeq(Starts(), "\n") {
		if !strings.Contains(string(text), "# "+line) {
			t.Errorf("scenarios/league-average.yaml lacks %q", line)
		}
	}
}
