package reference

import (
	"math"
	"slices"

	"playout/model"
	"playout/sim"
)

// Meter measures the engine by the definitions of the reference tables. It is
// an observer of a run; Figures is called with the result when the run is over.
type Meter struct {
	pitch    model.Pitch
	receive  [model.NumThirds][]float64 // nearest defender at reception, m
	release  [model.NumThirds][]float64 // and when the ball left again
	hold     []float64                  // time on the ball, s
	oneTouch int
	closing  []float64                  // closing speed on spells of at least 1 s, m/s
	length   [model.NumThirds][]float64 // of completed ground passes, m
	passes   [model.NumThirds][2]int64  // ground, high
}

// NewMeter returns a meter for possessions on the given pitch.
func NewMeter(pitch model.Pitch) *Meter { return &Meter{pitch: pitch} }

// oneTouchWithin is the longest time on the ball that counts as first time, s:
// tracking at 10 Hz shows 0, 0.1 or 0.2.
const oneTouchWithin = 0.25

// Possession notes every spell on the ball from reception to release.
func (m *Meter) Possession(_ *sim.Possession, events []sim.Event) {
	var got, pass *sim.Event
	for i := range events {
		e := &events[i]
		if e.Team != 0 {
			continue
		}
		switch e.Kind {
		case sim.EventReceive:
			got = e
		case sim.EventPass, sim.EventShot:
			if got != nil {
				m.spell(got, e)
				m.passed(pass, e)
			}
			got, pass = nil, nil
			if e.Kind == sim.EventPass {
				pass = e
			}
		case sim.EventEnd:
			m.passed(pass, nil)
			return // what the opponent makes of a loss is another possession
		case sim.EventLoose:
			m.passed(pass, nil)
			got, pass = nil, nil
		}
	}
}

// passed notes a pass and the team's next action, nil if there was none: event
// data record the end of a pass at the place of the next event.
func (m *Meter) passed(pass, next *sim.Event) {
	if pass == nil {
		return
	}
	third := m.pitch.ThirdOf(pass.From.X)
	if pass.Flight != sim.Ground {
		m.passes[third][1]++
		return
	}
	m.passes[third][0]++
	if next != nil {
		m.length[third] = append(m.length[third], math.Hypot(next.From.X-pass.From.X, next.From.Y-pass.From.Y))
	}
}

func (m *Meter) spell(got, left *sim.Event) {
	third := m.pitch.ThirdOf(got.From.X)
	m.receive[third] = append(m.receive[third], got.Near)
	m.release[third] = append(m.release[third], left.Near)
	hold := float64(left.Tick-got.Tick) * sim.TickSeconds
	m.hold = append(m.hold, hold)
	if hold < oneTouchWithin {
		m.oneTouch++
	}
	if hold >= 1 {
		m.closing = append(m.closing, (got.Near-left.Near)/hold)
	}
}

// Figures returns the engine's value of every figure it can measure, by name.
func (m *Meter) Figures(res *sim.Result) map[string]float64 {
	out := map[string]float64{}
	t := &res.BuildUp
	n := float64(t.Possessions)
	outcomes(out, t, n)
	entries(out, t)
	out["pass_completion_build_up/ground"] = share(t.Completed[sim.GroundPass], t.Attempted[sim.GroundPass])
	out["pass_completion_build_up/high"] = share(t.Completed[sim.HighPass], t.Attempted[sim.HighPass])
	out["xg_per_shot/build_up"] = float64(t.XG.X) * sim.XGUnit / float64(t.Shot)
	out["crosses/per_entry"] = share(t.Attempted[sim.Cross], t.FinalReached)
	out["final_third/controlled_given_reached"] = share(t.FinalThird, t.FinalReached)
	out["share_of_starts/build_up"] = share(t.Possessions, res.Tally.Possessions)
	m.players(out)
	block(out, &t.Block)
	return out
}

func share(k, n int64) float64 { return float64(k) / float64(n) }

