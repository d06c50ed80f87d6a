package search

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/internal/evolution"
	"playout/internal/scenario"
	"playout/model"
)

// maxDimensions is more than a search can learn about on any budget it is given.
const maxDimensions = 60

// Freedom is what a search may change.
type Freedom struct {
	base  *scenario.Base
	knobs []knob
	taken map[string]bool // paths
}

// knob is one thing that may change. Its coordinates are a stretch of the point
// that the search moves.
type knob interface {
	box() (lo, hi, start []float64)
	changes(x []float64) []Change
}

// Change is a value as the file gives it and as a variant does.
type Change struct {
	Path, Label, Unit string
	From, To          string  // as a file writes them
	Size              float64 // of a number: To - From; of a place: metres between them
	DX, DY            float64 // of a place: m up the pitch and to the left
	Place             bool
}

// NewFreedom allows nothing yet.
func NewFreedom(base *scenario.Base) *Freedom {
	return &Freedom{base: base, taken: map[string]bool{}}
}

// Base is the scenario that variants are made of.
func (f *Freedom) Base() *scenario.Base { return f.base }

// Dimensions is the number of coordinates of a point.
func (f *Freedom) Dimensions() int {
	_, start := f.space()
	return len(start)
}

// add takes a knob that sets the values at some paths.
func (f *Freedom) add(text string, k knob, paths ...string) error {
	for _, p := range paths {
		for taken := range f.taken {
			if taken == p || strings.HasPrefix(taken, p+".") || strings.HasPrefix(p, taken+".") {
				return fmt.Errorf("%s: %s is free already; name every value once", text, p)
			}
		}
	}
	for _, p := range paths {
		f.taken[p] = true
	}
	f.knobs = append(f.knobs, k)
	if n := f.Dimensions(); n > maxDimensions {
		return fmt.Errorf("%d values are free at once; a search can learn about %d at most, and about fewer the better", n, maxDimensions)
	}
	return nil
}

// Number frees a number of the scenario: PATH=FROM:TO.
func (f *Freedom) Number(text string) error {
	path, span, ok := strings.Cut(text, "=")
	from, to, both := strings.Cut(span, ":")
	if !ok || !both {
		return fmt.Errorf("%q is not PATH=FROM:TO, such as attack.plan.tempo=0.8:2", text)
	}
	p, err := f.base.Numeric(path)
	if err != nil {
		return err
	}
	lo, err1 := strconv.ParseFloat(from, 64)
	hi, err2 := strconv.ParseFloat(to, 64)
	switch {
	case err1 != nil || err2 != nil || !(lo < hi):
		return fmt.Errorf("%q: FROM:TO are two numbers, the smaller first, such as 0.8:2", text)
	case lo < p.Lo || hi > p.Hi:
		return fmt.Errorf("%q: %s can be %s", text, path, strings.TrimSpace(fmt.Sprintf("%v to %v %s", p.Lo, p.Hi, p.Unit)))
	case p.Value == "":
		return fmt.Errorf("%q: the scenario gives %s no value to start from; write it into the file first", text, path)
	case p.Now < lo || p.Now > hi:
		return fmt.Errorf("%q: the present value of %s, %s, is not in this range; widen the range to take it in", text, path, p.Value)
	case p.Kind == scenario.Whole && (lo != math.Trunc(lo) || hi != math.Trunc(hi)):
		return fmt.Errorf("%q: %s takes whole numbers", text, path)
	}
	return f.add(text, &number{p, lo, hi}, path)
}

// Choose frees a value between words: PATH=WORD,WORD. As it is is always one of
// the choices.
func (f *Freedom) Choose(text string) error {
	path, list, ok := strings.Cut(text, "=")
	if !ok || list == "" {
		return fmt.Errorf("%q is not PATH=WORD,WORD, such as defence.block=4-4-2-mid,4-4-2-low", text)
	}
	p, err := f.base.Path(path)
	if err != nil {
		return err
	}
	c := &choice{path: p, values: []string{p.Value}}
	for _, v := range topLevel(list) {
		if v = strings.TrimSpace(v); v == p.Value {
			continue
		}
		if _, err := f.base.With(scenario.Setting{Path: path, Value: v}); err != nil {
			return err
		}
		c.values = append(c.values, v)
	}
	if len(c.values) < 2 {
		return fmt.Errorf("%q offers nothing but the present value", text)
	}
	return f.add(text, c, path)
}

