package scenario

import (
	"reflect"
	"strings"
	"testing"

	"playout/model"
)

// What a file does not say is the league average.
func TestNothingSaidIsAverage(t *testing.T) {
	sc := mustLoad(t, "title: League average\n")
	if want := model.AverageScenario(); !reflect.DeepEqual(*sc, want) {
		t.Errorf("got %+v\nwant %+v", *sc, want)
	}
	if sc := mustLoad(t, "seed: 3"); sc.Title != "test" {
		t.Errorf("a scenario without a title is called %q, not after its file", sc.Title)
	}
}

func TestFormat(t *testing.T) {
	sc := mustLoad(t, eleven(map[int]string{
		2:  "{number: 2, name: 'Pell Ask', position: LB, foot: both, behaviour: hold, pace: 12.5, peak_acceleration: 6.2}",
		10: "{number: 10, position: CF, behaviour: {pin: midfield_line}, top_speed: 9.1}",
		9:  "{number: 9, position: LW, behaviour: pin}",
	})+`
  name: Vellmere
  level: 60
  structure:
    build_up: 4-3-3
    final_third: {1: [-30, 0], "2": [12, 20], 6: [10, 0.5]}
    ball_side: 0.3
  plan: {lanes: {left_half_space: 1.5}, tempo: 1.2, risk: 0.25, switching: 2, directness: 3, find: [10, 7]}
  runs:
    - {run: underlap, player: 2, with: [9, 7], lane: [left_wing, centre], third: [final]}
    - {run: third_man, player: 7, chance: 0.75}
  block: 5-3-2-high
pitch: {length: 100, width: 64}
possessions: 500
seed: 18446744073709551615
clock: 45.5
after_loss: 0
start: {from: settled, player: 3, ball: [-30, +5.5e0]}
defence:
  runs: []
  block:
    shape: 4-3-3
    follow: .4
    length: 20
    width: 30
    shift: {gain: 0.5, delay: 2, speed: 3}
    man_loyalty: 1
    press: {height: 70, intensity: 0.7, triggers: [touchline, back_pass]}
    slots: {7: {depth: 0.25, side: -0.25}}
`)
	att, def := &sc.Teams[model.Attack], &sc.Teams[model.Defence]
	two, nine, ten := att.Players[1], att.Players[8], att.Players[9]
	shape := func(s string) model.Shape { x, _ := model.ParseShape(s); return x }
	laidOut := att.Structure
	laidOut.SetShape(model.Progression, shape("4-3-3"), att.Players, sc.Pitch)
	laidOut.SetShape(model.FinalThirdAttack, shape("4-3-3"), att.Players, sc.Pitch)
	slots := model.AverageBlock(shape("4-3-3"))
	slots.SetSlots(def.Players)
	slots.Slot[6].Depth, slots.Slot[6].Side = 0.25, -0.25
	for _, c := range []struct {
		what      string
		got, want any
	}{
		{"name", two.Name, "Pell Ask"},
		{"foot", two.Foot, model.BothFeet},
		{"usual foot", nine.Foot, model.LeftFoot},
		{"behaviour", two.Behaviour, model.Behaviour{Kind: model.HoldAnchor}},
		{"usual behaviour", att.Players[2].Behaviour, model.Behaviour{Kind: model.RestDefence}},
		{"pins a line", ten.Behaviour, model.Behaviour{Kind: model.Pin, Line: model.MidfieldLine}},
		{"pins the last line", nine.Behaviour, model.Behaviour{Kind: model.Pin, Line: model.LastLine}},
		{"percentile", two.Percentile[model.Pace], 12.5},
		{"level", two.Percentile[model.Aerial], 60.0},
		{"level of the others", def.Players[1].Percentile[model.Aerial], 50.0},
		{"acceleration", two.PeakAccel, 6.2},
		{"top speed", ten.TopSpeed, 9.1},
		{"shape", att.Structure.Shape, [3]string{"4-3-3", "4-3-3", "4-3-3"}},
		{"phase takes the shape before it", att.Structure.Anchor[model.Progression], laidOut.Anchor[model.Progression]},
		{"own place", att.Structure.Anchor[model.FinalThirdAttack][5].Y, 0.5},
		{"place by quoted number", att.Structure.Anchor[model.FinalThirdAttack][1].X, 12.0},
		{"others stay in the shape", att.Structure.Anchor[model.FinalThirdAttack][8], laidOut.Anchor[model.FinalThirdAttack][8]},
		{"ball side", att.Structure.BallSide, 0.3},
		{"plan", att.Plan, model.Plan{Lane: [5]float64{1, 1.5, 1, 1, 1}, Tempo: 1.2, Risk: 0.25, Switching: 2, Directness: 3, Find: []int{10, 7}}},
		{"runs", att.Runs, []model.Run{
			{Kind: model.Underlap, Player: 2, With: []int{9, 7}, Lane: [5]bool{true, false, true}, Third: [3]bool{false, false, true}, Chance: defaultChance},
			{Kind: model.ThirdMan, Player: 7, Chance: 0.75}}},
		{"no runs", len(def.Runs), 0},
		{"library block", att.Block.Shape.String(), "5-3-2"},
		{"pitch", sc.Pitch, model.Pitch{Length: 100, Width: 64}},
		{"possessions", sc.Possessions, 500},
		{"seed", sc.Seed, uint64(18446744073709551615)},
		{"clock", sc.Clock, 45.5},
		{"after_loss", sc.AfterLoss, 0.0},
		{"start kind", sc.Start.Kind, model.FromSettled},
		{"start player", sc.Start.Player, 3},
		{"start ball", sc.Start.Ball.Y, 5.5},
		{"block", [9]float64{def.Block.Follow, def.Block.Length, def.Block.Width, def.Block.ShiftGain, def.Block.ShiftDelay, def.Block.ShiftSpeed,
			def.Block.ManLoyalty, def.Block.Press.Height, def.Block.Press.Intensity}, [9]float64{0.4, 20, 30, 0.5, 2, 3, 1, 70, 0.7}},
		{"block default", def.Block.LineHeight, model.AverageLineHeight},
		{"triggers", def.Block.Press.Triggers, [model.NumTriggers]bool{model.BackPass: true, model.Touchline: true}},
		{"slots", def.Block.Slot, slots.Slot},
	} {
		if !reflect.DeepEqual(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.what, c.got, c.want)
		}
	}
}

