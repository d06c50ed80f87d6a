package scenario

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

func open(t *testing.T, name string) *Base {
	t.Helper()
	b, err := Open(filepath.Join("..", "..", "scenarios", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestWith sets values of each kind and looks for them in the model.
func TestWith(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	before := fmt.Sprintf("%+v", *b.Scenario())
	type got func(sc *model.Scenario) any
	att := func(sc *model.Scenario) *model.Team { return &sc.Teams[model.Attack] }
	def := func(sc *model.Scenario) *model.Team { return &sc.Teams[model.Defence] }
	for _, c := range []struct {
		path, value string
		got         got
		want        any
	}{
		{"clock", "60", func(sc *model.Scenario) any { return sc.Clock }, 60.0},
		{"pitch.length", "100", func(sc *model.Scenario) any { return sc.Pitch.Length }, 100.0},
		{"start.from", "keeper", func(sc *model.Scenario) any { return sc.Start.Kind }, model.FromKeeper},
		{"start.player", "4", func(sc *model.Scenario) any { return sc.Start.Player }, 4},
		{"attack.level", "70", func(sc *model.Scenario) any { return att(sc).Players[0].Percentile[model.Pace] }, 70.0},
		{"attack.players.7.pace", "91.5", func(sc *model.Scenario) any { return att(sc).Players[10].Percentile[model.Pace] }, 91.5},
		{"attack.players.9.behaviour", "{pin: 4}", func(sc *model.Scenario) any { return att(sc).Players[9].Behaviour.Opponent }, 4},
		{"attack.players.7.foot", "both", func(sc *model.Scenario) any { return att(sc).Players[10].Foot }, model.BothFeet},
		{"attack.structure.build_up", "3-2-5", func(sc *model.Scenario) any { return att(sc).Structure.Shape[model.BuildUp] }, "3-2-5"},
		{"attack.structure.build_up.6", "[-30, 2]", func(sc *model.Scenario) any { return att(sc).Structure.Anchor[model.BuildUp][5] }, r2.Vec{X: -30, Y: 2}},
		{"attack.structure.build_up.6.y", "3", func(sc *model.Scenario) any { return att(sc).Structure.Anchor[model.BuildUp][5] }, r2.Vec{X: -24, Y: 3}},
		{"attack.plan.lanes.left_wing", "2", func(sc *model.Scenario) any { return att(sc).Plan.Lane[model.LeftWing] }, 2.0},
		{"attack.plan.find", "[7, 11]", func(sc *model.Scenario) any { return att(sc).Plan.Find }, []int{7, 11}},
		{"attack.runs.3.chance", "0.9", func(sc *model.Scenario) any { return att(sc).Runs[2].Chance }, 0.9},
		{"attack.runs", "[]", func(sc *model.Scenario) any { return len(att(sc).Runs) }, 0},
		{"defence.runs.1.chance", "0.9", func(sc *model.Scenario) any { return def(sc).Runs[0].Chance }, 0.9},
		{"defence.block", "4-4-2-low", func(sc *model.Scenario) any { return def(sc).Block.Shape.String() }, "4-4-2"},
		{"defence.block.press.height", "70", func(sc *model.Scenario) any { return def(sc).Block.Press.Height }, 70.0},
		{"defence.block.press.height", "70", func(sc *model.Scenario) any { return def(sc).Block.Width }, 32.0},
		{"defence.block.shift.delay", "4", func(sc *model.Scenario) any { return def(sc).Block.ShiftDelay }, 4.0},
		{"defence.block.slots.9.side", "-0.2", func(sc *model.Scenario) any { return def(sc).Block.Slot[10].Side }, -0.2},
	} {
		sc, err := b.With(Setting{c.path, c.value})
		if err != nil {
			t.Errorf("%s=%s: %v", c.path, c.value, err)
		} else if g := c.got(sc); !reflect.DeepEqual(g, c.want) {
			t.Errorf("%s=%s gives %v, want %v", c.path, c.value, g, c.want)
		}
	}
	if after := fmt.Sprintf("%+v", *b.Scenario()); after != before {
		t.Error("the base has changed")
	}
	if sc, err := b.With(); err != nil || !reflect.DeepEqual(sc, b.Scenario()) {
		t.Errorf("no setting changes the scenario (%v)", err)
	}
}

// TestGeneralBeforeParticular: a block of the library does not undo what is
// said of it, in either order.
func TestGeneralBeforeParticular(t *testing.T) {
	b := open(t, "high-press.yaml")
	settings := []Setting{{"defence.block.press.height", "50"}, {"defence.block", "4-5-1-low"}, {"defence.block.width", "30"}}
	one, err := b.With(settings...)
	if err != nil {
		t.Fatal(err)
	}
	two, err := b.With(settings[1], settings[2], settings[0])
	if err != nil || !reflect.DeepEqual(one, two) {
		t.Errorf("the order of settings counts (%v)", err)
	}
	block := one.Teams[model.Defence].Block
	if block.Press.Height != 50 || block.Width != 30 || block.Shape.String() != "4-5-1" || block.ManLoyalty == 0.7 {
		t.Errorf("block %+v", block)
	}
}

func TestSettingFaults(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	for _, c := range []struct{ path, value, want string }{
		{"defence.block.press.height", "300", "defence.block.press.height=300: 300 is outside 0 to 120 m from its own goal line; give a value in that range"},
		{"defence.block.width", "70", "defence.block.width=70: 70 is outside 15 to 68 m; give a value in that range"},
		{"attack.players.7.pace", "-1", "attack.players.7.pace=-1: -1 is outside 0 to 100 percentile; give a value in that range"},
		{"attack.plan.tempo", "quick", `attack.plan.tempo=quick: "quick" is not a number; write a number such as 1`},
		{"attack.plan.tempo", "", "attack.plan.tempo=: has no value; write PATH=VALUE, such as attack.plan.tempo=1.3"},
		{"attack.plan.tempo", "null", "attack.plan.tempo=null: has no value; write PATH=VALUE, such as attack.plan.tempo=1.3"},
		{"attack.plan.tempo", "1: 2", `attack.plan.tempo=1: 2: needs a number, not a mapping (keys with values); write a number such as 1`},
		{"defence.block", "4-4-3-mid", `defence.block=4-4-3-mid: unknown word "4-4-3-mid"; write one of `},
		{"attack.structure.build_up", "4-4-3", `attack.structure.build_up=4-4-3: shape "4-4-3" adds up to 11 outfield players; the rows must add up to 10`},
		{"attack.structure.build_up.6", "[-60, 0]", "attack.structure.build_up.6=[-60, 0]: player 6 stands at (-60.0, 0.0), off the pitch; keep x within 52.5"},
		{"attack.players.1.position", "CF", "attack.players.1.position=CF: the first player, and only he, is the keeper; put the player with position GK first"},
		{"start.player", "77", "start.player=77: player 77 does not play; name the shirt number of a player of the attack"},
		{"pitch.width", "90", ""},
		{"seed", "4", "seed is not a value to change here"},
		{"press.height", "4", `there is no value "press.height"; did you mean attack.block.press.height or defence.block.press.height?`},
		{"defence.press.height", "4", `there is no value "defence.press.height"; did you mean defence.block.press.height?`},
		{"defence.block.press.hight", "4", `there is no value "defence.block.press.hight"; did you mean defence.block.press.height?`},
		{"defense.block.width", "4", `did you mean defence.block.width?`},
		{"attack.players.99.pace", "4", `did you mean attack.players.1.pace or attack.players.3.pace or attack.players.5.pace?`},
		{"attack.plan.temp", "4", `did you mean attack.plan.tempo?`},
		{"tempo", "4", `did you mean attack.plan.tempo or defence.plan.tempo?`},
		{"xyzzy", "4", `a path is made of the keys of the file`},
		{strings.Repeat("a.", 500), "4", "there is no value"},
		{"", "4", "there is no value"},
		{"defence.block.width.", "30", "did you mean defence.block.width?"},
	} {
		_, err := b.With(Setting{c.path, c.value})
		if c.want == "" {
			if err != nil {
				t.Errorf("%s=%s: %v", c.path, c.value, err)
			}
			continue
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s=%s\n got %v\nwant %s", c.path, c.value, err, c.want)
		}
	}
	// What no longer fits is said with what was set.
	_, err := b.With(Setting{"attack.structure.build_up.6.y", "12"}, Setting{"attack.structure.build_up.6.x", "-45"}, Setting{"attack.structure.build_up.5", "[-45, 12]"})
	if err == nil || !strings.Contains(err.Error(), "stand in one place") || strings.Contains(err.Error(), "\n") {
		t.Errorf("two in one place: %v", err)
	}
	for _, settings := range [][]Setting{
		{{"attack.plan.tempo", "1"}, {"attack.plan.tempo", "2"}},
		{{"attack.structure.build_up", "3-2-5"}, {"attack.structure.build_up.6.x", "2"}},
		{{"attack.runs", "[]"}, {"attack.runs.1.chance", "0.2"}},
	} {
		if _, err := b.With(settings...); err == nil {
			t.Errorf("%v is accepted", settings)
		}
	}
}

// TestRanges holds every number's range against what the checks of a scenario
// accept: both bounds are good, a step beyond is not. A bound may still put two
// players in one place.
func TestRanges(t *testing.T) {
	if testing.Short() {
		t.Skip("several thousand scenarios")
	}
	b := open(t, "narrow-diamond.yaml")
	numbers := 0
	for i, p := range b.Paths() {
		if p.Label == "" || strings.Contains(p.Label, "%") {
			t.Errorf("%s: label %q", p.Path, p.Label)
		}
		if p.Value != "" && p.Kind != List {
			if sc, err := b.With(Setting{p.Path, p.Value}); err != nil {
				t.Errorf("%s: its own value is refused: %v", p.Path, err)
			} else if speed := strings.HasSuffix(p.Path, "_speed") || strings.HasSuffix(p.Path, "acceleration"); !speed && !reflect.DeepEqual(sc, b.Scenario()) {
				t.Errorf("%s=%s, its own value, changes the scenario", p.Path, p.Value)
			}
		}
		if !p.numeric() {
			continue
		}
		numbers++
		if !(p.Lo < p.Hi) || p.Value != "" && !(p.Lo <= p.Now && p.Now <= p.Hi) {
			t.Errorf("%s: %v is not from %v to %v", p.Path, p.Now, p.Lo, p.Hi)
		}
		if p.Kind == Whole && !strings.HasSuffix(p.Path, ".row") || strings.Contains(p.Path, ".players.") && i%7 != 0 || strings.Contains(p.Path, ".structure.") && i%3 != 0 {
			continue // shirt numbers; every percentile is like the others
		}
		for _, x := range []float64{p.Lo, p.Hi} {
			if _, err := b.With(Setting{p.Path, format(x)}); err != nil && !strings.Contains(err.Error(), "one place") && !strings.Contains(err.Error(), "off the pitch") {
				t.Errorf("%s=%v: %v", p.Path, x, err)
			}
		}
		// The checks of the model agree: past the bound they refuse too.
		for _, x := range []float64{p.Lo - 1, p.Hi + 1} {
			var l loader
			o := overlay{base: b, root: &node{kind: mapping}}
			src := &source{text: []byte(format(x))}
			if err := o.put(Setting{p.Path, format(x)}, parse(src, &l.faults)); err != nil {
				t.Fatal(err)
			}
			l.build(l.merge(b.root, o.root))
			if len(l.faults) == 0 {
				t.Errorf("%s=%v, beyond %v to %v, is accepted", p.Path, x, p.Lo, p.Hi)
			}
		}
	}
	if numbers < 500 {
		t.Errorf("only %d numbers", numbers)
	}
}

// TestVariantFile: the file says what With does.
func TestVariantFile(t *testing.T) {
	b := open(t, "high-press.yaml")
	settings := []Setting{
		{"defence.block", "4-5-1-low"}, {"defence.block.press.height", "52.5"}, {"attack.players.7.pace", "81"},
		{"attack.players.7.top_speed", "9.5"}, {"attack.structure.build_up.6.x", "-30"}, {"attack.structure.final_third", "3-2-5"},
		{"attack.runs.2.chance", "0.75"}, {"start.player", "3"}, {"attack.plan.find", "[10, 7]"}, {"defence.block.slots.9.side", "0.1"},
		{"defence.block.press.triggers", "[back_pass]"}, {"attack.players.9.behaviour", "{pin: 4}"},
	}
	want, err := b.With(settings...)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "variant.yaml")
	text, err := b.Variant(path, "A: \"variant\"", settings...)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, text, 0o666); err != nil {
		t.Fatal(err)
	}
	got, err := Load(path)
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	want.Title = "A: \"variant\""
	if !reflect.DeepEqual(got, want) {
		t.Errorf("the file gives another scenario:\n%s", text)
	}
	mem, err := OpenBytes("memory", []byte("title: x"))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := mem.Variant(path, "t"); err == nil {
		t.Error("a variant of no file")
	}
}

// TestWithAtOnce runs under the race detector.
func TestWithAtOnce(t *testing.T) {
	b := open(t, "late-switch.yaml")
	var wg sync.WaitGroup
	for i := range 4 {
		wg.Go(func() {
			for j := range 5 {
				if _, err := b.With(Setting{"defence.block.width", fmt.Sprint(28 + i + j)}); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
}

func BenchmarkWith(b *testing.B) {
	base, err := Open("../../scenarios/narrow-diamond.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := base.With(Setting{"defence.block.width", "30"}); err != nil {
			b.Fatal(err)
		}
	}
}

// TestOpenIsLoad: a base is the scenario that loading gives.
func TestOpenIsLoad(t *testing.T) {
	names, err := filepath.Glob("../../scenarios/*.yaml")
	if err != nil || len(names) < 5 {
		t.Fatalf("%d scenarios (%v)", len(names), err)
	}
	for _, name := range names {
		want, err := Load(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := open(t, filepath.Base(name)).Scenario(); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: another scenario", name)
		}
	}
}

// TestBothCoordinates: x and y of a place are set apart, in either order.
func TestBothCoordinates(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	for _, settings := range [][]Setting{
		{{"attack.structure.build_up.6.x", "-30"}, {"attack.structure.build_up.6.y", "4"}},
		{{"attack.structure.build_up.6.y", "4"}, {"attack.structure.build_up.6.x", "-30"}},
		{{"attack.structure.build_up.6.y", "4"}, {"attack.structure.build_up.6", "[-30, 9]"}},
	} {
		sc, err := b.With(settings...)
		if err != nil {
			t.Fatal(err)
		}
		if got := sc.Teams[model.Attack].Structure.Anchor[model.BuildUp][5]; got != (r2.Vec{X: -30, Y: 4}) {
			t.Errorf("%v: stands at %v", settings, got)
		}
	}
}

// TestHostileValues: whatever stands for a value, the answer is a scenario that
// is valid or an error of one line.
func TestHostileValues(t *testing.T) {
	b := open(t, "narrow-diamond.yaml")
	values := []string{"", " ", "[", "{", "}", "a: b", "-", "- 1", "1e999", "-1e999", "[1]", "[1, 2, 3]", "[[]]", "{pin: }", "{pin: 99}", "*x", "&a", "!t 1",
		"\x00", "\xff", "null", "~", "'1'", "1\n2", "---", "--- 1\n---\n2", "{library: 4-4-2-mid, extends: x}", "{6: [1, 2]}", "{1: {}}", strings.Repeat("[", 3000), strings.Repeat("9", 3000)}
	paths := b.Paths()
	for i := 0; i < len(paths); i += 23 {
		for _, v := range values {
			sc, err := b.With(Setting{paths[i].Path, v})
			switch {
			case err == nil && len(sc.Validate()) > 0:
				t.Errorf("%s=%.40q gives a scenario that is not valid", paths[i].Path, v)
			case err != nil && (strings.ContainsAny(err.Error(), "\n\x00") || len(err.Error()) > 1000):
				t.Errorf("%s=%.40q: %q", paths[i].Path, v, err)
			}
		}
	}
	for _, path := range []string{"defence.block", "attack.structure.build_up", "attack.runs", "attack.plan.find", "start.from", "start.ball", "attack.players.9.behaviour", "attack.runs.1.with"} {
		for _, v := range values {
			if _, err := b.With(Setting{path, v}, Setting{"attack.runs.2.chance", "0.5"}, Setting{"defence.block.width", "30"}); err != nil && strings.ContainsAny(err.Error(), "\n\x00") {
				t.Errorf("%s=%.40q: %q", path, v, err)
			}
		}
	}
}
