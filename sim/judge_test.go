package sim

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// In the final third a ball is worth what the threat grid says to a man who has time to
// act, and the less the tighter he is; before it, and for a cross, which is struck first
// time, time makes no difference there.
func TestWorthInFrontOfGoal(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.FreeWorth, p.GoalSide = 0, 0 })
	spot, away := r2.Vec{X: 42, Y: 2}, r2.Vec{X: 15, Y: 2}
	if got, want := w.worthAt(spot, atEase, false, false), threat(42, 2, w.pitch); math.Abs(got-want) > 1e-12 {
		t.Errorf("a man at ease: %.4f, want the grid's %.4f", got, want)
	}
	edge := threat(w.pitch.Length/6, 2, w.pitch)
	last := math.Inf(1)
	for _, margin := range []float64{1.2, 0.8, 0.4, 0, -0.5} {
		got := w.worthAt(spot, margin, false, false)
		if got >= last || got <= edge {
			t.Errorf("margin %.1f s: worth %.4f after %.4f, want less but more than %.4f where the third begins", margin, got, last, edge)
		}
		last = got
		if a, b := w.worthAt(away, margin, false, false), w.worthAt(away, atEase, false, false); a != b {
			t.Errorf("in the middle third, margin %.1f s: %.4f, want %.4f", margin, a, b)
		}
		if a, b := w.worthAt(spot, margin, false, true), w.worthAt(spot, atEase, false, true); a != b {
			t.Errorf("a low cross, margin %.1f s: %.4f, want %.4f", margin, a, b)
		}
	}
}

// The opponent who watches a man reacts sooner to a ball meant for him than one who
// does not, so the ball is safer the later he reacts; whoever is further off than
// watchWithin or has just been beaten makes no difference.
func TestWatcherReactsSooner(t *testing.T) {
	chance := func(reaction, gap float64, beaten int) float64 {
		w := worldWith(func(p *model.Params) { p.WatchReaction = reaction })
		for b := range w.pos {
			w.pos[b] = r2.Vec{X: -45, Y: float64(b - 11)}
		}
		const carrier, aim, watcher = 3, 7, 15
		w.carrier, w.pos[carrier] = carrier, r2.Vec{}
		w.pos[aim], w.pos[watcher] = r2.Vec{X: 18}, r2.Vec{X: 18 + gap}
		w.beaten[watcher] = w.tick + beaten
		w.contenders()
		f := GroundFlight(w.pos[carrier], r2.Vec{X: 1}, w.strike[toFeet].at(18))
		c, _, _ := w.chanceOf(&f, aim, w.pos[aim], 18, nil)
		return c
	}
	if slow, quick := chance(0.7, 2, 0), chance(0.2, 2, 0); quick >= slow-0.01 {
		t.Errorf("watched from 2 m: %.3f when he reacts in 0.2 s, %.3f in 0.7 s", quick, slow)
	}
	if slow, quick := chance(0.7, watchWithin+1, 0), chance(0.2, watchWithin+1, 0); quick != slow {
		t.Errorf("from %v m nobody watches: %.4f against %.4f", watchWithin+1, quick, slow)
	}
	if slow, quick := chance(0.7, 2, 10), chance(0.2, 2, 10); quick != slow {
		t.Errorf("a beaten man watches nobody: %.4f against %.4f", quick, slow)
	}
}

// Nobody expects a ball from a man who looks up for the first time after he has won it: his
// team-mates react as to any ball, AimReaction only from his next look on.
func TestNobodyExpectsABallJustWon(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.AimReaction = 0.2 })
	const aim = 7
	w.vel[aim], w.react[aim] = r2.Vec{}, 0.6
	reaction := func(unready bool, looks int) float64 {
		w.unready, w.looks = unready, looks
		w.contenders()
		w.expect(aim)
		return w.opt.aimed.tau0
	}
	if got := reaction(true, 1); got != 0.6 {
		t.Errorf("first look of a man who has won it: reacts in %v s, want 0.6", got)
	}
	for _, got := range []float64{reaction(true, 2), reaction(false, 1)} {
		if got != 0.2 {
			t.Errorf("expected: reacts in %v s, want 0.2", got)
		}
	}
}