// Names of many scripts are text; two invisible joiners belong to them.
func TestNames(t *testing.T) {
	for _, name := range []string{"Åsa Brûlin", "Ирма Вельт", "نیم\u200cفاصله", "松原 凪", ""} {
		if got := mustLoad(t, "attack: {name: '"+name+"'}").Teams[model.Attack].Name; got != name {
			t.Errorf("%q became %q", name, got)
		}
	}
}

// Eleven places make a phase of their own: no shape is claimed for it.
func TestPlayerByPlayer(t *testing.T) {
	sc := mustLoad(t, `attack: {structure: {progression: {1: [-40, 0], 2: [-10, 20], 3: [-20, 8], 4: [-20, -8], 5: [-10, -20],
  6: [-8, 0], 7: [5, 10], 8: [5, -10], 9: [20, 25], 10: [22, 0], 11: [20, -25]}}}`)
	st := sc.Teams[model.Attack].Structure
	if want := [3]string{model.DefaultShape, "", model.DefaultShape}; st.Shape != want {
		t.Errorf("shapes %q, want %q", st.Shape, want)
	}
	if got := st.Anchor[model.Progression][9]; got.X != 22 || got.Y != 0 {
		t.Errorf("number 10 stands at %v", got)
	}
}

// Keys of the format are the paths of model.Validate, so that every fault of
// the model finds its line.
func TestValidatePathsAreKeys(t *testing.T) {
	bad := model.AverageScenario()
	bad.Pitch.Length, bad.Possessions, bad.Clock = 0, 0, 0
	bad.Start = model.Start{Kind: model.FromSettled, Player: 44, Ball: bad.Pitch.Goal()}
	bad.Start.Ball.X = 1e9
	for side := range bad.Teams {
		tm := &bad.Teams[side]
		*tm = model.AverageTeam("x", model.DefaultPitch)
		p := &tm.Players[3]
		p.Number, p.Position, p.TopSpeed, p.PeakAccel = 100, model.GK, 1, 1
		p.Behaviour = model.Behaviour{Kind: model.Pin, Opponent: 77}
		for a := range p.Percentile {
			p.Percentile[a] = -1
		}
		tm.Structure.BallSide = 2
		tm.Structure.Anchor[model.BuildUp][5].X = 99
		tm.Block = model.Block{Shape: model.Shape{5, 5}, LineHeight: -1, Follow: -1, Width: -1, ShiftGain: -1, ManLoyalty: -1, Press: model.Press{Height: -1, Intensity: -1}}
		tm.Block.Slot[3] = model.SlotPlace{Row: 9, Depth: 9, Side: 9}
		tm.Plan = model.Plan{Lane: [5]float64{-1, -1, -1, -1, -1}, Risk: -1, Switching: -1, Find: []int{55}}
		tm.Runs = []model.Run{{Player: 55, With: []int{56}, Chance: 2}}
	}
	good := model.AverageScenario()
	good.Start = model.Start{Kind: model.FromSettled, Player: 4}
	for side := range good.Teams {
		tm := &good.Teams[side]
		tm.Players[3].Number, tm.Players[3].TopSpeed, tm.Players[3].PeakAccel = 99, 9, 6
		tm.Plan.Find = []int{7}
		tm.Runs = []model.Run{{Player: 7, With: []int{6}, Chance: 1}}
		tm.Block.SetSlots(tm.Players)
	}
	good.Start.Player = 99
	text, err := Canonical(&good)
	if err != nil {
		t.Fatal(err)
	}
	var none faults
	root := parse(&source{text: text}, &none)
	paths := 0
	for _, f := range bad.Validate() {
		// Player 100 is written 99 in the good twin.
		path := strings.ReplaceAll(f.Path, ".100", ".99")
		if parent := path[:max(strings.LastIndexAny(path, ".["), 0)]; root.at(path) == root.at(parent) {
			t.Errorf("%s (%s) leads nowhere", f.Path, f.What)
		}
		paths++
	}
	if paths < 80 {
		t.Errorf("only %d faults; the scenario above should have more", paths)
	}
}
