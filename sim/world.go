package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// TickSeconds is the fixed time step, s.
const TickSeconds = 0.1

// bodies is the number of players on the pitch: 0 to 10 of the team that
// starts with the ball, 11 to 21 of the other; 0 and 11 are the keepers.
const bodies = 22

const nobody = -1

// ballState is what the ball is doing.
type ballState uint8

const (
	held   ballState = iota // a player has it at his feet
	flying                  // played or loose; the delivery says where it ends
)

// delivery is a ball on its way: a pass, a deflection or a touch that got away.
// Who will have it, when and where was drawn from the control model when it
// left.
type delivery struct {
	flight  Flight
	length  float64 // m, as it was meant
	left    int     // tick
	from    int     // who played it last
	aim     int     // team-mate it is meant for, nobody for a loose ball
	pass    bool    // a deliberate pass by the team on the ball
	kind    PassKind
	through bool    // into space ahead of a runner or behind the last line
	winner  int     // nobody: it goes out of play
	when    float64 // s after left
	where   r2.Vec
	height  float64 // m, at where
	offside [bodies]bool
}

// run is a run off the ball that is under way.
type run struct {
	kind   model.RunKind
	until  int // tick; the run is over then
	target r2.Vec
}

// world is everything that changes during a possession, and the scenario it is
// played under. One for each worker; nothing in it is allocated per tick.
type world struct {
	sc     *model.Scenario
	par    model.Params
	ctl    ControlModel
	glance ControlModel // as a carrier judges: in coarser steps
	pitch  model.Pitch
	halfL  float64
	halfW  float64

	// Fixed for the run, by body.
	able       [bodies]model.Ability
	number     [bodies]int
	react      [bodies]float64            // s
	arrive     [bodies]float64            // m/s, effective speed of the control model
	laneOdds   [2][model.NumLanes]float64 // log odds
	goOdds     [2]float64                 // log odds for every 20 m gained
	switchOdds [2]float64                 // log odds
	findOdds   [bodies]float64            // log odds
	strike     [numIntents]*table         // launch speed of a ground pass by its length, m/s
	price      prices                     // of a loss, as it is felt
	lostInDuel float64                    // chance that an opponent who reaches the carrier has the ball before his next look
	lostInArea float64                    // the same in the penalty area
	claimed    float64                    // the same for a keeper in his area
	atEase     float64                    // what brings a man at ease in front of goal to a full chance to act
	rows       [2]int                     // rows of each team's block
	pins       [bodies]int

	// Streams, by purpose; those of a spell on the ball are keyed anew for each.
	setup, choice, execution, duel, block *Stream
	sights, choices, errands              lot // what the carrier sees, what he takes, who runs; by spell

	situation

	opt    optionList
	rec    bool
	events []Event
	film   *Film // nil: nobody films
}

// situation is all that changes during a possession; its zero value is where
// every possession begins.
type situation struct {
	spell int // spells on the ball so far
	looks int // of the carrier in this spell

	// Kinematics.
	tick   int
	pos    [bodies]r2.Vec
	vel    [bodies]r2.Vec
	target [bodies]r2.Vec
	cap    [bodies]float64 // m/s wanted
	beaten [bodies]int     // tick until which a player is out of the game
	stray  [bodies]r2.Vec  // how far from where he ought to stand he believes it is

	// The ball.
	state   ballState
	ball    r2.Vec
	seen    [8]r2.Vec // ring of the ball's last places
	carrier int
	onBall  int    // team
	face    r2.Vec // unit vector: where the carrier's body points
	think   int    // tick of the next decision
	since   int    // tick of reception
	unready bool   // he has won the ball or picked it up, and has not looked for a pass before
	fly     delivery
	dribble r2.Vec // where the carrier takes it
	stride  float64

	runs [bodies]run

	att attackView
	def defence
	trk tracker

	pressure float64 // on the carrier, 0 to 1
	nearest  int     // opponent nearest to the carrier
	gapTo    float64 // his distance, m

	p        Possession // the book of the possession or, after a loss, of the opponent's
	over     bool
	after    bool    // the opponent's attack after a loss is being played
	deadline int     // tick at which the time is up
	restart  restart // how the ball is to be brought into play, if it is not in play
	won      int     // body that has won the ball when the end is a loss in play
}

