package model

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// Fault is one mistake in a scenario: where (a path such as
// "attack.players[3].pace"), what is wrong, and how to mend it.
type Fault struct {
	Path string
	What string
	Mend string
}

func (f Fault) Error() string { return fmt.Sprintf("%s: %s; %s", f.Path, f.What, f.Mend) }

var sideNames = [2]string{"attack", "defence"}

func (s Side) String() string { return sideNames[s] }

// Validate returns every fault of the scenario's values, in the order of the
// file format; none means that the engine can play it.
func (sc *Scenario) Validate() []Fault {
	v := validator{sc: sc}
	v.between("pitch.length", sc.Pitch.Length, MinLength, MaxLength, "m (Law 1)")
	v.between("pitch.width", sc.Pitch.Width, MinWidth, MaxWidth, "m (Law 1)")
	if len(v.faults) == 0 && sc.Pitch.Width >= sc.Pitch.Length {
		v.add("pitch.width", "the goal line must be shorter than the touchline (Law 1)", "make the width smaller than the length")
	}
	if sc.Possessions < 1 || sc.Possessions > MaxPossessions {
		v.add("possessions", fmt.Sprintf("%d possessions", sc.Possessions), fmt.Sprintf("ask for 1 to %d", MaxPossessions))
	}
	v.between("clock", sc.Clock, MinClock, MaxClock, "s")
	v.between("after_loss", sc.AfterLoss, 0, MaxAfterLoss, "s")
	for side := range sc.Teams {
		v.team(Side(side))
	}
	v.start()
	return v.faults
}

type validator struct {
	sc     *Scenario
	faults []Fault
}

func (v *validator) add(path, what, mend string) {
	v.faults = append(v.faults, Fault{path, what, mend})
}

func (v *validator) between(path string, x, lo, hi float64, unit string) {
	if !(x >= lo && x <= hi) { // also catches NaN
		band := strings.TrimSpace(fmt.Sprintf("%v to %v %s", lo, hi, unit))
		v.add(path, fmt.Sprintf("%v is outside %s", x, band), "give a value from "+band)
	}
}

func (v *validator) team(side Side) {
	t := &v.sc.Teams[side]
	at := side.String()
	if len(t.Players) != 11 {
		v.add(at+".players", fmt.Sprintf("%d players", len(t.Players)), "list exactly 11, the keeper first")
		return
	}
	seen := map[int]bool{}
	for i := range t.Players {
		v.player(fmt.Sprintf("%s.players[%d]", at, i), &t.Players[i], i == 0, seen)
	}
	v.structure(at+".structure", t)
	v.block(at+".block", &t.Block)
	v.slots(at+".block.slots", t)
	v.plan(at+".plan", t)
	v.runs(at+".runs", t)
	for i := range t.Players {
		if b := t.Players[i].Behaviour; b.Kind == Pin && b.Opponent != 0 && v.sc.Teams[1-side].ByNumber(b.Opponent) < 0 {
			v.add(fmt.Sprintf("%s.players[%d].behaviour", at, i), fmt.Sprintf("pins opponent %d, who does not play", b.Opponent),
				"name the shirt number of an opponent")
		}
	}
}

func (v *validator) player(at string, p *Player, keeper bool, seen map[int]bool) {
	if p.Number < 1 || p.Number > 99 {
		v.add(at+".number", fmt.Sprintf("shirt number %d", p.Number), "use 1 to 99")
	} else if seen[p.Number] {
		v.add(at+".number", fmt.Sprintf("shirt number %d is taken", p.Number), "give every player of a team his own number")
	}
	seen[p.Number] = true
	if keeper != (p.Position == GK) {
		v.add(at+".position", "the first player, and only he, is the keeper", "put the player with position GK first")
	}
	for a, x := range p.Percentile {
		if !(x >= 0 && x <= 100) {
			v.add(at+"."+Attribute(a).String(), fmt.Sprintf("%v is not a percentile", x), "give a percentile from 0 to 100 (50 is the league average)")
		}
	}
	if p.TopSpeed != 0 {
		v.between(at+".top_speed", p.TopSpeed, 6, maxTopSpeed, "m/s")
	}
	if p.PeakAccel != 0 {
		v.between(at+".peak_acceleration", p.PeakAccel, 3, 8, "m/s^2")
	}
}

// minApart is the least distance between two anchors of one phase, m.
const minApart = 1.0

func (v *validator) structure(at string, t *Team) {
	v.between(at+".ball_side", t.Structure.BallSide, 0, 1, "")
	for ph := BuildUp; ph < NumPhases; ph++ {
		for i, a := range t.Structure.Anchor[ph] {
			path := fmt.Sprintf("%s.%s.%d", at, ph, t.Players[i].Number)
			if !v.sc.Pitch.Contains(a) {
				v.add(path, fmt.Sprintf("player %d stands at (%.1f, %.1f), off the pitch", t.Players[i].Number, a.X, a.Y),
					fmt.Sprintf("keep x within %.1f and y within %.1f either side of the centre spot", v.sc.Pitch.Length/2, v.sc.Pitch.Width/2))
				continue
			}
			for j := 0; j < i; j++ {
				if r2.Norm(r2.Sub(a, t.Structure.Anchor[ph][j])) < minApart {
					v.add(path, fmt.Sprintf("players %d and %d stand in one place", t.Players[j].Number, t.Players[i].Number),
						fmt.Sprintf("move one of them at least %.0f m", minApart))
				}
			}
		}
	}
}

