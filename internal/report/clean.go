package report

import "playout/internal/plain"

// The names of package plain in this one.
var (
	clean = plain.Clean
	width = plain.Width
	cut   = plain.Cut
	wrap  = plain.Wrap
	guard = plain.Guard
)
