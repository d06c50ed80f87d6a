package reference

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// groups is the number of groups of possessions, by ID, from which intervals are
// computed: enough for a t with 19 degrees of freedom, few enough that each group
// is large.
const groups = 20

// meter measures the possessions of one setting by the definitions of the
// reference tables: an observer of a run. It serves one run.
type meter struct {
	pitch  model.Pitch
	record record
	group  [groups]sums
}

// Possession adds a possession to its group.
func (m *meter) Possession(p *sim.Possession, events []sim.Event) {
	s := &m.group[p.ID%groups]
	s.Possessions++
	r := &m.record
	r.read(p, events)
	s.spells(r, m.pitch)
	s.passes(r, m.pitch)
	s.shots(r, m.pitch)
	s.loss(r, m.pitch)
	class := r.class(m.pitch)
	if class >= ownStart {
		s.Starts.add(r, m.pitch)
	}
	if class == buildUp {
		s.BuildUp.add(r, m.pitch)
		s.outcome(r, m.pitch)
		s.mix(r, m.pitch)
		s.entry(r, m.pitch)
	}
	s.Movement.possession(p, events, m.pitch)
}

func count(n *int64, yes bool) {
	if yes {
		*n++
	}
}

// spells counts the spells on the ball, by the third they begin in, and those in which event
// data mark a carry: a long one, or a duel from which the team goes on.
func (s *sums) spells(r *record, pitch model.Pitch) {
	begin, marked := 0, false
	for i := range r.actions {
		kind, last := r.actions[i].kind, i == len(r.actions)-1
		marked = marked || kind == carry || kind == duel && !last && r.actions[i+1].kind <= shot
		if last || kind != carry && kind != duel {
			s.Spells[pitch.ThirdOf(r.actions[begin].from.X)].add(marked)
			begin, marked = i+1, false
		}
	}
}

// add counts how far a possession gets, with how many passes and in what time.
func (s *progressSums) add(r *record, pitch model.Pitch) {
	third := pitch.Length / 6
	var exit, half, final, box bool
	r.visit(func(at r2.Vec, _ int, _ *action) bool {
		exit, half, final = exit || at.X > -third, half || at.X > 0, final || at.X > third
		box = box || pitch.InPenaltyArea(at)
		return true
	})
	s.N++
	count(&s.Exit, exit)
	count(&s.Half, half)
	count(&s.Final, final)
	count(&s.Box, box)
	count(&s.Shots, r.p.Shot)
	completed := 0
	for i := range r.actions {
		switch a := &r.actions[i]; a.kind {
		case pass:
			s.Attempted++
			if a.done {
				completed++
			}
		case shot:
			s.Chances += integer(r.p.Chance)
		}
	}
	s.Completed += int64(completed)
	s.Chain[min(completed, longChain)]++
	s.Active += int64(r.actions[len(r.actions)-1].tick - r.first().tick)
}

// outcome counts how a build-up possession ends, and its passes and shots by kind.
func (s *sums) outcome(r *record, pitch model.Pitch) {
	s.Ends[r.p.End]++
	if r.p.End.Lost() {
		s.LostIn[pitch.ThirdOf(r.p.Place.X)]++
	}
	for i := range r.actions {
		switch a := &r.actions[i]; a.kind {
		case pass:
			s.BuildUpPasses[a.ptype].add(a.done)
			count(&s.Crosses, a.ptype == crossed)
		case shot:
			s.XG += integer(a.xg)
		}
	}
}

func integer(x float64) int64 { return int64(math.Round(x / micro)) }

// mix counts the passes of a build-up possession by kind, direction and length, and
// the time from a pass to the team's next action.
func (s *sums) mix(r *record, pitch model.Pitch) {
	for i := range r.actions {
		a := &r.actions[i]
		if a.kind != pass {
			continue
		}
		third := pitch.ThirdOf(a.from.X)
		if a.ptype <= high {
			s.Mix[third][a.ptype][directionOf(a.from, a.end)]++
			s.Length[third][a.ptype].add(dist(a.from, a.end), lengthBin)
		}
		if a.done && a.next >= 0 {
			ticks := a.next - a.tick
			s.NextAction[third].add(float64(ticks), 1)
			s.NextSum[third].add(float64(ticks), 1)
		}
	}
}

