package scenario

import (
	"fmt"
	"reflect"
	"strings"

	"go.yaml.in/yaml/v4"

	"playout/model"
)

// Canonical writes a scenario as YAML with every value said, so that nothing
// is left to a default. Loading it again gives an equal scenario. It refuses a
// scenario that is not valid.
func Canonical(sc *model.Scenario) ([]byte, error) {
	if faults := sc.Validate(); len(faults) > 0 {
		return nil, fmt.Errorf("writing a scenario: %w", faults[0])
	}
	root := encode(reflect.ValueOf(documentOf(sc)).Elem(), field{})
	root.HeadComment = "Every value of the scenario. Comments give the physical value of a percentile.\n" +
		"top_speed and peak_acceleration are left out where the percentiles give them,\n" +
		"with, lane and third of a run where any will do."
	for side, team := range []string{model.Attack.String(), model.Defence.String()} {
		annotate(sc.Teams[side].Players, child(child(root, team), "players"))
	}
	return yaml.Dump(root, yaml.WithLineWidth(-1))
}

// documentOf says every value of a scenario.
func documentOf(sc *model.Scenario) *document {
	doc := &document{
		Title: new(sc.Title), Pitch: &pitchDoc{new(sc.Pitch.Length), new(sc.Pitch.Width)},
		Possessions: new(sc.Possessions), Seed: new(sc.Seed), Clock: new(sc.Clock), AfterLoss: new(sc.AfterLoss),
		Start:  &startDoc{From: new(sc.Start.Kind)},
		Attack: teamOf(&sc.Teams[model.Attack]), Defence: teamOf(&sc.Teams[model.Defence]),
	}
	if sc.Start.Player != 0 {
		doc.Start.Player = new(sc.Start.Player)
	}
	if sc.Start.Kind == model.FromSettled {
		doc.Start.Ball = &point{sc.Start.Ball.X, sc.Start.Ball.Y}
	}
	return doc
}

func teamOf(t *model.Team) *teamDoc {
	doc := &teamDoc{Name: new(t.Name), Structure: &structureDoc{BallSide: new(t.Structure.BallSide)}, Plan: planOf(&t.Plan), Block: blockOf(t), Runs: []runDoc{}}
	for _, p := range t.Players {
		doc.Players = append(doc.Players, playerOf(p))
	}
	for ph, phase := range []**phaseDoc{&doc.Structure.BuildUp, &doc.Structure.Progression, &doc.Structure.FinalThird} {
		*phase = &phaseDoc{Places: map[int]point{}}
		if shape, err := model.ParseShape(t.Structure.Shape[ph]); err == nil {
			(*phase).Shape = &shape
		}
		for i, p := range t.Players {
			a := t.Structure.Anchor[ph][i]
			(*phase).Places[p.Number] = point{a.X, a.Y}
		}
	}
	for _, r := range t.Runs {
		doc.Runs = append(doc.Runs, runDoc{Run: new(r.Kind), Player: new(r.Player), With: r.With,
			Lane: members[model.Lane](r.Lane[:]), Third: members[model.Third](r.Third[:]), Chance: new(r.Chance)})
	}
	return doc
}

func playerOf(p model.Player) playerDoc {
	doc := playerDoc{Number: new(p.Number), Name: new(p.Name), Position: new(p.Position), Foot: new(p.Foot), Behaviour: new(behaviour(p.Behaviour))}
	for a, x := range p.Percentile {
		doc.Percentiles[a] = new(x)
	}
	if p.TopSpeed != 0 {
		doc.TopSpeed = new(p.TopSpeed)
	}
	if p.PeakAccel != 0 {
		doc.PeakAccel = new(p.PeakAccel)
	}
	return doc
}

func planOf(p *model.Plan) *planDoc {
	l := p.Lane
	return &planDoc{
		Lanes: &lanesDoc{new(l[model.LeftWing]), new(l[model.LeftHalfSpace]), new(l[model.Centre]), new(l[model.RightHalfSpace]), new(l[model.RightWing])},
		Tempo: new(p.Tempo), Risk: new(p.Risk), Switching: new(p.Switching), Directness: new(p.Directness), Find: append([]int{}, p.Find...),
	}
}

func blockOf(t *model.Team) *blockDoc {
	b := &t.Block
	doc := &blockDoc{
		Shape: new(b.Shape), LineHeight: new(b.LineHeight), Follow: new(b.Follow), Length: new(b.Length), Width: new(b.Width),
		Shift: &shiftDoc{new(b.ShiftGain), new(b.ShiftDelay), new(b.ShiftSpeed)}, ManLoyalty: new(b.ManLoyalty),
		Press: &pressDoc{new(b.Press.Height), new(b.Press.Intensity), append([]model.Trigger{}, members[model.Trigger](b.Press.Triggers[:])...)},
		Slots: map[int]slotDoc{},
	}
	for i, p := range t.Players[1:] {
		s := b.Slot[i+1]
		doc.Slots[p.Number] = slotDoc{new(s.Row + 1), new(s.Depth), new(s.Side)}
	}
	return doc
}

// members lists what is in a set.
func members[T ~uint8](set []bool) []T {
	var out []T
	for i, in := range set {
		if in {
			out = append(out, T(i))
		}
	}
	return out
}

// child returns the value of a key of a mapping, or nil.
func child(n *yaml.Node, key string) *yaml.Node {
	for i := 0; i+1 < len(n.Content); i += 2 {
		if n.Content[i].Value == key {
			return n.Content[i+1]
		}
	}
	return nil
}

// annotate puts the physical value behind every percentile.
func annotate(players []model.Player, list *yaml.Node) {
	for i, n := range list.Content {
		able := players[i].Ability()
		for a, name := range attributeNames {
			unit, _, _ := strings.Cut(model.Scales[a].Unit, ",")
			child(n, name).LineComment = fmt.Sprintf("%.3g %s", able.Value[a], unit)
		}
	}
}
