package scenario

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"syscall"
	"testing"

	"playout/model"
)

func TestVariantMerges(t *testing.T) {
	f := files{
		"base.yaml": eleven(map[int]string{9: "{number: 9, position: LW, pace: 80, crossing: 70, behaviour: {pin: last_line}}"}) + `
  name: Vellmere
  structure: {build_up: 3-2-5, progression: {shape: 2-3-5, 6: [-3, 0]}}
  plan: {tempo: 2, find: [10, 9], lanes: {left_wing: 2}}
  runs: [{run: overlap, player: 2}, {run: overlap, player: 5}]
start: {from: settled, ball: [-30, 5]}
defence: {block: 4-5-1-low}
`,
		"deep/child.yaml": `
extends: ../base.yaml
attack:
  players: [{number: 9, crossing: 20, behaviour: {pin: 3}}]
  structure: {build_up: {6: [-25, 1]}, progression: 4-3-3}
  plan: {find: [7], lanes: {right_wing: 3}}
  runs: [{run: in_behind, player: 10}]
start: {from: keeper}
defence: {block: {line_height: 24}}
`,
	}
	sc, err := f.load("deep/child.yaml")
	if err != nil {
		t.Fatal(err)
	}
	att, def := &sc.Teams[model.Attack], &sc.Teams[model.Defence]
	nine := att.Players[8]
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"what the variant does not say stays", att.Name, "Vellmere"},
		{"player: said by the variant", nine.Percentile[model.Crossing], 20.0},
		{"player: said by the base", nine.Percentile[model.Pace], 80.0},
		{"player: behaviour", nine.Behaviour, model.Behaviour{Kind: model.Pin, Opponent: 3}},
		{"phase as a mapping changes the shape's places", att.Structure.Anchor[model.BuildUp][5].Y, 1.0},
		{"and keeps its shape", att.Structure.Shape[model.BuildUp], "3-2-5"},
		{"phase as a word replaces", att.Structure.Shape[model.Progression], "4-3-3"},
		{"with its places", att.Structure.Anchor[model.Progression][5].X == -3, false},
		{"plan: base", att.Plan.Tempo, 2.0},
		{"plan: lists are replaced", att.Plan.Find, []int{7}},
		{"lanes of both", att.Plan.Lane, [5]float64{2, 1, 1, 1, 3}},
		{"runs are replaced", len(att.Runs), 1},
		{"start is replaced whole", sc.Start, model.Start{Kind: model.FromKeeper}},
		{"block: said by the variant", def.Block.LineHeight, 24.0},
		{"block: from the library", def.Block.Width, 33.0},
		{"block: shape of the library", def.Block.Shape.String(), "4-5-1"},
		{"title from the file", sc.Title, "child"},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

func TestVariantOfUnnamedPlayers(t *testing.T) {
	f := files{"base.yaml": "title: x", "child.yaml": "extends: base.yaml\ndefence: {players: [{number: 4, pace: 90}]}"}
	sc, err := f.load("child.yaml")
	if err != nil {
		t.Fatal(err)
	}
	want := model.AverageTeam("Defence", model.DefaultPitch)
	want.Players[3].Percentile[model.Pace] = 90
	if !reflect.DeepEqual(sc.Teams[model.Defence], want) {
		t.Error("more than the pace of number 4 has changed")
	}
}