// sector is how far from straight ahead a pass still counts as forward, and from straight
// back as back, rad. The tables do not say; their counts are those of 60 degrees: of the
// ground passes of 5 to 10 m out of the middle third (pass_completion.csv), whose angles are
// spread almost evenly, 0.38 are forward and 0.33 sideways. With 45 degrees it is 0.29 and
// 0.50 (the longer tables they come from, which name their sectors).
const sector = math.Pi / 3

// directionOf sorts the way from one place to another by its angle to the way of the attack.
func directionOf(from, to r2.Vec) direction {
	angle := math.Atan2(math.Abs(to.Y-from.Y), to.X-from.X)
	switch {
	case angle < sector:
		return forward
	case angle > math.Pi-sector:
		return back
	}
	return sideways
}

// entry counts the first entry to the final third and what comes of it.
func (s *sums) entry(r *record, pitch model.Pitch) {
	third := pitch.Length / 6
	var e *entrySums
	tick, box, cross := 0, false, false
	acts := -1 // own actions in the final third after the entry
	r.visit(func(at r2.Vec, t int, by *action) bool {
		if e == nil && at.X > third {
			e, tick = &s.Entries[model.LaneOf(at.Y)], t
			e.N++
			switch {
			case by == nil:
				e.Way[sim.WayCarryOrLoose]++
			case by.ptype == high:
				e.Way[sim.WayHigh]++
			default:
				e.Way[sim.WayGround]++
			}
			if by != nil {
				acts = 0
			}
		}
		box = box || e != nil && pitch.InPenaltyArea(at)
		return true
	})
	if e == nil {
		return
	}
	for i := range r.actions {
		a := &r.actions[i]
		if a.tick >= tick && a.kind != duel && a.from.X > third {
			acts++
		}
		cross = cross || a.tick >= tick && a.kind == pass && a.ptype == crossed
		if a.kind == shot {
			e.Shots++
			e.XG += integer(a.xg)
			e.Chances += integer(r.p.Chance)
		}
	}
	count(&s.ActsThere, acts > 0)
	count(&e.Boxes, box)
	count(&e.Crossed, cross)
	count(&e.Lost5, r.p.End.Lost() && r.p.Ticks-tick <= ticks(5))
}

func ticks(s float64) int { return int(math.Round(s / sim.TickSeconds)) }

// passes counts every pass, and switches and crosses apart.
func (s *sums) passes(r *record, pitch model.Pitch) {
	for i := range r.actions {
		a := &r.actions[i]
		if a.kind != pass {
			continue
		}
		third := pitch.ThirdOf(a.from.X)
		switch a.ptype {
		case ground, high:
			band := bandOf(dist(a.from, a.end), bands[:])
			s.Passes[a.ptype][third][band].add(a.done)
			s.Directed[a.ptype][third][directionOf(a.from, a.end)].add(a.done)
			if a.ptype == high {
				s.Kept[third][band].add(r.kept(i))
			}
			if math.Abs(a.end.Y-a.from.Y) >= model.SwitchWidth {
				s.Switch[a.ptype][third].add(a.done)
				if a.done {
					s.switched(r, a, pitch)
				}
			}
		case head:
			s.Headed[third].add(a.done)
		case crossed:
			s.crossed(r, a)
		}
	}
}

// Distances and times of the definitions, m and s.
const (
	switchWindow = 10.0
	progressBy   = 15.0
	backBy       = 10.0
	crossWindow  = 5.0
)

