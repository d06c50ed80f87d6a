package explain

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/scenario"
	"playout/model"
)

// Lever is a value of the scenario that could win races, from Lo to Hi.
type Lever struct {
	Name        string // stable
	Label, Unit string // for people
	Lo, Hi, Now float64
	Whole       bool // takes whole numbers only
	make        func(x float64) (*model.Scenario, *model.Params, error)
}

// LeversOf are the levers of a scenario: tempo, the speed of passes, men who pin the
// block's last line, and the width at which the widest men start.
func LeversOf(base *scenario.Base) ([]Lever, error) {
	tempo, err := base.Numeric("attack.plan.tempo")
	if err != nil {
		return nil, err
	}
	levers := []Lever{
		{
			Name: "tempo", Label: "time on the ball", Unit: "s", Lo: tempo.Lo, Hi: tempo.Hi, Now: tempo.Now,
			make: func(x float64) (*model.Scenario, *model.Params, error) {
				sc, err := base.With(scenario.Setting{Path: "attack.plan.tempo", Value: scenario.FormatNumber(x)})
				return sc, nil, err
			},
		},
		passSpeed(base),
	}
	if l, ok := pinning(base); ok {
		levers = append(levers, l)
	}
	return append(levers, width(base)), nil
}

// passSpeed is a parameter of the engine: a scenario has no value for it. It is the
// speed at which a pass along the ground reaches its man, for both teams.
func passSpeed(base *scenario.Base) Lever {
	l := Lever{Name: "pass_speed", Label: "pass speed on arrival", Unit: "m/s"}
	for _, p := range model.ParamTable() {
		if p.Name == "ArrivalSpeed" {
			l.Lo, l.Hi, l.Now = p.Lo, p.Hi, p.Default
		}
	}
	l.make = func(x float64) (*model.Scenario, *model.Params, error) {
		par := model.DefaultParams()
		par.ArrivalSpeed = x
		return base.Scenario(), &par, nil
	}
	return l
}

// mostPinning is how many more men may pin.
const mostPinning = 4

// pinning lets more men pin the last line, those furthest up the pitch in the final
// third first.
func pinning(base *scenario.Base) (Lever, bool) {
	team := &base.Scenario().Teams[model.Attack]
	var men []int
	for i := 1; i < 11; i++ {
		if team.Players[i].Behaviour.Kind != model.Pin {
			men = append(men, i)
		}
	}
	up := func(i int) float64 { return team.Structure.Anchor[model.FinalThirdAttack][i].X }
	slices.SortStableFunc(men, func(a, b int) int { return cmp.Compare(up(b), up(a)) })
	men = men[:min(len(men), mostPinning)]
	l := Lever{Name: "pin", Label: "added men who pin", Unit: "men", Hi: float64(len(men)), Whole: true}
	l.make = func(x float64) (*model.Scenario, *model.Params, error) {
		var set []scenario.Setting
		for _, i := range men[:int(x)] {
			set = append(set, scenario.Setting{Path: fmt.Sprintf("attack.players.%d.behaviour", team.Players[i].Number), Value: "{pin: last_line}"})
		}
		sc, err := base.With(set...)
		return sc, nil, err
	}
	return l, len(men) > 0
}

// narrowest is how far in the widest men may start from where they do, and touchline
// how near to it they may, m; common practice, no source.
const (
	narrowest = 10.0
	touchline = 0.5
)

// width moves the widest man of each side, phase by phase, outwards by so many metres,
// to half a metre from the touchline at most.
func width(base *scenario.Base) Lever {
	sc := base.Scenario()
	team := &sc.Teams[model.Attack]
	limit := sc.Pitch.Width/2 - touchline
	type place struct {
		path string
		at   r2.Vec
	}
	var places []place
	room := 0.0
	for ph := range model.NumPhases {
		left, right := 1, 1
		anchors := &team.Structure.Anchor[ph]
		for i := 2; i < 11; i++ {
			if anchors[i].Y > anchors[left].Y {
				left = i
			}
			if anchors[i].Y < anchors[right].Y {
				right = i
			}
		}
		for _, i := range []int{left, right} {
			places = append(places, place{fmt.Sprintf("attack.structure.%s.%d.y", ph, team.Players[i].Number), anchors[i]})
			room = max(room, limit-math.Abs(anchors[i].Y))
		}
	}
	l := Lever{Name: "width", Label: "widest men further out", Unit: "m", Lo: -narrowest, Hi: max(math.Floor(10*room)/10, 0)}
	l.make = func(x float64) (*model.Scenario, *model.Params, error) {
		var set []scenario.Setting
		for _, p := range places {
			y := math.Copysign(min(max(math.Abs(p.at.Y)+x, 0), max(limit, math.Abs(p.at.Y))), p.at.Y)
			set = append(set, scenario.Setting{Path: p.path, Value: scenario.FormatNumber(math.Round(100*y) / 100)})
		}
		sc, err := base.With(set...)
		return sc, nil, err
	}
	return l
}
