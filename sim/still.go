package sim

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Still is one moment of a possession, as a camera above the pitch would hold it.
// Team 0 has the ball and attacks +x; places are metres from the centre spot.
type Still struct {
	Scenario *model.Scenario // pitch, players and plans; Pos[t][i] is the place of Teams[t].Players[i]
	Pos, Vel [2][11]r2.Vec   // m, m/s
	Carrier  int             // index in team 0; the ball is half a metre in front of him
	Face     r2.Vec          // where his body points; zero: along the attack
	Running  [11]bool        // team 0: who is on a run to be played to, along his velocity
}

// What a still leaves open is set as in most such moments: the carrier has had the
// ball at his feet for stillHeld, s, and a run goes on for stillRun, s, to a place
// stillAhead away, m. Common practice, no source.
const (
	stillHeld  = 1.0
	stillRun   = 2.0
	stillAhead = 20.0
	feetAhead  = 0.5 // m, the ball in front of the carrier
)

// world puts everybody in his place and takes in the scene.
func (s *Still) world(par model.Params) *world {
	w := newWorld(s.Scenario, par)
	w.situation = situation{p: Possession{Loser: nobody}, onBall: int(model.Attack)}
	w.fly = delivery{from: nobody, aim: nobody, winner: nobody}
	w.rekey()
	for b := range w.pos {
		w.pos[b], w.vel[b] = s.Pos[teamOf(b)][b%11], s.Vel[teamOf(b)][b%11]
	}
	w.carrier = s.Carrier
	w.face = towards(r2.Vec{}, s.Face, r2.Vec{X: 1})
	w.ball = r2.Vec{X: w.pos[w.carrier].X + feetAhead*w.face.X, Y: w.pos[w.carrier].Y + feetAhead*w.face.Y}
	w.state, w.tick = held, 20
	w.since = w.tick - ticks(stillHeld)
	for b, running := range s.Running {
		if !running {
			continue
		}
		v := towards(r2.Vec{}, w.vel[b], w.face)
		to := r2.Vec{X: w.pos[b].X + stillAhead*v.X, Y: w.pos[b].Y + stillAhead*v.Y}
		w.runs[b] = run{kind: model.InBehind, until: w.tick + ticks(stillRun), target: w.inside(to, 1)}
	}
	w.def.second = nobody
	w.perceive()
	w.def.presser = w.nearest
	return w
}

// Judgement is what the engine makes of a still: the carrier's options and what
// they were judged by.
type Judgement struct {
	Pressure   float64   // on the carrier, 0 free to 1 smothered
	Offside    [11]bool  // team 0: in an offside position (Law 11)
	LastLine   float64   // x of the second-last opponent, m
	Lines      []float64 // mean x of the rows of the other team's block, its last line first, m
	Ball       r2.Vec
	Face       r2.Vec
	Nearest    int             // opponent nearest to the carrier
	Gap        float64         // his distance, m
	Contenders [2][11]Expected // as the control model takes them; the carrier is in no contest
	Model      ControlModel    // as carriers judge: Step and Edge are coarser than when the ball is played
	Enough     float64         // sum of probabilities at which a contest counts as decided
	Wait       float64         // s after its arrival, until which a ball is followed
	Reach      float64         // m beyond what a man can cover at top speed, where he still plays the ball
	Twitch     float64         // s, before nobody leaves his course
	Swift      float64         // s, up to which his acceleration bounds how far he has left it
	Options    []StillOption   // most often chosen first
	Surface    Surface
}

// Expected is a contender, and how soon he reacts to a ball that is meant for him or for
// the man he watches.
type Expected struct {
	Contender
	Aimed    float64 // s
	Watching float64 // s
}

// StillOption is one thing the carrier could do. Share is over StillLooks looks at the
// scene, each with the carrier's own error of judgement.
type StillOption struct {
	Option
	Lost    r2.Vec     // where a failure loses the ball
	Cost    float64    // goals a failure costs: the opponent's chance to score after a loss there, by who is left to prevent it
	Risk    float64    // (1 - Chance) Cost
	Fear    float64    // goals: Cost as the carrier weighs it in his choice
	Offside bool       // the man it is meant for is in an offside position; only a carrier who misses that plays it
	Pass    *StillPass // nil: no pass
}

