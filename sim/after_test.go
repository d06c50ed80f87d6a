package sim

import (
	"context"
	"encoding/json"
	"math"
	"testing"

	"playout/internal/stats"
	"playout/model"
)

// TestPossessionIsUntouched plays the same possessions with and without what
// follows a loss: the possession itself, its events and its end must be the same.
func TestPossessionIsUntouched(t *testing.T) {
	for _, after := range []float64{0.1, 12, 30} {
		lost := 0
		for id := range 150 {
			with, without := averageOf(1), averageOf(1)
			with.AfterLoss, without.AfterLoss = after, 0
			p, events := Replay(with, nil, id)
			q, short := Replay(without, nil, id)
			if q.After != (After{}) {
				t.Fatalf("possession %d: after_loss 0 played %+v", id, q.After)
			}
			if p.End.Lost() != (p.After.By != NoTakeover) {
				t.Fatalf("possession %d ended %v, the opponent took over %v", id, p.End, p.After.By)
			}
			if p.End.Lost() {
				lost++
			}
			p.After = After{}
			a, _ := json.Marshal([]any{p, events[:len(short)]})
			b, _ := json.Marshal([]any{q, short})
			if string(a) != string(b) {
				t.Fatalf("after_loss %v changes possession %d:\n%s\n%s", after, id, a, b)
			}
		}
		if lost < 50 {
			t.Errorf("only %d losses in the test", lost)
		}
	}
}

// TestTallyIsUntouched compares every sum over the possessions themselves.
func TestTallyIsUntouched(t *testing.T) {
	var tally [2]Tally
	for i, after := range []float64{0, 12} {
		sc := averageOf(300)
		sc.AfterLoss = after
		res, err := Run(context.Background(), sc, Config{})
		if err != nil {
			t.Fatal(err)
		}
		tally[i] = res.Tally
		if played := tally[i].After.All.Played; (played > 0) != (after > 0) {
			t.Errorf("after_loss %v: %d attacks after a loss", after, played)
		}
		tally[i].After = AfterTally{}
	}
	if tally[0] != tally[1] {
		t.Error("what follows a loss changes the tally of the possessions")
	}
}

// TestWindow checks that nothing goes on beyond the window, that a shot has its
// chance, and the order of events: the end of the possession, the take-over, the
// end of the opponent's attack, and nothing behind it.
func TestWindow(t *testing.T) {
	sc := averageOf(1)
	sc.AfterLoss = 4.5
	ran := 0
	for id := range 200 {
		p, events := Replay(sc, nil, id)
		a, last := p.After, events[len(events)-1]
		if !a.Played {
			if last.Kind != EventEnd {
				t.Fatalf("possession %d: the last event is %v", id, last.Kind)
			}
			continue
		}
		if a.Ticks < 1 || a.Ticks > 45 || (a.End == EndStalled) != (a.Ticks == 45) && a.End == EndStalled {
			t.Errorf("possession %d: %d ticks, %v, window 45", id, a.Ticks, a.End)
		}
		if a.End == EndStalled {
			ran++
		}
		if a.Shot != (a.End == EndShot) || a.Shot != (a.XG > 0 && a.Chance > 0) || a.Goal && !a.Shot {
			t.Errorf("possession %d: %+v", id, a)
		}
		end := 0
		for events[end].Kind != EventEnd {
			end++
		}
		over := events[end+1]
		if over.Kind != EventTakeOver || over.Team != int(model.Defence) || over.Tick != p.Ticks {
			t.Errorf("possession %d: %v of team %d at %d follows the end at %d", id, over.Kind, over.Team, over.Tick, p.Ticks)
		}
		if last.Kind != EventAfterEnd || last.End != a.End || last.Tick != p.Ticks+a.Ticks {
			t.Errorf("possession %d: the last event is %v, %v", id, last.Kind, last.End)
		}
	}
	if ran == 0 {
		t.Error("no attack ran into the end of its window")
	}
}

// lossOf plays on to the loss of the first possession, from id on, that lets the
// opponent take over in the given way.
func lossOf(t *testing.T, w *world, id *int, by Takeover) {
	t.Helper()
	for end := *id + 5000; *id < end; *id++ {
		w.reset(*id)
		w.run()
		if w.p.End.Lost() && w.takeover() == by {
			*id++
			return
		}
	}
	t.Fatalf("no take-over %v", by)
}

