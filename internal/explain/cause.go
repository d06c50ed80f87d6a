package explain

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// Cause is why a build-up failed. A build-up that failed has exactly one.
type Cause uint8

// Causes. The first that holds, in the order of playout help metrics and of classify, is
// the cause.
const (
	Offside       Cause = iota // it ended offside
	Stalled                    // its time ran out
	ForcedBack                 // it had gained ground, was played back and never came back there
	BadTouch                   // a touch got away from the man who had the ball coming
	LostInAir                  // a duel for a high ball was lost
	OutOfPlay                  // a pass went out of play
	BlockFirst                 // the block was there before the ball or within FirstWithin of it
	CutFirst                   // a pass was cut out by the block's first line
	CutMidfield                // by a line between
	CutLast                    // by the last line or the keeper
	Isolated                   // lost in a duel, outnumbered within CompanyAt
	LostInDuel                 // lost in a duel with company enough
	LooseBallLost              // the ball was loose, and the opponent's
	NumCauses
)

var causeNames = [NumCauses]string{
	"offside", "stalled", "forced-back", "bad-touch", "lost-in-the-air", "out-of-play", "block-first",
	"cut-out-first-line", "cut-out-midfield", "cut-out-last-line", "isolated", "lost-in-a-duel", "loose-ball",
}

// String is the name on the command line and in JSON.
func (c Cause) String() string { return causeNames[c] }

// CauseNamed finds a cause by its name.
func CauseNamed(name string) (Cause, error) {
	for c, n := range causeNames {
		if n == strings.ReplaceAll(strings.ToLower(name), "_", "-") {
			return Cause(c), nil
		}
	}
	return 0, fmt.Errorf("there is no cause %q; the causes are %s", name, strings.Join(causeNames[:], ", "))
}

// Thresholds of the causes.
const (
	// FirstWithin is how soon after a reception a defender within PressureAt is
	// taken to have been there first, s: the second that makes control in the
	// controlled entry of playout run. Common practice, no source.
	FirstWithin = 1.0
	// BesideMan is how near to the man a pass was meant for, or to its target, it
	// is lost when the block was there first rather than in between, m: the
	// distance of the race of a switch in playout run. Common practice, no source.
	BesideMan = 3.0
	// BackBy is how far a build-up that was forced back is at its end behind where
	// it had got, and how much it had gained, m: the definition of forced back in
	// playout run. Common practice, no source.
	BackBy = 10.0
)

// verdict is a cause with the moment that decided it.
type verdict struct {
	cause Cause
	tick  int
	spell int // index of the spell it goes back to
	rival int // defender; nobody when there is none
}

// classify finds the cause of a possession that failed.
func classify(r *reading, sc *model.Scenario) verdict {
	end := r.film.Possession.End
	last := len(r.spells) - 1
	s := &r.spells[last]
	switch {
	case end == sim.EndOffside:
		return verdict{Offside, s.To, last, nobody}
	case end == sim.EndStalled:
		return verdict{Stalled, r.endTick, last, nobody}
	}
	if at, back := r.forcedBack(); back {
		who, _ := nearest(r.frame(r.spells[at].To), r.spells[at].Stop)
		return verdict{ForcedBack, r.spells[at].To, at, who}
	}
	if r.open || s.Left == ByDuel || len(r.touches) > 0 && r.touches[len(r.touches)-1].duel {
		return r.duel(last, end)
	}
	own := -1 // the last touch of a team-mate
	for i, t := range r.touches {
		if t.team == 0 {
			own = i
		}
	}
	switch {
	case own >= 0 && end != sim.EndAerial: // whoever comes by it then, the touch lost it
		return verdict{BadTouch, r.touches[own].tick, last, r.by(r.touches[own].tick)}
	case end == sim.EndMiscontrol:
		return verdict{BadTouch, r.endTick, last, r.by(r.endTick)}
	case end == sim.EndAerial:
		tick := r.firstTouch()
		return verdict{LostInAir, tick, last, r.by(tick)}
	case s.Left != ByPass:
		return verdict{LooseBallLost, r.endTick, last, r.by(r.endTick)}
	case end == sim.EndOutTheirs:
		return verdict{OutOfPlay, s.To, last, nobody}
	}
	return r.cutOut(last, sc)
}

// by is the defender nearest to the ball at a tick.
func (r *reading) by(tick int) int {
	who, _ := nearest(r.frame(tick), r.frame(tick).Ball)
	return who
}

// firstTouch is when the ball was first touched after the last spell, or the end.
func (r *reading) firstTouch() int {
	if len(r.touches) > 0 {
		return r.touches[0].tick
	}
	return r.endTick
}

// duel sorts a ball lost at a man's feet.
func (r *reading) duel(at int, end sim.End) verdict {
	s := &r.spells[at]
	rival := int(s.Rival)
	if rival == nobody {
		rival = r.by(s.To)
	}
	cause := LostInDuel
	switch {
	case s.Received && s.Pressed >= 0 && float64(s.Pressed)*sim.TickSeconds <= FirstWithin+1e-9:
		cause = BlockFirst
	case s.Opponents > s.Mates:
		cause = Isolated
	}
	return verdict{cause, s.To, at, rival}
}

// cutOut sorts a pass that an opponent got to.
func (r *reading) cutOut(at int, sc *model.Scenario) verdict {
	s := &r.spells[at]
	tick := r.firstTouch()
	f := r.frame(tick)
	who, best := nobody, 0.0
	for i, p := range f.Players[1] {
		if d := distance(p, f.Ball); who == nobody || d < best {
			who, best = i, d
		}
	}
	for _, t := range r.touches {
		if t.team == 1 {
			who = t.player
			break
		}
	}
	v := verdict{CutMidfield, tick, at, who}
	block := &sc.Teams[model.Defence].Block
	switch row := block.Slot[who].Row; {
	case distance(f.Players[0][s.Aim], f.Ball) <= BesideMan || distance(s.Target, f.Ball) <= BesideMan:
		v.cause = BlockFirst
	case who == 0 || row == 0:
		v.cause = CutLast
	case row == len(block.Shape)-1:
		v.cause = CutFirst
	}
	return v
}

// forcedBack reports whether the ball had gained BackBy, and at the last own control
// was BackBy or more behind the furthest place; and the spell that had got there.
func (r *reading) forcedBack() (spell int, back bool) {
	start := r.film.Possession.Start.X
	furthest, last, tick := start, start, 0
	for i := range r.spells {
		s := &r.spells[i]
		for t := s.From; t <= s.To; t++ {
			f := r.frame(t)
			if f.Carrier != int(s.Player) || f.OnBall != 0 {
				continue
			}
			last = f.Ball.X
			if last > furthest {
				furthest, tick = last, t
			}
		}
	}
	if furthest < start+BackBy || last > furthest-BackBy {
		return 0, false
	}
	for i := range r.spells {
		if r.spells[i].From <= tick && tick <= r.spells[i].To {
			spell = i
		}
	}
	return spell, true
}

// place of the ball at a tick.
func (r *reading) place(tick int) r2.Vec { return r.frame(tick).Ball }
