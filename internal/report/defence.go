package report

import (
	"playout/model"
	"playout/sim"
)

// Block is what the defending block did. Shares and means of places are over
// the time with the ball in play.
type Block struct {
	PressShare       Number        `json:"press_share"`         // of the time
	GapM             Number        `json:"gap_between_lines_m"` // last line to midfield line
	WidthM           Number        `json:"width_m"`
	LengthM          Number        `json:"length_m"`
	LagS             Number        `json:"lag_s"`              // behind where it wants to be, across the pitch
	TimeToPressureS  Number        `json:"time_to_pressure_s"` // receptions that were pressed
	Pressed          Share         `json:"receptions_pressed"` // of receptions; the others released first
	PassesPerAction  Number        `json:"passes_per_defensive_action"`
	DefensiveActions int64         `json:"defensive_actions"`
	Pinned           Number        `json:"pinned_defenders"` // mean at any moment
	JumpsPer100      Number        `json:"jumps_per_100"`
	JumpsWon         Share         `json:"jumps_won"`       // ball regained within 5 s
	JumpsByPlayer    []PlayerShare `json:"jumps_by_player"` // of jumps
}

// cm is a centimetre in metres: tallies hold distances in whole centimetres.
const cm = 0.01

func blockFigures(t *sim.Tally, players []model.Player) Block {
	b := &t.Block
	pressed := b.Pressed
	out := Block{
		PressShare:       ratio(b.Pressing, b.Ticks),
		GapM:             scaled(b.Gap, b.GapN, cm),
		WidthM:           scaled(b.Width, b.Ticks, cm),
		LengthM:          scaled(b.Length, b.Ticks, cm),
		LagS:             ratio(b.LagEC, b.LagCC),
		TimeToPressureS:  scaled(b.PressureTicks, pressed, sim.TickSeconds),
		Pressed:          share(pressed, b.PressureN),
		PassesPerAction:  ratio(t.PassSum.X, t.DefActions),
		DefensiveActions: t.DefActions,
		Pinned:           ratio(b.Pinned, b.Ticks),
		JumpsPer100:      scaled(b.Jumps, t.Possessions, 100),
		JumpsWon:         share(b.JumpWon, b.Jumps),
	}
	for i, p := range players {
		out.JumpsByPlayer = append(out.JumpsByPlayer, PlayerShare{
			p.Number, clean(p.Name), p.Position.String(), share(b.Jumped[i], b.Jumps),
		})
	}
	return out
}

// Surplus is how often an overload arose in a lane and how often it was won:
// the ball went beyond it, or a shot came, within 5 s.
type Surplus struct {
	Count  int64  `json:"count"`
	Per100 Number `json:"per_100"`
	Won    Share  `json:"won"`
}

func overloads(t *sim.Tally) Object[Object[Surplus]] {
	return object(sim.NumOverloads, func(o sim.Overload) Object[Surplus] {
		return object(model.NumLanes, func(l model.Lane) Surplus {
			n := t.Overloads[o][l]
			return Surplus{n, scaled(n, t.Possessions, 100), share(t.OverloadsWon[o][l], n)}
		})
	})
}

// Switches are the switches of play and what came of them within 10 s.
type Switches struct {
	SinglePass  Switch `json:"single_pass"`
	Chain       Switch `json:"chain"`
	ReceiverMet Share  `json:"receiver_met"` // receivers reached within 3 s by a defender, to within 3 m
}

// Switch is one kind of switch.
type Switch struct {
	Count    int64         `json:"count"`
	Per100   Number        `json:"per_100"`
	Verdicts Object[Share] `json:"verdicts"`
}

func switches(t *sim.Tally) Switches {
	of := func(k sim.SwitchKind) Switch {
		n := int64(0)
		for _, x := range t.Switches[k] {
			n += x
		}
		return Switch{n, scaled(n, t.Possessions, 100),
			object(sim.NumVerdicts, func(v sim.Verdict) Share { return share(t.Switches[k][v], n) })}
	}
	return Switches{of(sim.SinglePass), of(sim.PassChain), share(t.SwitchRace[0], t.SwitchRace[0]+t.SwitchRace[1])}
}