// TestNobodyIsTeleported holds that after a loss in play everybody is where he
// was and runs as he ran, and that the block starts from there.
func TestNobodyIsTeleported(t *testing.T) {
	w := newWorld(averageOf(1), model.DefaultParams())
	id := 0
	for range 20 {
		lossOf(t, w, &id, WonInPlay)
		pos, vel := w.pos, w.vel
		w.changeRoles(WonInPlay)
		if w.pos != pos || w.vel != vel {
			t.Fatal("the take-over moves players")
		}
		if w.onBall != int(model.Defence) || w.carrier != w.won || teamOf(w.won) != w.onBall {
			t.Fatalf("body %d of the winners has the ball, want %d", w.carrier, w.won)
		}
		// The place and height that fit best leave offsets whose mean is nought, to
		// a centimetre, unless the line is held on the pitch.
		var x, y float64
		for i := 1; i < 11; i++ {
			p := own(int(model.Attack), w.pos[i])
			x += p.X - w.def.shape[i].X
			y += p.Y - w.def.shape[i].Y
		}
		if math.Abs(y) > 0.1 || math.Abs(x) > 0.1 && w.def.height < w.halfL-1 && w.def.height > 3 {
			t.Errorf("the block starts %.2f, %.2f m from its players", x/10, y/10)
		}
	}
}

// TestRestartsKeepTheLaws checks places and distances at restarts: Law 13 (free
// kick: opponents 9.15 m off), Law 15 (throw-in: on the touchline, 2 m) and Law 16
// (goal kick: in the goal area, opponents outside the penalty area). Source: IFAB,
// Laws of the Game.
func TestRestartsKeepTheLaws(t *testing.T) {
	w := newWorld(averageOf(1), model.DefaultParams())
	for by, least := range map[Takeover]float64{ByThrowIn: 2, ByFreeKick: 9.15, ByGoalKick: 0} {
		id := 0
		for range 15 {
			lossOf(t, w, &id, by)
			w.changeRoles(by)
			at := own(w.onBall, w.ball)
			inArea := at.X < -52.5+16.5 && math.Abs(at.Y) < 20.16
			switch {
			case by == ByThrowIn && math.Abs(math.Abs(at.Y)-34) > 1e-9:
				t.Errorf("throw-in from %v", at)
			case by == ByGoalKick && (at.X > -52.5+5.5 || math.Abs(at.Y) > 9.16 || w.carrier%11 != 0):
				t.Errorf("goal kick from %v by %d", at, w.carrier)
			}
			for b := 0; b < 11; b++ { // the opponents
				p := own(w.onBall, w.pos[b])
				if d := dist(w.pos[b], w.ball); d < least-1e-9 {
					t.Errorf("%v: an opponent %.2f m off, want %v", by, d, least)
				}
				if inArea && p.X < -52.5+16.5 && math.Abs(p.Y) < 20.16 {
					t.Errorf("%v at %v: an opponent in the area at %v", by, at, p)
				}
			}
			for w.tick < w.deadline && !w.over && w.restart != inPlay {
				from, pos := w.carrier, w.pos[w.carrier]
				w.advance()
				if w.state == held && (w.carrier != from || dist(w.pos[from], pos) > 1e-9) {
					t.Errorf("%v: the man at the restart lost the ball or moved with it", by)
				}
			}
		}
	}
}

// TestGoalKickIsKicked: a possession that starts with a goal kick starts with a kick by him who
// takes it, not with a touch that takes the ball along, and with the opponents outside the area.
// Source: IFAB, Laws of the Game, Law 16.
func TestGoalKickIsKicked(t *testing.T) {
	sc := averageOf(1)
	sc.Start.Kind = model.FromGoalKick
	w := newWorld(sc, model.DefaultParams())
	for id := range 50 {
		w.reset(id)
		from, at := w.carrier, w.pos[w.carrier]
		for b := range 11 { // the opponents
			p := own(w.onBall, w.pos[11*(1-w.onBall)+b])
			if p.X < -52.5+16.5 && math.Abs(p.Y) < 20.16 {
				t.Errorf("possession %d: an opponent in the area at %v", id, p)
			}
		}
		for !w.over && w.state == held {
			w.advance()
			if w.state == held && (w.carrier != from || dist(w.pos[from], at) > 1e-9) {
				t.Fatalf("possession %d: the man at the goal kick lost the ball or moved with it", id)
			}
		}
		for _, e := range w.events {
			if e.Kind == EventStart {
				continue
			}
			if e.Kind != EventPass || e.Player != from%11 {
				t.Errorf("possession %d: first thing that happens is %v by %d, want a pass by %d", id, e.Kind, e.Player, from%11)
			}
			break
		}
	}
}

