package report

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/olekukonko/tablewriter/pkg/twwidth"

	"playout/model"
	"playout/sim"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func TestGolden(t *testing.T) {
	partial := testResult()
	partial.Asked = 50000
	few := testResult()
	few.Doubt = true
	cases := []struct {
		file   string
		result *sim.Result
		run    Run
		format Format
		full   bool
	}{
		{"short.txt", testResult(), Run{}, Table, false},
		{"full.txt", testResult(), Run{}, Table, true},
		{"partial.txt", partial, Run{Precision: 0.005}, Table, false},
		{"full.md", testResult(), Run{}, Markdown, true},
		{"all.csv", testResult(), Run{}, CSV, false},
		{"all.json", testResult(), Run{}, JSON, false},
		{"doubt.txt", doubtResult(), Run{}, Table, false},
		{"few_draws.txt", few, Run{}, Table, false},
		{"none.txt", &sim.Result{Asked: 10000}, Run{}, Table, true},
		{"none.json", &sim.Result{Asked: 10000}, Run{}, JSON, false},
	}
	for _, c := range cases {
		t.Run(c.file, func(t *testing.T) {
			c.run.Version, c.run.Revision = "v0.0.0-test", 1
			got := print(t, Summarise(testScenario(), c.result, c.run), c.format, c.full)
			path := filepath.Join("testdata", c.file)
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("output differs from %s; run with -update and read the difference. Got:\n%s", path, got)
			}
		})
	}
}

// print writes a summary twice and insists on the same bytes.
func print(t *testing.T, s *Summary, f Format, full bool) string {
	t.Helper()
	var first, second bytes.Buffer
	for _, b := range []*bytes.Buffer{&first, &second} {
		if err := s.Write(b, f, full); err != nil {
			t.Fatal(err)
		}
	}
	if first.String() != second.String() {
		t.Errorf("%s: two prints of one summary differ", f)
	}
	return first.String()
}

// hostile are names a scenario file could hold.
var hostile = []string{
	strings.Repeat("Long name ", 40),
	"pipe|pipe `code` [link](x) <b>*bold*_\\",
	"=SUM(A1:A9)",
	"tab\tnew\nline\r\x1b[31mred\x00\x07",
	"\u202eright to left\u2066\u200b\ufeff",
	strings.Repeat("守", 60),
	"Z" + strings.Repeat("\u0301", 500),
	"bad \xff\xfe bytes",
}

func hostileSummary() *Summary {
	sc := testScenario()
	sc.Title = strings.Join(hostile, " ")
	for i, name := range hostile {
		for side := range sc.Teams {
			sc.Teams[side].Players[i].Name = name
		}
	}
	return Summarise(sc, testResult(), Run{Precision: 0.01, Version: "v0.0.0-test"})
}

func doubtSummary() *Summary { return Summarise(testScenario(), doubtResult(), Run{}) }

func TestTerminalLines(t *testing.T) {
	for name, s := range map[string]*Summary{"average": testSummary(), "hostile": hostileSummary(), "doubt": doubtSummary()} {
		for line := range strings.Lines(print(t, s, Table, true)) {
			line = strings.TrimSuffix(line, "\n")
			if w := width(line); w > maxColumns {
				t.Errorf("%s: %d columns: %q", name, w, line)
			}
			if strings.TrimRight(line, " ") != line {
				t.Errorf("%s: trailing blanks: %q", name, line)
			}
			for _, r := range line {
				if unicode.In(r, unicode.Cc, unicode.Cf) {
					t.Errorf("%s: control character %U in %q", name, r, line)
				}
			}
		}
	}
}

// The tables must not depend on the locale of the machine.
func TestLocaleDoesNotMatter(t *testing.T) {
	want := print(t, hostileSummary(), Table, true)
	twwidth.SetEastAsian(true)
	defer twwidth.SetEastAsian(false)
	if got := print(t, hostileSummary(), Table, true); got != want {
		t.Errorf("with East Asian widths the output is\n%s", got)
	}
}

func TestMarkdownTables(t *testing.T) {
	text := print(t, hostileSummary(), Markdown, true)
	columns := 0
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, "|") {
			columns = 0
			continue
		}
		n := strings.Count(strings.ReplaceAll(line, `\|`, ""), "|")
		if columns == 0 {
			columns = n
		}
		if n != columns {
			t.Errorf("%d columns in a table of %d: %q", n-1, columns-1, line)
		}
	}
	for _, bad := range []string{"<b>", "*bold*_", "`code`", "](x)"} {
		if strings.Contains(strings.ReplaceAll(text, "\\"+bad[:1], ""), bad) {
			t.Errorf("unescaped %q", bad)
		}
	}
}

type brokenPipe struct{}

var errBroken = errors.New("broken")

func (brokenPipe) Write([]byte) (int, error) { return 0, errBroken }

func TestWriteErrors(t *testing.T) {
	for _, f := range Formats {
		if err := testSummary().Write(brokenPipe{}, f, true); !errors.Is(err, errBroken) {
			t.Errorf("%s: error %v, want the writer's", f, err)
		}
	}
	if err := testSummary().Write(&bytes.Buffer{}, "yaml", false); err == nil {
		t.Error("an unknown format is accepted")
	}
}

// Every end, lane, method and so on needs words; a new one must not print blank.
func TestWords(t *testing.T) {
	s := testSummary()
	check := func(words map[string]string, key string) {
		t.Helper()
		if words[key] == "" {
			t.Errorf("no words for %q", key)
		}
	}
	for _, f := range s.Ends {
		check(endWords, f.Key)
		check(endNouns, f.Key)
	}
	for _, f := range s.EntriesByLane {
		check(laneWords, f.Key)
	}
	for _, f := range s.EntriesByMethod {
		check(methodWords, f.Key)
	}
	for _, f := range s.ShotsBySource {
		check(sourceWords, f.Key)
	}
	for _, f := range s.Rates {
		check(stepWords, f.Key)
	}
	for _, f := range s.Means {
		check(meanWords, f.Key)
	}
	for _, f := range s.Passing.ByKind {
		check(passKindWords, f.Key)
	}
	for _, f := range s.Switches.Chain.Verdicts {
		check(verdictWords, f.Key)
	}
	for _, f := range s.AfterLoss.Takeovers {
		check(takeoverWords, f.Key)
	}
	for _, f := range s.AfterLoss.ByZone[0].Value {
		check(widthWords, f.Key)
	}
	for k := range model.NumThirds {
		check(thirdWords, k.String())
	}
}
