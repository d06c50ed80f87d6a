package report

import safe "playout/internal/plain"

// The names of package plain in this one.
var (
	clean = safe.Clean
	width = safe.Width
	cut   = safe.Cut
	wrap  = safe.Wrap
)
