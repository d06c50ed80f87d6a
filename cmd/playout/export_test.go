package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"playout/internal/export"
)

// Cut short, an export keeps what is whole, says so and has its own exit code. How
// long the first build-ups take hangs on the machine, so it is given more time until
// there are some.
func TestExportInterrupted(t *testing.T) {
	plan := scenarioFile(t)
	dir := filepath.Join(filepath.Dir(plan), "data")
	for wait := time.Second / 2; ; wait *= 4 {
		ctx, cancel := context.WithTimeout(context.Background(), wait)
		code, stdout, stderr := runCommand(ctx, "export", plan, "--to", dir)
		cancel()
		if code == exitInterrupted && strings.Contains(stderr, "nothing was written") && wait < time.Minute {
			if _, err := os.Stat(dir); err == nil {
				t.Error("nothing was written, and yet there is a directory")
			}
			continue
		}
		if code != exitInterrupted || !strings.Contains(stdout, "\nPARTIAL: interrupted; 1000000 build-ups") || !strings.Contains(stderr, "the export is partial") {
			t.Errorf("exit code %d, stdout %q, stderr %q", code, stdout, stderr)
		}
		break
	}
	text, err := os.ReadFile(filepath.Join(dir, "manifest.json"))
	if err != nil {
		t.Fatal(err)
	}
	var m export.Manifest
	if err := json.Unmarshal(text, &m); err != nil || !m.Partial || m.Possessions < 1 || m.Possessions >= m.Asked {
		t.Errorf("the manifest says partial %v, %d of %d: %v", m.Partial, m.Possessions, m.Asked, err)
	}
}
