package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// An experiment cut short gives what it has, marked, and its own exit code. How soon it
// has something hangs on the machine, so it gets more time when it had too little.
func TestExperimentsInterrupted(t *testing.T) {
	plan := scenarioFile(t)
	list := filepath.Join(filepath.Dir(plan), "list.csv")
	if err := os.WriteFile(list, []byte("name,pace\nA,80\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"matrix", "--plans", plan, "--answers", "4-4-2-low,4-4-2-mid", "--possessions", "1000000"},
		{"people", plan, "--slot", "7", "--shortlist", list, "--possessions", "1000000"},
	} {
		for wait := time.Second; ; wait *= 4 {
			ctx, cancel := context.WithTimeout(context.Background(), wait)
			code, stdout, stderr := runCommand(ctx, args...)
			cancel()
			if code == exitInterrupted && strings.Contains(stderr, "nothing to report") && wait < time.Minute {
				continue
			}
			if code != exitInterrupted || !strings.Contains(stdout, "\nPARTIAL: interrupted after ") || !strings.Contains(stderr, "the answer is partial") {
				t.Errorf("%s: exit code %d, stdout %q, stderr %q", args[0], code, stdout, stderr)
			}
			break
		}
	}
}
