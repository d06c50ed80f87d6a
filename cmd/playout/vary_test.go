package main

import (
	"slices"
	"strings"
	"testing"

	"playout/internal/scenario"
)

func TestVary(t *testing.T) {
	base, err := scenario.OpenBytes("test", []byte("title: x\ndefence: {block: {width: 33}}"))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		text    string
		want    string // values, or the fault
		numbers int
	}{
		{"defence.block.press.height=40:100:20", "40 60 80 100", 4},
		{"defence.block.press.height=100:40:-20", "40 60 80 100", 4},
		{"attack.plan.tempo=0.5:2:0.5", "0.5 1 1.5 2", 4},
		{"attack.plan.tempo=0.1:0.3:0.1", "0.1 0.2 0.3", 3}, // out of range is for the scenario to say
		{"defence.block.slots.9.side=-0.3:0.3:0.1", "-0.3 -0.2 -0.1 0 0.1 0.2 0.3", 7},
		{"attack.structure.build_up.6.x=-30:-20:2.5", "-30 -27.5 -25 -22.5 -20", 5},
		{"defence.block.width=36,28, 32", "28 32 36", 3},
		{"defence.block.width=30", "30", 1},
		{"defence.block=4-4-2-mid,4-5-1-low", "4-4-2-mid 4-5-1-low", 0},
		{"attack.structure.build_up.6=[-24, 0],[-20,3]", "[-24, 0] [-20,3]", 0},
		{"attack.players.9.behaviour={pin: 4},hold", "{pin: 4} hold", 0},
		{"attack.players.7.pace=1e1:3e1:1e1", "10 20 30", 3},

		{"defence.block.width", "has no values; write PATH=FROM:TO:STEP", 0},
		{"defence.block.widht=1,2", "did you mean defence.block.width", 0},
		{"defence.block.width=28:40", "write FROM:TO:STEP", 0},
		{"defence.block.width=28:40:4:1", "write FROM:TO:STEP", 0},
		{"defence.block.width=28:40:x", `"x" is not a number`, 0},
		{"defence.block.width=28:40:0x4", `"0x4" is not a number`, 0},
		{"defence.block.width=28:NaN:4", `"NaN" is not a number`, 0},
		{"defence.block.width=28:inf:4", `"inf" is not a number`, 0},
		{"defence.block.width=28:40:0", "the step is 0", 0},
		{"defence.block.width=28:40:-4", "a step of -4 leads away from 40; write 28:40:4", 0},
		{"defence.block.width=40:28:4", "a step of 4 leads away from 28; write 40:28:-4", 0},
		{"defence.block.width=28:40:5", "steps of 5 from 28 do not end at 40 but at 38 or 43", 0},
		{"defence.block.width=28:40:50", "do not end at 40 but at 28 or 78", 0},
		{"defence.block.width=28:28:1", "FROM and TO are the same; write PATH=28", 0},
		{"defence.block.width=0:50:0.0001", "more than the 10000 a sweep plays", 0},
		{"defence.block.width=0:1e300:1e-300", "more than the 10000 a sweep plays", 0},
		{"defence.block.width=28,,30", "a value is missing", 0},
		{"defence.block.width=", "a value is missing", 0},
		{"defence.block.width=28,30,28.0", "is there twice", 0},
		{"defence.block.width=28,30 # wide", `"30 # wide" is not a number`, 0},
		{"defence.block.width=28:40:1e-320", "so many values are more than the 10000", 0},
		{"defence.block=4-4-2-mid,4-4-2-mid", "4-4-2-mid is there twice", 0},
		{"defence.block.width=" + strings.Repeat("1,", 20000) + "1", "more than 10000 values", 0},
	} {
		a, err := vary(base, c.text)
		if err != nil {
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("%.60s: %v\nwant %s", c.text, err, c.want)
			}
			continue
		}
		if got := strings.Join(a.Values, " "); got != c.want || len(a.Numbers) != c.numbers || !slices.IsSorted(a.Numbers) {
			t.Errorf("%s: %s and %v, want %s", c.text, got, a.Numbers, c.want)
		}
	}
}

// TestCompleteVary goes down a path key by key, as a shell does.
func TestCompleteVary(t *testing.T) {
	for _, c := range []struct{ typed, want string }{
		{"def", "defence."},
		{"defence.block.p", "defence.block.press."},
		{"defence.block.press.h", "defence.block.press.height=\t"},
		{"attack.players.7.pa", "attack.players.7.pace=\tpace of the attack's number 7"},
		{"defence.block=4-4-2-mid,4-5", "defence.block=4-4-2-mid,4-5-1-low"},
		{"attack.plan.tempo=", "0.3 to 6 s, now 1.3"},
	} {
		got, _ := completeVary(nil, []string{"../../scenarios/narrow-diamond.yaml"}, c.typed)
		if !slices.ContainsFunc(got, func(s string) bool { return strings.Contains(s, c.want) }) {
			t.Errorf("%q: %q, want %q among them", c.typed, got, c.want)
		}
	}
	if got, _ := completeVary(nil, nil, "attack.players.11"); !slices.Contains(got, "attack.players.11.") {
		t.Errorf("without a file: %q", got)
	}
	if got, _ := completeVary(nil, []string{"no such file"}, "xyz"); len(got) > 0 {
		t.Errorf("nothing begins with xyz, but %q", got)
	}
}