// switched counts what follows a completed switch within ten seconds of its arrival.
func (s *sums) switched(r *record, a *action, pitch model.Pitch) {
	third, until := pitch.Length/6, a.at+ticks(switchWindow)
	var what [numAfters]bool
	behind := false
	r.visit(func(at r2.Vec, tick int, by *action) bool {
		if tick < a.at || tick > until {
			return tick <= until
		}
		what[progressed] = what[progressed] || at.X >= a.from.X+progressBy || a.from.X <= third && at.X > third
		behind = behind || at.X <= a.end.X-backBy
		return true
	})
	what[forcedBack] = behind && !what[progressed]
	what[lost10] = r.p.End.Lost() && r.p.Ticks <= until
	what[shot10] = r.p.Shot && r.p.Ticks <= until
	for k, yes := range what {
		s.Switched[pitch.ThirdOf(a.from.X)][k].add(yes)
	}
}

// crossed counts a cross by its origin and height.
func (s *sums) crossed(r *record, a *action) {
	origin := -1
	switch model.LaneOf(a.from.Y) {
	case model.LeftWing, model.RightWing:
		origin = 0
	case model.LeftHalfSpace, model.RightHalfSpace:
		origin = 2
	}
	if origin >= 0 {
		if a.from.X < bylineFrom {
			origin++
		}
		low := 0
		if a.low {
			low = 1
		}
		c := &s.Cross[origin][low]
		c.Done.add(a.done)
		c.Shot.add(r.p.Shot && r.p.Ticks-a.tick <= ticks(crossWindow))
	}
	foot := 0
	if a.inner {
		foot = 1
	}
	s.CrossFoot[foot].add(a.done)
}

// bylineFrom is where a cross counts as played from the byline, m: level with the
// penalty area.
const bylineFrom = 36.0

// shots adds the chance of scoring of every shot to its band of distance.
func (s *sums) shots(r *record, pitch model.Pitch) {
	for i := range r.actions {
		a := &r.actions[i]
		if a.controlled() {
			x := int((pitch.Length/2 - a.from.X) / (pitch.Length / gridX))
			y := int(math.Abs(a.from.Y) / (pitch.Width / gridY))
			if x < shotCellsX && y < shotCellsY {
				s.ShotCells[x][y].add(a.kind == shot)
			}
		}
		if a.kind != shot {
			continue
		}
		by := 0
		if a.header {
			by = 1
		}
		s.ShotBands[by][bandOf(dist(a.from, pitch.Goal()), shotBands[:])].add(r.p.Chance, micro)
	}
}

// deadFor is how long the ball is out of play before a restart, s: the table counts
// its 20 s from the loss. From memory of published times of restarts, to be read as
// a judgement: a throw-in about 15 s, free kicks and goal kicks 25 s and more.
var deadFor = [sim.NumTakeovers]float64{sim.ByThrowIn: 15, sim.ByFreeKick: 25, sim.ByGoalKick: 30}

// loss adds what the opponent made of a lost ball within 20 s of the loss, which
// is when its loser acted last: of the shots that full/07b counts from the
// opponent's first action, turnover_cost has all but one in fifty after a loss at
// the own end and half after one at the other, where they come late, so its clock
// starts seconds sooner. The engine plays one possession of the opponent's, not what
// follows it; corners and free kicks near goal come later than that.
func (s *sums) loss(r *record, pitch model.Pitch) {
	p := r.p
	if !p.End.Lost() || p.After == (sim.After{}) {
		return
	}
	band := 0
	for band+1 < len(lossFrom) && p.Place.X >= lossFrom[band+1] {
		band++
	}
	width := 0
	if math.Abs(p.Place.Y) > pitch.Width/6 {
		width = 1
	}
	l := &s.Losses[band][width]
	after := p.After.Ticks
	if n := len(r.actions); n > 0 {
		after += p.Ticks - r.actions[n-1].tick
	}
	within := float64(after)*sim.TickSeconds+deadFor[p.After.By] <= lossWindow
	l.Shot.add(p.After.Shot && within)
	if within {
		l.Chances += integer(p.After.Chance)
	}
}
