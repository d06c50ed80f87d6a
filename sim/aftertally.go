package sim

import (
	"math"

	"playout/model"
)

// AfterTally counts what the opponent made of the lost balls.
type AfterTally struct {
	All     AfterSum
	Net     Sum // xG for minus xG against, over all possessions, XGUnit
	Against Sum // xG against, over all possessions, XGUnit
	By      [NumTakeovers]AfterSum
	Where   [model.NumThirds][NumWidths]AfterSum // place of the loss
	Rest    [maxRest + 1]AfterSum                // outfield team-mates goal-side of the ball; the last: that many or more
	Ends    [NumEnds]int64                       // of the attacks played, for the opponent
	Ticks   int64
}

// AfterSum sums over losses.
type AfterSum struct {
	Lost, Played, Shots, Goals int64
	XG                         Sum // over Played, XGUnit
}

// maxRest is the number in rest defence from which losses are counted together.
const maxRest = 7

// Width is a part of the pitch's width.
type Width uint8

// Widths: the middle third of it and the outer ones, as the reference table of
// the price of a loss parts them.
const (
	MiddleWidth Width = iota
	OuterWidth
	NumWidths
)

var widthNames = [NumWidths]string{"middle", "outer"}

func (b Width) String() string { return widthNames[b] }

func widthOf(y float64, pitch model.Pitch) Width {
	if math.Abs(y) > pitch.Width/6 {
		return OuterWidth
	}
	return MiddleWidth
}

func (t *AfterTally) add(p *Possession, pitch model.Pitch) {
	a := &p.After
	against := xgUnits(a.XG)
	t.Net.add(xgUnits(p.XG) - against)
	t.Against.add(against)
	if !p.End.Lost() {
		return
	}
	t.All.add(a, against)
	t.By[a.By].add(a, against)
	t.Where[pitch.ThirdOf(p.Place.X)][widthOf(p.Place.Y, pitch)].add(a, against)
	t.Rest[min(p.RestDefence, maxRest)].add(a, against)
	if a.Played {
		t.Ends[a.End]++
		t.Ticks += int64(a.Ticks)
	}
}

func (s *AfterSum) add(a *After, xg int64) {
	s.Lost++
	if !a.Played {
		return
	}
	s.Played++
	count(&s.Shots, a.Shot)
	count(&s.Goals, a.Goal)
	s.XG.add(xg)
}

// xgUnits is xG in whole XGUnit.
func xgUnits(xg float64) int64 { return int64(math.Round(xg / XGUnit)) }
