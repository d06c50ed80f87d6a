package scenario

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"playout/model"
)

// candidates reads a shortlist for the right winger of narrow-diamond.yaml.
func candidates(t *testing.T, text string) ([]model.Player, model.Player, error) {
	t.Helper()
	sc := shipped(t)["narrow-diamond.yaml"]
	path := filepath.Join(t.TempDir(), "list.csv")
	if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
	at := sc.Teams[model.Attack].ByNumber(7)
	got, err := Shortlist(path, ReadFile, sc, model.Attack, at)
	return got, sc.Teams[model.Attack].Players[at], err
}

func TestShortlist(t *testing.T) {
	got, now, err := candidates(t, "\ufeffname, foot, pace,peak_acceleration,position\r\n\"Dahl, Ivo\",right,80,,\r\n,,,,\r\n=SUM(A1),,,7,LB\r\n")
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != 2 {
		t.Fatalf("%d candidates", len(got))
	}
	a, b := got[0], got[1]
	if a.Name != "Dahl, Ivo" || a.Foot != model.RightFoot || a.Percentile[model.Pace] != 80 || a.Number != 7 {
		t.Errorf("%+v", a)
	}
	if a.TopSpeed != 0 || a.PeakAccel != now.PeakAccel || a.Position != model.RW || a.Percentile[model.TakeOn] != now.Percentile[model.TakeOn] {
		t.Errorf("pace replaces the present player's top speed and nothing else: %+v", a)
	}
	if b.Name != "=SUM(A1)" || b.Foot != now.Foot || b.TopSpeed != now.TopSpeed || b.PeakAccel != 7 || b.Position != model.LB {
		t.Errorf("%+v", b)
	}
}

func TestShortlistFaults(t *testing.T) {
	for _, c := range []struct{ text, place, what string }{
		{"", "list.csv", "the file is empty"},
		{"name;pace\nA;50\n", ":1:1", "the columns are separated by semicolons"},
		{"name\tpace\n", ":1:1", "separated by tabs"},
		{"name,Pace\nA,50\n", ":1:6", "did you mean pace?"},
		{"name,height\nA,50\n", ":1:6", "unknown column \"height\""},
		{"name,pace,pace\nA,50,50\n", ":1:11", "stands there twice"},
		{"name,,pace\nA,1,50\n", ":1:6", "column 2 has no name"},
		{"pace,foot\n50,left\n", ":1:1", "no column name"},
		{"name,pace\n", ":1:10", "nobody is on the list"},
		{"name,pace\nA,50\nA,60\n", ":3:1", "is on the list twice"},
		{"name,pace\nA,50\n,60\n", ":3:1", "without a name"},
		{"name,pace\nÅse,150\n", ":2:5", "150 is not a percentile"},
		{"name,pace\nA,fast\n", ":2:3", "\"fast\" is not a number"},
		{"name,pace\nA,\"7,5\"\n", ":2:3", "write the decimals after a point: 7.5"},
		{"name,pace\nA,NaN\n", ":2:3", "is not a number"},
		{"name,top_speed\nA,35\n", ":2:3", "35 is outside 6 to 10.5 m/s"},
		{"name,top_speed\nA,0\n", ":2:3", "nobody's is 0"},
		{"name,foot\nA,lefft\n", ":2:3", "did you mean left?"},
		{"name,position\nA,GK\n", ":2:3", "is the keeper"},
		{"name,pace\nA\n", ":2:1", "1 cells in this line, 2 columns"},
		{"name,pace\nA,50,60\n", ":2:1", "3 cells in this line"},
		{"name,pace\n\"A,50\n", ":2:", "a quote is not closed"},
		{"name,pace\nA\x00,50\n", ":2:2", "U+0000"},
		{"name,pace\nA,\xff\n", ":2:3", "not text (UTF-8)"},
		{"\xff\xfen\x00", "list.csv", "UTF-16"},
		{"name\n" + strings.Repeat("x", 61) + "\n", ":2:1", "longer than 60 characters"},
	} {
		_, _, err := candidates(t, c.text)
		if err == nil {
			t.Errorf("%q was read", c.text)
			continue
		}
		if !strings.Contains(err.Error(), c.place+": ") && !strings.Contains(err.Error(), c.place) || !strings.Contains(err.Error(), c.what) {
			t.Errorf("%q: %v; want %s, %s", c.text, err, c.place, c.what)
		}
	}
	long := "name\n"
	for i := range maxCandidates + 1 {
		long += fmt.Sprintf("c%d\n", i)
	}
	if _, _, err := candidates(t, long); err == nil || !strings.Contains(err.Error(), ":62:1: more than 60 candidates") {
		t.Errorf("error %v", err)
	}
	if _, err := Shortlist(filepath.Join(t.TempDir(), "none.csv"), ReadFile, nil, 0, 0); err == nil || !strings.Contains(err.Error(), "no such file") {
		t.Errorf("error %v", err)
	}
}
