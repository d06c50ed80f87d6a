package main

import (
	"context"
	"strings"
	"testing"
	"time"
)

// Cut short, a comparison prints what it has and marks it. How long the first
// build-ups take hangs on the machine, so it is given more time until there are some.
func TestCompareInterrupted(t *testing.T) {
	plan := scenarioFile(t)
	for wait := time.Second; ; wait *= 4 {
		ctx, cancel := context.WithTimeout(context.Background(), wait)
		code, stdout, stderr := runCommand(ctx, "compare", plan, plan, "--possessions", "1000000")
		cancel()
		if code == exitInterrupted && strings.Contains(stderr, "nothing to report") && wait < time.Minute {
			continue
		}
		if code != exitInterrupted || !strings.Contains(stdout, "\nPARTIAL: interrupted after ") || !strings.Contains(stderr, "the answer is partial") {
			t.Errorf("exit code %d, stdout %q, stderr %q", code, stdout, stderr)
		}
		return
	}
}