func TestVariantFaults(t *testing.T) {
	chain := files{"c0.yaml": "title: x"}
	for i := range 20 {
		chain[fmt.Sprintf("c%d.yaml", i+1)] = fmt.Sprintf("extends: c%d.yaml", i)
	}
	for _, c := range []struct {
		name, first string
		files       files
		want        string
	}{
		{"circle", "a.yaml", files{"a.yaml": "extends: b.yaml", "b.yaml": "title: x\nextends: ./a.yaml"},
			"b.yaml:2:10: extends: goes round in a circle: a.yaml extends b.yaml extends a.yaml | let one of these files stand alone"},
		{"itself", "a.yaml", files{"a.yaml": "extends: a.yaml"},
			"a.yaml:1:10: extends: goes round in a circle: a.yaml extends a.yaml | let one of these files stand alone"},
		{"missing", "a.yaml", files{"a.yaml": "extends: b.yaml"},
			"a.yaml:1:10: extends: b.yaml: there is no such file | check the name and the directory"},
		{"too long a chain", "c8.yaml", chain, "c1.yaml:1:10: extends: more than 8 files build on each other | let a file of the chain stand alone"},
		{"full path", "a.yaml", files{"a.yaml": "extends: /b.yaml"},
			"a.yaml:1:10: extends: is a full path | write it relative to this file, such as extends: other.yaml"},
		{"number", "a.yaml", files{"a.yaml": "extends: 3"},
			`a.yaml:1:10: extends: needs the name of a file, not "3" | write extends: other.yaml`},
		{"fault of the base", "a.yaml", files{"a.yaml": "extends: b.yaml\ntitel: x", "b.yaml": "\nattack: {level: 140}"},
			"b.yaml:2:17: attack, level: 140 is not a percentile | give a percentile from 0 to 100 (50 is the league average) (+1)"},
		{"syntax of the base", "a.yaml", files{"a.yaml": "extends: b.yaml", "b.yaml": "title: [x"},
			"b.yaml:1:8: a comma is missing, or the list is not closed | put a comma between the entries and ] at the end"},
		{"mistake mended by the variant", "a.yaml", files{"a.yaml": "extends: b.yaml\nclock: 60", "b.yaml": "clock: 9999"}, "<nil>"},
		{"player who is not there", "a.yaml", files{"a.yaml": "extends: b.yaml\nattack: {players: [{number: 19}]}", "b.yaml": "title: x"},
			"a.yaml:2:29: players: player 19 is not in b.yaml | a variant changes the players that are there; to put a new man in a place, change the name and qualities of that number"},
		{"player without a number", "a.yaml", files{"a.yaml": "extends: b.yaml\nattack: {players: [{pace: 19}]}", "b.yaml": "title: x"},
			"a.yaml:2:20: players: this player has no number | a variant changes players by number: {number: 9, pace: 70}"},
		{"player twice", "a.yaml", files{"a.yaml": "extends: b.yaml\nattack: {players: [{number: 9, pace: 1}, {number: 9, pace: 2}]}", "b.yaml": "title: x"},
			"a.yaml:2:51: players: player 9 is given twice | say everything about him in one entry"},
		{"a fault in what the base left out", "a.yaml", files{"a.yaml": "extends: b.yaml\nattack: {structure: {build_up: {6: [-47, 0]}}}", "b.yaml": "title: x"},
			"a.yaml:2:36: attack, structure, build_up, player 6: players 1 and 6 stand in one place | move one of them at least 1 m"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := c.files.load(c.first)
			if got := brief(err); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
	if _, err := chain.load("c7.yaml"); err != nil {
		t.Errorf("eight files in a chain: %v", err)
	}
}

func TestLoadFromDisk(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	write("base.yaml", "title: from the base\nclock: 20")
	child := write("child.yaml", "extends: base.yaml")
	if sc, err := Load(child); err != nil || sc.Title != "child" || sc.Clock != 20 {
		t.Errorf("Load = %v, %v", sc, err)
	}
	if err := syscall.Mkfifo(filepath.Join(dir, "pipe"), 0o600); err != nil {
		t.Skip("no named pipes here:", err)
	}
	for name, want := range map[string]string{
		write("a.yaml", "extends: bsae.yaml"): "did you mean " + filepath.Join(dir, "base.yaml") + "?",
		write("b.yaml", "extends: ."):         "this is a directory, not a file",
		write("c.yaml", "extends: pipe"):      "it is not a plain file",
		filepath.Join(dir, "base"):            "did you mean " + filepath.Join(dir, "base.yaml") + "?",
		write("d.yaml", "extends: base"):      "did you mean " + filepath.Join(dir, "base.yaml") + "?",
		filepath.Join(dir, "bse.yaml"):        "did you mean " + filepath.Join(dir, "base.yaml") + "?",
		dir:                                   "this is a directory, not a file",
	} {
		if _, err := Load(name); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", filepath.Base(name), err, want)
		}
	}
}

// LoadFrom and OpenFrom ask for every file by its name and touch no other.
func TestLoadFromElsewhere(t *testing.T) {
	files := map[string]string{
		"-":               "title: piped\nextends: plans/base.yaml",
		"plans/a.yaml":    "extends: base.yaml",
		"plans/b.yaml":    "extends: gone.yaml",
		"c.yaml":          "extends: '-'",
		"plans/base.yaml": "title: from the base\nclock: 20",
	}
	var asked []string
	read := func(name string) ([]byte, error) {
		asked = append(asked, name)
		if text, ok := files[name]; ok {
			return []byte(text), nil
		}
		return nil, fs.ErrNotExist
	}
	for _, c := range []struct {
		name, title, fault string
		asked              []string
	}{
		{"plans/a.yaml", "a", "", []string{"plans/a.yaml", "plans/base.yaml"}},
		{"-", "piped", "", []string{"-", "plans/base.yaml"}},
		{"plans/b.yaml", "", "plans/gone.yaml: there is no such file", []string{"plans/b.yaml", "plans/gone.yaml"}},
		{"c.yaml", "", "there is no such file", []string{"c.yaml", "./-"}}, // a file of that name
		{"d.yaml", "", "d.yaml: there is no such file", []string{"d.yaml"}},
	} {
		asked = nil
		sc, err := LoadFrom(c.name, read)
		if !slices.Equal(asked, c.asked) || c.fault == "" && (err != nil || sc.Title != c.title || sc.Clock != 20) || c.fault != "" && (err == nil || !strings.Contains(err.Error(), c.fault)) {
			t.Errorf("%s: asked for %q, got %v, %v", c.name, asked, sc, err)
		}
		base, opened := OpenFrom(c.name, read)
		if (err == nil) != (opened == nil) || err == nil && base.Scenario().Title != c.title || err != nil && err.Error() != opened.Error() {
			t.Errorf("%s: Load and Open differ: %v, %v", c.name, err, opened)
		}
	}
}
