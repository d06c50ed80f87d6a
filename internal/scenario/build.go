package scenario

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// defaultChance is how often a declared run is made when the file does not
// say: between the 0.15 and 0.25 of model.DefaultRuns.
const defaultChance = 0.2

// builder makes a scenario of a document.
type builder struct {
	root   *node
	faults *faults
}

// build lays what the document says over the league average. Faults of its
// values, by model.Validate, are added to those found before.
func build(doc *document, root *node, faults *faults) *model.Scenario {
	b := builder{root, faults}
	sc := model.AverageScenario()
	sc.Title = ""
	set(&sc.Title, doc.Title)
	set(&sc.Possessions, doc.Possessions)
	set(&sc.Seed, doc.Seed)
	set(&sc.Clock, doc.Clock)
	set(&sc.AfterLoss, doc.AfterLoss)
	if doc.Pitch != nil {
		set(&sc.Pitch.Length, doc.Pitch.Length)
		set(&sc.Pitch.Width, doc.Pitch.Width)
	}
	b.start(&sc.Start, doc.Start)
	for side, team := range []*teamDoc{doc.Attack, doc.Defence} {
		if team == nil {
			team = &teamDoc{}
		}
		b.team(model.Side(side).String(), &sc.Teams[side], team, sc.Pitch)
	}
	// With a player missing, everything that names him would seem wrong too.
	if !b.complete(&sc.Teams[model.Attack]) || !b.complete(&sc.Teams[model.Defence]) {
		return &sc
	}
	found := sc.Validate()
	for _, f := range found {
		// So would every place on a pitch of the wrong size.
		if pitchFault(found[0]) && !pitchFault(f) {
			break
		}
		b.fault(f.Path, f.What, f.Mend)
	}
	return &sc
}

func pitchFault(f model.Fault) bool { return f.Path == "pitch.length" || f.Path == "pitch.width" }

// fault points at the deepest node there is on a path.
func (b *builder) fault(path, what, mend string) {
	b.faults.add(b.root.at(path), path, what, mend)
}

// set copies what the file says over a default.
func set[T any](value *T, said *T) {
	if said != nil {
		*value = *said
	}
}

func (b *builder) start(s *model.Start, doc *startDoc) {
	if doc == nil {
		return
	}
	set(&s.Kind, doc.From)
	set(&s.Player, doc.Player)
	if doc.Player != nil && *doc.Player == 0 {
		b.fault("start.player", "0 is not a shirt number", "name a player of the attack, or leave the key out")
	}
	settled := s.Kind == model.FromSettled
	switch {
	case doc.Ball != nil && settled:
		s.Ball = r2.Vec{X: doc.Ball[0], Y: doc.Ball[1]}
	case doc.Ball != nil:
		b.fault("start.ball", "a place of the ball counts only with from: settled", "write from: settled, or take ball away")
	case settled && b.root.get("start").get("ball") == nil:
		b.fault("start.from", "a settled start needs the place of the ball", "add ball: [x, y] in metres from the centre spot")
	}
}

func (b *builder) team(path string, t *model.Team, doc *teamDoc, pitch model.Pitch) {
	set(&t.Name, doc.Name)
	level := float64(model.AveragePercentile)
	set(&level, doc.Level)
	if !(level >= 0 && level <= 100) {
		b.fault(path+".level", fmt.Sprintf("%v is not a percentile", level), "give a percentile from 0 to 100 (50 is the league average)")
		level = model.AveragePercentile
	}
	b.players(path+".players", t, doc.Players, level)
	if !b.complete(t) {
		return
	}
	b.structure(path+".structure", t, doc.Structure, pitch)
	b.block(path+".block", t, doc.Block)
	plan(&t.Plan, doc.Plan)
	runs(t, doc.Runs)
}

