package report

import (
	"cmp"
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"slices"
	"strconv"

	"playout/model"
	"playout/sim"
)

// StillRun is a still and what the engine made of it.
type StillRun struct {
	File, Title string
	Still       *sim.Still
	Judgement   *sim.Judgement
	Version     string
	Revision    int
}

// Still is what the carrier of a still can do, in the order in which it is written as
// JSON. Keys are stable: fields may be added, but none is renamed or changes its
// meaning. Numbers are written with all their digits; metres are in the frame of the
// side on the ball (attack), which attacks +x.
type Still struct {
	File     string        `json:"file"`
	Title    string        `json:"title"`
	Version  string        `json:"version"`
	Revision int           `json:"revision"`
	Looks    int           `json:"looks"` // over which the shares are taken
	Answer   []string      `json:"answer"`
	Notes    []string      `json:"notes"`
	Pitch    [2]float64    `json:"pitch_m"` // length, width
	Ball     StillCarrier  `json:"ball"`
	Attack   []StillPlayer `json:"attack"`
	Defence  []StillPlayer `json:"defence"`
	LastLine float64       `json:"offside_line_m"` // x of the second-last opponent
	Options  []StillOption `json:"options"`        // most often chosen first
	Control  StillModel    `json:"control_model"`
	Flight   StillFlight   `json:"ball_model"`
	Surface  StillSurface  `json:"surface"`

	run StillRun
}

// StillCarrier is who has the ball, and how he is placed.
type StillCarrier struct {
	Player   int        `json:"player"`
	At       [2]float64 `json:"at_m"`
	Facing   [2]float64 `json:"facing"` // unit vector
	Pressure float64    `json:"pressure"`
	Nearest  int        `json:"nearest_opponent"`
	Gap      float64    `json:"nearest_opponent_m"`
}

// StillPlayer is a man as the control model takes him.
type StillPlayer struct {
	Number   int        `json:"number"`
	Name     string     `json:"name"`
	Position string     `json:"position"`
	At       [2]float64 `json:"at_m"`
	Velocity [2]float64 `json:"velocity_m_s"`
	Reaction float64    `json:"reaction_s"`
	Aimed    float64    `json:"reaction_when_aimed_at_s"`
	Watching float64    `json:"reaction_when_watching_s"`
	Speed    float64    `json:"speed_m_s"` // effective, after the reaction
	Top      float64    `json:"top_speed_m_s"`
	Accel    float64    `json:"acceleration_m_s2"`
	Rate     float64    `json:"control_rate_1_s"`
	Carrier  bool       `json:"carrier"`
	Offside  bool       `json:"offside"`
}

// StillOption is one thing he could do.
type StillOption struct {
	Words   string     `json:"words"`
	Act     string     `json:"act"`    // pass, keep, take_on, shot
	Player  *int       `json:"player"` // receiver or, for a take-on, the opponent; null: nobody
	To      [2]float64 `json:"to_m"`
	Flight  *string    `json:"flight"` // of a pass: ground, driven, clipped, floated
	Pass    *string    `json:"pass"`   // ground, high, cross
	Space   bool       `json:"into_space"`
	CutBack bool       `json:"cut_back"`
	Offside bool       `json:"offside"`
	Share   float64    `json:"share"`
	Chance  float64    `json:"chance"`
	Worth   float64    `json:"worth"` // goals
	Cost    float64    `json:"cost"`  // goals
	Risk    float64    `json:"risk"`  // goals
	Fear    float64    `json:"fear"`  // goals
	Lost    [2]float64 `json:"lost_at_m"`
	Detail  *StillPass `json:"control"` // null: no pass

	times int // Share in times of 100: all options add up to 100
}

// StillPass is how the chance of a pass comes about: see playout help json.
type StillPass struct {
	Arrives   float64     `json:"arrives_s"`
	Blocked   float64     `json:"blocked"`
	Blocker   *int        `json:"blocker"`
	Watcher   *int        `json:"watched_by"` // the man it is meant for; null: nobody near
	Touch     float64     `json:"touch"`
	Attack    []StillTake `json:"attack"`
	Defence   []StillTake `json:"defence"`
	Unclaimed float64     `json:"unclaimed"`
	Out       float64     `json:"out_of_play"`
	Balls     []StillBall `json:"balls"`
}

