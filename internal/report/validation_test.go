package report

import (
	"bytes"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"playout/internal/reference"
)

// testValidation has an inside figure, one far out, one that reaches its spread, a
// negative one, and one with too few cases.
func testValidation() *Validation {
	check := func(name string, value, low, high, engine, lo, hi float64, n int64, source string) reference.Check {
		return reference.Check{
			Figure: reference.Figure{Name: name, Value: value, Low: low, High: high, Source: source},
			Engine: reference.Value{Value: engine, Low: lo, High: hi, N: n},
		}
	}
	const events = "Pappalardo et al. 2019"
	return &Validation{Possessions: 12000, Seed: 7, Version: "v0.0.0-test", Revision: 1, Checks: []reference.Check{
		check("possession_outcomes/build_up/final_third", 0.38016, 0.3691, 0.3967, 0.382, 0.37, 0.394, 6000, events),
		check("possession_outcomes/build_up/goal", 0.00843, 0.00768, 0.00911, 0.0125, 0.0115, 0.0135, 6000, events),
		check("possession_outcomes/build_up/duration_s", 18.94, 18.65, 19.41, 18.5, 18.2, 18.8, 6000, events),
		check("line_speed/ball_carried_forward", -1.94, -2.4, -1.5, -1.2, -1.3, -1.1, 900, "BT10 mean; spread judged"),
		check("line_speed/ball_played_back", 0.811, 0.569, 1.176, math.NaN(), math.Inf(-1), math.Inf(1), 0, "BT10 mean"),
	}}
}

func TestValidationGolden(t *testing.T) {
	for file, format := range map[string]Format{
		"validation.txt": Table, "validation.md": Markdown, "validation.csv": CSV, "validation.json": JSON,
	} {
		var b bytes.Buffer
		if err := testValidation().Write(&b, format); err != nil {
			t.Fatal(err)
		}
		golden(t, file, b.Bytes())
	}
}

// TestValidationJSON reads the list back: these keys and no others, the figures with
// too few cases left out.
func TestValidationJSON(t *testing.T) {
	var b bytes.Buffer
	if err := testValidation().Write(&b, JSON); err != nil {
		t.Fatal(err)
	}
	var list []map[string]any
	if err := json.Unmarshal(b.Bytes(), &list); err != nil {
		t.Fatal(err)
	}
	if len(list) != 4 {
		t.Fatalf("%d figures, want the 4 with enough cases", len(list))
	}
	want := []string{"engine", "figure", "high", "inside", "low", "ref_high", "ref_low", "reference", "source"}
	for _, o := range list {
		var keys []string
		for k := range o {
			keys = append(keys, k)
		}
		slices.Sort(keys)
		if !slices.Equal(keys, want) {
			t.Errorf("keys %v, want %v", keys, want)
		}
	}
	if o := list[1]; o["figure"] != "possession_outcomes/build_up/goal" || o["engine"] != 0.0125 || o["ref_high"] != 0.00911 || o["inside"] != false {
		t.Errorf("%v", o)
	}
}