// sign is +1 for the team that attacks +x and -1 for the other: own frame =
// sign x pitch frame.
func sign(team int) float64 { return 1 - 2*float64(team) }

func teamOf(body int) int { return body / 11 }

func (w *world) team(t int) *model.Team { return &w.sc.Teams[t] }

// own turns a place on the pitch into the frame of a team, and back.
func own(team int, p r2.Vec) r2.Vec {
	s := sign(team)
	return r2.Vec{X: s * p.X, Y: s * p.Y}
}

func dist(a, b r2.Vec) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return math.Sqrt(dx*dx + dy*dy)
}

func dist2(a, b r2.Vec) float64 {
	dx, dy := a.X-b.X, a.Y-b.Y
	return dx*dx + dy*dy
}

// towards returns the unit vector from a to b, or d when they coincide.
func towards(a, b, d r2.Vec) r2.Vec {
	x, y := b.X-a.X, b.Y-a.Y
	n := math.Sqrt(x*x + y*y)
	if n < 1e-9 {
		return d
	}
	return r2.Vec{X: x / n, Y: y / n}
}

// turned is d turned to the left by angle, rad.
func turned(d r2.Vec, angle float64) r2.Vec {
	cos, sin := math.Cos(angle), math.Sin(angle)
	return r2.Vec{X: d.X*cos - d.Y*sin, Y: d.X*sin + d.Y*cos}
}

func newWorld(sc *model.Scenario, par model.Params) *world {
	w := &world{sc: sc, pitch: sc.Pitch, halfL: sc.Pitch.Length / 2, halfW: sc.Pitch.Width / 2}
	w.setup, w.choice, w.execution = NewStream(), NewStream(), NewStream()
	w.duel, w.block = NewStream(), NewStream()
	for b := range w.able {
		t := teamOf(b)
		p := &sc.Teams[t].Players[b%11]
		w.able[b] = p.Ability()
		w.number[b] = p.Number
		w.react[b] = w.able[b].Value[model.Interception]
		w.pins[b] = nobody
		if p.Behaviour.Kind == model.Pin && p.Behaviour.Opponent != 0 {
			w.pins[b] = 11*(1-t) + sc.Teams[1-t].ByNumber(p.Behaviour.Opponent)
		}
	}
	for t := range sc.Teams {
		plan := &sc.Teams[t].Plan
		for l, odds := range plan.Lane {
			w.laneOdds[t][l] = math.Log(max(odds, 1e-3))
		}
		w.goOdds[t] = math.Log(plan.Directness)
		w.switchOdds[t] = math.Log(max(plan.Switching, 1e-3))
		for _, n := range plan.Find {
			w.findOdds[11*t+sc.Teams[t].ByNumber(n)] = math.Log(2)
		}
		w.rows[t] = len(sc.Teams[t].Block.Shape)
	}
	w.setParams(par)
	return w
}

// setParams gives the engine other constants. Everything that hangs on them is
// set here, so that it may be called between any two possessions.
func (w *world) setParams(par model.Params) {
	w.par = par
	w.ctl = ControlModel{Spread: par.ArriveSpread, FootHeight: par.FootHeight, HeadHeight: par.HeadHeight, HeadRate: par.HeadRate, Step: controlStep}
	w.glance = w.ctl
	w.glance.Step, w.glance.Edge = judgeStep, judgeEdge
	w.price = lossPrice.felt(par.LossShape)
	w.strike = strikes(par.ArrivalSpeed)
	w.duelOdds()
	w.atEase = 1 / logistic(actSlope*(atEase-par.ActTime))
	for b := range w.arrive {
		w.arrive[b] = par.ArriveSpeed * w.able[b].TopSpeed / averageTop
	}
}

// averageTop is the top speed of an average outfield player, m/s, to which the
// effective speed of the control model belongs.
const averageTop = 9.0

// controlStep is the step of the control model's integration, s. It is within
// 0.02 of a fine-step integration (TestControlAgainstFineStep).
const controlStep = 0.1

// judgeStep is that of a carrier's judgement, s.
const judgeStep = 0.15

// judgeEdge makes him disregard arrivals with a chance below 0.004.
const judgeEdge = 5.5
