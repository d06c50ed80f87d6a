package replay

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/terms"
	"playout/model"
	"playout/sim"
)

// who names a player: his number and position, "their" when he is of the team that
// started in its block.
func (st *Story) who(team, i int) string {
	if i < 0 {
		return "nobody"
	}
	p := &st.Scenario.Teams[team].Players[i]
	name := fmt.Sprintf("%d (%s)", p.Number, p.Position)
	if team == 1 {
		return "their " + name
	}
	return name
}

// capital begins a sentence.
func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

// odds is a chance in words.
func odds(p float64) string { return fmt.Sprintf("%.0f in 100", 100*p) }

// metres is the distance between two places, in words.
func metres(a, b r2.Vec) string { return fmt.Sprintf("%.0f m", r2.Norm(r2.Sub(a, b))) }

// level is how much ground a ball may gain or lose and still be square, m, if that is
// no more than a quarter of its way; common practice, no source.
const level = 3.0

// way is how far a ball goes and how much ground it gains for a team: the two differ for
// all but a straight one. A ball that goes almost level has the word for it.
func way(team int, from, to r2.Vec, square string) string {
	length := r2.Norm(r2.Sub(to, from))
	gain := sign(team) * (to.X - from.X)
	ground := math.Abs(gain)
	far, word := metres(from, to), "forward"
	if gain < 0 {
		word = "back"
	}
	switch {
	case ground < 0.5 || ground <= min(level, length/4):
		return far + " " + square
	case math.Round(ground) == math.Round(length):
		return far + " " + word
	}
	return fmt.Sprintf("%s (%.0f m %s)", far, ground, word)
}

// sentence is step i in words.
func (st *Story) sentence(i int) string {
	e := &st.Steps[i]
	who := st.who(e.Team, e.Player)
	switch e.Kind {
	case sim.EventStart:
		return who + " has the ball."
	case sim.EventPass:
		return st.passed(i)
	case sim.EventReceive:
		verb := "takes it"
		if p := st.before(i); p != nil && p.Kind == sim.EventPass && p.Other != e.Player {
			verb = "gets to it"
		} else if p != nil && p.Kind == sim.EventLoose {
			verb = "picks it up"
		}
		if e.Near < 2 {
			return fmt.Sprintf("%s %s under pressure, nearest opponent %.1f m.", who, verb, e.Near)
		}
		return fmt.Sprintf("%s %s, nearest opponent %.1f m.", who, verb, e.Near)
	case sim.EventCarry:
		to := st.after(i).From
		if r2.Norm(r2.Sub(to, e.From)) < 1 {
			return who + " sets off with it and gets no further."
		}
		return fmt.Sprintf("%s carries it %s.", who, way(e.Team, e.From, to, "across"))
	case sim.EventTakeOn:
		return fmt.Sprintf("%s takes on %s: %s.", who, st.who(1-e.Team, e.Other), odds(e.Chance))
	case sim.EventJump:
		return fmt.Sprintf("%s leaves his place for the ball, %s away.", who, metres(e.From, e.To))
	case sim.EventDuel:
		return fmt.Sprintf("%s and %s contest it.", who, st.who(1-e.Team, e.Other))
	case sim.EventLoose:
		return fmt.Sprintf("The ball runs loose off %s.", who)
	case sim.EventShot:
		return fmt.Sprintf("%s shoots from %s: xG %.2f.%s", who, metres(e.From, e.To), e.Chance, st.left(e))
	case sim.EventEnd:
		return st.ended(&st.Film.Possession, e)
	case sim.EventTakeOver:
		return st.tookOver(e)
	case sim.EventAfterEnd:
		return st.afterEnded()
	}
	return who + "."
}

// passed tells a pass: as long as it was for the man it was meant for who takes it, as
// long as it was meant for one who does not.
func (st *Story) passed(i int) string {
	e := &st.Steps[i]
	to, aim, space := e.To, ", aimed at ", ", aimed into space for "
	if next := st.after(i); next.Kind == sim.EventReceive && next.Team == e.Team && next.Player == e.Other {
		to, aim, space = next.From, " to ", " into space for "
	}
	verb, how := "passes", metres(e.From, to)
	switch {
	case e.Back:
		verb = "cuts it back"
	case e.Pass == sim.Cross:
		verb = "crosses"
	case e.Header:
		verb, how = "heads it", way(e.Team, e.From, to, "square")
	case math.Abs(e.To.Y-e.From.Y) >= model.SwitchWidth:
		verb = "switches play,"
	default:
		how = way(e.Team, e.From, to, "square")
	}
	if e.Flight != sim.Ground && e.Pass != sim.Cross && !e.Header {
		how += " in the air"
	}
	if d := st.Film.DecisionOf(&e.Event); d != nil && d.Options[d.Taken].Space {
		aim = space
	}
	return fmt.Sprintf("%s %s %s%s%s: %s.%s", st.who(e.Team, e.Player), verb, how, aim,
		st.who(e.Team, e.Other), odds(e.Chance), st.left(e))
}