func outcomes(out map[string]float64, t *sim.Tally, n float64) {
	const table = "possession_outcomes/build_up/"
	for name, k := range map[string]int64{
		"exit_own_third": t.ExitOwnThird, "halfway": t.Halfway, "final_third": t.FinalReached, "box": t.Box,
		"shot": t.Shot, "goal": t.Goal,
	} {
		out[table+name] = float64(k) / n
	}
	lost := [model.NumThirds]string{"lost_in_own", "lost_in_middle", "lost_in_final"}
	for e := sim.End(0); e < sim.NumEnds; e++ {
		sum := int64(0)
		for third, k := range t.Ends[e] {
			sum += k
			if e.Lost() {
				out[table+lost[third]] += float64(k) / n
			}
		}
		if name := endName[e]; name != "" {
			out[table+name] = float64(sum) / n
		}
	}
	out[table+"duration_s"] = float64(t.Active.X) * sim.TickSeconds / n
	out[table+"passes_completed"] = float64(t.PassSumDone.X) / n
	out[table+"passes_attempted"] = float64(t.PassSum.X) / n
}

// endName is the name the reference table gives to an end.
var endName = [sim.NumEnds]string{
	sim.EndIntercepted: "end_pass_intercepted", sim.EndTackled: "end_ground_duel_lost", sim.EndAerial: "end_aerial_duel_lost",
	sim.EndMiscontrol: "end_miscontrol_or_touch", sim.EndOffside: "end_offside", sim.EndFoulCommitted: "end_foul_committed",
	sim.EndOutTheirs: "end_out_of_play_opponent_restart", sim.EndOutOurs: "end_out_of_play_own_restart",
	sim.EndFoulWon: "end_foul_won", sim.EndShot: "end_shot",
}

func entries(out map[string]float64, t *sim.Tally) {
	const table = "final_third_entries/share_of_entries/"
	for l, k := range t.ReachLane {
		out[table+model.Lane(l).String()] = share(k, t.FinalReached)
	}
	for y, k := range t.ReachWay {
		out[table+sim.Way(y).String()] = share(k, t.FinalReached)
	}
}

func (m *Meter) players(out map[string]float64) {
	for third := model.OwnThird; third < model.NumThirds; third++ {
		out["nearest_defender/reception/"+third.String()] = quantile(m.receive[third], 0.5)
		out["nearest_defender/release/"+third.String()] = quantile(m.release[third], 0.5)
	}
	for third := model.OwnThird; third < model.NumThirds; third++ {
		name := "pass_mix_build_up/" + third.String()
		out[name+"/ground_length_p50"] = quantile(m.length[third], 0.5)
		out[name+"/high_share"] = share(m.passes[third][1], m.passes[third][0]+m.passes[third][1])
	}
	out["time_on_ball/mean"] = mean(m.hold)
	out["time_on_ball/median"] = quantile(m.hold, 0.5)
	out["time_on_ball/q90"] = quantile(m.hold, 0.9)
	out["time_on_ball/one_touch"] = float64(m.oneTouch) / float64(len(m.hold))
	out["closing_speed/held_1s"] = mean(m.closing)
}

func block(out map[string]float64, b *sim.BlockTotals) {
	ticks := float64(b.Ticks)
	out["block/width"] = float64(b.Width) / ticks / 100
	out["block/length"] = float64(b.Length) / ticks / 100
	out["block/gap_last_to_midfield"] = float64(b.Gap) / float64(b.GapN) / 100
	out["block_shift/time_constant"] = float64(b.LagEC) / float64(b.LagCC)
	for band, name := range map[int]string{
		2: "20_30", 3: "30_40", 4: "40_50", 5: "50_60", 6: "60_70", 7: "70_80", 8: "80_90",
	} {
		out["line_height/ball_"+name] = float64(b.Line[band].X) / float64(b.Line[band].N) / 100
	}
	total := int64(0)
	for _, k := range b.Speed {
		total += k
	}
	for i, name := range []string{"below_2", "2_to_4", "4_to_5.5", "5.5_to_7"} {
		out["speed_share/"+name] = share(b.Speed[i], total)
	}
}

func mean(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s / float64(len(x))
}

// quantile is the value below which a share p of the sample lies.
func quantile(x []float64, p float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	s := slices.Clone(x)
	slices.Sort(s)
	return s[int(p*float64(len(s)-1))]
}
