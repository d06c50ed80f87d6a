package export

import "playout/sim"

// frameRow is one player at one tick.
type frameRow struct {
	id    int
	frame *sim.Frame
	side  int
	k     int // index in the team
	names *roster
}

var frameTable = table[frameRow]{"frames", "one row per tick and player of the filmed possessions", []column[frameRow]{
	{"possession", "", "its number, from 0", whole, func(r *frameRow) cell { return ofInt(r.id) }},
	{"tick", "0.1 s", "from the start of the possession", whole, func(r *frameRow) cell { return ofInt(r.frame.Tick) }},
	{"t_s", "s", "the same in seconds", number, func(r *frameRow) cell { return seconds(r.frame.Tick) }},
	{"phase", "", "possession, or after_loss: the opponent has the ball", text, func(r *frameRow) cell { return ofText(phases[r.frame.OnBall]) }},
	{"team", "", "of the player: attack or defence", text, func(r *frameRow) cell { return ofText(sides[r.side]) }},
	{"player", "", "shirt number", whole, func(r *frameRow) cell { return ofInt(r.names.number[r.side][r.k]) }},
	{"x", "m", "place along the pitch from the centre spot, attack plays towards +", number, func(r *frameRow) cell { return metres(r.frame.Players[r.side][r.k].X) }},
	{"y", "m", "place across, + is left of the attack", number, func(r *frameRow) cell { return metres(r.frame.Players[r.side][r.k].Y) }},
	{"has_ball", "", "the ball is at his feet", yes, func(r *frameRow) cell { return ofBool(r.frame.OnBall == r.side && r.frame.Carrier == r.k) }},
	{"presses", "", "he is on his way to the ball", yes, func(r *frameRow) cell { return ofBool(r.frame.OnBall != r.side && r.frame.Presser == r.k) }},
	{"covers", "", "he covers the presser or closes the nearest way out", yes, func(r *frameRow) cell { return ofBool(r.frame.OnBall != r.side && r.frame.Second == r.k) }},
	{"ball_x", "m", "the ball, the same in all 22 rows of a tick", number, func(r *frameRow) cell { return metres(r.frame.Ball.X) }},
	{"ball_y", "m", "likewise", number, func(r *frameRow) cell { return metres(r.frame.Ball.Y) }},
	{"ball_z", "m", "height of the ball; 0 on the ground or at somebody's feet", number, func(r *frameRow) cell { return metres(r.frame.Height) }},
	{"block_presses", "", "the team without the ball presses rather than stays compact", yes, func(r *frameRow) cell { return ofBool(r.frame.Pressing) }},
	{"cut", "", "players have been placed for a start or restart: no motion leads here", yes, func(r *frameRow) cell { return ofBool(r.frame.Cut) }},
}}

// phases by the team on the ball.
var phases = [2]string{"possession", "after_loss"}

func seconds(ticks int) cell { return rounded(float64(ticks)*sim.TickSeconds, 1) }
