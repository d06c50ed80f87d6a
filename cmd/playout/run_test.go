package main

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

func TestFlagValues(t *testing.T) {
	small := func() interface{ Set(string) error } { return &whole{min: 1, max: 10} }
	share := func() interface{ Set(string) error } { return new(halfWidth) }
	name := func() interface{ Set(string) error } { f := newFormFlag(answerForms); return &f }
	for _, c := range []struct {
		flag  func() interface{ Set(string) error }
		value string
		ok    bool
	}{
		{small, "1", true}, {small, "10", true}, {small, "0", false}, {small, "11", false}, {small, "-1", false},
		{small, "", false}, {small, "1.0", false}, {small, "1e1", false}, {small, "99999999999999999999999", false},
		{share, "0.01", true}, {share, "0.4999", true}, {share, "1e-9", true}, {share, "0", false}, {share, "0.5", false},
		{share, "-0.01", false}, {share, "NaN", false}, {share, "Inf", false}, {share, "1e300", false}, {share, "x", false},
		{name, "json", true}, {name, "table", true}, {name, "JSON", false}, {name, "", false},
	} {
		if err := c.flag().Set(c.value); (err == nil) != c.ok {
			t.Errorf("%q: error %v, accepted should be %v", c.value, err, c.ok)
		}
	}
	seed := &whole{max: math.MaxUint64}
	if err := seed.Set("18446744073709551615"); err != nil || seed.String() != "18446744073709551615" {
		t.Errorf("the largest seed reads as %s, %v", seed, err)
	}
}

func TestProgressText(t *testing.T) {
	for _, c := range []struct {
		done, of int
		spent    time.Duration
		want     string
	}{
		{0, 1000, 0, "[....................] 0 of 1000 build-ups"},
		{250, 1000, 2 * time.Second, "[#####...............] 250 of 1000 build-ups, 125 a second, 6s left"},
		{1000, 1000, 8 * time.Second, "[####################] 1000 of 1000 build-ups, 125 a second, 0s left"},
		{100, 100_000_000, time.Second, "[....................] 100 of 100000000 build-ups, 100 a second, 277h46m39s left"},
	} {
		if got := progressText(c.done, c.of, c.spent); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// On a screen the line must cover what stood there before and never wrap.
func TestProgressLine(t *testing.T) {
	var b bytes.Buffer
	p := &progress{w: &b, columns: 11}
	p.write("longer than a line")
	p.write("short")
	p.clear()
	if got, want := b.String(), "\rlonger tha\rshort     \r     \r"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if newProgress(&b) != nil {
		t.Error("a buffer passes for a terminal")
	}
}

func TestOutputFile(t *testing.T) {
	dir := t.TempDir()
	input := filepath.Join(dir, "plan.yaml")
	old := filepath.Join(dir, "old.txt")
	link := filepath.Join(dir, "link.txt")
	for _, path := range []string{input, old} {
		if err := os.WriteFile(path, []byte("before"), 0o640); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Symlink(old, link); err != nil {
		t.Skip("no symbolic links here")
	}
	for _, path := range []string{filepath.Join(dir, "new.txt"), old, link} {
		if err := checkOutput("output", path, []string{input}); err != nil {
			t.Fatal(err)
		}
		if err := writeOutput("output", path, []byte("answer for "+path)); err != nil {
			t.Fatal(err)
		}
		got, err := os.ReadFile(path)
		if err != nil || string(got) != "answer for "+path {
			t.Errorf("%s holds %q, %v", path, got, err)
		}
	}
	if info, _ := os.Lstat(link); info.Mode()&os.ModeSymlink == 0 {
		t.Error("the link was replaced, not the file behind it")
	}
	if info, _ := os.Stat(old); info.Mode().Perm() != 0o640 {
		t.Errorf("the permissions became %v", info.Mode())
	}
	for _, bad := range []string{dir, filepath.Join(dir, "none", "x"), input} {
		if err := checkOutput("output", bad, []string{input}); err == nil || strings.Contains(err.Error(), ".tmp") {
			t.Errorf("checkOutput(%s): %v", bad, err)
		}
	}
	left, err := filepath.Glob(filepath.Join(dir, ".playout*"))
	if err != nil || len(left) > 0 {
		t.Errorf("left behind: %v, %v", left, err)
	}
}

// TestOutputIsStandardInput: playout run - --output plan.yaml < plan.yaml must
// not put the answer in the place of the plan.
func TestOutputIsStandardInput(t *testing.T) {
	plan := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(plan, []byte("title: A plan\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	in, err := os.Open(plan)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	old := os.Stdin
	os.Stdin = in
	defer func() { os.Stdin = old }()
	if err := checkOutput("output", plan, nil); err == nil || !strings.Contains(err.Error(), "from which the scenario is read") {
		t.Errorf("standard input as output: %v", err)
	}
}

// TestOutputThroughDanglingLink: a link to a file that does not exist yet is
// followed, not replaced.
func TestOutputThroughDanglingLink(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link.txt")
	if err := os.Symlink("answer.txt", link); err != nil {
		t.Skip("no symbolic links here")
	}
	if err := writeOutput("output", link, []byte("answer")); err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(filepath.Join(dir, "answer.txt")); err != nil || string(got) != "answer" {
		t.Errorf("the file behind the link holds %q, %v", got, err)
	}
}
