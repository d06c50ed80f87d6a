package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// TestReadme runs every command of the README's console blocks and compares
// what it prints with what the README shows; -update writes it anew.
func TestReadme(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	if _, err := exec.LookPath("go"); err != nil {
		t.Skip("no go command")
	}
	root := filepath.Join("..", "..")
	t.Chdir(root)
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	const open, shut = "```console\n", "```\n"
	var out bytes.Buffer
	rest := string(text)
	blocks := 0
	for {
		before, after, found := strings.Cut(rest, open)
		out.WriteString(before)
		if !found {
			break
		}
		block, tail, found := strings.Cut(after, shut)
		if !found {
			t.Fatal("a console block of the README does not end")
		}
		blocks++
		out.WriteString(open + consoleBlock(t, block) + shut)
		rest = tail
	}
	if blocks == 0 {
		t.Fatal("the README shows no command")
	}
	if out.String() == string(text) {
		return
	}
	if !*update {
		t.Fatalf("the README shows what its commands no longer print; go test ./cmd/playout -run Readme -update writes:\n%s", out.String())
	}
	if err := os.WriteFile("README.md", out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

// consoleBlock runs the commands of a block, the lines that open with "$ ", and
// returns the block with what they print.
func consoleBlock(t *testing.T, block string) string {
	var out strings.Builder
	for _, line := range strings.Split(block, "\n") {
		command, ok := strings.CutPrefix(line, "$ go run ./cmd/playout ")
		if !ok {
			continue
		}
		if out.Len() > 0 {
			out.WriteString("\n")
		}
		out.WriteString(line + "\n")
		command, pipe, _ := strings.Cut(command, " | ")
		args := strings.Fields(command)
		files := aside(t, args)
		_, stdout, stderr := runCommand(t.Context(), args...)
		out.WriteString(piped(t, stdout+stderr, pipe))
		for shown, drawn := range files {
			sameFile(t, shown, drawn)
		}
	}
	return out.String()
}

// shownFiles is where the files are that the README's commands write and the README
// shows.
const shownFiles = "testdata/readme/"

// aside lets a command write its files into a directory of the test instead of where
// the README shows them from; the result names both.
func aside(t *testing.T, args []string) map[string]string {
	files := map[string]string{}
	for i, a := range args {
		if strings.HasPrefix(a, shownFiles) && i > 0 && slices.Contains([]string{"--picture", "--output", "--write", "-o"}, args[i-1]) {
			files[a] = filepath.Join(t.TempDir(), filepath.Base(a))
			args[i] = files[a]
		}
	}
	return files
}

// sameFile compares a file the README shows with what its command has just written;
// -update writes it anew.
func sameFile(t *testing.T, shown, written string) {
	got, err := os.ReadFile(written)
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile(shown, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if want, err := os.ReadFile(shown); err != nil || !bytes.Equal(got, want) {
		t.Errorf("%s is not what its command writes (%v); go test ./cmd/playout -run Readme -update writes it", shown, err)
	}
}

// piped is what head -N or grep -E 'PATTERN' leaves of a command's lines; an empty
// pipe leaves all.
func piped(t *testing.T, printed, pipe string) string {
	lines := strings.SplitAfter(printed, "\n")
	if first, ok := strings.CutPrefix(pipe, "head -"); ok {
		n, err := strconv.Atoi(first)
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(lines[:min(n, len(lines))], "")
	}
	if pattern, ok := strings.CutPrefix(pipe, "grep -E '"); ok {
		keep := regexp.MustCompile(strings.TrimSuffix(pattern, "'"))
		return strings.Join(slices.DeleteFunc(lines, func(l string) bool { return !keep.MatchString(l) }), "")
	}
	if pipe != "" {
		t.Fatalf("the README pipes into %q, which this test does not know", pipe)
	}
	return printed
}