// The least extent of a block, m; common practice, no source.
const (
	minBlockLength = 8.0
	minBlockWidth  = 15.0
)

func (v *validator) block(at string, b *Block) {
	v.between(at+".line_height", b.LineHeight, 8, 60, "m from the own goal line with the ball on halfway")
	v.between(at+".follow", b.Follow, 0, 1, "m per m of the ball")
	v.between(at+".length", b.Length, minBlockLength, 50, "m from the last line to the first")
	v.between(at+".width", b.Width, minBlockWidth, v.sc.Pitch.Width, "m between the outer players")
	v.between(at+".shift.gain", b.ShiftGain, 0, 1, "of the ball's lateral offset")
	v.between(at+".shift.delay", b.ShiftDelay, 0.2, 10, "s")
	v.between(at+".shift.speed", b.ShiftSpeed, 0.5, 8, "m/s")
	v.between(at+".man_loyalty", b.ManLoyalty, 0, 1, "(0 zonal, 1 man to man)")
	v.between(at+".press.height", b.Press.Height, 0, MaxLength, "m from the own goal line")
	v.between(at+".press.intensity", b.Press.Intensity, 0, 1, "")
}

// maxSide is how far outside the block's width a slot may lie, as a share of
// the width from the middle: the outer men of a row of five stand at 0.54.
const maxSide = 0.6

func (v *validator) slots(at string, t *Team) {
	b := &t.Block
	for i := 1; i < len(b.Slot); i++ {
		s := b.Slot[i]
		path := fmt.Sprintf("%s.%d", at, t.Players[i].Number)
		if s.Row < 0 || s.Row >= len(b.Shape) {
			v.add(path+".row", fmt.Sprintf("row %d of a %s block", s.Row+1, b.Shape), fmt.Sprintf("use 1 (the last line) to %d", len(b.Shape)))
		}
		v.between(path+".depth", s.Depth, 0, 1, "(0 the last line, 1 the first)")
		v.between(path+".side", s.Side, -maxSide, maxSide, "of the width (positive to the left)")
		if !(b.Length >= minBlockLength && b.Width >= minBlockWidth) {
			continue // a fault of its own, which crowds the players
		}
		for j := 1; j < i; j++ {
			o := b.Slot[j]
			if math.Hypot(b.Length*(s.Depth-o.Depth), b.Width*(s.Side-o.Side)) < minApart {
				v.add(path, fmt.Sprintf("players %d and %d stand in one place of the block", t.Players[j].Number, t.Players[i].Number),
					fmt.Sprintf("move one of them at least %.0f m", minApart))
			}
		}
	}
}

func (v *validator) plan(at string, t *Team) {
	for l, w := range t.Plan.Lane {
		v.between(at+".lanes."+Lane(l).String(), w, 0, 20, "times the usual odds")
	}
	v.between(at+".tempo", t.Plan.Tempo, 0.3, 6, "s on the ball")
	v.between(at+".risk", t.Plan.Risk, 0, 1, "")
	v.between(at+".switching", t.Plan.Switching, 0, 20, "times the usual odds")
	v.between(at+".directness", t.Plan.Directness, 0.05, 20, "times the usual odds for every 20 m gained")
	for i, n := range t.Plan.Find {
		if t.ByNumber(n) < 0 {
			v.add(fmt.Sprintf("%s.find[%d]", at, i), fmt.Sprintf("player %d does not play", n), "name the shirt number of a player of this team")
		}
	}
}

func (v *validator) runs(at string, t *Team) {
	for i, r := range t.Runs {
		path := fmt.Sprintf("%s[%d]", at, i)
		if k := t.ByNumber(r.Player); k < 0 {
			v.add(path+".player", fmt.Sprintf("player %d does not play", r.Player), "name the shirt number of a player of this team")
		} else if k == 0 {
			v.add(path+".player", "the keeper makes no runs", "name an outfield player")
		}
		for j, n := range r.With {
			if t.ByNumber(n) < 0 {
				v.add(fmt.Sprintf("%s.with[%d]", path, j), fmt.Sprintf("player %d does not play", n), "name the shirt number of a player of this team")
			} else if n == r.Player {
				v.add(fmt.Sprintf("%s.with[%d]", path, j), "the runner cannot be the player on the ball", "name a team-mate")
			}
		}
		v.between(path+".chance", r.Chance, 0, 1, "")
	}
}

func (v *validator) start() {
	s := &v.sc.Start
	if s.Player != 0 && v.sc.Teams[Attack].ByNumber(s.Player) < 0 {
		v.add("start.player", fmt.Sprintf("player %d does not play", s.Player), "name the shirt number of a player of the attack")
	}
	if s.Kind == FromSettled && !v.sc.Pitch.Contains(s.Ball) || math.IsNaN(s.Ball.X) || math.IsNaN(s.Ball.Y) {
		v.add("start.ball", fmt.Sprintf("(%v, %v) is off the pitch", s.Ball.X, s.Ball.Y),
			fmt.Sprintf("keep x within %.1f and y within %.1f either side of the centre spot", v.sc.Pitch.Length/2, v.sc.Pitch.Width/2))
	}
}

// ByNumber returns the index of the player with a shirt number, or -1.
func (t *Team) ByNumber(number int) int {
	for i := range t.Players {
		if t.Players[i].Number == number {
			return i
		}
	}
	return -1
}
