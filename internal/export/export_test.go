package export

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/csv"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"playout/model"
	"playout/sim"
)

// everything is a small export of all there is.
func everything() Config {
	return Config{Formats: []Format{Parquet, CSV, CDF}, Sample: 3, Frames: true, Options: true, Version: "test", Scenario: []byte("title: a plan\n")}
}

func scenarioOf(possessions int) *model.Scenario {
	sc := model.AverageScenario()
	sc.Possessions = possessions
	return &sc
}

func exported(t *testing.T, sc *model.Scenario, cfg Config) (string, *Manifest) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "data")
	m, err := Export(context.Background(), sc, dir, cfg)
	if err != nil {
		t.Fatal(err)
	}
	return dir, m
}

// files reads a directory that holds nothing else.
func files(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[e.Name()] = data
	}
	return out
}

// rowsOf reads a CSV file as rows by column.
func rowsOf(t *testing.T, data []byte) (head []string, rows []map[string]string) {
	t.Helper()
	lines, err := csv.NewReader(bytes.NewReader(data)).ReadAll() // refuses rows of another length
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return lines[0], rows
}

func TestSameBytesForAnyNumberOfWorkers(t *testing.T) {
	var first map[string][]byte
	for _, workers := range []int{1, 2, 7} {
		cfg := everything()
		cfg.Workers = workers
		dir, m := exported(t, scenarioOf(60), cfg) // two batches of the engine
		got := files(t, dir)
		if first == nil {
			first = got
			if len(got) != len(m.Files)+1 || m.Partial || m.Possessions != 60 || m.Filmed != 3 {
				t.Errorf("%d files; manifest %d files, partial %v, %d possessions, %d filmed", len(got), len(m.Files), m.Partial, m.Possessions, m.Filmed)
			}
			for _, f := range m.Files {
				if sum := sha256.Sum256(got[f.Name]); f.SHA256 != hex.EncodeToString(sum[:]) || f.Bytes != int64(len(got[f.Name])) {
					t.Errorf("%s: the manifest has another checksum or length", f.Name)
				}
			}
			continue
		}
		for name, data := range first {
			if !bytes.Equal(data, got[name]) {
				t.Errorf("%s differs with %d workers", name, workers)
			}
		}
	}
}

// The schemas are those of the format's authors: testdata/cdf/README.md.
func TestCommonDataFormat(t *testing.T) {
	sc := scenarioOf(30)
	cfg := everything()
	cfg.Formats, cfg.Sample, cfg.Frames, cfg.Options = []Format{CDF}, 30, false, false
	dir, m := exported(t, sc, cfg)
	got := files(t, dir)
	check := func(schema string) func(data []byte) error {
		s, err := jsonschema.NewCompiler().Compile(filepath.Join("testdata", "cdf", schema+".schema.json"))
		if err != nil {
			t.Fatal(err)
		}
		return func(data []byte) error {
			v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
			if err != nil {
				return err
			}
			return s.Validate(v)
		}
	}
	for _, name := range []string{"match", "meta"} {
		valid := check(name)
		if err := valid(got[name+".json"]); err != nil {
			t.Errorf("%s.json: %v", name, err)
		}
		if valid([]byte(`{}`)) == nil {
			t.Errorf("%s: the schema takes anything", name)
		}
	}
	lines := map[string][][]byte{}
	for _, name := range []string{"event", "tracking"} {
		valid := check(name)
		lines[name] = bytes.Split(bytes.TrimSuffix(got[name+".jsonl"], []byte("\n")), []byte("\n"))
		for i, line := range lines[name] {
			if err := valid(line); err != nil {
				t.Fatalf("%s.jsonl, line %d: %v\n%s", name, i+1, err, line)
			}
		}
		if valid([]byte(`{}`)) == nil {
			t.Errorf("%s: the schema takes anything", name)
		}
	}

	// Frames increase, and are those of the films.
	next, id, last := 0, -1, -1
	var film *sim.Film
	frames := map[int]cdfFrame{}
	for _, line := range lines["tracking"] {
		var f cdfFrame
		if err := json.Unmarshal(line, &f); err != nil {
			t.Fatal(err)
		}
		if f.Possession != id {
			id, next = f.Possession, 0
			film = sim.Record(sc, nil, id)
		}
		want := film.Frames[next]
		if f.Frame <= last || f.Frame != id*m.SlotS*10+next {
			t.Fatalf("possession %d: frame_id %d after %d", id, f.Frame, last)
		}
		if math.Abs(f.Ball.X-want.Ball.X) > 0.0006 || math.Abs(f.Teams.Away.Players[7].Y-want.Players[1][7].Y) > 0.0006 {
			t.Fatalf("possession %d, tick %d: ball at %v, want %v", id, next, f.Ball, want.Ball)
		}
		frames[f.Frame] = f
		last = f.Frame
		next++
	}
	if id != 29 {
		t.Errorf("%d possessions of 30", id+1)
	}

	// A pass leaves from where the ball is, and arrives where it is.
	passes := 0
	for _, line := range lines["event"] {
		var e cdfEventLine
		if err := json.Unmarshal(line, &e); err != nil {
			t.Fatal(err)
		}
		from, ok := frames[e.Tracking.Frame]
		to, ok2 := frames[e.Tracking.End]
		if !ok || !ok2 || from.Timestamp != e.Event.Time {
			t.Fatalf("%s: no frame %d or %d, or another time", e.Event.ID, e.Tracking.Frame, e.Tracking.End)
		}
		if e.Event.Type != "pass" || e.Event.Receiver == nil {
			continue
		}
		passes++
		if d := math.Hypot(e.Event.XEnd-to.Ball.X, e.Event.YEnd-to.Ball.Y); d > 1 {
			t.Errorf("%s: received %.1f m from the ball", e.Event.ID, d)
		}
		if d := math.Hypot(e.Event.X-from.Ball.X, e.Event.Y-from.Ball.Y); d > 3 { // the ball has flown for one tick
			t.Errorf("%s: played %.1f m from the ball", e.Event.ID, d)
		}
	}
	if passes < 30 {
		t.Errorf("only %d complete passes", passes)
	}
}

