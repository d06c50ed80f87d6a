package main

import (
	"bytes"
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"playout/internal/export"
	"playout/internal/report"
	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// oneBuildUp is the smallest run that fills every table and every object.
func oneBuildUp(t *testing.T, f report.Format) string {
	t.Helper()
	sc := model.AverageScenario()
	r := &sim.Result{Asked: 1, Played: 1, Tally: sim.Tally{Possessions: 1}}
	r.Doubt, r.Draws.XG.N, r.Draws.XG.Of = true, stats.MinGroups, stats.MinGroups*sim.DrawEvery
	var b bytes.Buffer
	if err := report.Summarise(&sc, r, report.Run{}).Write(&b, f, true); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// The topic on metrics goes table by table: it has to name them all.
func TestHelpMetricsNamesEveryTable(t *testing.T) {
	titles := 0
	for line := range strings.Lines(oneBuildUp(t, report.Table)) {
		line = strings.TrimSpace(line)
		if !regexp.MustCompile(`^[A-Z][A-Z ,]+$`).MatchString(line) {
			continue
		}
		titles++
		if !strings.Contains(helpMetrics, line) {
			t.Errorf("playout help metrics does not explain %q", line)
		}
	}
	if titles < 10 {
		t.Errorf("only %d tables found", titles)
	}
}

// Every key of the object but the names of its parts stands in the topic.
func TestHelpJSONNamesEveryKey(t *testing.T) {
	var object any
	if err := json.Unmarshal([]byte(oneBuildUp(t, report.JSON)), &object); err != nil {
		t.Fatal(err)
	}
	var walk func(v any)
	walk = func(v any) {
		switch x := v.(type) {
		case map[string]any:
			for key, value := range x {
				if !regexp.MustCompile(`\b` + regexp.QuoteMeta(key) + `\b`).MatchString(helpJSON) {
					t.Errorf("playout help json does not name %q", key)
				}
				walk(value)
			}
		case []any:
			for _, value := range x {
				walk(value)
			}
		}
	}
	walk(object)
}

func TestHelpFitsAScreen(t *testing.T) {
	for _, text := range []string{helpMetrics, helpJSON, helpLimits, helpCluster, helpSlurm, helpKubernetes, helpData, export.Describe(), newMergeCmd().Long, newExportCmd().Long, newRootCmd().Long, newRunCmd().Long} {
		for line := range strings.Lines(text) {
			if n := len([]rune(strings.TrimSuffix(line, "\n"))); n > 82 || strings.TrimRight(line, " \n") != strings.TrimSuffix(line, "\n") {
				t.Errorf("%d columns or trailing blanks: %q", n, line)
			}
		}
	}
}

// Every key of the manifest stands in the topic on data.
func TestHelpDataNamesEveryKey(t *testing.T) {
	for _, of := range []reflect.Type{reflect.TypeFor[export.Manifest](), reflect.TypeFor[export.FileNote]()} {
		for i := range of.NumField() {
			key, _, _ := strings.Cut(of.Field(i).Tag.Get("json"), ",")
			if !regexp.MustCompile(`\b` + key + `\b`).MatchString(helpData) {
				t.Errorf("playout help data does not name %q", key)
			}
		}
	}
}

// The same of the objects of the experiments, by the tags of their types.
func TestHelpJSONNamesEveryKeyOfExperiments(t *testing.T) {
	seen := map[reflect.Type]bool{}
	var walk func(v reflect.Type)
	walk = func(v reflect.Type) {
		for v.Kind() == reflect.Pointer || v.Kind() == reflect.Slice {
			v = v.Elem()
		}
		if v.Kind() != reflect.Struct || seen[v] {
			return
		}
		seen[v] = true
		for i := range v.NumField() {
			key, _, _ := strings.Cut(v.Field(i).Tag.Get("json"), ",")
			if key == "" {
				continue
			}
			if !regexp.MustCompile(`\b` + regexp.QuoteMeta(key) + `\b`).MatchString(helpJSON) {
				t.Errorf("playout help json does not name %q of %s", key, v)
			}
			walk(v.Field(i).Type)
		}
	}
	walk(reflect.TypeFor[report.Matrix]())
	walk(reflect.TypeFor[report.People]())
}
