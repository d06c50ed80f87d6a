package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Cut short, a sweep prints and draws what it has and marks it; it is given more
// time until there is something.
func TestSweepInterrupted(t *testing.T) {
	plan := scenarioFile(t)
	image := filepath.Join(filepath.Dir(plan), "sweep.svg")
	for wait := time.Second; ; wait *= 4 {
		ctx, cancel := context.WithTimeout(context.Background(), wait)
		code, stdout, stderr := runCommand(ctx, "sweep", plan, "--vary", "attack.plan.tempo=1,2", "--possessions", "1000000", "--picture", image)
		cancel()
		if code == exitInterrupted && strings.Contains(stderr, "nothing to report") && wait < time.Minute {
			if _, err := os.Stat(image); err == nil {
				t.Error("a picture of nothing")
			}
			continue
		}
		if code != exitInterrupted || !strings.Contains(stdout, "\nPARTIAL: interrupted after ") || !strings.Contains(stderr, "the answer is partial") {
			t.Errorf("exit code %d, stdout %q, stderr %q", code, stdout, stderr)
		}
		if drawn, err := os.ReadFile(image); err != nil || !strings.Contains(string(drawn), "PARTIAL: ") {
			t.Errorf("the picture does not say that it is partial (%v)", err)
		}
		return
	}
}
