package page

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/model"
	"playout/sim"
)

// sceneWidth is how wide a scene is laid out, px: as a phone shows it.
const sceneWidth = 360

var phaseTitles = [model.NumPhases]string{"Build-up", "Progression", "Final third"}

var phaseBalls = [model.NumPhases]string{"ball deep in the own third", "ball near halfway", "ball in the final third"}

// setUp draws both structures in each phase. The names of the figures begin with of, if
// there is more than one set-up.
func setUp(of string, sc *model.Scenario) []Figure {
	var out []Figure
	for ph := range model.NumPhases {
		out = append(out, phaseFigure(of, sc, ph))
	}
	return out
}

func phaseFigure(of string, sc *model.Scenario, ph model.Phase) Figure {
	ball := r2.Vec{X: model.PhaseBall[ph] * sc.Pitch.Length}
	attack, defence := &sc.Teams[model.Attack], &sc.Teams[model.Defence]
	shape := named(attack.Structure.Shape[ph], "places given man by man")
	name := strings.TrimPrefix(fmt.Sprintf("%s-set-up-%s", of, strings.ReplaceAll(ph.String(), "_", "-")), "-")
	f := Figure{
		Name: name, Title: phaseTitles[ph],
		Caption: fmt.Sprintf("%s against %s, %s.", shape, defence.Block.Shape, phaseBalls[ph]),
	}
	v := draw.NewView(sc.Pitch, sceneWidth, true)
	_, h := v.Size()
	var marks []mark
	block := sim.BlockAt(sc, ball)
	var desc [2][]string
	for i := range 11 {
		marks = append(marks, mark{1, defence.Players[i].Number, block[i]})
		desc[1] = append(desc[1], place(defence.Players[i].Number, block[i]))
	}
	for i := range 11 {
		at := attack.Structure.At(i, ball, sc.Pitch)
		marks = append(marks, mark{0, attack.Players[i].Number, at})
		desc[0] = append(desc[0], place(attack.Players[i].Number, at))
	}
	f.Desc = fmt.Sprintf("Places in metres from the centre spot, forward and to the left. %s, on the ball: %s. %s, in the block: %s.",
		named(attack.Name, "Attack"), strings.Join(desc[0], "; "), named(defence.Name, "Defence"), strings.Join(desc[1], "; "))
	s := scene(name, f.Title+": "+f.Caption, f.Desc, sceneWidth, h)
	s.Field(v)
	s.Lanes(v)
	spread(marks, 2.1*v.PlayerRadius()/v.Scale)
	for _, m := range marks {
		s.Player(v, m.team, m.number, m.at)
	}
	f.Scene = s
	return f
}

func place(number int, at r2.Vec) string {
	return fmt.Sprintf("%d at %.0f, %.0f", number, at.X+0, at.Y+0)
}

// mark is a player to be drawn.
type mark struct {
	team, number int
	at           r2.Vec
}

// spread moves marks that would cover each other apart along the line between them,
// each by half of what is missing to the distance, m; a few rounds do for eleven
// against eleven.
func spread(marks []mark, distance float64) {
	for range 12 {
		for i := range marks {
			for j := range i {
				d := r2.Sub(marks[i].at, marks[j].at)
				n := r2.Norm(d)
				if n >= distance {
					continue
				}
				if n < 1e-6 {
					d, n = r2.Vec{Y: 1e-6}, 1e-6
				}
				push := r2.Scale((distance-n)/2/math.Max(n, 1e-6), d)
				marks[i].at = r2.Add(marks[i].at, push)
				marks[j].at = r2.Sub(marks[j].at, push)
			}
		}
	}
}

// question asks what a scenario asks.
func question(sc *model.Scenario) string {
	attack, defence := &sc.Teams[model.Attack], &sc.Teams[model.Defence]
	return fmt.Sprintf("How far does the build-up of %s (%s) get against the block of %s (%s), by which lane, and what does it cost when the ball is lost?",
		named(attack.Name, "the attack"), named(attack.Structure.Shape[model.BuildUp], "places given man by man"),
		named(defence.Name, "the defence"), defence.Block.Shape)
}

var startWords = [model.NumStarts]string{
	"as build-ups begin in matches", "from short goal kicks", "from the keeper", "from a centre-back on the ball",
	"from a settled place", "from a ball just won in the own third",
}

// plans says in sentences how both sides are told to play.
func plans(sc *model.Scenario) []string {
	attack, defence := &sc.Teams[model.Attack], &sc.Teams[model.Defence]
	p, b := &attack.Plan, &defence.Block
	var lanes []string
	for l, odds := range p.Lane {
		if odds != 1 {
			lanes = append(lanes, fmt.Sprintf("%s times %.3g", laneName(model.Lane(l)), odds))
		}
	}
	on := fmt.Sprintf("%s: %.2g s on the ball (the league's mean is %.2g), risk %.2g of 1 (0.5: as the numbers say), odds of a switch of play times %.3g, of gaining ground times %.3g",
		named(attack.Name, "Attack"), p.Tempo, model.AverageTempo, p.Risk, p.Switching, p.Directness)
	if len(lanes) > 0 {
		on += "; lanes: " + strings.Join(lanes, ", ")
	}
	runs := fmt.Sprintf("%d kinds of run off the ball", len(attack.Runs))
	switch len(attack.Runs) {
	case 0:
		runs = "nobody makes a run off the ball"
	case 1:
		runs = "one kind of run off the ball"
	}
	on += fmt.Sprintf("; %s; starts %s", runs, startWords[sc.Start.Kind])
	off := fmt.Sprintf("%s: last line %.0f m from its goal for a ball on halfway, %.0f m long and %.0f m wide, shifts %.0f%% of the ball's way across after %.1f s; presses the ball below %.0f m from its goal line with intensity %.2g of 1",
		named(defence.Name, "Defence"), b.LineHeight, b.Length, b.Width, 100*b.ShiftGain, b.ShiftDelay, b.Press.Height, b.Press.Intensity)
	return []string{sentences(on), sentences(off)}
}
