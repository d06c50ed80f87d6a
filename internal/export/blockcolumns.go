package export

import (
	"playout/sim"
)

// blockColumns are what the block did over a possession: sums of sim.BlockSample
// turned into means of the possession, with the number of samples to weigh them by.
func blockColumns() possessionColumns {
	return possessionColumns{
		{"defensive_actions", "", "tackles, interceptions, challenges and fouls of the block", whole, func(r *possessionRow) cell { return ofInt(r.p.DefActions) }},
		{"block_samples", "", "looks at the block, by which to weigh the means that follow", whole, block(func(s *sim.BlockSample) cell { return ofInt(s.Ticks) })},
		{"block_pressing", "0 to 1", "share of the looks at which it pressed", number, block(func(s *sim.BlockSample) cell { return ratio(float64(s.Pressing), s.Ticks) })},
		{"block_width_m", "m", "mean, outfield players", number, block(func(s *sim.BlockSample) cell { return centimetres(s.Width, s.Ticks) })},
		{"block_length_m", "m", "mean, outfield players", number, block(func(s *sim.BlockSample) cell { return centimetres(s.Length, s.Ticks) })},
		{"block_line_m", "m", "mean height of the last line above its own goal line", number, block(func(s *sim.BlockSample) cell {
			all := sim.BandSum{}
			for _, b := range s.Line {
				all.N += b.N
				all.X += b.X
			}
			return centimetres(all.X, int(all.N))
		})},
		{"block_midfield_m", "m", "mean height of its midfield line", number, block(func(s *sim.BlockSample) cell { return centimetres(s.Midfield, s.GapN) })},
		{"block_gap_m", "m", "mean gap from last line to midfield line", number, block(func(s *sim.BlockSample) cell { return centimetres(s.Gap, s.GapN) })},
		{"block_pinned", "players", "mean number of defenders held by an opponent in their zone", number, block(func(s *sim.BlockSample) cell { return ratio(float64(s.Pinned), s.Ticks) })},
		{"presses", "", "defenders who left their slot to press", whole, block(func(s *sim.BlockSample) cell { return ofInt(s.Jumps) })},
		{"presses_won", "", "of these, ball won within 5 s", whole, block(func(s *sim.BlockSample) cell { return ofInt(s.JumpWon) })},
		{"receptions", "", "balls brought under control", whole, block(func(s *sim.BlockSample) cell { return ofInt(s.Pressure.N) })},
		{"receptions_pressed", "", "of these, a defender came within 2 m", whole, block(func(s *sim.BlockSample) cell { return ofInt(s.Pressure.Pressed) })},
		{"pressed_after_s", "s", "mean time until he did", number, block(func(s *sim.BlockSample) cell {
			return ratio(float64(s.Pressure.Ticks)*sim.TickSeconds, s.Pressure.Pressed)
		})},
	}
}

func block(of func(s *sim.BlockSample) cell) func(r *possessionRow) cell {
	return func(r *possessionRow) cell { return of(&r.p.BlockSample) }
}

// ratio is a mean; of nothing there is none.
func ratio(sum float64, n int) cell {
	if n == 0 {
		return cell{}
	}
	return rounded(sum/float64(n), 4)
}

func centimetres(sum int64, n int) cell { return ratio(float64(sum)/100, n) }