// A passer sees late what is behind his back, but knows where his keeper is.
func TestKeeperIsNeverOutOfSight(t *testing.T) {
	score := func(aim int, face float64) float64 {
		w := worldWith(func(p *model.Params) { p.Misjudge = 0 })
		w.opt.scale, w.nearest, w.face = 0.003, nobody, r2.Vec{X: face}
		o := &option{act: playPass, aim: aim, kind: Ground, target: r2.Vec{X: -15}}
		w.judge(o, 0.9, 1, 15, 15)
		return o.score
	}
	if a, b := score(0, 1), score(0, -1); a != b {
		t.Errorf("keeper behind the back: %.3f log odds, in front %.3f", a, b)
	}
	if a, b := score(4, 1), score(4, -1); a >= b {
		t.Errorf("a defender behind the back: %.3f log odds, in front %.3f", a, b)
	}
}

// A ball out of the air is judged by what becomes of it: a touch where there is time, a contested
// header where there is none, and in between in proportion.
func TestAirTouch(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.HeaderHold, p.TouchHigh = 0.3, 5 })
	for margin, want := range map[float64]float64{2: 0.5, 1: 0.5, 0.5: 0.4, 0: 0.3, -1: 0.3} {
		if got := w.airTouch(margin); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v s before anybody: %.3f, want %v", margin, got, want)
		}
	}
}

// Worked by hand for a look of 1 s: challenges at 2 a second and half a second out of
// it after each make one in a second; of these 0.1 + 0.3/2 + 0.05 lose the ball, so
// 1 - exp(-0.3). Ten times the rate makes 1/0.55 of them.
func TestDuelOdds(t *testing.T) {
	w := &world{}
	p := &w.par
	p.Look, p.ChallengeRate, p.AreaHaste, p.BeatenFor = 1, 2, 10, 1
	p.DuelWon, p.DuelLoose, p.FoulByAttack = 0.1, 0.3, 0.05
	w.duelOdds()
	for _, c := range []struct {
		where     string
		got, want float64
	}{
		{"in the field", w.lostInDuel, 1 - math.Exp(-0.3)},
		{"in the area", w.lostInArea, 1 - math.Exp(-0.3/0.55)},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: %.4f, want %.4f", c.where, c.got, c.want)
		}
	}
}

// A pressed man is the readier to play the ball through the air.
func TestPressedManGoesLong(t *testing.T) {
	score := func(pressed, pressure float64) float64 {
		w := worldWith(func(p *model.Params) { p.HighPressed, p.HighDoubt = pressed, 0 })
		w.opt.scale, w.pressure, w.nearest = 0.003, pressure, nobody
		o := &option{act: playPass, aim: 9, kind: Driven, target: r2.Vec{X: 20}}
		w.judge(o, 0.6, 0, 40, 40)
		return o.score
	}
	if got := score(3, 0.5) - score(0, 0.5); math.Abs(got-1.5) > 1e-9 {
		t.Errorf("half pressed: %.3f log odds, want 1.5", got)
	}
	if got := score(3, 0) - score(0, 0); got != 0 {
		t.Errorf("free: %.3f log odds, want none", got)
	}
}

// Defenders foul as often anywhere in their opponents' half, and the less the nearer they are
// to their own goal.
func TestCarefulNearGoal(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.FoulByDefence = 0.1 })
	for x, want := range map[float64]float64{-40: 0.1, 0: 0.1, 15: 0.07, 30: 0.04, 34: 0.04} {
		w.ball = r2.Vec{X: x, Y: 30}
		if got := w.foulOdds(); math.Abs(got-want) > 1e-12 {
			t.Errorf("ball at %v: %v, want %v", x, got, want)
		}
	}
}

