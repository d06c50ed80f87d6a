// Playout plays a build-up plan against a defending block thousands of times
// and says how often it gets where, and why it does not.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"playout/internal/scenario"
)

// Exit codes.
const (
	exitDone        = 0   // the whole answer was given
	exitFailed      = 1   // there is no answer
	exitMisuse      = 2   // the command line was wrong
	exitInterrupted = 130 // stopped by the user; the answer so far was given, marked partial
)

func main() { os.Exit(execute(context.Background(), os.Args[1:], os.Stdout, os.Stderr)) }

// execute runs one command line and returns its exit code.
func execute(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	out := &stickyWriter{w: stdout}
	root := newRootCmd()
	root.SetArgs(args)
	root.SetOut(out)
	root.SetErr(stderr)
	err := oneDash(root, args)
	if err == nil {
		err = root.ExecuteContext(ctx)
	}
	if err == nil {
		err = out.failure()
	}
	if err == nil {
		return exitDone
	}
	code := exitFailed
	var misuse usageError
	switch {
	case errors.Is(err, syscall.EPIPE):
		return exitFailed // whoever read the output has gone; nobody is left to tell
	case errors.Is(err, errInterrupted):
		code = exitInterrupted
	case errors.As(err, &misuse):
		code = exitMisuse
	}
	var inFile *scenario.Error
	if errors.As(err, &inFile) {
		fmt.Fprintln(stderr, err) // opens with the place in the file
	} else {
		fmt.Fprintln(stderr, "playout: "+err.Error())
	}
	return code
}

// stickyWriter remembers the first failure to write, which printing functions
// tend to swallow, and writes nothing after it.
type stickyWriter struct {
	w   io.Writer
	err error
}

func (s *stickyWriter) Write(p []byte) (int, error) {
	if s.err != nil {
		return 0, s.err
	}
	n, err := s.w.Write(p)
	s.err = err
	return n, err
}

func (s *stickyWriter) failure() error {
	if s.err == nil {
		return nil
	}
	return fmt.Errorf("writing the answer: %w", s.err)
}

// usageError is a mistake on the command line.
type usageError struct{ error }

func usagef(format string, args ...any) error {
	return usageError{fmt.Errorf(format, args...)}
}

// errInterrupted ends a run that the user cut short.
var errInterrupted = errors.New("interrupted")

// untilInterrupted is a context that ends with the first Ctrl-C (or request to
// terminate). From then on signals have their usual effect, so that a second
// one kills.
func untilInterrupted(parent context.Context) (context.Context, context.CancelFunc) {
	ctx, stop := signal.NotifyContext(parent, os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop)
	return ctx, stop
}
