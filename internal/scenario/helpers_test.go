package scenario

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"playout/model"
)

var update = flag.Bool("update", false, "rewrite the files that tests compare with")

// files is a directory in memory.
type files map[string]string

// load reads one of the files, which may extend others.
func (f files) load(name string) (*model.Scenario, error) {
	l := loader{read: f.read}
	return l.scenario(name, []byte(f[name]))
}

func (f files) read(name string) ([]byte, error) {
	text, ok := f[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return []byte(text), nil
}

// mustLoad reads a scenario that has to be good.
func mustLoad(t *testing.T, text string) *model.Scenario {
	t.Helper()
	sc, err := LoadBytes("test.yaml", []byte(text))
	if err != nil {
		t.Fatalf("%v\nin\n%s", err, text)
	}
	return sc
}

// brief is an error on one line: place, what is wrong, how to mend it.
func brief(err error) string {
	var e *Error
	if !errors.As(err, &e) {
		return fmt.Sprint(err)
	}
	s := fmt.Sprintf("%s:%d:%d: %s | %s", e.File, e.Line, e.Column, e.What, e.Mend)
	if e.More > 0 {
		s += fmt.Sprintf(" (+%d)", e.More)
	}
	return s
}

// eleven is an attack of eleven players; changed replaces entries by number.
func eleven(changed map[int]string) string {
	var b strings.Builder
	b.WriteString("attack:\n  players:\n")
	for i, pos := range model.DefaultPositions {
		entry, ok := changed[i+1]
		if !ok {
			entry = fmt.Sprintf("{number: %d, position: %s}", i+1, pos)
		}
		fmt.Fprintf(&b, "    - %s\n", entry)
	}
	return b.String()
}
