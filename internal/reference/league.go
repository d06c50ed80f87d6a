package reference

import (
	"fmt"
	"slices"
	"sync"

	"playout/internal/scenario"
	"playout/model"
)

// Press is a tercile of pressing: how hard and how high the opponent presses.
type Press uint8

// The terciles of the press_intensity table.
const (
	HighPress Press = iota
	MiddlePress
	LowPress
	NumPresses
)

var pressNames = [NumPresses]string{"high", "middle", "low"}

func (p Press) String() string { return pressNames[p] }

// Setting is one of the match-ups that together stand for the league: the
// league-average attack in an ordinary structure against an ordinary block.
type Setting struct {
	Press    Press
	Block    string          // of the library
	Weight   float64         // share of the league's possessions; all sum to 1
	Scenario *model.Scenario // read only
}

// League returns the settings that stand for the league: three terciles of
// pressing, each a set of ordinary blocks of the library, against league-average
// players in one of two structures. The terciles have equal shares: the reference has 20,232,
// 20,619 and 20,844 own-third starts in them. How common a shape is, is common
// practice, no source.
func League() []Setting { return slices.Clone(league()) }

// shapes are the ordinary shapes of a block with their shares, each against one of
// the two commonest structures on the ball.
var shapes = []struct {
	block  string
	share  float64
	attack string
}{
	{"4-4-2", 0.20, "4-1-2-3"}, {"4-4-2", 0.15, "4-2-3-1"}, {"4-2-3-1", 0.15, "4-1-2-3"}, {"4-2-3-1", 0.15, "4-2-3-1"},
	{"4-5-1", 0.15, "4-1-2-3"}, {"5-3-2", 0.10, "4-2-3-1"}, {"4-3-1-2", 0.10, "4-1-2-3"},
}

// heights are the library's blocks of a tercile.
var heights = [NumPresses]string{HighPress: "high", MiddlePress: "mid", LowPress: "low"}

// setting is a match-up as a scenario file: block and structure on the ball.
const setting = `
defence: {block: %[1]s}
attack: {structure: {build_up: %[2]s, progression: %[2]s, final_third: %[2]s}}
`

var league = sync.OnceValue(func() []Setting {
	var out []Setting
	for _, shape := range shapes {
		for press := range NumPresses {
			block := shape.block + "-" + heights[press]
			sc, err := scenario.LoadBytes(block, fmt.Appendf(nil, setting, block, shape.attack))
			if err != nil {
				panic(fmt.Sprintf("reference: library block %s: %v", block, err))
			}
			out = append(out, Setting{press, block, shape.share / float64(NumPresses), sc})
		}
	}
	return out
})

// shareOut gives each setting its share of n possessions in whole rounds of
// groups possessions, by largest remainder, at least one round each, so that every
// group is a small league of its own.
func shareOut(settings []Setting, n int) []int {
	rounds := max(n/groups, len(settings))
	out := make([]int, len(settings))
	rest := make([]float64, len(settings))
	left := rounds
	for i, s := range settings {
		exact := s.Weight * float64(rounds)
		out[i] = max(int(exact), 1)
		rest[i] = exact - float64(out[i])
		left -= out[i]
	}
	for ; left > 0; left-- {
		most := 0
		for i, r := range rest {
			if r > rest[most]+1e-9 {
				most = i
			}
		}
		out[most]++
		rest[most]--
	}
	for i := range out {
		out[i] *= groups
	}
	return out
}
