package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// progress is one line on a terminal, rewritten while a run goes on.
type progress struct {
	w       io.Writer
	columns int
	start   time.Time
	next    time.Time // not rewritten before
	shown   int       // length of the line that stands there
}

// between is the least time between two rewrites.
const between = 100 * time.Millisecond

// newProgress is nil when w is no terminal.
func newProgress(w io.Writer) *progress {
	f, ok := w.(interface{ Fd() uintptr })
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return nil
	}
	columns, _, err := term.GetSize(int(f.Fd()))
	if err != nil || columns < 1 {
		columns = 80
	}
	now := time.Now()
	return &progress{w: w, columns: columns, start: now, next: now.Add(between)}
}

// show is a sim.Config.Progress.
func (p *progress) show(done, of int) {
	now := time.Now()
	if now.Before(p.next) {
		return
	}
	p.next = now.Add(between)
	p.write(progressText(done, of, now.Sub(p.start)))
}

// clear takes the line away.
func (p *progress) clear() {
	if p.shown > 0 {
		p.write("")
		fmt.Fprint(p.w, "\r")
	}
}

// write replaces the line. One column stays free: writing into the last one
// makes some terminals start a new line.
func (p *progress) write(text string) {
	text = text[:min(len(text), p.columns-1)]
	fmt.Fprint(p.w, "\r"+text+strings.Repeat(" ", max(p.shown-len(text), 0)))
	p.shown = len(text)
}

// progressText says how far a run is, how fast, and how long it will last.
func progressText(done, of int, spent time.Duration) string {
	const bar = 20
	filled := bar * done / max(of, 1)
	text := fmt.Sprintf("[%s%s] %d of %d build-ups", strings.Repeat("#", filled), strings.Repeat(".", bar-filled), done, of)
	if done == 0 || spent <= 0 {
		return text
	}
	perSecond := float64(done) / spent.Seconds()
	left := time.Duration(float64(of-done) / perSecond * float64(time.Second))
	return fmt.Sprintf("%s, %.0f a second, %s left", text, perSecond, left.Round(time.Second))
}

// attended is what long work runs under: a context that Ctrl-C ends and, on a
// terminal, a line of progress. show is nil elsewhere, or when it is to be quiet.
// end has to be called when the work is over.
func attended(cmd *cobra.Command, quiet bool) (ctx context.Context, show func(done, of int), end func()) {
	ctx, stop := untilInterrupted(cmd.Context())
	line := newProgress(cmd.ErrOrStderr())
	if line == nil || quiet {
		return ctx, nil, stop
	}
	return ctx, line.show, func() {
		stop()
		line.clear()
	}
}
