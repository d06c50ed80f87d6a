package report

import "playout/internal/picture"

// Picture draws the flow of the build-ups.
func (e *Explain) Picture() picture.Drawing { return nil }
