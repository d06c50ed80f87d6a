package scenario

import (
	"fmt"
	"strconv"

	"playout/model"
)

// Check is Load and also notes what is no mistake but may not be meant. A note opens
// with its place in the file.
func Check(path string) (*model.Scenario, []string, error) {
	var l loader
	name, data, err := l.open(path, ReadFile)
	if err != nil {
		return nil, nil, err
	}
	return l.check(name, data)
}

func (l *loader) check(name string, data []byte) (*model.Scenario, []string, error) {
	sc, err := l.scenario(name, data)
	if err != nil {
		return nil, nil, err
	}
	n := notes{root: l.root}
	n.start(sc)
	for side := range sc.Teams {
		key := model.Side(side).String()
		n.runs(key, &sc.Teams[side], l.parent.get(key).get("runs"))
		n.block(key, &sc.Teams[side])
	}
	return sc, n.list, nil
}

type notes struct {
	root *node
	list []string
}

func (n *notes) add(path, format string, args ...any) {
	at := n.root.at(path).mark()
	n.list = append(n.list, fmt.Sprintf("%s:%d:%d: note: %s: ", clipPath(at.src.name), max(at.line, 1), max(at.col, 1), n.root.say(path))+fmt.Sprintf(format, args...))
}

// start notes a man who begins where the word of the start says another.
func (n *notes) start(sc *model.Scenario) {
	s := &sc.Start
	given := n.root.get("start")
	if s.Player == 0 || given == nil || given.src != n.root.src {
		return
	}
	team := &sc.Teams[model.Attack]
	p := &team.Players[team.ByNumber(s.Player)]
	const path, mend = "start.player", "; leave player out for the man the start means"
	switch {
	case s.Kind == model.FromMix:
		n.add(path, "%d begins every build-up, goal kicks too"+mend, p.Number)
	case (s.Kind == model.FromGoalKick || s.Kind == model.FromKeeper) && p.Position != model.GK:
		n.add(path, "%d (%s) begins in the keeper's place"+mend, p.Number, p.Position)
	case s.Kind == model.FromCentreBack && p.Position.Group() != model.Defenders:
		n.add(path, "%d (%s) is no defender"+mend, p.Number, p.Position)
	}
}

// runs notes a list of runs that takes the place of a longer one: of the file that this
// one extends, or of the usual runs. A list that stands in a file before this one is
// noted in the check of that file.
func (n *notes) runs(team string, t *model.Team, before *node) {
	given := n.root.get(team).get("runs")
	switch usual := len(model.DefaultRuns(t.Players)); {
	case given == nil || len(given.items) == 0: // none were given, or none are wanted
	case given.src != n.root.src:
	case before != nil:
		if len(before.items) > len(given.items) {
			n.add(team+".runs", "%d in place of the %d in %s; to keep those, list them here too", len(given.items), len(before.items), clipPath(before.src.name))
		}
	case usual > len(given.items):
		n.add(team+".runs", "%d in place of the usual %d; to keep those, list them here too (playout defaults prints them)", len(given.items), usual)
	}
}

// block notes men in a line of the block that is not theirs, unless the file says so.
func (n *notes) block(team string, t *model.Team) {
	path := team + ".block"
	slots := n.root.get(team).get("block").get("slots")
	for i := 1; i < len(t.Players); i++ {
		p := &t.Players[i]
		if slots.get(strconv.Itoa(p.Number)).get("row") != nil {
			continue
		}
		last, defender := t.Block.Slot[i].Row == 0, p.Position.Group() == model.Defenders
		switch {
		case last && !defender:
			n.add(path, "%d (%s) stands in the last line of %s, for which the team lacks a defender; give a player another position, or a place in slots", p.Number, p.Position, t.Block.Shape)
		case !last && defender && p.Position != model.LB && p.Position != model.RB:
			n.add(path, "%d (%s) stands in front of the last line of %s; give a player another position, or a place in slots", p.Number, p.Position, t.Block.Shape)
		}
	}
}