// StillTake is the chance that a player has the ball.
type StillTake struct {
	Number int     `json:"number"`
	Chance float64 `json:"probability"`
}

// StillShare is that of a single ball, with the steps of the carrier and with fine ones.
type StillShare struct {
	StillTake
	Fine float64 `json:"fine"`
}

// StillBall is one contest of the control model.
type StillBall struct {
	Weight  float64      `json:"weight"`
	Origin  [2]float64   `json:"origin_m"`
	Dir     [2]float64   `json:"direction"`
	Kind    string       `json:"flight"`
	Launch  float64      `json:"launch_m_s"`
	Angle   float64      `json:"launch_angle_rad"`
	PhaseT  float64      `json:"first_phase_s"`
	PhaseS  float64      `json:"first_phase_m"`
	RestT   float64      `json:"rest_s"`
	RestS   float64      `json:"rest_m"`
	Length  float64      `json:"length_m"`
	Arrives float64      `json:"arrives_s"`
	Until   float64      `json:"until_s"`
	Shield  float64      `json:"shield"`
	Feet    float64      `json:"feet_rate"`
	Within  float64      `json:"meet_within_m"`
	Attack  []StillShare `json:"attack"`
	Defence []StillShare `json:"defence"`
	Sum     float64      `json:"sum"`
}

// StillModel is the control model as carriers judge by it.
type StillModel struct {
	Spread     float64 `json:"spread_s"`
	FootHeight float64 `json:"foot_height_m"`
	HeadHeight float64 `json:"head_height_m"`
	HeadRate   float64 `json:"head_rate"`
	Step       float64 `json:"step_s"`
	FineStep   float64 `json:"fine_step_s"`
	Edge       float64 `json:"edge_logits"`
	Enough     float64 `json:"enough"`
	Wait       float64 `json:"wait_s"`
	Reach      float64 `json:"reach_m"`
	Twitch     float64 `json:"twitch_s"`
	Swift      float64 `json:"swift_s"`
}

// StillFlight is what the ball's way is computed from.
type StillFlight struct {
	Slide     float64 `json:"slide_m_s2"`
	RollShare float64 `json:"roll_share"`
	BackSpin  float64 `json:"back_spin_m_s"`
	Roll      float64 `json:"roll_m_s2"`
	RollDrag  float64 `json:"roll_drag_1_m"`
	Gravity   float64 `json:"gravity_m_s2"`
	LowDrag   float64 `json:"air_drag_slow_1_m"`
	HighDrag  float64 `json:"air_drag_fast_1_m"`
	LowSpeed  float64 `json:"air_drag_slow_up_to_m_s"`
	HighSpeed float64 `json:"air_drag_fast_from_m_s"`
}

// StillSurface is the control surface: rows from the right touchline, each from the own
// goal line.
type StillSurface struct {
	Cell   [2]float64  `json:"cell_m"`
	First  [2]float64  `json:"first_cell_m"` // its middle
	Chance [][]float64 `json:"chance"`
	High   [][]bool    `json:"high"`
}

