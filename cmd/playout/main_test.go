package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

var update = flag.Bool("update", false, "rewrite the golden parts of the scripts")

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"playout": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/script",
		UpdateScripts: *update,
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"exits": exits},
	})
}

// exits runs a command and insists on its exit code: exits 2 playout run.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits code command [args...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// runCommand executes a command line in this process.
func runCommand(ctx context.Context, args ...string) (code int, stdout, stderr string) {
	var out, errs bytes.Buffer
	code = execute(ctx, args, &out, &errs)
	return code, out.String(), errs.String()
}

func scenarioFile(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(path, []byte("title: A plan\npossessions: 1000000\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	return path
}

// A run that ends before its first possession has no answer, and says so.
func TestInterruptedAtOnce(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	path := scenarioFile(t)
	out := filepath.Join(filepath.Dir(path), "answer.txt")
	code, stdout, stderr := runCommand(ctx, "run", path, "--output", out)
	if code != exitInterrupted || stdout != "" || !strings.Contains(stderr, "nothing to report") {
		t.Errorf("exit code %d, stdout %q, stderr %q", code, stdout, stderr)
	}
	if _, err := os.Stat(out); err == nil {
		t.Error("an answer was written all the same")
	}
}

// A run cut short gives what it has, marked, and its own exit code.
func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	code, stdout, stderr := runCommand(ctx, "run", scenarioFile(t))
	if code != exitInterrupted || !strings.Contains(stdout, "\nPARTIAL: interrupted after ") || !strings.Contains(stderr, "the answer is partial") {
		t.Errorf("exit code %d, stdout %q, stderr %q", code, stdout, stderr)
	}
}

type brokenWriter struct{ err error }

func (w brokenWriter) Write([]byte) (int, error) { return 0, w.err }

// What cannot be printed must not pass for success. When the reader has gone,
// nobody is told.
func TestStdoutFails(t *testing.T) {
	full := errors.New("disk full")
	for _, args := range [][]string{{"help", "metrics"}, {"--version"}, {}, {"run", scenarioFile(t), "--possessions", "1"}} {
		var stderr bytes.Buffer
		if code := execute(context.Background(), args, brokenWriter{full}, &stderr); code != exitFailed || !strings.Contains(stderr.String(), full.Error()) {
			t.Errorf("%q: exit code %d, stderr %q", args, code, stderr.String())
		}
		stderr.Reset()
		if code := execute(context.Background(), args, brokenWriter{syscall.EPIPE}, &stderr); code != exitFailed || stderr.Len() > 0 {
			t.Errorf("%q, reader gone: exit code %d, stderr %q", args, code, stderr.String())
		}
	}
}
