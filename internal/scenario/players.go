package scenario

import (
	"fmt"

	"playout/model"
)

// players makes the players of a team of what the file says of them.
func (b *builder) players(path string, t *model.Team, docs []playerDoc, level float64) {
	if docs == nil { // nobody is named
		for i := range t.Players {
			setLevel(&t.Players[i], level)
		}
		return
	}
	t.Players = nil
	for i, doc := range docs {
		at := fmt.Sprintf("%s[%d]", path, i)
		if doc.Number == nil { // already a fault
			continue
		}
		if doc.Position == nil {
			if node := b.root.at(at); node.get("position") == nil {
				b.fault(at, "has no position", "add position: with a code of match sheets, such as LCB, CDM or RW")
			}
			continue
		}
		t.Players = append(t.Players, b.player(at, doc, level))
	}
	if len(docs) != 11 {
		b.fault(path, fmt.Sprintf("lists %d players", len(docs)),
			"list exactly 11, the keeper first; to change a few players of another file, begin with extends:")
	}
}

// complete reports whether a team has its eleven as the file meant them.
func (b *builder) complete(t *model.Team) bool {
	return len(t.Players) == 11 && !b.faults.on("players")
}

func setLevel(p *model.Player, level float64) {
	for a := range p.Percentile {
		p.Percentile[a] = level
	}
}

func (b *builder) player(path string, doc playerDoc, level float64) model.Player {
	p := model.AveragePlayer(*doc.Number, *doc.Position)
	setLevel(&p, level)
	set(&p.Name, doc.Name)
	set(&p.Foot, doc.Foot)
	if doc.Behaviour != nil {
		p.Behaviour = model.Behaviour(*doc.Behaviour)
	}
	for a, x := range doc.Percentiles {
		set(&p.Percentile[a], x)
	}
	set(&p.TopSpeed, doc.TopSpeed)
	set(&p.PeakAccel, doc.PeakAccel)
	// In the model 0 means "not known"; a file says that by saying nothing.
	if doc.TopSpeed != nil && p.TopSpeed == 0 {
		b.fault(path+".top_speed", "nobody's top speed is 0", "give it in m/s, or leave it out to take the pace percentile")
	}
	if doc.PeakAccel != nil && p.PeakAccel == 0 {
		b.fault(path+".peak_acceleration", "nobody's acceleration is 0", "give it in m/s^2, or leave it out to take the acceleration percentile")
	}
	return p
}