// NewStill says what the engine makes of a still.
func NewStill(run StillRun) *Still {
	j, st := run.Judgement, run.Still
	sc := st.Scenario
	s := &Still{
		File: clean(run.File), Title: untitled(clean(run.Title)), Version: run.Version, Revision: run.Revision, Looks: sim.StillLooks,
		Pitch: [2]float64{sc.Pitch.Length, sc.Pitch.Width}, LastLine: j.LastLine, run: run,
	}
	s.Ball = StillCarrier{
		Player: s.number(0, st.Carrier), At: [2]float64{j.Ball.X, j.Ball.Y}, Facing: [2]float64{j.Face.X, j.Face.Y},
		Pressure: j.Pressure, Nearest: s.number(1, j.Nearest), Gap: j.Gap,
	}
	for t, list := range []*[]StillPlayer{&s.Attack, &s.Defence} {
		for i := range 11 {
			p, c := &sc.Teams[t].Players[i], &j.Contenders[t][i]
			*list = append(*list, StillPlayer{
				Number: p.Number, Name: clean(p.Name), Position: p.Position.String(),
				At: [2]float64{c.Pos.X, c.Pos.Y}, Velocity: [2]float64{c.Vel.X, c.Vel.Y}, Reaction: c.Reaction, Aimed: c.Aimed, Watching: c.Watching,
				Speed: c.Speed, Top: c.Top, Accel: c.Accel, Rate: c.Rate, Carrier: t == 0 && i == st.Carrier, Offside: t == 0 && j.Offside[i],
			})
		}
	}
	for i := range j.Options {
		s.Options = append(s.Options, s.option(&j.Options[i]))
	}
	s.count()
	m := &j.Model
	s.Control = StillModel{m.Spread, m.FootHeight, m.HeadHeight, m.HeadRate, m.Step, sim.FineStep, m.Edge, j.Enough, j.Wait, j.Reach, j.Twitch, j.Swift}
	s.Flight = StillFlight(sim.Constants())
	s.Surface = stillSurface(&j.Surface)
	s.Answer, s.Notes = s.answer(), s.notes()
	return s
}

// count rounds the shares so that they add up to 100: down, and up again where most was
// taken away (largest remainder; ties go to the more often chosen).
func (s *Still) count() {
	left := 100
	byRest := make([]*StillOption, len(s.Options))
	for i := range s.Options {
		o := &s.Options[i]
		byRest[i], o.times = o, int(100*o.Share)
		left -= o.times
	}
	rest := func(o *StillOption) float64 { return 100*o.Share - float64(o.times) }
	slices.SortStableFunc(byRest, func(a, b *StillOption) int { return cmp.Compare(rest(b), rest(a)) })
	for _, o := range byRest[:min(max(left, 0), len(byRest))] {
		o.times++
	}
}

func (s *Still) number(team, i int) int {
	return s.run.Still.Scenario.Teams[team].Players[i].Number
}

func (s *Still) option(o *sim.StillOption) StillOption {
	out := StillOption{
		Words: s.name(o), Act: o.Act.String(), To: [2]float64{o.To.X, o.To.Y}, Space: o.Space, CutBack: o.Back, Offside: o.Offside,
		Share: o.Share, Chance: o.Chance, Worth: o.Worth, Cost: o.Cost, Risk: o.Risk, Fear: o.Fear, Lost: [2]float64{o.Lost.X, o.Lost.Y},
	}
	if o.Player >= 0 {
		team := 0
		if o.Act == sim.ActTakeOn {
			team = 1
		}
		out.Player = new(s.number(team, o.Player))
	}
	if o.Pass == nil {
		return out
	}
	out.Flight, out.Pass = new(o.Flight.String()), new(o.Option.Pass.String())
	d := &StillPass{Arrives: o.Pass.Arrives, Blocked: o.Pass.Blocked, Touch: o.Pass.Touch, Unclaimed: o.Pass.Unclaimed, Out: o.Pass.Out}
	if o.Pass.Blocker >= 0 {
		d.Blocker = new(s.number(1, o.Pass.Blocker))
	}
	if o.Pass.Watcher >= 0 {
		d.Watcher = new(s.number(1, o.Pass.Watcher))
	}
	d.Attack, d.Defence = s.takes(&o.Pass.Takes)
	for i := range o.Pass.Balls {
		b := &o.Pass.Balls[i]
		f := &b.Flight
		ball := StillBall{
			Weight: b.Weight, Origin: [2]float64{f.Origin.X, f.Origin.Y}, Dir: [2]float64{f.Dir.X, f.Dir.Y}, Kind: f.Kind.String(),
			Launch: f.Launch, Angle: f.Angle(), Length: b.Length, Arrives: b.Arrives, Until: b.Until, Sum: b.Sum,
			Shield: b.Shield, Feet: b.Feet, Within: b.Within,
		}
		ball.PhaseS, ball.PhaseT = f.Phase()
		ball.RestS, ball.RestT = f.Rest()
		attack, defence := s.takes(&b.Control)
		fineAttack, fineDefence := s.takes(&b.Fine)
		ball.Attack, ball.Defence = shared(attack, fineAttack), shared(defence, fineDefence)
		d.Balls = append(d.Balls, ball)
	}
	out.Detail = d
	return out
}