// StillPass is how the chance of a pass comes about:
//
//	Chance = Touch (sum of Takes of team 0 + Unclaimed/2)
//
// where Takes and Unclaimed add up the balls by their weight, times 1 - Blocked.
type StillPass struct {
	Balls     []StillBall
	Blocked   float64        // chance that the man in front of the carrier stops it with his body
	Blocker   int            // his index in team 1; -1: nobody in the way
	Watcher   int            // index in team 1 of the opponent who watches the man it is meant for; -1: nobody
	Out       float64        // chance that it comes down out of play
	Touch     float64        // chance that a ball out of the air is mastered; 1 along the ground
	Takes     [2][11]float64 // chance that each player has the ball, the blocker's body left out; sums to at most 1
	Unclaimed float64        // nobody has had it by the end; half of that counts as success
	Arrives   float64        // s after it is played, mean of Balls
}

// StillBall is a ball that the control model was asked about. A ground pass is one;
// of a pass through the air the carrier weighs two, one error long and one short.
type StillBall struct {
	Flight  Flight
	Weight  float64
	Length  float64 // m, to where it is aimed
	Arrives float64 // s, there, or at rest short of it
	Until   float64 // s, the end of the contest
	Shield  float64 // what the body of the man it is meant for takes from an opponent's rate
	Feet    float64 // how many times as readily as another that man takes it when it has come to him
	Within  float64 // m before it is where it is meant or at rest, from where he takes it at all; 0: he goes to meet it
	Control [2][11]float64
	Sum     float64        // of Control
	Fine    [2][11]float64 // the same as Control, integrated in steps of FineStep
}

// StillLooks is how many looks the shares of a still are taken over: a share of a half
// is known to 0.01 or better.
const StillLooks = 1000

// Judge lets the carrier of a still look at it and says what the engine makes of every
// option; nil par: the defaults. The scenario must be valid, everybody on the pitch.
func (s *Still) Judge(par *model.Params) *Judgement {
	if par == nil {
		p := model.DefaultParams()
		par = &p
	}
	w := s.world(*par)
	j := &Judgement{
		Pressure: w.pressure, LastLine: w.att.last, Lines: slices.Clone(w.att.line[:w.att.lines]),
		Ball: w.ball, Face: w.face, Nearest: w.nearest % 11, Gap: w.gapTo, Model: w.glance, Enough: judgeEnough, Wait: judgeWait, Reach: reach,
		Twitch: twitch, Swift: swift,
	}
	j.Model.Edge = w.glance.edge()
	w.markOffside()
	copy(j.Offside[:], w.fly.offside[:11])
	j.look(w)
	w.contenders()
	for b := range w.opt.near {
		j.Contenders[teamOf(b)][b%11] = w.expected(b)
	}
	j.Surface = w.surface()
	return j
}

// look lists the options of all looks and averages their shares.
func (j *Judgement) look(w *world) {
	at := map[uint64]int{}
	for range StillLooks {
		w.looks++
		w.weigh(false)
		for i, share := range w.opt.shares() {
			o := &w.opt.o[i]
			id := w.thing(o) & (1<<32 - 1) // whatever the look
			k, known := at[id]
			if !known {
				k = len(j.Options)
				at[id] = k
				j.Options = append(j.Options, j.judged(w, o))
			}
			j.Options[k].Share += share / StillLooks
		}
	}
	slices.SortStableFunc(j.Options, func(a, b StillOption) int {
		switch {
		case a.Share > b.Share:
			return -1
		case a.Share < b.Share:
			return 1
		}
		return 0
	})
}

