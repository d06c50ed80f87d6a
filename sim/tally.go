package sim

import (
	"playout/internal/stats"
	"playout/model"
)

// XGUnit is the step to which xG is rounded in tallies, so that sums are exact
// integers and parts merge to the same bytes in any order.
const XGUnit = 1e-6

// Sum is the exact sum and sum of squares of an integer measure.
type Sum struct {
	N  int64
	X  int64
	XX int64
}

// Tally counts possessions. Every field is a sum over possessions, so tallies
// of disjoint sets of possessions merge by addition, exactly and in any order.
type Tally struct {
	Possessions int64
	Starts      [model.NumThirds]int64 // by third of the start
	StartsOwn   int64                  // started in the own half

	ExitOwnThird, Halfway, FinalReached, FinalThird, Box, Shot, Goal int64
	Turnover, Stalled, ForcedBack                                    int64

	EntryLane       [model.NumLanes]int64 // controlled entries
	EntryMethod     [NumMethods]int64
	EntryLaneMethod [model.NumLanes][NumMethods]int64
	ReachLane       [model.NumLanes]int64 // entries as the reference tables count them
	ReachMethod     [NumMethods]int64
	ReachWay        [NumWays]int64
	EntryTicks      Sum
	EntryPasses     Sum

	ShotsByEntry [model.NumLanes]int64 // possessions with a shot, by lane of the entry
	XGByEntry    [model.NumLanes]int64 // XGUnit
	GoalsByEntry [model.NumLanes]int64
	ShotsByLast  [model.NumLanes]int64 // by lane of the last action before the shot
	XGByLast     [model.NumLanes]int64
	GoalsByLast  [model.NumLanes]int64
	ShotsBy      [NumSources]int64
	XGBy         [NumSources]int64
	GoalsBy      [NumSources]int64

	Ends        [NumEnds][model.NumThirds]int64
	LostBy      [11]int64                              // by player of the attack
	LostIn      [model.NumThirds][model.NumLanes]int64 // turnovers by zone
	LostRest    [model.NumThirds]Sum                   // rest defence at the loss
	Against     [model.NumThirds]Sum                   // opponents ahead of the ball at the loss
	LostPressed int64                                  // turnovers with pressure above one half

	Attempted, Completed [NumPassKinds]int64
	PassSum, PassSumDone Sum   // passes attempted, completed, per possession
	PassCross            int64 // sum over possessions of attempted x completed

	Duration Sum // ticks to the end
	Active   Sum // ticks to the last own action
	XG       Sum // XGUnit

	Switches     [NumSwitchKinds][NumVerdicts]int64
	SwitchRace   [2]int64
	Overloads    [NumOverloads][model.NumLanes]int64
	OverloadsWon [NumOverloads][model.NumLanes]int64

	DefActions int64
	Block      BlockTotals
	After      AfterTally
}

// BlockTotals are BlockSample summed.
type BlockTotals struct {
	Ticks, Pressing, GapN, Gap, Width, Length, LagEC, LagCC int64
	Jumps, JumpWon, Pinned                                  int64
	Jumped                                                  [11]int64
	Line                                                    [lineBands]BandSum
	Speed                                                   [len(speedCuts) + 1]int64
	PressureN, PressureTicks, Pressed                       int64
}

func (s *Sum) add(x int64) {
	s.N++
	s.X += x
	s.XX += x * x
}

// Merge adds another tally.
func (t *Tally) Merge(o *Tally) { stats.AddIntegers(t, o) }

