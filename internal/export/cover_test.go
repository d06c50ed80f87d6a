package export

import (
	"reflect"
	"strings"
	"testing"

	"playout/model"
	"playout/sim"
)

// leftOut are the fields of sim.Possession that no column shows, with the reason.
// A path stands for all below it.
var leftOut = map[string]string{
	"Shape":              "distributions over many possessions",
	"BlockSample.LagEC":  "a sum for a regression over many possessions",
	"BlockSample.LagCC":  "likewise",
	"BlockSample.Speed":  "distribution over many possessions",
	"BlockSample.Jumped": "rows of type press in actions say who",
}

// A change of any field of a possession shows in its row, unless it is left out for
// a stated reason: what the engine comes to count next cannot be forgotten here.
func TestEveryFieldOfAPossessionIsExported(t *testing.T) {
	names := newRoster(scenarioOf(1))
	base := func() *sim.Possession {
		p := &sim.Possession{Loser: 3, FinalThird: true, FinalReached: true, Shot: true}
		p.After.Played, p.After.Shot = true, true
		b := &p.BlockSample
		b.Ticks, b.GapN, b.Pressure.N, b.Pressure.Pressed = 7, 7, 7, 7
		b.Gap, b.Midfield, b.Width, b.Length, b.Pressing, b.Pinned, b.Pressure.Ticks = 700, 700, 700, 700, 7, 7, 7
		for i := range b.Line {
			b.Line[i] = sim.BandSum{N: 7, X: 700}
		}
		return p
	}
	row := func(p *sim.Possession) (out []cell) {
		for _, c := range possessionTable.columns {
			out = append(out, c.of(&possessionRow{p, names}))
		}
		return out
	}
	want := row(base())
	shown, hidden := 0, 0
	var walk func(path string, at func(p *sim.Possession) reflect.Value)
	walk = func(path string, at func(p *sim.Possession) reflect.Value) {
		if _, out := leftOut[path]; out {
			hidden++
			return
		}
		switch v := at(base()); v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(strings.TrimPrefix(path+"."+v.Type().Field(i).Name, "."), func(p *sim.Possession) reflect.Value { return at(p).Field(i) })
			}
		case reflect.Array:
			for i := range v.Len() {
				walk(path, func(p *sim.Possession) reflect.Value { return at(p).Index(i) })
			}
		default:
			p := base()
			switch f := at(p); f.Kind() {
			case reflect.Bool:
				f.SetBool(!f.Bool())
			case reflect.Float64:
				f.SetFloat(f.Float() + 1)
			case reflect.Uint8:
				f.SetUint(f.Uint() + 1)
			default:
				f.SetInt(f.Int() + 1000*bit(strings.HasPrefix(path, "BlockSample")) + 1)
			}
			shown++
			if reflect.DeepEqual(want, row(p)) {
				t.Errorf("no column shows %s: add one, or say in leftOut why not", path)
			}
		}
	}
	walk("", func(p *sim.Possession) reflect.Value { return reflect.ValueOf(p).Elem() })
	if shown < 100 || hidden < 5 {
		t.Errorf("%d fields looked at, %d left out", shown, hidden)
	}
}

func bit(b bool) int64 {
	if b {
		return 1
	}
	return 0
}

// Whatever number a run has, no two columns share a name.
func TestColumnsAreNamedForTheirKinds(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range possessionTable.columns {
		if seen[c.name] || strings.ToLower(c.name) != c.name || strings.Contains(c.name, " ") {
			t.Errorf("column %q", c.name)
		}
		seen[c.name] = true
	}
	for k := range model.NumRuns {
		if !seen["runs_"+k.String()] {
			t.Errorf("no column for runs %v", k)
		}
	}
}
