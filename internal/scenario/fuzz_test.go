package scenario

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

// FuzzLoad feeds the loader anything. It must give either a scenario that
// survives being written and read again, or one harmless message that points
// into the file.
func FuzzLoad(f *testing.F) {
	paths, err := filepath.Glob(filepath.Join(shippedDir, "*.yaml"))
	if err != nil || len(paths) == 0 {
		f.Fatalf("no scenarios to start from: %v", err)
	}
	base := map[string][]byte{}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		base[filepath.Base(path)] = text
		f.Add(text)
	}
	for _, text := range []string{
		"", "a", "- a", "a: [", "title: &a [*a]", "extends: fuzz.yaml", "extends: quick-switch.yaml\nattack: {players: [{number: 9, pace: 1}]}",
		"attack: {runs: [], structure: {build_up: {6: [-20, 1]}}, block: {library: 5-3-2-low, slots: {7: {side: .1}}}}",
		"\ufeff{\"seed\": 3}\r\n", "pitch: {length: 1e300}", "clock: .nan", "? : :",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		l := loader{read: func(path string) ([]byte, error) {
			if path == "fuzz.yaml" {
				return data, nil
			}
			if text, ok := base[path]; ok {
				return text, nil
			}
			return nil, fs.ErrNotExist
		}}
		sc, err := l.scenario("fuzz.yaml", data)
		if err != nil {
			checkError(t, err, data)
			return
		}
		if faults := sc.Validate(); len(faults) > 0 {
			t.Fatalf("a bad scenario was taken: %v", faults[0])
		}
		text, err := Canonical(sc)
		if err != nil {
			t.Fatal(err)
		}
		again, err := LoadBytes("fuzz.yaml", text)
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if !reflect.DeepEqual(sc, again) {
			t.Fatalf("differs after a round trip:\n%s", text)
		}
	})
}

func checkError(t *testing.T, err error, data []byte) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) {
		t.Fatalf("not an *Error: %v", err)
	}
	checkHarmless(t, e.Error())
	if e.What == "" || e.Mend == "" {
		t.Errorf("what %q, mend %q", e.What, e.Mend)
	}
	if lines := strings.Count(string(data), "\n") + strings.Count(string(data), "\r") + strings.Count(string(data), "\u0085") +
		strings.Count(string(data), "\u2028") + strings.Count(string(data), "\u2029"); e.File == "fuzz.yaml" && e.Line > lines+1 {
		t.Errorf("line %d of %d: %v", e.Line, lines+1, e)
	}
}
