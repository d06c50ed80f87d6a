package hinge

import (
	"fmt"
	"strings"
)

// span is how far a value is tried either side of what the scenario says when the
// user gives no span, and the change in which its effect is told. Both are judgements
// of what a coach can be unsure of, or change, from match to match: common practice,
// no source.
type span struct {
	suffix string  // of the path, or a part of it that ends in a dot
	reach  float64 // either side; of a ratio: times and divided by
	step   float64 // of a ratio: times
	ratio  bool    // odds: from a half to twice, evenly in logarithm
	usual  bool    // asked when the user names no input
	side   string  // usual only for this team; "" for neither or both
}

// spans are looked up from the top; the first that fits counts.
var spans = []span{
	{suffix: ".plan.tempo", reach: 0.5, step: 0.25, usual: true, side: "attack"},
	{suffix: ".plan.risk", reach: 0.2, step: 0.1, usual: true, side: "attack"},
	{suffix: ".plan.switching", reach: 2, step: 2, ratio: true, usual: true, side: "attack"},
	{suffix: ".plan.directness", reach: 1.5, step: 1.5, ratio: true, usual: true, side: "attack"},
	{suffix: ".structure.ball_side", reach: 0.1, step: 0.1, usual: true, side: "attack"},
	{suffix: ".block.press.height", reach: 10, step: 5, usual: true, side: "defence"},
	{suffix: ".block.press.intensity", reach: 0.2, step: 0.1, usual: true, side: "defence"},
	{suffix: ".block.line_height", reach: 6, step: 3, usual: true, side: "defence"},
	{suffix: ".block.follow", reach: 0.15, step: 0.1, usual: true, side: "defence"},
	{suffix: ".block.length", reach: 5, step: 3, usual: true, side: "defence"},
	{suffix: ".block.width", reach: 6, step: 3, usual: true, side: "defence"},
	{suffix: ".block.shift.gain", reach: 0.15, step: 0.1, usual: true, side: "defence"},
	{suffix: ".block.shift.delay", reach: 0.8, step: 0.5, usual: true, side: "defence"},
	{suffix: ".block.shift.speed", reach: 1, step: 0.5, usual: true, side: "defence"},
	{suffix: ".block.man_loyalty", reach: 0.25, step: 0.1, usual: true, side: "defence"},
	{suffix: ".level", reach: 15, step: 10, usual: true},
	{suffix: ".plan.lanes.", reach: 2, step: 2, ratio: true},
	{suffix: ".chance", reach: 0.2, step: 0.1},
	{suffix: ".slots.", reach: 0.05, step: 0.05},
	{suffix: ".top_speed", reach: 0.3, step: 0.2},
	{suffix: ".peak_acceleration", reach: 0.5, step: 0.25},
	{suffix: ".players.", reach: 15, step: 10},
	{suffix: ".structure.", reach: 4, step: 2},
}

func (s *span) fits(path string) bool {
	return strings.HasSuffix(path, s.suffix) || strings.HasSuffix(s.suffix, ".") && strings.Contains(path, s.suffix)
}

// spanOf is the span of a path; false when it has no usual one.
func spanOf(path string) (span, bool) {
	for _, s := range spans {
		if s.fits(path) {
			return s, true
		}
	}
	return span{}, false
}

// UsualSpans lists the inputs that are asked when the user names none, for help texts.
func UsualSpans() []string {
	var out []string
	for _, s := range spans {
		if !s.usual {
			continue
		}
		side := s.side
		if side == "" {
			side = "attack, defence"
		}
		reach := fmt.Sprintf("%g either side, told per %g", s.reach, s.step)
		if s.ratio {
			reach = fmt.Sprintf("divided by and times %g, told per %g times", s.reach, s.step)
		}
		out = append(out, fmt.Sprintf("%-34s %s", side+s.suffix, reach))
	}
	return out
}
