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
// league-average attack against an ordinary block.
type Setting struct {
	Press    Press
	Block    string          // of the library
	Weight   float64         // share of the league's possessions; all sum to 1
	Scenario *model.Scenario // read only
}

// League returns the settings that stand for the league: three terciles of
// pressing, each a set of ordinary blocks of the library, against the
// league-average attack. The terciles have equal shares: the reference has 20,232,
// 20,619 and 20,844 own-third starts in them. How common a shape is, is common
// practice, no source.
func League() []Setting { return slices.Clone(league()) }

// shapes are the ordinary shapes of a block and their shares.
var shapes = []struct {
	name  string
	share float64
}{{"4-4-2", 0.30}, {"4-2-3-1", 0.30}, {"4-5-1", 0.15}, {"5-3-2", 0.15}, {"4-3-1-2", 0.10}}

// heights are the library's blocks of a tercile.
var heights = [NumPresses]string{HighPress: "high", MiddlePress: "mid", LowPress: "low"}

var league = sync.OnceValue(func() []Setting {
	var out []Setting
	for _, shape := range shapes {
		for press := range NumPresses {
			block := shape.name + "-" + heights[press]
			sc, err := scenario.LoadBytes(block, []byte("defence: {block: "+block+"}"))
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