// topLevel cuts a list at its commas, those inside brackets left alone.
func topLevel(list string) []string {
	var out []string
	depth, from := 0, 0
	for i, r := range list {
		switch r {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case ',':
			if depth == 0 {
				out = append(out, list[from:i])
				from = i + 1
			}
		}
	}
	return append(out, list[from:])
}

// Move frees places of players of the attack: NUMBERS:METRES, or with the phases it
// holds for, NUMBERS:METRES@PHASES. Each player gets one shift of at most so many
// metres, the same in all phases named (all three without any).
func (f *Freedom) Move(text string) error {
	rest, named, some := strings.Cut(text, "@")
	list, metres, ok := strings.Cut(rest, ":")
	radius, err := strconv.ParseFloat(metres, 64)
	if !ok || err != nil || !(radius >= minMove && radius <= maxMove) {
		return fmt.Errorf("%q is not NUMBERS:METRES, such as 6,8:5 or 6,8:5@build_up, with %v to %v m", text, minMove, maxMove)
	}
	phases := []model.Phase{model.BuildUp, model.Progression, model.FinalThirdAttack}
	if some {
		if phases, err = phasesOf(named); err != nil {
			return fmt.Errorf("%q: %w", text, err)
		}
	}
	team := &f.base.Scenario().Teams[model.Attack]
	for _, word := range strings.Split(list, ",") {
		n, err := strconv.Atoi(strings.TrimSpace(word))
		at := team.ByNumber(n)
		if err != nil || at < 0 {
			return fmt.Errorf("%q: %q is no shirt number of the attack; it has %s", text, word, numbersOf(team))
		}
		m := &move{pitch: f.base.Scenario().Pitch, radius: radius}
		var paths []string
		for _, ph := range phases {
			path := fmt.Sprintf("attack.structure.%s.%d", ph, n)
			paths = append(paths, path)
			m.places = append(m.places, place{path, fmt.Sprintf("number %d, %s", n, phaseWords[ph]), team.Structure.Anchor[ph][at]})
		}
		if err := f.add(text, m, paths...); err != nil {
			return err
		}
	}
	return nil
}

// Bounds of a move, m: below, nothing on a pitch changes; above, it is another player.
const minMove, maxMove = 0.5, 30.0

var phaseWords = [model.NumPhases]string{"build-up", "progression", "final third"}

func phasesOf(text string) ([]model.Phase, error) {
	var out []model.Phase
	for _, word := range strings.Split(text, ",") {
		ph := model.BuildUp
		for ph < model.NumPhases && ph.String() != strings.TrimSpace(word) {
			ph++
		}
		if ph == model.NumPhases {
			return nil, fmt.Errorf("%q is no phase; after @ write build_up, progression or final_third", word)
		}
		for _, had := range out {
			if had == ph {
				return nil, fmt.Errorf("%s is named twice", ph)
			}
		}
		out = append(out, ph)
	}
	return out, nil
}

func numbersOf(t *model.Team) string {
	var out []string
	for _, p := range t.Players {
		out = append(out, strconv.Itoa(p.Number))
	}
	return strings.Join(out, ", ")
}

// space is the box of the points and the point of the original.
func (f *Freedom) space() (evolution.Box, []float64) {
	var b evolution.Box
	var start []float64
	for _, k := range f.knobs {
		lo, hi, at := k.box()
		b.Lo, b.Hi, start = append(b.Lo, lo...), append(b.Hi, hi...), append(start, at...)
	}
	return b, start
}

// Changes lists what a point changes, in the order in which it was freed; values
// that stay are not among them.
func (f *Freedom) Changes(x []float64) []Change {
	var out []Change
	for _, k := range f.knobs {
		lo, _, _ := k.box()
		out = append(out, k.changes(x[:len(lo)])...)
		x = x[len(lo):]
	}
	return out
}

// Settings are the values of a variant.
func Settings(changes []Change) []scenario.Setting {
	var out []scenario.Setting
	for _, c := range changes {
		out = append(out, scenario.Setting{Path: c.Path, Value: c.To})
	}
	return out
}