// A slot of the synthetic clock outlasts every possession the model permits.
func TestSlot(t *testing.T) {
	for _, clock := range []float64{model.MinClock, model.DefaultClock, 119.5, 120, model.MaxClock} {
		for _, after := range []float64{0, model.DefaultAfterLoss, model.MaxAfterLoss} {
			sc := model.Scenario{Clock: clock, AfterLoss: after}
			if s := slot(&sc); float64(s) < clock+after+0.2 || s%60 != 0 {
				t.Errorf("clock %v s and %v s after: a slot of %d s", clock, after, s)
			}
		}
	}
}

// CSV by encoding/csv, Parquet by its columns, page for page: the same cells.
func TestParquetAgreesWithCSV(t *testing.T) {
	dir, _ := exported(t, scenarioOf(40), everything())
	for _, table := range Tables() {
		head, rows := rowsOf(t, files(t, dir)[table.Name+".csv"])
		f, err := os.Open(filepath.Join(dir, table.Name+".parquet"))
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		info, _ := f.Stat()
		pf, err := parquet.OpenFile(f, info.Size())
		if err != nil {
			t.Fatal(err)
		}
		if seed, ok := pf.Lookup("playout.seed"); !ok || seed != "1" {
			t.Errorf("%s: seed %q in the metadata", table.Name, seed)
		}
		var names []string
		for i, c := range pf.Root().Columns() {
			names = append(names, c.Name())
			if table.Columns[i].Name != c.Name() || head[i] != c.Name() {
				t.Errorf("%s: column %d is %s in Parquet, %s in CSV, %s in the help", table.Name, i, c.Name(), head[i], table.Columns[i].Name)
			}
		}
		for i, name := range names {
			at := 0
			for _, group := range pf.RowGroups() {
				pages := group.ColumnChunks()[i].Pages()
				for {
					page, err := pages.ReadPage()
					if errors.Is(err, io.EOF) {
						break
					}
					if err != nil {
						t.Fatal(err)
					}
					values := make([]parquet.Value, page.NumValues())
					n, err := page.Values().ReadValues(values)
					if err != nil && !errors.Is(err, io.EOF) {
						t.Fatal(err)
					}
					for _, v := range values[:n] {
						if got := shown(v); at >= len(rows) || got != rows[at][name] {
							t.Fatalf("%s, row %d, %s: %q in Parquet, %q in CSV", table.Name, at, name, got, rows[at][name])
						}
						at++
					}
				}
				pages.Close()
			}
			if at != len(rows) || at == 0 {
				t.Errorf("%s, %s: %d values in Parquet, %d in CSV", table.Name, name, at, len(rows))
			}
		}
	}
}

// shown is a value as CSV has it.
func shown(v parquet.Value) string {
	switch {
	case v.IsNull():
		return ""
	case v.Kind() == parquet.Boolean:
		return strconv.FormatBool(v.Boolean())
	case v.Kind() == parquet.Int64:
		return strconv.FormatInt(v.Int64(), 10)
	case v.Kind() == parquet.Double:
		return strconv.FormatFloat(v.Double(), 'f', -1, 64)
	}
	return string(v.ByteArray())
}

