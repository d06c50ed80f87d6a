// Package draw draws scenes on a pitch: players, ball, passes, runs and words, as
// SVG or as an image. A Scene is a list of shapes in picture units (px, y down);
// a View turns metres on the pitch into them. One scene gives the same bytes every
// time.
//
// What a colour says, a shape says too: the side on the ball is filled circles,
// the block hollow squares, a pass is a solid arrow, a run a dashed one, a carry a
// wavy one.
package draw
