package export

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/parquet-go/parquet-go"

	"playout/internal/plain"
)

// hostile are names that break files which are written without care.
var hostile = []string{
	"=HYPERLINK(\"http://x\",\"y\")", "+1+1", "-2+3", "@SUM(A1)", "\t=1+1", "\r\n=1+1", "＝1+1", "'=1", "a,b;c\"d",
	"two\nlines\r\nthree", "nul\x00nul", "\u202Egnimorf eht\u202C", "\u2028\u2029\u0085", "<script>alert(1)</script>", `\"},{"id":"x`,
	"\xff\xfe not utf-8", strings.Repeat("x", 10000), strings.Repeat("é", 10000), "", "\ufeffbom", "🙂",
	"../../etc",
}

// No name of a scenario breaks a line, a cell or an object, or becomes a formula.
func TestHostileNames(t *testing.T) {
	for i := 0; i < len(hostile); i += 11 {
		sc := scenarioOf(2)
		for k := range 11 {
			name := hostile[(i+k)%len(hostile)]
			sc.Teams[0].Players[k].Name = name
			sc.Teams[1].Players[k].Name = name
		}
		sc.Title, sc.Teams[0].Name, sc.Teams[1].Name = hostile[i], hostile[i+1], hostile[i+2]
		cfg := everything()
		cfg.Sample = 1
		dir, _ := exported(t, sc, cfg)
		got := files(t, dir)
		_, players := rowsOf(t, got["players.csv"])
		if len(players) != 22 {
			t.Fatalf("%d players", len(players))
		}
		for name, data := range got {
			if strings.HasSuffix(name, ".parquet") {
				continue // read back below
			}
			if !utf8.Valid(data) || bytes.ContainsRune(data, 0) || bytes.ContainsRune(data, '\u202e') || bytes.ContainsRune(data, '\u2028') {
				t.Errorf("%s holds what is no plain text", name)
			}
		}
		for _, row := range players {
			for column, v := range row {
				if v != "" && strings.ContainsRune("=+-@＝\t\r\n", []rune(v)[0]) {
					t.Errorf("players.csv, %s: %q is a formula", column, v)
				}
				if utf8.RuneCountInString(v) > 201 || strings.ContainsAny(v, "\n\r\x00") {
					t.Errorf("players.csv, %s: %q", column, v)
				}
			}
		}
		// Parquet by a struct's tags: the names as they are, but for what is no plain text.
		type named struct {
			Team string `parquet:"team,optional"`
			Name string `parquet:"name,optional"`
		}
		typed, err := parquet.Read[named](bytes.NewReader(got["players.parquet"]), int64(len(got["players.parquet"])))
		if err != nil || len(typed) != 22 {
			t.Fatalf("players.parquet: %d rows, %v", len(typed), err)
		}
		for k, row := range typed {
			if want := plain.Clean(sc.Teams[k/11].Players[k%11].Name); row.Name != want || row.Team != sides[k/11] {
				t.Errorf("players.parquet: %q of %q, want %q", row.Name, row.Team, want)
			}
		}
		if n := bytes.Count(got["players.csv"], []byte("\n")); n != 23 {
			t.Errorf("players.csv has %d lines", n)
		}
		for _, name := range []string{"match.json", "meta.json", manifestName} {
			if !json.Valid(got[name]) {
				t.Errorf("%s is no JSON", name)
			}
		}
		for _, name := range []string{"event.jsonl", "tracking.jsonl"} {
			for _, line := range bytes.Split(bytes.TrimSpace(got[name]), []byte("\n")) {
				if !json.Valid(line) {
					t.Fatalf("%s: %s", name, line)
				}
			}
		}
	}
}
