package model

import "gonum.org/v1/gonum/stat/distuv"

// Scale turns a percentile into a physical value through the normal quantile:
// value = Mean of the player's group + SD x quantile. A negative SD means that
// a better player has a smaller value.
type Scale struct {
	Unit   string
	Mean   [NumGroups]float64 // keeper, defender, midfielder, forward
	SD     float64
	Source string
}

// Scales is the one table from percentile to physical unit.
var Scales = [NumAttributes]Scale{
	ShortPassing: {"rad, angular error (sd) of an unpressed ground pass", [NumGroups]float64{0.040, 0.038, 0.038, 0.041}, -0.0050,
		"level: completion by length; spread: pass completion over expected, sd 3.5 points (Pappalardo et al. 2019, 705 players)"},
	LongPassing: {"rad, angular error (sd) of an unpressed lofted pass", [NumGroups]float64{0.085, 0.082, 0.080, 0.085}, -0.0160,
		"level: high-pass completion; spread: completion over expected of passes of 30 m and more, sd 6.4 points (Pappalardo et al. 2019)"},
	Crossing: {"rad, angular error (sd) of an unpressed cross", [NumGroups]float64{0.085, 0.075, 0.072, 0.072}, -0.0170,
		"level: cross completion; spread: sd 3.8 points (Pappalardo et al. 2019)"},
	FirstTouch: {"logit, chance that a first touch gets away", [NumGroups]float64{-4.9, -4.9, -5.0, -4.8}, -0.25,
		"level: miscontrols per reception; spread assumed"},
	Carrying: {"m/s, top speed with the ball", [NumGroups]float64{5.6, 6.0, 6.2, 6.6}, 0.30,
		"movement tables: carrier speed q95 5.6 m/s; spread assumed"},
	TakeOn: {"logit, edge of the carrier in a duel", [NumGroups]float64{-0.4, -0.1, 0, 0.15}, 0.33,
		"spread: attacking ground duels won, sd 7.8 points (Pappalardo et al. 2019, 658 players)"},
	Finishing: {"logit, added to a shot's xG", [NumGroups]float64{-0.3, -0.05, 0, 0.03}, 0.30,
		"spread: about 3 goals per 100 shots (Pappalardo et al. 2019, noise removed)"},
	Decisions: {"log, sharpness of choice around the league's", [NumGroups]float64{0, 0, 0, 0}, 0.25,
		"spread assumed"},
	Composure: {"share of the league's loss of quality under pressure", [NumGroups]float64{1, 1, 1, 1}, -0.15,
		"spread assumed"},
	Pace: {"m/s, top speed", [NumGroups]float64{8.4, 8.9, 8.9, 9.2}, 0.35,
		"match peaks 8.6-9.4 m/s in professional men (from memory)"},
	Acceleration: {"m/s^2, from standing", [NumGroups]float64{5.6, 6.0, 6.0, 6.2}, 0.40,
		"6.01 m/s^2 from standing, Sonderegger et al. 2016"},
	Pressing: {"log, rate of challenges by a presser around the league's", [NumGroups]float64{-0.3, 0, 0, 0}, 0.20,
		"spread assumed"},
	Tackling: {"logit, edge of the defender in a duel", [NumGroups]float64{-0.3, 0.1, 0, -0.25}, 0.33,
		"spread: defending ground duels won, sd 5 points (Pappalardo et al. 2019, 778 players)"},
	Interception: {"s, time to react to a ball", [NumGroups]float64{0.70, 0.70, 0.70, 0.72}, -0.04,
		"0.7 s: Spearman 2018 as implemented by Shaw 2020; spread assumed"},
	Positioning: {"m, distance from where he ought to stand (sd)", [NumGroups]float64{0.8, 1.2, 1.3, 1.6}, -0.25,
		"assumed; the residual of the lateral shift fit is 1.7 m (movement tables)"},
	Aerial: {"logit, edge in the air", [NumGroups]float64{0.5, 0.25, 0, 0.05}, 0.50,
		"spread: aerial duels won, sd 11.7 points (Pappalardo et al. 2019, 629 players)"},
	Distribution: {"rad, angular error (sd) of a keeper's pass", [NumGroups]float64{0.048, 0.075, 0.075, 0.075}, -0.006,
		"as short and long passing; keepers complete 6 points over expected (Pappalardo et al. 2019)"},
	Sweeping: {"m, how far a keeper stands off his line for each metre of the last line", [NumGroups]float64{0.28, 0.2, 0.2, 0.2}, 0.06,
		"keeper to back line 27 m (movement tables); spread assumed"},
	ShotStopping: {"logit, taken from a shot's xG", [NumGroups]float64{0, -1.5, -1.5, -1.5}, 0.15,
		"spread assumed, half of finishing"},
}

// Ability is a player's attributes in physical units, by Scales.
type Ability struct {
	Value    [NumAttributes]float64
	TopSpeed float64 // m/s
	Accel    float64 // m/s^2 from standing
	Foot     Foot
}

// maxTopSpeed caps the top speed, m/s: fastest reliable match peaks (from memory).
const maxTopSpeed = 10.5

// Ability computes the player's physical values. Percentiles are held between
// 0.5 and 99.5, so that 0 and 100 stay finite.
func (p *Player) Ability() Ability {
	var a Ability
	g := p.Position.Group()
	for i, sc := range Scales {
		q := min(max(p.Percentile[i]/100, 0.005), 0.995)
		a.Value[i] = sc.Mean[g] + sc.SD*distuv.UnitNormal.Quantile(q)
	}
	a.TopSpeed, a.Accel, a.Foot = a.Value[Pace], a.Value[Acceleration], p.Foot
	if p.TopSpeed > 0 {
		a.TopSpeed = p.TopSpeed
	}
	if p.PeakAccel > 0 {
		a.Accel = p.PeakAccel
	}
	a.TopSpeed = min(a.TopSpeed, maxTopSpeed)
	return a
}

// PercentileOf is the player's percentile in an attribute; where a measured value takes
// its place, the percentile which that value stands for.
func (p *Player) PercentileOf(a Attribute) float64 {
	measured := 0.0
	switch a {
	case Pace:
		measured = p.TopSpeed
	case Acceleration:
		measured = p.PeakAccel
	}
	if measured == 0 {
		return p.Percentile[a]
	}
	sc := Scales[a]
	return 100 * distuv.UnitNormal.CDF((measured-sc.Mean[p.Position.Group()])/sc.SD)
}

// SetPercentile changes an attribute, and drops the measured value that stood in its place.
func (p *Player) SetPercentile(a Attribute, x float64) {
	p.Percentile[a] = x
	switch a {
	case Pace:
		p.TopSpeed = 0
	case Acceleration:
		p.PeakAccel = 0
	}
}