// left tells the passes that he left.
func (st *Story) left(e *Step) string {
	if len(e.Left) == 0 {
		return ""
	}
	var open []string
	for _, o := range e.Left {
		open = append(open, fmt.Sprintf("%s (%s)", strings.TrimPrefix(st.who(e.Team, o.Player), "their "), odds(o.Chance)))
	}
	return " Open further forward: " + strings.Join(open, ", ") + "."
}

// ended tells the end of the possession.
func (st *Story) ended(p *sim.Possession, e *Step) string {
	switch {
	case p.End == sim.EndShot && p.Goal:
		return "Goal."
	case p.End == sim.EndShot:
		return "No goal."
	case p.End == sim.EndStalled:
		return "Time is up: stalled."
	case p.End.Lost() && p.Loser >= 0:
		return fmt.Sprintf("Lost by %s: %s.", st.who(0, p.Loser), terms.Ends[p.End.String()])
	}
	return terms.Ends[p.End.String()] + "."
}

// tookOver tells how the opponent comes to the ball.
func (st *Story) tookOver(e *Step) string {
	who := st.who(e.Team, e.Player)
	switch st.Film.Possession.After.By {
	case sim.ByThrowIn:
		return who + " takes the throw-in."
	case sim.ByFreeKick:
		return who + " takes the free kick."
	case sim.ByGoalKick:
		return who + " takes the goal kick."
	}
	return who + " has won the ball."
}

// afterEnded tells how the opponent's attack ended.
func (st *Story) afterEnded() string {
	a := &st.Film.Possession.After
	switch {
	case a.Goal:
		return "The opponent has scored."
	case a.Shot:
		return "No goal for the opponent."
	case a.End == sim.EndStalled:
		return fmt.Sprintf("The opponent still has the ball after %.0f s; nothing more is played.", float64(a.Ticks)*sim.TickSeconds)
	}
	return "The opponent's attack is over: " + terms.Ends[a.End.String()] + "."
}

// before and after are the neighbours of step i on the ball: jumps are left out.
func (st *Story) before(i int) *Step {
	for i--; i >= 0; i-- {
		if st.Steps[i].Kind != sim.EventJump {
			return &st.Steps[i]
		}
	}
	return nil
}

func (st *Story) after(i int) *Step {
	for j := i + 1; j < len(st.Steps); j++ {
		if st.Steps[j].Kind != sim.EventJump {
			return &st.Steps[j]
		}
	}
	return &st.Steps[i]
}

// Headline says in a sentence or two how the possession ended and what the opponent
// made of it.
func (st *Story) Headline() []string {
	p := &st.Film.Possession
	after := fmt.Sprintf("after %.1f s in the %s", float64(p.Ticks)*sim.TickSeconds, place(st.Scenario.Pitch, p.Place))
	out := make([]string, 0, 2)
	switch {
	case p.Goal:
		out = append(out, fmt.Sprintf("A goal %s, from a chance of %.2f xG.", after, p.XG))
	case p.Shot:
		out = append(out, fmt.Sprintf("A shot %s, worth %.2f xG; no goal.", after, p.XG))
	case p.End.Lost():
		out = append(out, fmt.Sprintf("Ball lost %s: %s.", after, terms.Ends[p.End.String()]))
	default:
		out = append(out, capital(terms.EndNouns[p.End.String()])+" "+after+".")
	}
	a := &p.After
	if !a.Played {
		if a.By == sim.BySetPlay {
			out = append(out, "The opponent's set play near goal is not played.")
		}
		return out
	}
	span := fmt.Sprintf("%.1f s", math.Max(float64(a.Ticks), 0)*sim.TickSeconds)
	switch {
	case a.Goal:
		out = append(out, "The opponent scores within "+span+".")
	case a.Shot:
		out = append(out, fmt.Sprintf("The opponent has a shot within %s, worth %.2f xG; no goal.", span, a.XG))
	case a.End == sim.EndStalled:
		out = append(out, "The opponent makes no shot of it in "+span+".")
	default:
		out = append(out, "The opponent makes no shot of it: "+terms.Ends[a.End.String()]+" after "+span+".")
	}
	return out
}
