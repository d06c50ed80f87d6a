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
		_, stdout, stderr := runCommand(t.Context(), strings.Fields(command)...)
		out.WriteString(piped(t, stdout+stderr, pipe))
	}
	return out.String()
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