// takes lists everybody but the carrier.
func (s *Still) takes(p *[2][11]float64) (attack, defence []StillTake) {
	for i := range 11 {
		if i != s.run.Still.Carrier {
			attack = append(attack, StillTake{s.number(0, i), p[0][i]})
		}
		defence = append(defence, StillTake{s.number(1, i), p[1][i]})
	}
	return attack, defence
}

func shared(carrier, fine []StillTake) []StillShare {
	var out []StillShare
	for i, t := range carrier {
		out = append(out, StillShare{t, fine[i].Chance})
	}
	return out
}

func stillSurface(f *sim.Surface) StillSurface {
	first := f.At(0, 0)
	out := StillSurface{Cell: [2]float64{f.Length, f.Width}, First: [2]float64{first.X, first.Y}}
	for k := range f.Rows {
		out.Chance = append(out.Chance, f.Chance[k*f.Columns:(k+1)*f.Columns])
		out.High = append(out.High, f.High[k*f.Columns:(k+1)*f.Columns])
	}
	return out
}

// Write prints the still; full adds every option to the tables.
func (s *Still) Write(w io.Writer, f Format, full bool) error {
	if f == JSON { // long lists: every blank counts
		e := json.NewEncoder(w)
		e.SetIndent("", " ")
		return e.Encode(s)
	}
	return writeAs(w, f, func() *document { return s.document(full) }, s.writeCSV, s)
}

// writeCSV writes one option in a row.
func (s *Still) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"option", "act", "player", "flight", "into_space", "offside", "to_x_m", "to_y_m", "share", "chance", "worth", "cost", "risk",
		"lost_x_m", "lost_y_m", "arrives_s", "cutter", "cutter_chance"})
	x := func(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }
	for i := range s.Options {
		o := &s.Options[i]
		player, flight, arrives, cutter, cut := "", "", "", "", ""
		if o.Player != nil {
			player = strconv.Itoa(*o.Player)
		}
		if o.Detail != nil {
			flight, arrives = *o.Flight, x(o.Detail.Arrives)
			if t := o.cutter(); t.Chance > 0 {
				cutter, cut = strconv.Itoa(t.Number), x(t.Chance)
			}
		}
		out.Write([]string{o.Words, o.Act, player, flight, strconv.FormatBool(o.Space), strconv.FormatBool(o.Offside), x(o.To[0]), x(o.To[1]),
			x(o.Share), x(o.Chance), x(o.Worth), x(o.Cost), x(o.Risk), x(o.Lost[0]), x(o.Lost[1]), arrives, cutter, cut})
	}
	out.Flush()
	return out.Error()
}

// cutter is the opponent who is most likely to have a pass, body in the way included.
func (o *StillOption) cutter() StillTake {
	best := StillTake{}
	for _, t := range o.Detail.Defence {
		if o.Detail.Blocker != nil && *o.Detail.Blocker == t.Number {
			t.Chance += o.Detail.Blocked
		}
		if t.Chance > best.Chance {
			best = t
		}
	}
	return best
}

// balance is what an option is worth all in all, goals.
func (o *StillOption) balance() float64 { return o.Chance*o.Worth - o.Risk }

// lane and depth of a place in words, as the side on the ball sees them.
func (s *Still) place(at [2]float64) string {
	lane := laneWords[model.LaneOf(at[1]).String()]
	lines := s.run.Judgement.Lines
	switch x := at[0]; {
	case x > s.LastLine && x > 0:
		return "in behind, " + lane
	case len(lines) > 1 && x > lines[1] && math.Abs(at[1]) <= model.PenaltyAreaWidth/2:
		return "between the lines, " + lane
	}
	return lane
}