// A man meets the ball like anybody in the penalty area that his team attacks, and there a
// watcher reacts sooner; elsewhere his body shields it.
func TestBoxIsTight(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.Shield, p.WatchReaction = 0.8, 0.7 })
	for x, want := range map[float64][2]float64{45: {0, boxReaction}, 30: {0.8, 0.7}, -45: {0.8, 0.7}} {
		w.pos[9], w.pos[15] = r2.Vec{X: x}, r2.Vec{X: x, Y: 2}
		if got := [2]float64{w.meeting(9, 10).shield, w.watchReaction(15)}; got != want {
			t.Errorf("at %v: shield and reaction %v, want %v", x, got, want)
		}
	}
}

// What is at stake for a carrier is the ball's worth and, as far as Stake says, the price of
// losing it: on the edge of the own penalty area, where the ball is worth little and its loss
// is dear, the second counts for much; in front of the other goal for little. LossShape is
// set in full, so that the price differs from place to place as the table has it.
func TestStake(t *testing.T) {
	sc := model.AverageScenario()
	grows := func(x float64) float64 {
		var s [2]float64
		for i, stake := range []float64{0, 1} {
			par := model.DefaultParams()
			par.Stake, par.LossShape = stake, 1
			w := newWorld(&sc, par)
			w.reset(0)
			w.ball = r2.Vec{X: x}
			s[i] = w.scale()
		}
		return s[1] / s[0]
	}
	if deep, high := grows(-36), grows(40); !(deep > 5 && high < 1.5 && high > 1) {
		t.Errorf("the scale of a choice grows %.2f times on the own edge and %.2f times in front of goal", deep, high)
	}
}

// Who has just won the ball or picked it up judges at his first look as a man does whose doubt is larger by
// Unready, and from then on like anybody. Who gets a team-mate's pass or starts with a ball that
// has waited for him has looked; who wins one or picks up a loose one has not.
func TestUnready(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.Unready = 2 })
	w.opt.scale = 0.01
	judged := func(unready bool, looks int, doubt float64) float64 {
		w.unready, w.looks = unready, looks
		return w.value(&option{act: playPass, aim: 7}, 0.8, 0.03, r2.Vec{}, doubt)
	}
	sure := judged(false, 1, 0.3)
	if a, b := judged(true, 1, 0.1), sure; a != b {
		t.Errorf("first look of a man who has won the ball, doubt 0.1: %.6f, want that of doubt 0.3, %.6f", a, b)
	}
	if a := judged(true, 1, 0.3); a == sure {
		t.Errorf("first look of a man who has won the ball: %.6f, as if he had looked before", a)
	}
	if a, b := judged(true, 2, 0.3), judged(false, 2, 0.3); a != b {
		t.Errorf("second look: %.6f, want %.6f as of anybody", a, b)
	}
	for _, c := range []struct {
		name string
		how  gaining
		pass bool
		want bool
	}{
		{"a pass", received, true, false}, {"a loose ball", received, false, true},
		{"a ball just won", won, false, true}, {"a ball that waited", given, false, false},
	} {
		w := worldWith(func(*model.Params) {})
		w.fly = delivery{flight: GroundFlight(r2.Vec{}, r2.Vec{X: 1}, 10), pass: c.pass, from: 3, aim: 2, winner: 2}
		w.state = flying
		if w.control(2, c.how); w.unready != c.want {
			t.Errorf("%s: unready %v, want %v", c.name, w.unready, c.want)
		}
	}
}

// A carrier without an eye for how good a cross is takes it for the usual one of its kind: 0.40 of
// the high and 0.20 of the low ones find a man (Pappalardo et al. 2019, table of crosses); a
// cut-back he judges as the pass it is.
func TestUsualCrosses(t *testing.T) {
	w := worldWith(func(p *model.Params) { p.CrossSight, p.OwnDoubt = 0, 0 })
	for _, c := range []struct {
		name string
		o    option
		want float64
	}{
		{"high", option{cross: true, kind: Driven}, 0.4},
		{"low", option{cross: true, kind: Ground}, 0.2},
		{"cut-back", option{cross: true, back: true, kind: Ground}, 0.7},
	} {
		if got := w.seenChance(&c.o, 0.7); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %.3f, want %v", c.name, got, c.want)
		}
	}
}