// judged is the option with how its chance comes about.
func (j *Judgement) judged(w *world, o *option) StillOption {
	s := sign(w.onBall)
	x, y := s*o.lost.X, s*o.lost.Y
	cost := lossPrice.at(x, y, w.pitch) * w.bare(x)
	out := StillOption{Option: o.shown(), Lost: o.lost, Cost: cost, Risk: (1 - o.chance) * cost, Fear: w.fear() * w.lossAt(x, y)}
	if o.act == playPass {
		out.Offside = j.Offside[o.aim]
		out.Pass = w.stillPass(o)
	}
	return out
}

// stillPass asks the control model again about the balls of a pass.
func (w *world) stillPass(o *option) *StillPass {
	p := &StillPass{Blocker: nobody, Watcher: nobody, Touch: 1}
	if b := w.opt.watchers[o.aim%11]; b != nobody {
		p.Watcher = b % 11
	}
	length := dist(w.ball, o.target)
	dir := towards(w.ball, o.target, w.face)
	var by int
	if p.Blocked, by = w.blocked(dir, o.low(length)); p.Blocked > 0 {
		p.Blocker = by % 11
	}
	if o.kind == Ground {
		f := GroundFlight(w.ball, dir, o.launch)
		b, _ := w.stillBall(f, o.aim, o.target, length, 1)
		p.Balls = []StillBall{b}
	} else {
		margin := 4.0
		for _, side := range airErrors {
			f, down, l := w.errant(o.target, length, o.kind, w.angularError(w.carrier, skillFor(o), o.kind), side)
			if w.pitch.Contains(down) {
				b, m := w.stillBall(f, o.aim, down, l, 0.5)
				p.Balls = append(p.Balls, b)
				margin = min(margin, m)
			}
		}
		p.Touch = w.airTouch(margin)
	}
	total := 0.0
	for i := range p.Balls {
		b := &p.Balls[i]
		played := b.Weight * (1 - p.Blocked)
		for t := range b.Control {
			for k, c := range b.Control[t] {
				p.Takes[t][k] += played * c
			}
		}
		p.Unclaimed += played * (1 - b.Sum)
		p.Arrives += b.Weight * b.Arrives
		total += b.Weight
	}
	p.Out = (1 - total) * (1 - p.Blocked)
	p.Arrives /= math.Max(total, math.SmallestNonzeroFloat64)
	return p
}

// stillBall is the contest for one ball, and the aimed man's margin over the nearest
// opponent, s.
func (w *world) stillBall(f Flight, aim int, at r2.Vec, length, weight float64) (StillBall, float64) {
	var p [bodies]float64
	_, margin, _ := w.chanceOf(&f, aim, at, length, p[:])
	m := w.meeting(aim, length)
	b := StillBall{
		Flight: f, Weight: weight, Length: length, Arrives: arrives(&f, length), Shield: m.shield, Feet: m.feet, Within: m.within,
	}
	b.Until = b.Arrives + judgeWait
	for k, c := range p {
		b.Control[teamOf(k)][k%11] = c
		b.Sum += c
	}
	b.Fine = w.fine(&f, aim, length, b.Until)
	return b, margin
}

// FineStep is the step of an integration that shows how far the carrier's coarser one is
// off, s.
const FineStep = 0.005

// fine is the contest for one ball in fine steps.
func (w *world) fine(f *Flight, aim int, length, until float64) (out [2][11]float64) {
	m := w.glance
	m.Step = FineStep
	w.expect(aim)
	c := w.contest(f, length, until)
	for b := range w.opt.near {
		if b != w.carrier {
			c.admit(w.opt.contender(b))
		}
	}
	var p [bodies]float64
	c.run(&m, p[:])
	for k, x := range p {
		out[teamOf(k)][k%11] = x
	}
	return out
}

// expected is body b as the control model takes him.
func (w *world) expected(b int) Expected {
	r := &w.opt.near[b]
	return Expected{
		Contender: Contender{Pos: w.pos[b], Vel: w.vel[b], Reaction: r.tau0, Speed: r.speed, Top: r.top, Accel: r.accel, Rate: r.rate},
		Aimed:     min(r.tau0, w.par.AimReaction),
		Watching:  min(r.tau0, w.watchReaction(b)),
	}
}
