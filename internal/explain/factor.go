package explain

import (
	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// What goes with a cause. Every spell on the ball is a trial in which the build-up can
// fail by the cause; a cause that is about a pass has the spells that ended with one.
// A condition (this man on the ball, this lane, a defender within 2 m, ...) goes with
// the cause when spells under it fail that way surely more often than the others.

// Kind of condition.
type Kind uint8

// Kinds.
const (
	ByMan         Kind = iota // who is on the ball
	ToMan                     // whom the pass is meant for
	FromLane                  // where the ball is
	UnderPressure             // a defender was within PressureAt before he let go
	HeldLong                  // he had the ball LongHold or more
	ThroughAir
	FarPass // LongFrom or more
	NumKinds
)

var kindNames = [NumKinds]string{"man", "receiver", "lane", "pressed", "held_long", "through_the_air", "long_pass"}

func (k Kind) String() string { return kindNames[k] }

// LongHold is the time on the ball that is called long, s; common practice, no source
// (the league's mean after a pass is 1.5 s).
const LongHold = 2.0

// Factor is a condition with its count: K of N spells under it were the ones a build-up
// failed by the cause in, Others of Rest of the other spells. A man is held against the
// others of his trade alone: what a winger tries fails more often than what a centre-back
// does, whoever they are.
type Factor struct {
	Kind         Kind
	Value        int // player or lane; 1 for yes
	K, N         int
	Others, Rest int
	Trade        model.Group    // of a man
	Difference   stats.Estimate // of the two rates, at a level that allows for the number of conditions
	Excess       float64        // failures beyond those that the other spells' rate would give
	Gain         float64        // mean distance forward of the passes under it, m
}

// Told reports whether chance is ruled out.
func (f *Factor) Told() bool { return f.N > 0 && f.Difference.Lo > 0 }

// Rate of the condition, and of the other spells.
func (f *Factor) Rate() float64      { return float64(f.K) / float64(f.N) }
func (f *Factor) OtherRate() float64 { return float64(f.Others) / float64(f.Rest) }

// fewTrials is how many spells a condition needs, and fewCases how many failures, to be
// looked at.
const (
	fewTrials = 20
	fewCases  = 5
)

// AboutPass reports whether a cause is about the pass that ended the spell.
func AboutPass(c Cause) bool {
	switch c {
	case Offside, BadTouch, LostInAir, OutOfPlay, CutFirst, CutMidfield, CutLast:
		return true
	}
	return false
}

// kinds that can be asked of a cause. A high ball is what a duel in the air is about,
// and pressure is what a duel is: they would explain nothing.
func (c Cause) kinds() []Kind {
	switch {
	case c == LostInAir:
		return []Kind{ByMan, ToMan, FromLane, UnderPressure, HeldLong}
	case c == BadTouch: // the touch is the receiver's: no passer is charged with it
		return []Kind{ToMan, FromLane, UnderPressure, HeldLong, ThroughAir, FarPass}
	case AboutPass(c):
		return []Kind{ByMan, ToMan, FromLane, UnderPressure, HeldLong, ThroughAir, FarPass}
	case c == ForcedBack || c == Stalled:
		return []Kind{ByMan, FromLane, UnderPressure, HeldLong}
	}
	return []Kind{ByMan, FromLane, HeldLong}
}

// value of a condition in a spell; nobody when it does not apply.
func (s *Spell) value(k Kind) int {
	switch k {
	case ByMan:
		return int(s.Player)
	case ToMan:
		return int(s.Aim)
	case FromLane:
		return int(model.LaneOf(s.Stop.Y))
	case UnderPressure:
		return yes(s.Pressed >= 0)
	case HeldLong:
		return yes(s.Seconds() >= LongHold-1e-9)
	case ThroughAir:
		return yes(s.Flight != sim.Ground)
	}
	return yes(s.Length() >= LongFrom)
}

func yes(b bool) int {
	if b {
		return 1
	}
	return 0
}

// trials counts, for every condition of a kind, the spells and the failures in them.
type trials [11]struct {
	k, n int
	gain float64
}

// alike adds up the others of a man's trade.
func (t *trials) alike(man int, trades *[11]model.Group) (k, n int) {
	for i := range t {
		if i != man && trades[i] == trades[man] {
			k, n = k+t[i].k, n+t[i].n
		}
	}
	return k, n
}

// Factors are the conditions of all kinds that can be asked of a cause and have trials
// enough, in the order of kinds and values. Spells of a build-up hang together a little;
// no build-up fails more than once. trades are those of the men.
func Factors(stories []Story, c Cause, trades *[11]model.Group) []Factor {
	kinds := c.kinds()
	counts := make([]trials, len(kinds))
	k, n := 0, 0
	for i := range stories {
		s := &stories[i]
		for j := range s.Spells {
			if s.Result == Worked && j > s.Decisive {
				break // it had got there
			}
			sp := &s.Spells[j]
			if AboutPass(c) && sp.Left != ByPass {
				continue
			}
			hit := yes(s.Result == Failed && s.Cause == c && s.Decisive == j)
			k, n = k+hit, n+1
			for q, kind := range kinds {
				if v := sp.value(kind); v >= 0 {
					counts[q][v].n++
					counts[q][v].k += hit
					if sp.Left == ByPass {
						counts[q][v].gain += sp.Target.X - sp.Stop.X
					}
				}
			}
		}
	}
	var out []Factor
	for q, kind := range kinds {
		for v, t := range counts[q] {
			if (kind >= UnderPressure && v != 1) || t.n < fewTrials || n-t.n < fewTrials {
				continue
			}
			f := Factor{Kind: kind, Value: v, K: t.k, N: t.n, Others: k - t.k, Rest: n - t.n, Gain: t.gain / float64(t.n)}
			if kind <= ToMan {
				f.Trade = trades[v]
				if f.Others, f.Rest = counts[q].alike(v, trades); f.Rest < fewTrials {
					continue // as the keeper always: he has no like
				}
			}
			out = append(out, f)
		}
	}
	for i := range out {
		f := &out[i]
		f.Difference = stats.DifferenceProportions(int64(f.K), int64(f.N), int64(f.Others), int64(f.Rest), 1-0.05/float64(len(out)))
		f.Excess = float64(f.K) - f.OtherRate()*float64(f.N)
	}
	return out
}

// Foremost is the told condition with the most failures in excess of the rest; nil when
// none is told. Least is the condition of its kind with the lowest rate, what to do
// instead: surely lower than the foremost, not the keeper, of receivers one whom passes
// forward are played to, and of men one of the same trade. nil when there is none.
func Foremost(factors []Factor) (foremost, least *Factor) {
	for i := range factors {
		if f := &factors[i]; f.Told() && f.K >= fewCases && (foremost == nil || f.Excess > foremost.Excess) {
			foremost = f
		}
	}
	if foremost == nil || foremost.Kind >= UnderPressure {
		return foremost, nil
	}
	for i := range factors {
		f := &factors[i]
		switch {
		case f.Kind != foremost.Kind || !surelyLess(f, foremost):
		case f.Trade != foremost.Trade:
		case f.Kind == ToMan && f.Gain <= 0, f.Kind <= ToMan && f.Value == 0:
		case least == nil || f.Rate() < least.Rate():
			least = f
		}
	}
	return foremost, least
}

// surelyLess reports whether a condition's rate is below another's beyond chance.
func surelyLess(f, other *Factor) bool {
	return stats.DifferenceProportions(int64(other.K), int64(other.N), int64(f.K), int64(f.N), 0.95).Lo > 0
}