// playFrom plays possession id with the given team on the ball.
func playFrom(w *world, id, team int) *Possession {
	w.reset(id)
	if team != int(model.Attack) {
		w.situation = situation{p: Possession{ID: id, Loser: nobody}, deadline: w.deadline, onBall: team}
		w.events = w.events[:0]
		w.setup.Reset(w.sc.Seed, uint64(id), Setup)
		w.block.Reset(w.sc.Seed, uint64(id), Block)
		w.begin()
	}
	w.run()
	w.finish()
	if w.p.End.Lost() {
		w.playAfter()
	}
	return &w.p
}

// TestTheTeamsAreAlike lets either of two equal teams start with the ball: how
// far it gets and what the other makes of the loss may not depend on which of the
// two it is. Fixed seed; false alarm 1e-6 for each rate.
func TestTheTeamsAreAlike(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	const n = 4000
	sc := averageOf(n)
	w := newWorld(sc, model.DefaultParams())
	var tally [2]Tally
	for team := range tally {
		for id := range n {
			tally[team].Add(playFrom(w, id+n*team, team), sc.Pitch)
		}
	}
	for _, f := range []struct {
		name string
		of   func(*Tally) (k, n int64)
	}{
		{"final third", func(t *Tally) (int64, int64) { return t.FinalThird, t.Possessions }},
		{"shot", func(t *Tally) (int64, int64) { return t.Shot, t.Possessions }},
		{"lost", func(t *Tally) (int64, int64) { return t.Turnover, t.Possessions }},
		{"shot against", func(t *Tally) (int64, int64) { return t.After.All.Shots, t.After.All.Played }},
		{"lost back", func(t *Tally) (int64, int64) { return t.After.Ends[EndTackled], t.After.All.Played }},
	} {
		k0, n0 := f.of(&tally[0])
		k1, n1 := f.of(&tally[1])
		if d := stats.DifferenceProportions(k0, n0, k1, n1, 1-1e-6); d.Lo > 0 || d.Hi < 0 || k0 == 0 {
			t.Errorf("%s: %d of %d with one team, %d of %d with the other", f.name, k0, n0, k1, n1)
		}
	}
}

// TestPriceOfALoss checks the order of the price of a loss by its place: a shot
// against follows more often the nearer to the own goal the ball is lost, and in
// the own third more often in the middle of the width than outside. Source:
// Pappalardo et al. (2019), table of turnover cost: opponent's shot within 20 s,
// own third 0.16, middle third 0.05, final third 0.017; own third 0.31 in the
// middle of the width, 0.12 outside. Fixed seed; false alarm
// 1e-5 for each pair.
func TestPriceOfALoss(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	sc := averageOf(16000)
	sc.AfterLoss = 20
	res, err := Run(context.Background(), sc, Config{})
	if err != nil {
		t.Fatal(err)
	}
	where := &res.Tally.After.Where
	dearer := func(name string, a, b AfterSum) {
		t.Logf("%s: %d shots after %d losses, %d after %d", name, a.Shots, a.Lost, b.Shots, b.Lost)
		if d := stats.DifferenceProportions(a.Shots, a.Lost, b.Shots, b.Lost, 1-2e-5); d.Lo <= 0 {
			t.Errorf("%s: difference %.4f to %.4f, want more than 0", name, d.Lo, d.Hi)
		}
	}
	both := func(k model.Third) AfterSum {
		m, o := where[k][MiddleWidth], where[k][OuterWidth]
		return AfterSum{Lost: m.Lost + o.Lost, Shots: m.Shots + o.Shots}
	}
	dearer("own third over middle third", both(model.OwnThird), both(model.MiddleThird))
	dearer("middle third over final third", both(model.MiddleThird), both(model.FinalThird))
	dearer("own third, middle of the width over outside", where[model.OwnThird][MiddleWidth], where[model.OwnThird][OuterWidth])
}
