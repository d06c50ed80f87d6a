package export

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/sim"
)

// act is a kind of action.
type act uint8

const (
	actStart act = iota
	actPass
	actCarry
	actTakeOn
	actShot
	actTouch      // a ball that gets away from a player of the team on the ball
	actRecovery   // a loose ball picked up, or the ball won by the block
	actRestart    // after the loss
	actChallenge  // by an opponent, for the ball at the carrier's feet
	actDeflection // off an opponent, clearances among them
	actPress      // a defender leaves his slot to press
	numActs
)

var actNames = [numActs]string{
	"start", "pass", "carry", "take_on", "shot", "touch", "recovery", "restart", "challenge", "deflection", "press",
}

func (a act) String() string { return actNames[a] }

// Outcomes that are not the name of an end.
const (
	complete  = "complete"
	cutOut    = "cut_out"
	won       = "won"
	lost      = "lost"
	notWon    = "not_won"
	away      = "loose"
	taken     = "taken"
	goal      = "goal"
	noGoal    = "no_goal"
	fouled    = "foul"
	foulDrawn = "foul_won"
)

const nobody = -1

// minCarry is the distance from which a player who moves with the ball has
// carried it, m; common practice in event data, no source.
const minCarry = 3.0

// pressWindow is how soon after a press the ball must be won for it to count as
// won, ticks: that of the figure jumps won (playout help metrics).
const pressWindow = 50

// action is an event on the ball with what came of it. Places are metres in the
// frame of the team that started the possession, times ticks.
type action struct {
	kind     act
	after    bool // of what the opponent makes of the lost ball
	tick     int
	end      int // when it was over: a pass received or cut out, a carry at its end
	team     int
	player   int
	aimed    int // team-mate a pass was meant for
	receiver int // team-mate who got it
	opponent int // who cut it out, was challenged or challenged
	from, to r2.Vec
	detail   string
	outcome  string
	success  bool
	event    *sim.Event // pass, shot, take-on
	chance   float64    // NaN: none
	xg       float64
}

// narrator turns the engine's events into actions.
type narrator struct {
	actions []action
	p       *sim.Possession
	open    int // pass that is on its way, nobody: none
	duel    int // challenge or take-on not yet decided
	spell   struct {
		on   bool
		tick int
		at   r2.Vec
		team int
		who  int
	}
	after bool
}

// tell returns the actions of a possession; they are valid until the next call.
func (n *narrator) tell(p *sim.Possession, events []sim.Event) []action {
	n.actions, n.p, n.open, n.duel, n.after = n.actions[:0], p, nobody, nobody, false
	n.spell.on = false
	for i := range events {
		n.event(&events[i])
	}
	n.judgePresses()
	// A carry is known when it is over, and belongs where it began.
	slices.SortStableFunc(n.actions, func(a, b action) int { return a.tick - b.tick })
	return n.actions
}

func (n *narrator) event(e *sim.Event) {
	switch e.Kind {
	case sim.EventStart:
		n.add(e, action{kind: actStart, outcome: taken, success: true})
		n.begin(e)
	case sim.EventTakeOver:
		n.takeOver(e)
	case sim.EventReceive:
		n.receive(e)
	case sim.EventPass:
		n.settle(e)
		n.open = n.add(e, action{kind: actPass, aimed: e.Other + 1, detail: passDetail(e), event: e, chance: e.Chance})
		n.spell.on = false
	case sim.EventShot:
		n.settle(e)
		scored := n.p.Goal
		if n.after {
			scored = n.p.After.Goal
		}
		a := action{kind: actShot, outcome: noGoal, success: scored, event: e, xg: e.Chance, chance: math.NaN()}
		if scored {
			a.outcome = goal
		}
		n.actions[n.add(e, a)].to = e.To
		n.spell.on = false
	case sim.EventTakeOn:
		n.settle(e)
		n.duel = n.add(e, action{kind: actTakeOn, opponent: e.Other + 1, event: e, chance: e.Chance})
		n.begin(e)
	case sim.EventDuel:
		n.settle(e)
		n.begin(e)
		n.duel = n.add(&sim.Event{Tick: e.Tick, Team: 1 - e.Team, Player: e.Other, From: e.From},
			action{kind: actChallenge, opponent: e.Player + 1})
	case sim.EventLoose:
		n.loose(e)
	case sim.EventJump:
		n.actions[n.add(e, action{kind: actPress, outcome: notWon})].to = e.To
	case sim.EventEnd, sim.EventAfterEnd:
		n.close(e)
	}
}

// add appends an action at the place of an event and returns its index. Players in
// the given action count from 1, so that its zero value names nobody.
func (n *narrator) add(e *sim.Event, a action) int {
	a.tick, a.end, a.team, a.player, a.from, a.to, a.after = e.Tick, e.Tick, e.Team, e.Player, e.From, e.From, n.after
	a.aimed, a.receiver, a.opponent = a.aimed-1, a.receiver-1, a.opponent-1
	if a.event == nil {
		a.chance = math.NaN()
	}
	n.actions = append(n.actions, a)
	return len(n.actions) - 1
}

