package report

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"playout/sim"
)

func TestCSVParses(t *testing.T) {
	for name, s := range map[string]*Summary{
		"average": testSummary(), "hostile": hostileSummary(),
		"empty": Summarise(testScenario(), &sim.Result{Asked: 1}, Run{}),
	} {
		rows, err := csv.NewReader(strings.NewReader(print(t, s, CSV, false))).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got := strings.Join(rows[0], ","); got != strings.Join(csvHead, ",") {
			t.Errorf("%s: head %q", name, got)
		}
		seen := map[string]bool{}
		for _, row := range rows[1:] {
			if row[0] == "" || seen[row[0]] {
				t.Errorf("%s: figure %q is empty or twice there", name, row[0])
			}
			seen[row[0]] = true
			for i := 2; i <= 7; i++ {
				if row[i] == "" {
					continue
				}
				if x, err := strconv.ParseFloat(row[i], 64); err != nil || x != x {
					t.Errorf("%s: %s, column %s: %q is no number", name, row[0], csvHead[i], row[i])
				}
			}
			for _, text := range []string{row[1], row[8]} {
				if text != "" && strings.ContainsAny(text[:1], "=+-@") {
					t.Errorf("%s: %s: %q would be read as a formula", name, row[0], text)
				}
			}
		}
	}
}

func TestGuard(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@x": "'@x", "＝1": "'＝1", "a=1": "a=1", "": "",
	} {
		if got := guard(in); got != want {
			t.Errorf("guard(%q) = %q, want %q", in, got, want)
		}
	}
}

// leaves lists the paths of a JSON value as CSV names them: rates, shares and
// means are one figure each, rows of players go by shirt number.
func leaves(path string, v any, out map[string]bool) {
	switch x := v.(type) {
	case map[string]any:
		_, rate := x["of"]
		_, se := x["se"]
		if number, ok := x["number"]; ok {
			out[join(path, fmt.Sprint(number))] = true
			return
		}
		if rate || se {
			out[path] = true
		}
		for key, value := range x {
			switch key {
			case "count", "of", "rate", "low", "high", "n", "mean", "se":
				if rate || se {
					continue
				}
			}
			leaves(join(path, key), value, out)
		}
	case []any:
		for i, value := range x {
			at := path
			if _, text := value.(string); text {
				at = join(path, strconv.Itoa(i+1))
			}
			leaves(at, value, out)
		}
	default:
		out[path] = true
	}
}

// CSV and JSON hold the same figures under the same names.
func TestCSVHasAllOfJSON(t *testing.T) {
	for _, s := range []*Summary{testSummary(), doubtSummary()} {
		csvHasAll(t, s)
	}
}

func csvHasAll(t *testing.T, s *Summary) {
	t.Helper()
	var v any
	if err := json.Unmarshal([]byte(print(t, s, JSON, false)), &v); err != nil {
		t.Fatal(err)
	}
	want := map[string]bool{}
	leaves("", v, want)
	rows, err := csv.NewReader(strings.NewReader(print(t, s, CSV, false))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		if !want[row[0]] {
			t.Errorf("%s stands in CSV but not in JSON", row[0])
		}
		delete(want, row[0])
	}
	if len(want) > 0 {
		t.Errorf("missing in CSV: %v", want)
	}
}

// The keys that other programs rely on.
func TestJSONKeys(t *testing.T) {
	five := []string{"count", "of", "rate", "low", "high"}
	lanes := []string{"left_wing", "left_half_space", "centre", "right_half_space", "right_wing"}
	want := map[string][]string{
		"": {"scenario", "seed", "possessions", "asked", "partial", "precision", "precision_reached", "version", "revision", "tick_s", "parameter_doubt",
			"answer", "notes", "ends", "entries_by_method", "shots_by_source", "overloads", "switches", "losses_by_zone"},
		"rates": {"own_third_exit", "halfway", "final_third_entry", "final_third_reached", "box_entry", "shot", "goal",
			"turnover", "stalled", "forced_back"},
		"rates.final_third_entry":                 five,
		"entries_by_lane":                         lanes,
		"entries_by_lane.centre":                  five,
		"chances_by_lane":                         lanes,
		"chances_by_lane.centre":                  {"shots_per_100", "xg_per_100", "goals_per_100"},
		"chances_by_last_lane":                    lanes,
		"chances_by_last_lane.left_wing":          {"shots_per_100", "xg_per_100", "goals_per_100"},
		"means":                                   {"duration_s", "passes", "xg"},
		"means.xg":                                {"mean", "se"},
		"passing":                                 {"attempts", "completed", "rate", "by_kind"},
		"block":                                   {"press_share", "gap_between_lines_m", "width_m", "length_m", "lag_s"},
		"ends.intercepted":                        five,
		"losses_by_zone.own.centre":               five,
		"switches.single_pass.verdicts.lost":      five[:3],
		"overloads.2v1.left_wing":                 {"count", "per_100", "won"},
		"after_loss":                              {"seconds", "chances_against", "xg_against_per_100", "net_xg_per_100", "takeovers", "ends"},
		"after_loss.net_xg_per_100":               {"n", "mean", "se", "low", "high"},
		"after_loss.takeovers.throw_in":           five,
		"after_loss.by_zone.own.middle":           {"losses", "shots", "goals", "xg", "losses_per_100"},
		"after_loss.by_rest_defence.7":            {"losses", "shots", "goals", "xg"},
		"build_up":                                {"possessions", "rates"},
		"build_up.rates.final_third_reached":      five,
		"shots_by_source.high_cross_inswinging":   {"shots_per_100"},
		"entries_by_lane_and_method.centre.carry": five,
	}
	for name, r := range map[string]*sim.Result{"average": testResult(), "empty": {}} {
		var top map[string]any
		text := print(t, Summarise(testScenario(), r, Run{}), JSON, false)
		if err := json.Unmarshal([]byte(text), &top); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		for path, keys := range want {
			at := top
			for _, key := range strings.FieldsFunc(path, func(r rune) bool { return r == '.' }) {
				at, _ = at[key].(map[string]any)
			}
			for _, key := range keys {
				if _, ok := at[key]; !ok {
					t.Errorf("%s: no %s", name, join(path, key))
				}
			}
		}
	}
}
