package still

import (
	"fmt"
	"maps"
	"math"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/scenario"
	"playout/model"
	"playout/sim"
)

// File is a still that has been read.
type File struct {
	Title string
	Still sim.Still
	Files []string // that were read, standard input left out
}

const begins = "begin with a line such as ball: 8, then attack: and defence: with a place for everybody; playout still --example prints one"

// Load reads the file of a still; "-" is standard input. The error is a
// *scenario.Error.
func Load(path string) (*File, error) {
	var doc document
	kin, err := scenario.ReadKin(path, "a still", begins, &doc)
	if err != nil {
		return nil, err
	}
	return build(path, kin, &doc)
}

// Parse is Load for a text in memory.
func Parse(name string, data []byte) (*File, error) {
	var doc document
	kin, err := scenario.ParseKin(name, data, "a still", begins, &doc)
	if err != nil {
		return nil, err
	}
	return build(name, kin, &doc)
}

// builder makes a still of a document.
type builder struct {
	*scenario.Kin
	doc   *document
	still sim.Still
	sides [2]map[int]manDoc
	order [2][]int // shirt number of each index
}

var sideKeys = [2]string{"attack", "defence"}

func build(path string, kin *scenario.Kin, doc *document) (*File, error) {
	b := builder{Kin: kin, doc: doc, sides: [2]map[int]manDoc{doc.Attack, doc.Defence}}
	f := &File{Title: titleOf(path)}
	if doc.Title != nil {
		f.Title = *doc.Title
	}
	if path != "-" {
		f.Files = append(f.Files, path)
	}
	var sc *model.Scenario
	if doc.Scenario != nil {
		loaded, files, err := scenario.LoadBeside(path, *doc.Scenario)
		if err != nil {
			if own := b.Err(); own != nil {
				return nil, own
			}
			return nil, err
		}
		sc = loaded
		f.Files = append(f.Files, files...)
		if doc.Pitch != nil {
			b.Fault("pitch", "the pitch is that of the scenario", "take this key away")
		}
		b.named(sc)
	} else {
		sc = new(model.AverageScenario())
		b.pitch(sc)
		b.numbered(sc.Pitch)
	}
	b.still.Scenario = sc
	b.places()
	b.ball()
	if err := b.Err(); err != nil {
		return nil, err
	}
	if doc.Scenario == nil {
		b.average(sc)
	}
	b.feet(sc)
	for t := range b.order {
		for i, n := range b.order[t] {
			b.move(t, i, b.sides[t][n])
		}
	}
	if err := b.Err(); err != nil {
		return nil, err
	}
	f.Still = b.still
	return f, nil
}

// titleOf makes a title of the name of a file.
func titleOf(path string) string {
	if path == "-" {
		return "Still"
	}
	base := filepath.Base(path)
	return strings.TrimSuffix(base, filepath.Ext(base))
}

func (b *builder) pitch(sc *model.Scenario) {
	if p := b.doc.Pitch; p != nil {
		if p.Length != nil {
			sc.Pitch.Length = *p.Length
		}
		if p.Width != nil {
			sc.Pitch.Width = *p.Width
		}
	}
	for _, f := range sc.Validate() {
		if strings.HasPrefix(f.Path, "pitch.") {
			b.Fault(f.Path, f.What, f.Mend)
		}
	}
}

// numbered puts the men of a still without a scenario in order: the keeper first. What
// follows from a mistake is not a second one, so nobody is counted after a fault.
func (b *builder) numbered(pitch model.Pitch) {
	sound := b.Sound()
	for t, men := range b.sides {
		if !sound || !b.count(t) {
			continue
		}
		numbers := slices.Sorted(maps.Keys(men))
		for _, n := range numbers {
			if n < 1 || n > 99 {
				b.Fault(fmt.Sprintf("%s.%d", sideKeys[t], n), "is no shirt number", "give numbers from 1 to 99")
			}
		}
		keeper := slices.Index(numbers, 1)
		if keeper < 0 {
			best := math.Inf(1)
			for i, n := range numbers {
				if at := men[n].At; at != nil {
					if d := math.Abs(own(t, vec(*at)).X + pitch.Length/2); d < best {
						best, keeper = d, i
					}
				}
			}
		}
		if keeper > 0 {
			n := numbers[keeper]
			numbers = slices.Insert(slices.Delete(numbers, keeper, keeper+1), 0, n)
		}
		b.order[t] = numbers
	}
}

// count insists on eleven men.
func (b *builder) count(t int) bool {
	key := sideKeys[t]
	switch n := len(b.sides[t]); {
	case n < 11:
		b.Fault(key, fmt.Sprintf("places %d of 11 players", n), "add the others; one who is out of the picture where he would usually stand")
	case n > 11:
		b.Fault(key, fmt.Sprintf("places %d players", n), "a team is eleven; take some away")
	default:
		return true
	}
	return false
}

// named puts them in the order of the scenario's players.
func (b *builder) named(sc *model.Scenario) {
	if !b.Sound() {
		return
	}
	for t, men := range b.sides {
		team := &sc.Teams[t]
		var has []string
		for i := range team.Players {
			has = append(has, strconv.Itoa(team.Players[i].Number))
		}
		bad := false
		for _, n := range slices.Sorted(maps.Keys(men)) {
			if team.ByNumber(n) < 0 {
				bad = true
				b.Fault(fmt.Sprintf("%s.%d", sideKeys[t], n), "the scenario has no such player", "its numbers are "+strings.Join(has, ", "))
			}
		}
		if bad {
			continue
		}
		var missing []string
		for i := range team.Players {
			n := team.Players[i].Number
			if _, there := men[n]; !there {
				missing = append(missing, strconv.Itoa(n))
			}
			b.order[t] = append(b.order[t], n)
		}
		if len(missing) > 0 {
			b.order[t] = nil
			b.Fault(sideKeys[t], "has no place for "+strings.Join(missing, ", "), "add it; for a player out of the picture where he would usually stand")
		}
	}
}

func vec(p scenario.Point) r2.Vec { return r2.Vec{X: p[0], Y: p[1]} }

// own turns a place into the frame of a team, and back.
func own(team int, p r2.Vec) r2.Vec {
	if team == 1 {
		return r2.Vec{X: -p.X, Y: -p.Y}
	}
	return p
}