// begin notes where a player has the ball.
func (n *narrator) begin(e *sim.Event) {
	n.spell.on, n.spell.tick, n.spell.at, n.spell.team, n.spell.who = true, e.Tick, e.From, e.Team, e.Player
}

// settle closes what the carrier's next action shows to be over: a challenge he has
// come through, and his carry.
func (n *narrator) settle(e *sim.Event) {
	n.through()
	n.carried(e.Tick, e.From, complete, true)
}

// through decides a duel that the carrier has come out of with the ball.
func (n *narrator) through() {
	if n.duel == nobody {
		return
	}
	if a := &n.actions[n.duel]; a.kind == actTakeOn {
		a.outcome, a.success = complete, true
	} else {
		a.outcome = lost
	}
	n.duel = nobody
}

// carried adds the carry of the spell that is over.
func (n *narrator) carried(tick int, at r2.Vec, outcome string, success bool) {
	s := &n.spell
	if !s.on || math.Hypot(at.X-s.at.X, at.Y-s.at.Y) < minCarry {
		return
	}
	i := n.add(&sim.Event{Tick: s.tick, Team: s.team, Player: s.who, From: s.at}, action{kind: actCarry, outcome: outcome, success: success})
	n.actions[i].to, n.actions[i].end = at, tick
}

// pass closes the pass that is on its way.
func (n *narrator) pass(e *sim.Event, outcome string) *action {
	a := &n.actions[n.open]
	a.end, a.to, a.outcome, a.success = e.Tick, e.From, outcome, outcome == complete
	n.open = nobody
	return a
}

func (n *narrator) receive(e *sim.Event) {
	switch {
	case n.open != nobody:
		n.pass(e, complete).receiver = e.Player
	case n.spell.on: // the opponent has taken the ball over
	default:
		n.add(e, action{kind: actRecovery, detail: "loose_ball", outcome: won, success: true})
	}
	n.begin(e)
}

// loose is a ball that leaves a player without his having wanted it there.
func (n *narrator) loose(e *sim.Event) {
	if n.duel != nobody {
		a := &n.actions[n.duel]
		a.outcome = away
		a.success = a.kind == actChallenge
		n.duel, n.spell.on = nobody, false
		return
	}
	onBall := 0
	if n.after {
		onBall = 1
	}
	a := action{kind: actTouch, outcome: away}
	if e.Team != onBall {
		a.kind, a.success = actDeflection, true
	}
	switch {
	case n.open != nobody && e.Team == onBall:
		n.pass(e, complete).receiver = e.Player // it found him; his touch failed
	case n.open != nobody:
		n.pass(e, cutOut).opponent = e.Player
	}
	n.add(e, a)
	n.spell.on = false
}

// close ends the possession, or what the opponent made of it.
func (n *narrator) close(e *sim.Event) {
	if n.duel != nobody {
		n.decideDuel(e)
	} else {
		n.carried(e.Tick, e.From, e.End.String(), !e.End.Lost())
	}
	if n.open != nobody {
		n.pass(e, e.End.String())
	}
	n.spell.on = false
}

// decideDuel is a duel that ended it all.
func (n *narrator) decideDuel(e *sim.Event) {
	a := &n.actions[n.duel]
	challenge := a.kind == actChallenge
	switch e.End {
	case sim.EndTackled:
		a.outcome, a.success = lost, challenge
		if challenge {
			a.outcome = won
		}
	case sim.EndFoulWon: // by the challenger
		a.outcome, a.success = foulDrawn, !challenge
		if challenge {
			a.outcome = fouled
		}
	case sim.EndFoulCommitted: // by the carrier
		a.outcome, a.success = fouled, challenge
		if challenge {
			a.outcome = foulDrawn
		}
	default:
		n.through()
		n.carried(e.Tick, e.From, e.End.String(), !e.End.Lost())
	}
	n.duel = nobody
}

// takeOver lets the opponent begin with the ball.
func (n *narrator) takeOver(e *sim.Event) {
	n.after = true
	if n.p.After.By == sim.WonInPlay {
		n.add(e, action{kind: actRecovery, detail: n.p.End.String(), outcome: won, success: true})
		n.cutOutBy(e)
	} else {
		n.add(e, action{kind: actRestart, detail: n.p.After.By.String(), outcome: taken, success: true})
	}
	n.begin(e)
}

// cutOutBy names the opponent to the pass that he has intercepted.
func (n *narrator) cutOutBy(e *sim.Event) {
	for i := len(n.actions) - 1; i >= 0; i-- {
		if a := &n.actions[i]; a.kind == actPass && a.team != e.Team {
			if !a.success && a.opponent == nobody && a.end == e.Tick {
				a.opponent = e.Player
			}
			return
		}
	}
}

// judgePresses says which presses were followed by a loss.
func (n *narrator) judgePresses() {
	p := n.p
	for i := range n.actions {
		a := &n.actions[i]
		if a.kind != actPress {
			continue
		}
		end, was := p.Ticks, p.End
		if a.after {
			end, was = p.Ticks+p.After.Ticks, p.After.End
		}
		if was.Lost() && end-a.tick <= pressWindow {
			a.outcome, a.success = won, true
		}
	}
}

func passDetail(e *sim.Event) string {
	if e.Back {
		return "cut_back"
	}
	return e.Pass.String()
}
