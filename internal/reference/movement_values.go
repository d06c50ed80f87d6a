package reference

import (
	"math"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// players are the figures of receptions and of the legs.
func (v values) players(m *movementSums) {
	var hold hist
	var sum, closing total
	var touch part
	for t := range numThirds {
		third := model.Third(t).String()
		v.quantile(m.Receive[t][:], 0.5, metreBin, "nearest_defender/reception", third)
		for d, name := range directionNames {
			v.quantile(m.Found[t][d][:], 0.5, metreBin, "nearest_defender/pass_from", third, name)
			if model.Third(t) != model.FinalThird {
				v.quantile(m.Shape.Marked[t][d][:], 0.5, 1, "nearest_defender/team_mates", third, name)
			}
		}
		v.quantile(m.Release[t][:], 0.5, metreBin, "nearest_defender/release", third)
		v.part(m.Tight[t], "nearest_defender/reception", third, "below_4m")
		v.part(m.Reached[t], "press_broadcast/below_2m", third)
		v.part(m.ReachedFrom4[t], "press_broadcast/below_2m", third, "from_4m")
		v.mean(m.HoldSum[t], sim.TickSeconds, "time_on_ball", third, "mean")
		v.mean(m.Closing[t], cm, "closing_speed/held_1s", third)
		stats.AddIntegers(&hold, &m.Hold[t])
		stats.AddIntegers(&sum, &m.HoldSum[t])
		stats.AddIntegers(&closing, &m.Closing[t])
	}
	for i, name := range speedBandNames {
		v.quantile(m.PassSpeed[i][:], 0.5, speedBin, "pass_speed/ground", name)
	}
	v.mean(sum, sim.TickSeconds, "time_on_ball/mean")
	for _, q := range []namedQuantile{{"median", 0.5}, {"q90", 0.9}} {
		x, n := quantile(hold[:], q.p, sim.TickSeconds)
		v.set(x-sim.TickSeconds/2, n, "time_on_ball", q.name)
	}
	for i, name := range [...]string{"below_2m", "2_to_4m", "4_to_8m", "above_8m"} {
		v.part(m.OneTouch[i], "time_on_ball/one_touch/nearest", name)
		v.mean(m.Held[i], sim.TickSeconds, "time_on_ball/held/nearest", name)
		stats.AddIntegers(&touch, &m.OneTouch[i])
	}
	v.part(touch, "time_on_ball/one_touch")
	v.mean(closing, cm, "closing_speed/held_1s")
	v.mean(m.Carried, cm, "carrier_mean_speed/held_1s")
	v.part(m.Forward, "carrier/goes_forward")
	v.quantile(m.SwitchReceive[:], 0.5, metreBin, "switches_broadcast/nearest_at_reception")
	v.quantile(m.SwitchRelease[:], 0.5, metreBin, "switches_broadcast/nearest_at_release")
	v.mean(m.SwitchClosing, cm, "switches_broadcast/closing_speed")
	v.part(m.SwitchNear3, "switches_broadcast/below_3m_at_release")
	v.part(m.SwitchNear5, "switches_broadcast/below_5m_at_release")

	all := int64(0)
	for _, n := range m.Speed {
		all += n
	}
	for i, name := range []string{"below_2", "2_to_4", "4_to_5.5", "5.5_to_7", "above_7"} {
		v.ratio(m.Speed[i], all, 1, "speed_share", name)
	}
	v.quantile(m.Shape.Run[:], 0.5, sim.RunBin, "offball_runs/mean_speed_median")
	v.quantile(m.Shape.Run[:], 0.9, sim.RunBin, "offball_runs/mean_speed_q90")
}

// block are the figures of the block.
func (v values) block(m *movementSums) {
	var width [sim.ShapeBins]int64
	for t := range m.Shape.Width {
		stats.AddIntegers(&width, &m.Shape.Width[t])
		v.quantile(m.Shape.Width[t][:], 0.5, 1, "block/width/ball", model.Third(t).String())
		v.quantile(m.Shape.Attack[t][:], 0.5, 1, "attack/width/ball", model.Third(t).String())
	}
	v.quantile(width[:], 0.5, 1, "block/width")
	v.quantile(m.Shape.Length[:], 0.5, 1, "block/length")
	v.quantile(m.Shape.LastGap[:], 0.5, 1, "block/gap_last_to_midfield")
	v.quantile(m.Shape.FirstGap[:], 0.5, 1, "block/gap_midfield_to_first")
	v.quantile(m.Shape.Keeper[:], 0.5, 1, "block/keeper_to_last_line")
	v.quantile(m.Shape.Hull[:], 0.5, sim.HullBin, "block/hull_area")
	for band := 1; band <= 9; band++ {
		b := m.Line[band]
		v.ratio(b.X, b.N, cm, "line_height", ballBand(band))
	}
	h := &m.Shape.Height
	n := float64(h.N)
	v.set((float64(h.DH)-float64(h.D)/n*float64(h.H))/(float64(h.DD)-float64(h.D)/n*float64(h.D)), h.N, "line_height_fit/gain")
	v.mean(m.LineBack, cm, "line_speed/ball_played_back")
	v.mean(m.LineForward, cm, "line_speed/ball_carried_forward")
	gain, tau := fitShift(&m.Shift)
	v.set(gain, h.N, "block_shift/gain")
	v.set(tau, h.N, "block_shift/time_constant")
}

// fitShift fits the first-order response of the block to the ball by least squares:
// gain and offset in closed form for each time constant tried, then the time
// constant at the bottom of a parabola through the least residual and its
// neighbours. It is the fit of the movement tables (output error, started where the
// block was seen).
func fitShift(s *[len(sim.ShiftTimes)]sim.ShiftSum) (gain, tau float64) {
	var sse, gains [len(sim.ShiftTimes)]float64
	best := 0
	for i := range s {
		// Units: Z and C in cm, U in thousandths.
		zz, zu, uu := float64(s[i].ZZ), float64(s[i].ZU), float64(s[i].UU)
		cz, cu, cc := float64(s[i].CZ), float64(s[i].CU), float64(s[i].CC)
		det := zz*uu - zu*zu
		g, o := (cz*uu-cu*zu)/det, (cu*zz-cz*zu)/det
		gains[i], sse[i] = g, cc-g*cz-o*cu
		if sse[i] < sse[best] {
			best = i
		}
	}
	if math.IsNaN(sse[0]) {
		return math.NaN(), math.NaN()
	}
	t := sim.ShiftTimes[:]
	if best == 0 || best == len(t)-1 {
		return gains[best], t[best]
	}
	tau = vertex(t[best-1:best+2], sse[best-1:best+2])
	// The gain between two time constants by linear interpolation.
	i := best
	if tau < t[best] {
		i--
	}
	share := (tau - t[i]) / (t[i+1] - t[i])
	return gains[i] + share*(gains[i+1]-gains[i]), tau
}

// vertex is where the parabola through three points has its bottom.
func vertex(x, y []float64) float64 {
	a, b := x[1]-x[0], x[1]-x[2]
	fa, fb := y[1]-y[2], y[1]-y[0]
	return x[1] - (a*a*fa-b*b*fb)/(a*fa-b*fb)/2
}

// ballBand names a band of the ball's distance from the defended goal line.
func ballBand(band int) string { return ballBandNames[band] }

var ballBandNames = [...]string{"ball_0_10", "ball_10_20", "ball_20_30", "ball_30_40", "ball_40_50", "ball_50_60", "ball_60_70", "ball_70_80", "ball_80_90", "ball_90_100", "ball_100_110", "ball_110_120"}
