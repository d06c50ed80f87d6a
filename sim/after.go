package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Takeover is how the opponent comes to the ball after a loss.
type Takeover uint8

// Takeovers. NoTakeover also stands for a loss after which nothing is to be
// played (Scenario.AfterLoss is 0).
const (
	NoTakeover Takeover = iota
	WonInPlay           // intercepted, tackled, headed or picked up
	ByThrowIn
	ByFreeKick
	ByGoalKick
	BySetPlay // a corner, or a free kick or throw-in near goal: counted, not played
	NumTakeovers
)

var takeoverNames = [NumTakeovers]string{"none", "in_play", "throw_in", "free_kick", "goal_kick", "set_play"}

func (t Takeover) String() string { return takeoverNames[t] }

// After is what the opponent made of a ball that was lost: his one possession,
// up to Scenario.AfterLoss seconds of it, in ticks and goals.
type After struct {
	By     Takeover
	Played bool
	Ticks  int // from his first touch, or from the restart
	End    End // for the opponent, valid when Played; EndStalled: the time was up
	Shot   bool
	Goal   bool
	XG     float64
	Chance float64 // of a goal from that shot, with the shooter's finishing and the keeper
}

// afterSpell numbers the first spell of the opponent's possession, out of reach
// of the spells before it: two variants of a scenario that both lose the ball
// share their luck from there on.
const afterSpell = 1 << 20

// playAfter plays what the opponent makes of the ball that has been lost. The
// teams have changed roles and all else is as ever. The possession's own book is
// closed and stays as it is.
func (w *world) playAfter() {
	book := w.p
	after := &book.After
	after.By = w.takeover()
	if after.By != BySetPlay {
		w.changeRoles(after.By)
		if w.film != nil && after.By != WonInPlay {
			w.film.shoot(w, true)
		}
		from := w.tick
		w.deadline = from + lastTick(w.sc.AfterLoss)
		w.run()
		after.Played, after.Ticks, after.End = true, w.tick-from, w.p.End
		after.Shot, after.Goal, after.XG, after.Chance = w.p.Shot, w.p.Goal, w.p.XG, w.p.Chance
		w.emit(Event{Kind: EventAfterEnd, Team: w.onBall, Player: w.p.Loser, Other: nobody, From: w.ball, To: w.ball, End: w.p.End})
	}
	w.p = book
}

// takeover is how the opponent comes to the ball that has just been lost.
func (w *world) takeover() Takeover {
	team := 1 - w.onBall
	at := own(team, w.ball) // he attacks +x
	switch w.p.End {
	case EndOffside, EndFoulCommitted:
		if at.X > w.pitch.Length/6 {
			return BySetPlay
		}
		return ByFreeKick
	case EndOutTheirs:
		switch {
		case math.Abs(at.X)-w.halfL < math.Abs(at.Y)-w.halfW && at.X > w.halfL-longThrow:
			return BySetPlay
		case math.Abs(at.X)-w.halfL < math.Abs(at.Y)-w.halfW:
			return ByThrowIn
		case at.X > 0:
			return BySetPlay // a corner
		}
		return ByGoalKick
	}
	return WonInPlay
}

// changeRoles gives the ball to the opponent and lets the possession of the
// other team begin.
func (w *world) changeRoles(by Takeover) {
	lost := w.p.End
	w.p = Possession{ID: w.p.ID, Loser: nobody}
	w.trk = tracker{}
	w.runs = [bodies]run{}
	w.over, w.after = false, true
	w.onBall = 1 - w.onBall
	w.spell = afterSpell
	seed, id, n := w.sc.Seed, uint64(w.p.ID), Purpose(w.spell)<<spellShift
	w.setup.Reset(seed, id, Setup+n)
	w.block.Reset(seed, id, Block+n)

	start := w.won
	if by == WonInPlay {
		w.takeOver(lost)
	} else {
		start = w.bringBack(by)
	}
	w.viewLines()
	w.emit(Event{Kind: EventTakeOver, Team: w.onBall, Player: start % 11, Other: nobody, From: w.ball, To: w.ball})
	w.trk.begin(w, w.ball)
	switch w.restart {
	case inPlay:
		w.rekey()
		w.control(start, received)
	case fromHands:
		w.control(start, given)
		w.think = max(w.think, w.tick+ticks(keeperHolds))
	default:
		w.control(start, given)
	}
}

// keeperHolds is how long a keeper needs to get the ball away at the least, s;
// common practice, no source.
const keeperHolds = 1.0

// takeOver goes on from where everybody is and runs to. The team that has lost
// the ball is out of its block: height and middle of the block are those that fit
// best to where its players are, and it goes after the ball.
func (w *world) takeOver(lost End) {
	def := 1 - w.onBall
	block := &w.team(def).Block
	w.def = defence{presser: nobody, second: nobody}
	w.def.height = w.halfL / 2
	for range 4 { // a slot's place is not quite linear in the height
		w.layOut(def)
		var off r2.Vec // of the players from their slots, mean
		for i := 1; i < 11; i++ {
			off = r2.Add(off, r2.Scale(0.1, r2.Sub(own(def, w.pos[11*def+i]), w.def.shape[i])))
		}
		w.def.height = min(max(w.def.height+off.X, 3), w.halfL-1)
		w.def.centre += off.Y
	}
	w.layOut(def)
	w.counterPress(block)
	w.fly.pass, w.fly.height = false, 0
	if lost == EndTackled {
		w.fly.from = nobody // he came from the front and faces his own attack
	}
	if w.won%11 == 0 && w.inOwnArea(w.won) {
		w.restart = fromHands
		w.fly.from = nobody
	}
}