// What is in the tables is what the engine played.
func TestTablesAgreeWithTheEngine(t *testing.T) {
	sc := scenarioOf(25)
	dir, _ := exported(t, sc, everything())
	got := files(t, dir)
	_, possessions := rowsOf(t, got["possessions.csv"])
	_, actions := rowsOf(t, got["actions.csv"])
	_, frames := rowsOf(t, got["frames.csv"])
	_, options := rowsOf(t, got["options.csv"])
	number := func(row map[string]string, name string) float64 {
		x, err := strconv.ParseFloat(row[name], 64)
		if err != nil {
			t.Fatalf("%s is %q", name, row[name])
		}
		return x
	}
	near := func(row map[string]string, name string, want float64) {
		t.Helper()
		if x := number(row, name); math.Abs(x-want) > 0.0005001 {
			t.Errorf("possession %s: %s is %v, the engine says %v", row["possession"], name, x, want)
		}
	}
	if len(possessions) != 25 {
		t.Fatalf("%d possessions", len(possessions))
	}
	passes := map[string]int{}
	for _, row := range actions {
		if row["type"] == "pass" && row["phase"] == "possession" {
			passes[row["possession"]]++
		}
	}
	for id, row := range possessions {
		p, _ := sim.Replay(sc, nil, id)
		near(row, "possession", float64(id))
		near(row, "start_x", p.Start.X)
		near(row, "end_y", p.Place.Y)
		near(row, "xg", p.XG)
		near(row, "duration_s", float64(p.Ticks)/10)
		if row["end"] != p.End.String() || row["final_third"] != strconv.FormatBool(p.FinalThird) {
			t.Errorf("possession %d: end %s, final_third %s", id, row["end"], row["final_third"])
		}
		if p.After.Played {
			near(row, "after_xg", p.After.XG)
		}
		if p.FinalThird {
			near(row, "entry_s", float64(p.Entry.Tick)/10)
		} else if row["entry_lane"] != "" {
			t.Errorf("possession %d has a lane of entry without an entry", id)
		}
		if want := p.Attempted[0] + p.Attempted[1] + p.Attempted[2]; passes[row["possession"]] != want {
			t.Errorf("possession %d: %d rows of passes, the engine counts %d", id, passes[row["possession"]], want)
		}
	}
	i, k := 0, 0
	for id := range 3 {
		film := sim.Record(sc, nil, id)
		for _, f := range film.Frames {
			for side := range f.Players {
				for n, at := range f.Players[side] {
					row := frames[i]
					near(row, "possession", float64(id))
					near(row, "tick", float64(f.Tick))
					near(row, "player", float64(sc.Teams[side].Players[n].Number))
					near(row, "x", at.X)
					near(row, "ball_z", f.Height)
					i++
				}
			}
		}
		for _, d := range film.Decisions {
			for n, o := range d.Options {
				row := options[k]
				near(row, "option", float64(n))
				near(row, "chance", o.Chance)
				if (row["taken"] == "true") != (n == d.Taken) || row["act"] != o.Act.String() {
					t.Errorf("possession %d: option %d is %v", id, n, row)
				}
				k++
			}
		}
	}
	if i != len(frames) || k != len(options) {
		t.Errorf("%d rows of frames and %d of options are of no film", len(frames)-i, len(options)-k)
	}
}

// Every column is documented, once, with a unit that is one.
func TestEveryColumnIsDocumented(t *testing.T) {
	text := Describe()
	units := []string{"", "m", "s", "0.1 s", "0 to 1", "goals", "players"}
	for _, table := range Tables() {
		at := strings.Index(text, strings.ToUpper(table.Name)+": ")
		if at < 0 {
			t.Fatalf("no table %s", table.Name)
		}
		part, seen := text[at:], map[string]bool{}
		for _, c := range table.Columns {
			if !strings.Contains(part, "\n  "+c.Name+" ") || seen[c.Name] {
				t.Errorf("%s.%s is not documented, or twice there", table.Name, c.Name)
			}
			seen[c.Name] = true
			if !slices.Contains(units, c.Unit) {
				t.Errorf("%s.%s: unit %q", table.Name, c.Name, c.Unit)
			}
			if c.Says == "" {
				t.Errorf("%s.%s says nothing", table.Name, c.Name)
			}
			if c.Type == "number" && c.Unit == "" {
				t.Errorf("%s.%s is a number without a unit", table.Name, c.Name)
			}
		}
	}
}
