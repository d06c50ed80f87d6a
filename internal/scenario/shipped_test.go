package scenario

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"playout/model"
	"playout/scenarios"
)

const shippedDir = "../../scenarios"

// shipped loads every scenario that comes with the program.
func shipped(t testing.TB) map[string]*model.Scenario {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(shippedDir, "*.yaml"))
	if err != nil || len(paths) < 5 {
		t.Fatalf("found %d scenarios, %v", len(paths), err)
	}
	out := map[string]*model.Scenario{}
	for _, path := range paths {
		sc, err := Load(path)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(path)] = sc
	}
	return out
}

// Writing a scenario and reading it back changes nothing.
func TestCanonicalRoundTrip(t *testing.T) {
	for name, sc := range shipped(t) {
		text, err := Canonical(sc)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		again, err := LoadBytes(name, text)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if !reflect.DeepEqual(sc, again) {
			t.Errorf("%s: differs after a round trip", name)
		}
		if twice, _ := Canonical(again); !bytes.Equal(text, twice) {
			t.Errorf("%s: is written in two ways", name)
		}
	}
}

// Every key of the format is in the text, so nothing is left to a default.
func TestCanonicalSaysEverything(t *testing.T) {
	sc := shipped(t)["narrow-diamond.yaml"]
	sc.Start = model.Start{Kind: model.FromSettled, Player: 4}
	text, err := Canonical(sc)
	if err != nil {
		t.Fatal(err)
	}
	for key := range scenarioHomes() {
		switch key {
		case "extends", "level", "library": // only ways to write other values
			continue
		}
		if !strings.Contains(string(text), key+": ") && !strings.Contains(string(text), key+":\n") {
			t.Errorf("%s: is not in the text", key)
		}
	}
	if !regexp.MustCompile(`(?m)^ +pace: \d+ # \d\.\d+ m/s$`).Match(text) {
		t.Error("no physical values beside the percentiles")
	}
}

func TestCanonicalRefusesInvalid(t *testing.T) {
	sc := model.AverageScenario()
	sc.Clock = -1
	if _, err := Canonical(&sc); err == nil || !strings.Contains(err.Error(), "clock") {
		t.Errorf("error %v, want one about the clock", err)
	}
}

func TestShippedScenarios(t *testing.T) {
	all := shipped(t)
	if want := model.AverageScenario(); !reflect.DeepEqual(*all["league-average.yaml"], want) {
		t.Error("league-average.yaml is not the league average of the model")
	}
	quick, late := *all["quick-switch.yaml"], *all["late-switch.yaml"]
	if fast, slow := quick.Teams[model.Attack].Plan.Tempo, late.Teams[model.Attack].Plan.Tempo; !(fast < slow) {
		t.Errorf("the quick switch takes %v s on the ball, the late one %v s", fast, slow)
	}
	quick.Title, quick.Teams[model.Attack].Plan.Tempo = late.Title, late.Teams[model.Attack].Plan.Tempo
	if !reflect.DeepEqual(quick, late) {
		t.Error("the two switches differ in more than title and tempo")
	}
	if shape := all["narrow-diamond.yaml"].Teams[model.Defence].Block.Shape.String(); shape != "4-3-1-2" {
		t.Errorf("the diamond is a %s", shape)
	}
	for name := range all {
		text, err := os.ReadFile(filepath.Join(shippedDir, name))
		if err != nil {
			t.Fatal(err)
		}
		if first, _, _ := strings.Cut(string(text), "\n"); first != "# yaml-language-server: $schema=playout.schema.json" {
			t.Errorf("%s begins with %q", name, first)
		}
	}
}

// Each library block is what its name says, on the smallest pitch too.
func TestLibraryBlocks(t *testing.T) {
	heights := map[string][]float64{}
	for _, name := range scenarios.BlockNames() {
		b := mustLoad(t, "defence: {block: "+name+"}").Teams[model.Defence].Block
		mustLoad(t, fmt.Sprintf("{pitch: {length: %v, width: %v}, defence: {block: %s}}", model.MinLength, model.MinWidth, name))
		shape, height := name[:strings.LastIndex(name, "-")], name[strings.LastIndex(name, "-")+1:]
		if b.Shape.String() != shape {
			t.Errorf("%s has shape %s", name, b.Shape)
		}
		heights[height] = append(heights[height], b.LineHeight, b.Width, b.Press.Height)
	}
	for _, shape := range []string{"4-4-2", "4-5-1", "5-3-2", "4-2-3-1", "4-3-1-2"} {
		for _, height := range []string{"low", "mid", "high"} {
			if _, err := scenarios.Block(shape + "-" + height); err != nil {
				t.Error(err)
			}
		}
	}
	for i, low := range heights["low"] {
		if mid, high := heights["mid"][i], heights["high"][i]; !(low < mid && mid < high) {
			t.Errorf("low, mid and high blocks measure %v, %v, %v", low, mid, high)
		}
	}
	if _, err := scenarios.Block("../high-press"); err == nil {
		t.Error("a file outside the library was read")
	}
}