// Add counts one possession.
func (t *Tally) Add(p *Possession, pitch model.Pitch) {
	t.Possessions++
	t.Starts[pitch.ThirdOf(p.Start.X)]++
	if p.Start.X < 0 {
		t.StartsOwn++
	}
	third := pitch.ThirdOf(p.Place.X)
	t.ladder(p)
	t.entry(p)
	t.chance(p)
	t.Ends[p.End][third]++
	if p.End.Lost() {
		t.Turnover++
		t.LostIn[third][model.LaneOf(p.Place.Y)]++
		t.LostRest[third].add(int64(p.RestDefence))
		t.Against[third].add(int64(p.AgainstRest))
		if p.Loser >= 0 {
			t.LostBy[p.Loser]++
		}
		if p.Under > 0.5 {
			t.LostPressed++
		}
	}
	attempted, completed := 0, 0
	for k := range p.Attempted {
		t.Attempted[k] += int64(p.Attempted[k])
		t.Completed[k] += int64(p.Completed[k])
		attempted += p.Attempted[k]
		completed += p.Completed[k]
	}
	t.PassSum.add(int64(attempted))
	t.PassSumDone.add(int64(completed))
	t.PassCross += int64(attempted) * int64(completed)
	t.Duration.add(int64(p.Ticks))
	t.Active.add(int64(p.LastAction))
	t.XG.add(xgUnits(p.XG))
	for k := range p.Switches {
		for v := range p.Switches[k] {
			t.Switches[k][v] += int64(p.Switches[k][v])
		}
	}
	t.SwitchRace[0] += int64(p.SwitchRace[0])
	t.SwitchRace[1] += int64(p.SwitchRace[1])
	for o := range p.Overloads {
		for l := range p.Overloads[o] {
			t.Overloads[o][l] += int64(p.Overloads[o][l])
			t.OverloadsWon[o][l] += int64(p.OverloadsWon[o][l])
		}
	}
	t.DefActions += int64(p.DefActions)
	t.Block.add(&p.BlockSample)
	t.After.add(p, pitch)
}

func count(n *int64, yes bool) {
	if yes {
		*n++
	}
}

func (t *Tally) ladder(p *Possession) {
	count(&t.ExitOwnThird, p.ExitOwnThird)
	count(&t.Halfway, p.Halfway)
	count(&t.FinalReached, p.FinalReached)
	count(&t.FinalThird, p.FinalThird)
	count(&t.Box, p.Box)
	count(&t.Shot, p.Shot)
	count(&t.Goal, p.Goal)
	count(&t.Stalled, p.End == EndStalled)
	count(&t.ForcedBack, p.ForcedBack)
}

func (t *Tally) entry(p *Possession) {
	if p.FinalThird {
		e := &p.Entry
		t.EntryLane[e.Lane]++
		t.EntryMethod[e.Method]++
		t.EntryLaneMethod[e.Lane][e.Method]++
		t.EntryTicks.add(int64(e.Tick))
		t.EntryPasses.add(int64(e.Passes))
	}
	if p.FinalReached {
		t.ReachLane[p.Reach.Lane]++
		t.ReachMethod[p.Reach.Method]++
		t.ReachWay[p.Reach.Way]++
	}
}

func (t *Tally) chance(p *Possession) {
	if !p.Shot {
		return
	}
	xg := xgUnits(p.XG)
	goal := int64(0)
	if p.Goal {
		goal = 1
	}
	lane := model.LaneOf(p.ShotAt.Y)
	if p.FinalReached {
		lane = p.Reach.Lane
	}
	if p.FinalThird {
		lane = p.Entry.Lane
	}
	t.ShotsByEntry[lane]++
	t.XGByEntry[lane] += xg
	t.GoalsByEntry[lane] += goal
	t.ShotsByLast[p.Before]++
	t.XGByLast[p.Before] += xg
	t.GoalsByLast[p.Before] += goal
	t.ShotsBy[p.Source]++
	t.XGBy[p.Source] += xg
	t.GoalsBy[p.Source] += goal
}

func (b *BlockTotals) add(s *BlockSample) {
	b.Ticks += int64(s.Ticks)
	b.Pressing += int64(s.Pressing)
	b.GapN += int64(s.GapN)
	b.Gap += s.Gap
	b.Width += s.Width
	b.Length += s.Length
	b.LagEC += s.LagEC
	b.LagCC += s.LagCC
	b.Jumps += int64(s.Jumps)
	b.JumpWon += int64(s.JumpWon)
	b.Pinned += int64(s.Pinned)
	for i := range s.Speed {
		b.Speed[i] += s.Speed[i]
	}
	for i := range s.Line {
		b.Line[i].N += s.Line[i].N
		b.Line[i].X += s.Line[i].X
	}
	for i := range s.Jumped {
		b.Jumped[i] += int64(s.Jumped[i])
	}
	b.PressureN += int64(s.Pressure.N)
	b.PressureTicks += s.Pressure.Ticks
	b.Pressed += int64(s.Pressure.Pressed)
}
