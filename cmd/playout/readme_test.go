package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
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
		command, first, cut := strings.Cut(command, " | head -")
		_, stdout, stderr := runCommand(t.Context(), strings.Fields(command)...)
		printed := stdout + stderr
		if cut {
			n, err := strconv.Atoi(first)
			if err != nil {
				t.Fatal(err)
			}
			lines := strings.SplitAfter(printed, "\n")
			printed = strings.Join(lines[:min(n, len(lines))], "")
		}
		out.WriteString(printed)
	}
	return out.String()
}
