package still

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/scenario"
	"playout/model"
	"playout/scenarios"
)

// good is a still as short as it can be typed.
const good = `ball: 8
attack: {1: [-45, 0], 2: [-10, -28], 3: [-10, 28], 4: [-20, -8], 5: [-20, 8], 6: [-8, 0], 7: [20, -28], 8: [5, -10], 9: [20, 0], 10: [6, 12], 11: [20, 28]}
defence: {1: [44, 0], 2: [25, 20], 3: [25, -20], 4: [24, 6], 5: [24, -6], 6: [14, 4], 7: [13, 15], 8: [14, -6], 9: [2, 2], 10: [3, -4], 11: [13, -15]}
`

func TestShortest(t *testing.T) {
	f, err := Parse("short.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	s := &f.Still
	if f.Title != "short" || s.Carrier != 7 || s.Pos[0][7] != (r2.Vec{X: 5, Y: -10}) || s.Pos[1][0] != (r2.Vec{X: 44}) {
		t.Errorf("title %q, carrier %d at %v", f.Title, s.Carrier, s.Pos[0][s.Carrier])
	}
	if faults := s.Scenario.Validate(); len(faults) > 0 {
		t.Errorf("the scenario behind it: %v", faults)
	}
	// Everybody is average for where he stands: common practice, no source.
	for t0, want := range []map[int]model.Position{
		{1: model.GK, 2: model.RB, 3: model.LB, 4: model.RCB, 5: model.LCB, 6: model.CDM, 7: model.RW, 9: model.CF, 11: model.LW},
		{1: model.GK, 2: model.RB, 3: model.LB, 7: model.RM, 11: model.LM},
	} {
		for _, p := range s.Scenario.Teams[t0].Players {
			if w, ok := want[p.Number]; ok && p.Position != w {
				t.Errorf("team %d, number %d is taken as a %v, want %v", t0, p.Number, p.Position, w)
			}
		}
	}
}

// The keeper is number 1 or, where nobody wears it, the man nearest to his goal line.
func TestKeeper(t *testing.T) {
	f, err := Parse("k", []byte(strings.Replace(good, "attack: {1:", "attack: {22:", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if n := f.Still.Scenario.Teams[0].Players[0].Number; n != 22 {
		t.Errorf("the keeper is number %d, want 22", n)
	}
}

// Words of direction are as the man's own team sees them.
func TestMoving(t *testing.T) {
	text := strings.NewReplacer(
		"9: [20, 0]", "9: {at: [20, 0], running: goal, speed: 7}", "11: [20, 28]", "11: {at: [20, 28], velocity: [1, -2]}",
		"2: [25, 20]", "2: {at: [25, 20], running: own_goal}", "7: [13, 15]", "7: {at: [13, 15], running: left}",
		"10: [3, -4]", "10: {at: [3, -10], running: ball, foot: left}", "ball: 8", "ball: {player: 8, facing: [5, 30]}",
	).Replace(good)
	f, err := Parse("m", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	s := &f.Still
	near := func(name string, got, want r2.Vec) {
		if r2.Norm(r2.Sub(got, want)) > 1e-9 {
			t.Errorf("%s is %v, want %v", name, got, want)
		}
	}
	near("run at goal", s.Vel[0][8], r2.Vec{X: 7})
	near("velocity", s.Vel[0][10], r2.Vec{X: 1, Y: -2})
	near("a defender's own goal", s.Vel[1][1], r2.Scale(6, r2.Unit(r2.Vec{X: 52.5 - 25, Y: -20})))
	near("a defender's left", s.Vel[1][6], r2.Vec{Y: -6})
	near("to the ball", s.Vel[1][9], r2.Vec{X: 6})
	near("facing", s.Face, r2.Vec{Y: 1})
	if !s.Running[8] || s.Running[10] {
		t.Errorf("running: %v", s.Running)
	}
	if s.Scenario.Teams[1].Players[9].Foot != model.LeftFoot {
		t.Error("the left foot was not taken")
	}
}

// With a scenario the numbers are those of its players, whatever their order.
func TestScenario(t *testing.T) {
	dir := t.TempDir()
	plan := "title: plan\nattack: {level: 80}\n"
	if err := os.WriteFile(filepath.Join(dir, "plan.yaml"), []byte(plan), 0o666); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "still.yaml")
	write := func(text string) {
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	write("scenario: plan.yaml\n" + good)
	f, err := Load(path)
	if err != nil {
		t.Fatal(err)
	}
	p := f.Still.Scenario.Teams[0].Players[7]
	if p.Number != 8 || p.Percentile[model.ShortPassing] != 80 || f.Still.Carrier != 7 || len(f.Files) != 2 {
		t.Errorf("number %d at percentile %v, carrier %d, files %v", p.Number, p.Percentile[model.ShortPassing], f.Still.Carrier, f.Files)
	}
	for _, c := range [][2]string{
		{strings.Replace(good, "attack: {1:", "attack: {22:", 1), "attack, player 22: the scenario has no such player"},
		{good + "pitch: {length: 100}\n", "pitch: the pitch is that of the scenario"},
		{strings.Replace(good, "2: [-10, -28], ", "", 1), "attack: has no place for 2"},
	} {
		write("scenario: plan.yaml\n" + c[0])
		if _, err := Load(path); err == nil || !strings.Contains(err.Error(), c[1]) {
			t.Errorf("error %v, want %q", err, c[1])
		}
	}
	write("scenario: gone.yaml\n" + good)
	if _, err := Load(path); err == nil || !strings.Contains(err.Error(), "gone.yaml: there is no such file") {
		t.Errorf("error %v", err)
	}
}

// Every mistake has its line, its column and a mend.
func TestFaults(t *testing.T) {
	with := func(old, new string) string {
		if !strings.Contains(good, old) {
			t.Fatalf("%q is not in the still", old)
		}
		return strings.Replace(good, old, new, 1)
	}
	for _, c := range []struct{ text, at, what string }{
		{"", "0:0", "the file is empty"},
		{"- 8\n", "1:1", "a still is made of keys with values, not a list"},
		{with("ball: 8", "ball: 12"), "1:7", "ball, player: the attack has no player 12"},
		{with("ball: 8\n", ""), "1:1", "has no ball"},
		{"title: x\nattack: {level: 60}\n", "1:1", "this file is a scenario, not a still"},
		{"possessions: 100\n", "1:1", "this file is a scenario, not a still"},
		{with("9: [20, 0]", "9: {at: [20, 0], running: goal, speed: 20 km/h}"), "2:", `attack, player 9, speed: "20 km/h" is not a number`},
		{with("ball: 8", "ball: eight"), "1:7", `ball: "eight" is not a whole number`},
		{with("ball: 8", "ball: {player: 8, facing: sideways}"), "1:27", `ball, facing: unknown word "sideways"`},
		{with("ball: 8", "ball: {player: 8, facing: ball}"), "1:27", "ball, facing: he has the ball"},
		{with("ball: 8", "ball: {facing: goal}"), "1:7", "ball: has no player"},
		{with("ball: 8", "ball: 8\nbal: 3"), "2:1", `unknown key "bal"`},
		{with("2: [-10, -28], ", ""), "2:9", "attack: places 10 of 11 players"},
		{with("1: [-45, 0]", "1: [-45, 0], 12: [0, 30]"), "2:9", "attack: places 12 players"},
		{with("3: [-10, 28]", "2: [-10, 28]"), "2:38", `key "2" is given twice`},
		{with("3: [-10, 28]", "3: [-10, 38]"), "2:41", "attack, player 3: [-10, 38] is outside the pitch"},
		{with("3: [-10, 28]", "3: [-10]"), "2:41", "attack, player 3: a place is 2 numbers, not 1"},
		{with("3: [-10, 28]", "3: 10"), "2:41", `attack, player 3: needs a place, not "10"`},
		{with("3: [-10, 28]", "3: [-10, 2 8]"), "2:47", `attack, player 3: "2 8" is not a number`},
		{with("9: [2, 2]", "9: [6, 12]"), "3:", "defence, player 9: stands on the same spot as player 10 of the attack"},
		{with("9: [20, 0]", "9: {running: goal}"), "2:", "attack, player 9: has no at"},
		{with("9: [20, 0]", "9: {at: [20, 0], running: [20, 0]}"), "2:", "attack, player 9, running: is where he stands"},
		{with("9: [20, 0]", "9: {at: [20, 0], running: goal, speed: 30}"), "2:", "attack, player 9, speed: 30 m/s"},
		{with("9: [20, 0]", "9: {at: [20, 0], speed: 3}"), "2:", "attack, player 9, speed: counts only for a man who is running"},
		{with("9: [20, 0]", "9: {at: [20, 0], velocity: [20, 0]}"), "2:", "attack, player 9, velocity: is 20.0 m/s"},
		{with("9: [20, 0]", "9: {at: [20, 0], velocity: [2, 0], running: goal}"), "2:", "attack, player 9, running: he has a velocity too"},
		{with("9: [20, 0]", "111: [20, 0]"), "2:", "attack, player 111: is no shirt number"},
		{good + "pitch: {length: 80}\n", "4:17", "pitch, length: 80 is outside 90 to 120 m"},
		{good + "title: 5\n", "4:8", "title: 5 is not read as text"},
	} {
		_, err := Parse("s", []byte(c.text))
		var e *scenario.Error
		if !errors.As(err, &e) {
			t.Errorf("%q: error %v", c.what, err)
			continue
		}
		if at := fmt.Sprintf("%d:%d", e.Line, e.Column); !strings.HasPrefix(at, c.at) || !strings.HasPrefix(e.What, c.what) || e.Mend == "" {
			t.Errorf("got  %s: %s | %s\nwant %s: %s", at, e.What, e.Mend, c.at, c.what)
		}
	}
}

// The shipped stills are read and judged.
func TestShipped(t *testing.T) {
	files, err := filepath.Glob("../../scenarios/stills/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d stills: %v", len(files), err)
	}
	for _, file := range files {
		if _, err := Load(file); err != nil {
			t.Error(err)
		}
	}
	if _, err := Parse("example", scenarios.Still); err != nil {
		t.Error(err)
	}
}
