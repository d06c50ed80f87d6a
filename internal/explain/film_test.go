package explain

import (
	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
	"playout/sim"
)

// reel makes films by hand: players stand where they are put, the ball goes where the
// test takes it.
type reel struct {
	f     sim.Film
	frame sim.Frame
}

func at(x, y float64) r2.Vec { return r2.Vec{X: x, Y: y} }

// newReel starts with number 2 (index 1) of the attack on the ball at (-30, 0), his
// team-mates and the block far away, the rows of the block 10 m apart.
func newReel() *reel {
	r := &reel{}
	r.frame.Carrier, r.frame.Presser, r.frame.Second = 1, nobody, nobody
	for i := range 11 {
		r.frame.Players[0][i] = at(-45, float64(3*i-30))
		r.frame.Players[1][i] = at(45, float64(3*i-30))
	}
	r.frame.Players[0][1] = at(-30, 0)
	r.frame.Ball = at(-30, 0)
	r.f.Possession.Start = at(-30, 0)
	r.event(sim.EventStart, 0, 1, nobody)
	return r
}

func (r *reel) event(k sim.EventKind, team, player, other int) *sim.Event {
	r.f.Events = append(r.f.Events, sim.Event{Tick: len(r.f.Frames), Kind: k, Team: team, Player: player, Other: other, From: r.frame.Ball, To: r.frame.Ball})
	return &r.f.Events[len(r.f.Events)-1]
}

// wait takes so many frames.
func (r *reel) wait(ticks int) *reel {
	for range ticks {
		r.frame.Tick = len(r.f.Frames)
		r.f.Frames = append(r.f.Frames, r.frame)
	}
	return r
}

// put moves a player.
func (r *reel) put(team, player int, p r2.Vec) *reel {
	r.frame.Players[team][player] = p
	return r
}

// pass plays the ball to a place for a man; travel takes it there.
func (r *reel) pass(to int, target r2.Vec) *reel {
	e := r.event(sim.EventPass, 0, r.frame.Carrier, to)
	e.To = target
	r.frame.Carrier = nobody
	return r
}

func (r *reel) travel(ticks int, to r2.Vec) *reel {
	r.wait(ticks)
	r.frame.Ball = to
	return r
}

// receive gives the ball to a man who stands there.
func (r *reel) receive(player int) *reel {
	r.frame.Players[0][player] = r.frame.Ball
	r.frame.Carrier = player
	r.event(sim.EventReceive, 0, player, nobody)
	return r
}

// carry takes man and ball to a place.
func (r *reel) carry(ticks int, to r2.Vec) *reel {
	r.wait(ticks)
	r.frame.Ball, r.frame.Players[0][r.frame.Carrier] = to, to
	return r
}

func (r *reel) end(e sim.End) *sim.Film {
	r.wait(1)
	r.f.Events = append(r.f.Events, sim.Event{Tick: len(r.f.Frames) - 1, Kind: sim.EventEnd, Player: nobody, From: r.frame.Ball, End: e})
	p := &r.f.Possession
	p.End, p.Place, p.Ticks = e, r.frame.Ball, len(r.f.Frames)-1
	return &r.f
}

// average is two league-average teams; the block is a 4-4-2.
func average() *model.Scenario {
	sc := model.AverageScenario()
	return &sc
}

// ofRow is a defender of a row of the block, the last line being 0.
func ofRow(row int) int {
	for i := 1; i < 11; i++ {
		if average().Teams[model.Defence].Block.Slot[i].Row == row {
			return i
		}
	}
	panic("no such row")
}
