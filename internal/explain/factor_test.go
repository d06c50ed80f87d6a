package explain

import (
	"testing"

	"playout/model"
	"playout/sim"
)

// everyman: all of one trade.
var everyman [11]model.Group

// many is n stories of one pass by man to aim, the first k of which fail by the cause.
func many(n, k int, c Cause, spell Spell) []Story {
	spell.Left = ByPass
	out := make([]Story, n)
	for i := range out {
		out[i] = Story{ID: i, Result: Worked, Spells: []Spell{spell}}
		if i < k {
			out[i].Result, out[i].Cause = Failed, c
		}
	}
	return out
}

// What goes with a cause follows the numbers: the man, the receiver or the length that
// has the excess, and nothing where all are alike.
func TestForemost(t *testing.T) {
	by := func(player, aim int8, length float64) Spell {
		return Spell{Player: player, Aim: aim, Pressed: -1, Target: at(length, 0), Flight: sim.Ground}
	}
	join := func(lists ...[]Story) (all []Story) {
		for _, l := range lists {
			all = append(all, l...)
		}
		return all
	}
	cases := map[string]struct {
		stories []Story
		kind    Kind
		value   int
		least   int
	}{
		"receiver": {join(many(200, 40, CutMidfield, by(3, 7, 10)), many(200, 8, CutMidfield, by(3, 8, 10)), many(200, 2, CutMidfield, by(3, 9, 10))), ToMan, 7, 9},
		"another":  {join(many(200, 2, CutMidfield, by(3, 7, 10)), many(200, 8, CutMidfield, by(3, 8, 10)), many(200, 40, CutMidfield, by(3, 9, 10))), ToMan, 9, 7},
		"man":      {join(many(200, 40, CutMidfield, by(2, 7, 10)), many(200, 5, CutMidfield, by(3, 7, 10)), many(100, 2, CutMidfield, by(4, 7, 10))), ByMan, 2, 4},
		"length":   {join(many(200, 40, CutMidfield, by(3, 7, 30)), many(200, 4, CutMidfield, by(3, 7, 10))), FarPass, 1, nobody},
	}
	for name, c := range cases {
		f, least := Foremost(Factors(c.stories, CutMidfield, &everyman))
		if f == nil || f.Kind != c.kind || f.Value != c.value {
			t.Errorf("%s: %+v", name, f)
			continue
		}
		if c.least == nobody != (least == nil) || least != nil && least.Value != c.least {
			t.Errorf("%s: instead %+v, want %d", name, least, c.least)
		}
	}
	alike := join(many(200, 10, CutMidfield, by(3, 7, 10)), many(200, 11, CutMidfield, by(3, 8, 10)), many(200, 9, CutMidfield, by(2, 9, 10)))
	if f, _ := Foremost(Factors(alike, CutMidfield, &everyman)); f != nil {
		t.Errorf("all alike: %+v", f)
	}
	// A receiver whom only passes back are played to is no advice, nor is the keeper.
	back := join(many(200, 40, CutMidfield, by(3, 7, 10)), many(200, 2, CutMidfield, by(3, 8, -10)), many(200, 0, CutMidfield, by(3, 0, 10)))
	if f, least := Foremost(Factors(back, CutMidfield, &everyman)); f == nil || f.Value != 7 || least != nil {
		t.Errorf("passes back: %+v, %+v", f, least)
	}
	// Who passes is not charged with the touches of those he passes to; they are.
	touches := join(many(200, 40, BadTouch, by(2, 7, 10)), many(200, 2, BadTouch, by(3, 8, 10)))
	if f, _ := Foremost(Factors(touches, BadTouch, &everyman)); f == nil || f.Kind != ToMan || f.Value != 7 {
		t.Errorf("touches: %+v", f)
	}
}

// A man is held against the others of his trade, and one of them is named instead of him.
func TestLikeWithLike(t *testing.T) {
	trades := [11]model.Group{0: model.Keepers, 2: model.Defenders, 3: model.Defenders, 8: model.Forwards, 9: model.Forwards, 10: model.Forwards}
	by := func(player int8) Spell {
		return Spell{Player: player, Aim: 5, Pressed: -1, Target: at(10, 0), Flight: sim.Ground}
	}
	join := func(lists ...[]Story) (all []Story) {
		for _, l := range lists {
			all = append(all, l...)
		}
		return all
	}
	// Forwards lose more than defenders; none stands out among his own.
	backs := join(many(400, 4, CutMidfield, by(2)), many(400, 5, CutMidfield, by(3)))
	alike := join(backs, many(200, 40, CutMidfield, by(8)), many(200, 38, CutMidfield, by(9)))
	if f, _ := Foremost(Factors(alike, CutMidfield, &trades)); f != nil {
		t.Errorf("two forwards alike: %+v", f)
	}
	// One does: the other forward is named, not the back with the lowest rate of all.
	odd := join(backs, many(200, 60, CutMidfield, by(8)), many(200, 20, CutMidfield, by(9)))
	f, least := Foremost(Factors(odd, CutMidfield, &trades))
	if f == nil || f.Value != 8 || f.Others != 20 || f.Rest != 200 || least == nil || least.Value != 9 {
		t.Errorf("one forward: %+v, instead %+v", f, least)
	}
	// A keeper has no like, so nothing is said of him.
	if f, _ = Foremost(Factors(join(backs, many(200, 40, CutMidfield, by(0))), CutMidfield, &trades)); f != nil {
		t.Errorf("the keeper: %+v", f)
	}
}