func (b *builder) structure(path string, t *model.Team, doc *structureDoc, pitch model.Pitch) {
	if doc == nil {
		doc = &structureDoc{}
	}
	st := &t.Structure
	set(&st.BallSide, doc.BallSide)
	shape, _ := model.ParseShape(model.DefaultShape)
	for i, phase := range []*phaseDoc{doc.BuildUp, doc.Progression, doc.FinalThird} {
		ph := model.Phase(i)
		if phase == nil {
			phase = &phaseDoc{}
		}
		set(&shape, phase.Shape)
		st.SetShape(ph, shape, t.Players, pitch)
		for number, p := range phase.Places {
			at := t.ByNumber(number)
			if at < 0 {
				b.fault(fmt.Sprintf("%s.%s.%d", path, ph, number), "he does not play", "use the shirt number of a player of this team")
				continue
			}
			st.Anchor[ph][at] = r2.Vec{X: p[0], Y: p[1]}
		}
		if phase.Shape == nil && len(phase.Places) == len(t.Players) {
			st.Shape[ph] = ""
		}
	}
}

func (b *builder) block(path string, t *model.Team, doc *blockDoc) {
	if doc == nil {
		doc = &blockDoc{}
	}
	shape, _ := model.ParseShape(model.DefaultBlockShape)
	set(&shape, doc.Shape)
	block := model.AverageBlock(shape)
	set(&block.LineHeight, doc.LineHeight)
	set(&block.Follow, doc.Follow)
	set(&block.Length, doc.Length)
	set(&block.Width, doc.Width)
	if s := doc.Shift; s != nil {
		set(&block.ShiftGain, s.Gain)
		set(&block.ShiftDelay, s.Delay)
		set(&block.ShiftSpeed, s.Speed)
	}
	set(&block.ManLoyalty, doc.ManLoyalty)
	if p := doc.Press; p != nil {
		set(&block.Press.Height, p.Height)
		set(&block.Press.Intensity, p.Intensity)
		if p.Triggers != nil {
			clear(block.Press.Triggers[:])
			pick(block.Press.Triggers[:], p.Triggers)
		}
	}
	block.SetSlots(t.Players)
	for number, s := range doc.Slots {
		at := t.ByNumber(number)
		if at <= 0 {
			b.fault(fmt.Sprintf("%s.slots.%d", path, number), "has no place in the block", "use the shirt number of an outfield player of this team")
			continue
		}
		slot := &block.Slot[at]
		if s.Row != nil {
			slot.Row = *s.Row - 1
		}
		set(&slot.Depth, s.Depth)
		set(&slot.Side, s.Side)
	}
	t.Block = block
}

// pick sets the entries of a set that are listed.
func pick[T ~uint8](set []bool, listed []T) {
	for _, x := range listed {
		set[x] = true
	}
}

func plan(p *model.Plan, doc *planDoc) {
	if doc == nil {
		return
	}
	if l := doc.Lanes; l != nil {
		for i, x := range []*float64{l.LeftWing, l.LeftHalfSpace, l.Centre, l.RightHalfSpace, l.RightWing} {
			set(&p.Lane[i], x)
		}
	}
	set(&p.Tempo, doc.Tempo)
	set(&p.Risk, doc.Risk)
	set(&p.Switching, doc.Switching)
	set(&p.Directness, doc.Directness)
	if len(doc.Find) > 0 {
		p.Find = doc.Find
	}
}

func runs(t *model.Team, docs []runDoc) {
	t.Runs = nil
	if docs == nil {
		t.Runs = model.DefaultRuns(t.Players)
		return
	}
	for _, doc := range docs {
		r := model.Run{Chance: defaultChance}
		set(&r.Kind, doc.Run)
		set(&r.Player, doc.Player)
		set(&r.Chance, doc.Chance)
		if len(doc.With) > 0 {
			r.With = doc.With
		}
		pick(r.Lane[:], doc.Lane)
		pick(r.Third[:], doc.Third)
		t.Runs = append(t.Runs, r)
	}
}
