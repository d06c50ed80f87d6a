package model

import (
	"reflect"
	"strconv"
)

// Params are the constants of the engine, in one place. Physical ones keep to
// their published range; behavioural ones are set so that league-average teams
// play like the reference tables. The tags give unit, admissible range and
// source; ParamTable reads them.
type Params struct {
	// Who gets to the ball (control model).
	ArriveSpeed   float64 `unit:"m/s" lo:"4.5" hi:"5.5" source:"effective running speed after the reaction, 5.0: Shaw 2020 after Spearman 2018"`
	ArriveSpread  float64 `unit:"s" lo:"0.4" hi:"0.54" source:"0.45: Shaw 2020 after Spearman 2018"`
	ControlRate   float64 `unit:"1/s" lo:"3.99" hi:"4.3" source:"4.3: Shaw 2020 after Spearman 2018"`
	DefenceEdge   float64 `unit:"ratio" lo:"1" hi:"1.72" source:"rate of opponents over team-mates: 1.72 in Spearman 2018, 1.0 in Shaw 2020"`
	AreaEdge      float64 `unit:"ratio" lo:"1" hi:"1.72" source:"the same in the penalty area they defend, where to get the ball away is enough: 1.72 in Spearman 2018"`
	KeeperRate    float64 `unit:"ratio" lo:"1" hi:"3" source:"3 in the own penalty area: Shaw 2020"`
	SetReaction   float64 `unit:"s" lo:"0.2" hi:"0.7" source:"reaction of a presser who faces the ball; choice reaction of a set player, assumed"`
	AimReaction   float64 `unit:"s" lo:"0.2" hi:"0.7" source:"reaction of the man a pass is meant for: he expects it; assumed, no more than the published 0.7"`
	FeetRate      float64 `unit:"ratio" lo:"1" hi:"12" source:"how many times as readily as another the man a pass is meant for takes it when it has come to him; set by completion by direction (Pappalardo et al. 2019) and the nearest defender at reception (movement tables)"`
	MeetWithin    float64 `unit:"m" lo:"0.5" hi:"1" source:"he takes it over the last so many metres it is meant to go, sooner only if an opponent may have it first: receivers come 0.0 m towards the ball, optical sample of the movement tables"`
	WatchReaction float64 `unit:"s" lo:"0.2" hi:"0.7" source:"reaction of the opponent who watches him; assumed, no more than the published 0.7"`
	Shield        float64 `unit:"share" lo:"0" hi:"1" source:"of an opponent's rate, kept from him by the body of the man a ball is meant for who is there before him; assumed, set by receptions with an opponent within 4 m (movement tables)"`
	HeadHeight    float64 `unit:"m" lo:"2.2" hi:"2.7" source:"highest ball a player plays with his head; common practice, no source"`
	HeadRate      float64 `unit:"share" lo:"0.3" hi:"1" source:"rate at which a ball at head height is taken; set by aerial duels"`
	FootHeight    float64 `unit:"m" lo:"0.8" hi:"1.4" source:"highest ball a player controls with foot or chest; common practice, no source"`

	// Execution.
	GroundAim     float64 `unit:"ratio" lo:"0.3" hi:"1.6" source:"angular error of a ground pass, on the scale of ability; set by completion by direction (Pappalardo et al. 2019)"`
	LoftAim       float64 `unit:"ratio" lo:"0.3" hi:"1.5" source:"the same for balls through the air; set by high passes and crosses completed (Pappalardo et al. 2019)"`
	Mishit        float64 `unit:"ratio" lo:"0" hi:"1.2" source:"how long the tails of the angular error are: k of sinh(kz)/k, z a normal error; set by balls out of play for the opponent (Pappalardo et al. 2019)"`
	LengthError   float64 `unit:"share" lo:"0.02" hi:"0.15" source:"sd of launch speed or range; set by completion by length (Pappalardo et al. 2019)"`
	LoftError     float64 `unit:"share" lo:"0.03" hi:"0.2" source:"sd of the range of a lofted ball; set by high passes completed (Pappalardo et al. 2019)"`
	FullPower     float64 `unit:"ratio" lo:"0" hi:"4" source:"growth of the error of a ball through the air struck with full power; set by high passes completed and kept by length (Pappalardo et al. 2019)"`
	FirmPass      float64 `unit:"ratio" lo:"0" hi:"8" source:"growth of the error to the side of a pass along the ground with the speed it is struck at; set by ground passes completed by length (Pappalardo et al. 2019)"`
	PressureError float64 `unit:"ratio" lo:"0" hi:"3" source:"growth of the error at full pressure; set by completion by third"`
	WeakFootError float64 `unit:"ratio" lo:"1" hi:"2" source:"assumed 1.35"`
	TurnError     float64 `unit:"ratio" lo:"0" hi:"2" source:"growth of the error for a pass straight behind the body; assumed"`
	OneTouchError float64 `unit:"ratio" lo:"1" hi:"2" source:"assumed 1.25"`
	HeadError     float64 `unit:"ratio" lo:"1" hi:"8" source:"growth of the error of a headed pass; set by headed passes completed, 0.64 (Pappalardo et al. 2019)"`
	ArrivalSpeed  float64 `unit:"m/s" lo:"5" hi:"9" source:"speed at which a pass reaches its man, 8 +- 2: movement tables"`

	// First touch and interception.
	TouchSpeed    float64 `unit:"logit per m/s" lo:"0" hi:"0.5" source:"harder with each m/s above the usual arrival; set by miscontrols"`
	TouchPressure float64 `unit:"logit" lo:"0" hi:"4" source:"harder at full pressure; set by miscontrols"`
	TouchHigh     float64 `unit:"logit" lo:"0" hi:"3" source:"harder out of the air; set by possession kept after high passes"`
	StealHold     float64 `unit:"share" lo:"0.3" hi:"1" source:"intercepted ground balls that the opponent controls at once; the rest deflect; set by ends out of play"`
	ClearDeep     float64 `unit:"share" lo:"0" hi:"1" source:"balls won under full pressure on the own goal line that are cleared; fades with pressure and over ClearWithin; set by ends out of play"`
	BlockChance   float64 `unit:"share" lo:"0" hi:"1" source:"balls played straight at a man in front of them that he blocks; set by crosses completed and ends out of play"`
	AerialGap     float64 `unit:"m" lo:"0.5" hi:"2.5" source:"how near an opponent must be to jump for the same ball as a defender who gets to it; set by aerial duels lost 0.031 (Pappalardo et al. 2019)"`
	HeaderHold    float64 `unit:"share" lo:"0.1" hi:"0.9" source:"contested headers won that find a team-mate or stay; set by high passes completed 0.56, kept 0.39"`

	// Duels.
	ChallengeRange float64 `unit:"m" lo:"1.5" hi:"2.5" source:"a challenge needs a defender this near; common practice, no source"`
	ChallengeRate  float64 `unit:"1/s" lo:"0.1" hi:"3" source:"challenges while within range; set by ground duels lost 0.18 and fouls won 0.097 of build-ups"`
	RunInto        float64 `unit:"per m/s" lo:"0" hi:"3" source:"growth of that rate with the speed at which the carrier runs at his man; assumed"`
	AreaHaste      float64 `unit:"ratio" lo:"1" hi:"6" source:"how much sooner a defender goes for the ball in his own penalty area; set by shots per entry and xG per shot (Pappalardo et al. 2019)"`
	DuelWon        float64 `unit:"share" lo:"0.05" hi:"0.5" source:"challenges that win the ball clean, average players; as above"`
	DuelLoose      float64 `unit:"share" lo:"0.05" hi:"0.5" source:"challenges that knock the ball loose; as above"`
	PutOut         float64 `unit:"ratio" lo:"0" hi:"4" source:"how much a defender turns a ball he knocks loose beside the touchline out of play; set by ends out of play"`
	SeeOut         float64 `unit:"share" lo:"0" hi:"1" source:"how far such a ball is out off the carrier rather than off either man; set likewise"`
	FoulByDefence  float64 `unit:"share" lo:"0.02" hi:"0.4" source:"challenges that end in a foul by the defender; foul won 0.097 of build-ups"`
	FoulByAttack   float64 `unit:"share" lo:"0.01" hi:"0.2" source:"challenges that end in a foul by the carrier; foul committed 0.035 of build-ups"`
	BeatenFor      float64 `unit:"s" lo:"0.5" hi:"2" source:"a beaten defender is out for; common practice, no source"`
	TakeOnWin      float64 `unit:"share" lo:"0.3" hi:"0.7" source:"take-ons won between average players; attacking ground duels won 0.50 (Pappalardo et al. 2019)"`

	// Choice.
	Sharpness    float64 `unit:"share" lo:"0.02" hi:"0.5" source:"scale of the logit as a share of what is at stake; set by pass mix and progress"`
	Stake        float64 `unit:"share" lo:"0" hi:"1" source:"of the feared price of a loss that counts beside the ball's worth in what is at stake; set by completion by direction and pass chains (Pappalardo et al. 2019)"`
	Misjudge     float64 `unit:"logit" lo:"0" hi:"1.5" source:"sd of the carrier's error about a pass's success; assumed"`
	HighDoubt    float64 `unit:"logit" lo:"0" hi:"4" source:"sd of the passer's error about the success of a ball through the air; set by high passes completed by length (Pappalardo et al. 2019)"`
	CrossSight   float64 `unit:"share" lo:"0" hi:"1" source:"the same for crosses; set by crosses completed (Pappalardo et al. 2019)"`
	OwnDoubt     float64 `unit:"share" lo:"0" hi:"1" source:"how far a passer allows for his own error, 1: the square of the chance; set by ground passes completed (Pappalardo et al. 2019)"`
	Unready      float64 `unit:"ratio" lo:"0" hi:"4" source:"how much larger the doubts of a man (Misjudge, HighDoubt) who has just won the ball or picked up a loose one are at his first look, since he has not looked for a pass before; set by possessions of the own third lost without a pass or with one (Pappalardo et al. 2019)"`
	FreeWorth    float64 `unit:"log" lo:"0" hi:"1" source:"worth of receiving free against tight; set by progress under press"`
	ActTime      float64 `unit:"s" lo:"0" hi:"1" source:"margin over the nearest opponent at which the odds to act in the final third are even, before they are counted as a share of a free man's; set by shots per entry and their distances (Pappalardo et al. 2019)"`
	GoalSide     float64 `unit:"log" lo:"0" hi:"0.3" source:"worth of each opponent fewer goal-side of the ball than usual; assumed"`
	RestWorth    float64 `unit:"log" lo:"0" hi:"0.5" source:"price of a loss for each team-mate fewer goal-side of the ball than usual; set by the directions of passes (Pappalardo et al. 2019)"`
	OneTouch     float64 `unit:"share" lo:"0.6" hi:"1" source:"men with an opponent at their feet who mean to play the ball first time, and of others a share that fades with the distance; some then keep it. Set by the receptions played first time, 0.54 of those with an opponent within 2 m: movement tables"`
	FirstTime    float64 `unit:"log odds" lo:"0" hi:"5" source:"how much a man who means to play the ball first time dislikes keeping it; set by the receptions played first time: movement tables"`
	Alarm        float64 `unit:"share" lo:"0.1" hi:"0.8" source:"pressure at which the carrier looks for a way out at once; set by the receivers an opponent comes within 2 m of: movement tables"`
	HoldShare    float64 `unit:"share" lo:"0.3" hi:"1.2" source:"median time to the first decision as a share of the plan's tempo; set by time on the ball"`
	HoldSpread   float64 `unit:"log" lo:"0.2" hi:"1.2" source:"spread of it; median 1.1, q90 3.5 s: movement tables"`
	Impatience   float64 `unit:"log odds per s" lo:"0" hi:"2" source:"a carrier who has had the ball longer than the plan wants lets go the more readily; set by time on the ball"`
	Look         float64 `unit:"s" lo:"0.3" hi:"1.5" source:"time between decisions of a carrier who keeps the ball; assumed"`
	NearTaste    float64 `unit:"log odds per m" lo:"0" hi:"0.3" source:"fading of options with distance; set by pass lengths (Pappalardo et al. 2019)"`
	HighForward  float64 `unit:"log odds per m" lo:"0" hi:"0.3" source:"the same for lofted balls, on top: they are played to gain ground; set by the directions of high passes (Pappalardo et al. 2019)"`
	HighGain     float64 `unit:"m" lo:"5" hi:"60" source:"ground beyond which a lofted ball's further gain tempts nobody; set by the lengths of high passes (Pappalardo et al. 2019)"`
	ForwardTaste float64 `unit:"log odds per m" lo:"-0.1" hi:"0.1" source:"taste for gaining ground; set by the directions of passes (Pappalardo et al. 2019)"`
	HighTaste    float64 `unit:"log odds" lo:"-10" hi:"3" source:"taste for lofted over ground passes; set by the share of high passes"`
	HighPressed  float64 `unit:"log odds" lo:"0" hi:"5" source:"the same for a man under full pressure, on top: he gets rid of it; set by completion of lofted balls out of the own third (Pappalardo et al. 2019)"`
	StrongSide   float64 `unit:"log odds" lo:"0" hi:"1" source:"ease of carrying to the side of the strong foot; assumed"`
	SwitchTaste  float64 `unit:"log odds" lo:"-4" hi:"4" source:"taste for lofted balls 30 m and more across, whatever ground they gain; set by the directions of high passes (Pappalardo et al. 2019) and 11 switches a match (movement tables)"`
	LowCross     float64 `unit:"log odds" lo:"-6" hi:"4" source:"the same for crosses along the ground, on top; set by the share of low crosses (Pappalardo et al. 2019)"`
	CrossTaste   float64 `unit:"log odds" lo:"-3" hi:"8" source:"taste for crosses; set by crosses per entry (Pappalardo et al. 2019)"`
	LossFear     float64 `unit:"ratio" lo:"0.2" hi:"10" source:"weight of the price of a loss in choices; set by the pass mix"`
	LossShape    float64 `unit:"ratio" lo:"0" hi:"1" source:"how far the fear of a loss follows its price from place to place, 1 in full; set by losses by third (Pappalardo et al. 2019)"`
	ShotTaste    float64 `unit:"ratio" lo:"0.3" hi:"3" source:"weight of a shot's xG in choices; set by shots per entry and xG per shot"`
	ShotShape    float64 `unit:"ratio" lo:"0.2" hi:"1" source:"how far the hope of a shot follows its xG from place to place, 1 in full: people make too much of small chances (Tversky & Kahneman 1992, from memory); set by the distances of shots (Pappalardo et al. 2019)"`
	ShotUrge     float64 `unit:"log odds" lo:"-4" hi:"6" source:"taste for shooting whatever it is worth; set by shots per entry and xG per shot"`
	KeepTight    float64 `unit:"log per s" lo:"0" hi:"2" source:"a ball kept with an opponent there before the next look is worth so much less for each second he is early, up to one: the duel is still to come; set by the receivers an opponent comes within 2 m of (movement tables)"`
	KeepTaste    float64 `unit:"log odds" lo:"-6" hi:"2" source:"taste for keeping the ball over letting it go; set by time on the ball"`

	// Movement off the ball.
	CarrySpeed float64 `unit:"m/s" lo:"1" hi:"5" source:"carrier who has room while he looks up; carrier mean speed 2.8: movement tables"`
	DriveOn    float64 `unit:"share" lo:"0" hi:"1" source:"how much of that speed he makes towards the other goal when nobody is within 8 m; set by the directions of passes (Pappalardo et al. 2019) and the spells on the ball that go forward (movement tables)"`
	TouchOn    float64 `unit:"share" lo:"0" hi:"1" source:"and how much of it on the way the ball came; set likewise"`
	ShyOff     float64 `unit:"share" lo:"0" hi:"1" source:"and how much of it away from an opponent within 3 m, fading to nothing at 8 m; set by the receivers an opponent comes within 2 m of (movement tables)"`
	JogSpeed   float64 `unit:"m/s" lo:"2" hi:"6" source:"top speed of positional movement; speed shares of movement tables"`
	RunSpeed   float64 `unit:"m/s" lo:"5" hi:"9" source:"speed of runs; 5.9 in behind, 6.2 overlap (movement tables)"`
	ComeNear   float64 `unit:"share" lo:"0" hi:"0.8" source:"how much of the distance beyond talking range a free team-mate gives up to help; set by pass lengths"`
	Stagger    float64 `unit:"share" lo:"0" hi:"1" source:"how much of the depth that a diagonal to the ball lacks a team-mate makes up; set by the directions of passes (Pappalardo et al. 2019)"`
	OfferReach float64 `unit:"m" lo:"3" hi:"10" source:"how far players leave their anchor to be free; assumed"`

	// Block.
	PullGain     float64 `unit:"share" lo:"0" hi:"0.2" source:"part of the shift's gain that those who go to the ball add; set by the block shift fit"`
	LegsLag      float64 `unit:"s" lo:"0" hi:"2.1" source:"part of the shift's time constant that the players' legs add; set by the block shift fit"`
	SeeDelay     float64 `unit:"s" lo:"0.1" hi:"0.6" source:"the block sees the ball late; assumed 0.25"`
	LineLag      float64 `unit:"s" lo:"0.5" hi:"4" source:"time constant of the block's movement along the pitch; set by the line fit"`
	LineFall     float64 `unit:"s" lo:"0.2" hi:"4" source:"time constant when the ball comes nearer; set by the last line's height"`
	StepUp       float64 `unit:"m" lo:"0" hi:"8" source:"the block steps up by when the ball is played back or held by a man facing his own goal; set by the line's speed when the ball goes back"`
	GiveGround   float64 `unit:"m" lo:"0" hi:"8" source:"and drops by when the man on the ball is free and faces it; set by the line's height"`
	LineUp       float64 `unit:"m/s" lo:"1" hi:"5" source:"fastest step up of the block, q90 3.3: movement tables"`
	LineDrop     float64 `unit:"m/s" lo:"1" hi:"7" source:"fastest drop of the block, q10 4.3: movement tables"`
	ZoneReach    float64 `unit:"m" lo:"4" hi:"14" source:"an opponent this near a slot is in the defender's zone; assumed"`
	MarkLeash    float64 `unit:"m" lo:"1" hi:"12" source:"how far a defender leaves his slot to mark; set by nearest defender at reception"`
	EngageRange  float64 `unit:"m" lo:"4" hi:"30" source:"a compact block confronts the carrier within; set by closing speed"`
	CloseSpeed   float64 `unit:"m/s" lo:"3.4" hi:"7" source:"a confronting defender of a compact block runs at; presser mean speed 4.7: movement tables"`
	PressSpeed   float64 `unit:"m/s" lo:"4" hi:"7.5" source:"a presser of a pressing block runs at; mean speed 4.7, q90 6.2: movement tables"`
	TravelSpeed  float64 `unit:"m/s" lo:"3" hi:"7" source:"a defender makes up ground on the receiver while the ball travels at; presser mean speed 4.7: movement tables"`
	TightWithin  float64 `unit:"m" lo:"16.5" hi:"40" source:"how near to its goal the ball must be for a block to get tight to the carrier whatever its stance; set by entries carried over the line along the touchline and by goals after a loss (Pappalardo et al. 2019)"`
	JockeyAt     float64 `unit:"m" lo:"1" hi:"2.2" source:"a confronting defender stops at, within reach of a challenge; nearest defender at release 3.6 m (movement tables)"`
	PressAt      float64 `unit:"m" lo:"0.7" hi:"2" source:"and one of a pressing block at, where he can challenge; a defender gets within 2 m of 18, 33 and 49 % of receivers by third: movement tables"`
	FirstLineOff float64 `unit:"m" lo:"3" hi:"20" source:"the first line stands off the ball by; set by nearest defender in the own third"`
	ShowOff      float64 `unit:"m/m" lo:"0" hi:"1" source:"and this much further off for each metre beyond the line of engagement; set by nearest defender in the own third"`
	GoAlong      float64 `unit:"share" lo:"0" hi:"1" source:"how far the lines behind a first line that steps up to the ball go with it, 1 in proportion; set by the gaps between the lines: movement tables"`
	PressLoyal   float64 `unit:"share" lo:"0" hi:"1" source:"a press of full intensity turns so much more to the man; common practice, no source"`
	PressLeash   float64 `unit:"ratio" lo:"0" hi:"3" source:"and lets a defender go so much further from his slot; common practice, no source"`
	PressUp      float64 `unit:"m" lo:"0" hi:"10" source:"and brings the block up by; common practice, no source"`
	PressHold    float64 `unit:"s" lo:"1" hi:"8" source:"a press lasts; movement tables: press duration q90 4.1 s"`
	CounterPress float64 `unit:"s" lo:"1" hi:"8" source:"a team goes after a ball it has just lost for, at full intensity; movement tables: counter-press q90 3.8 s"`
	BallTight    float64 `unit:"ratio" lo:"0" hi:"1" source:"growth of man loyalty towards the ball; nearest defender at the receptions of passes by direction: movement tables"`
	ThreatReach  float64 `unit:"m" lo:"2" hi:"15" source:"from how far a defender takes a man within shooting distance of his goal; set by shots as shares of actions and by distance (Pappalardo et al. 2019)"`
	StepOut      float64 `unit:"m" lo:"0" hi:"8" source:"how much further than usual a man of the last line steps out to him; set likewise"`
	DeepTight    float64 `unit:"ratio" lo:"0" hi:"1" source:"growth of man loyalty towards the own goal; nearest defender at reception 4.3 m in the last third"`
}

// DefaultParams are the league-average constants.
func DefaultParams() Params {
	return Params{
		ArriveSpeed: 5, ArriveSpread: 0.45, ControlRate: 4.3, DefenceEdge: 1.261, AreaEdge: 1.025, KeeperRate: 3,
		SetReaction: 0.471, FeetRate: 3.11, MeetWithin: 0.901, AimReaction: 0.2, WatchReaction: 0.638, Shield: 0.487, HeadHeight: 2.4, HeadRate: 0.5251, FootHeight: 0.8,

		GroundAim: 0.6546, LoftAim: 1.091, Mishit: 1.106, LengthError: 0.1002, LoftError: 0.06916, FullPower: 0.37, FirmPass: 4.179, PressureError: 0.85, WeakFootError: 1.35, TurnError: 0.6,
		OneTouchError: 1.25, HeadError: 3.3, ArrivalSpeed: 7.727,

		TouchSpeed: 0.12, TouchPressure: 3.968, TouchHigh: 2.649, StealHold: 0.3632, ClearDeep: 0.745, BlockChance: 1, AerialGap: 0.5, HeaderHold: 0.3154,

		ChallengeRange: 2, ChallengeRate: 0.9935, RunInto: 1.25, AreaHaste: 5.1, DuelWon: 0.0551, DuelLoose: 0.5, SeeOut: 0.925, PutOut: 2.991, FoulByDefence: 0.1804,
		FoulByAttack: 0.055, BeatenFor: 1, TakeOnWin: 0.5,

		Sharpness: 0.1074, Stake: 0.3768, Misjudge: 0.3881, HighDoubt: 0.9119, CrossSight: 0.157, Unready: 1.981, OwnDoubt: 0.7848, FreeWorth: 0.06192, ActTime: 0.3734, GoalSide: 0.103, RestWorth: 0.4492, OneTouch: 0.97, FirstTime: 1.26, Alarm: 0.31, HoldShare: 0.309,
		HoldSpread: 0.906, Impatience: 0.715, Look: 1.02, NearTaste: 0.1256, HighForward: 0.09772, HighGain: 51.1, ForwardTaste: -0.02628,
		HighTaste: -5.51, HighPressed: 2.64, StrongSide: 0.12, SwitchTaste: 0.9616, LowCross: -2.174, CrossTaste: -1.222, LossFear: 3.591, LossShape: 0.986, ShotTaste: 0.339, ShotShape: 0.6925, ShotUrge: -1.15, KeepTaste: -0.7658, KeepTight: 0.131,

		CarrySpeed: 1.94, DriveOn: 0.358, TouchOn: 0.444, ShyOff: 0.83, JogSpeed: 3.81, RunSpeed: 8.31, ComeNear: 0.596, Stagger: 0.448, OfferReach: 4.18,

		PullGain: 0.129, LegsLag: 1.67, SeeDelay: 0.25, LineLag: 0.5, LineFall: 0.354, StepUp: 4.39, GiveGround: 7.907, LineUp: 3, LineDrop: 6.5, ZoneReach: 4.63, ThreatReach: 7.87, StepOut: 6.32,
		MarkLeash: 6.71, TightWithin: 26.8, EngageRange: 8.99, CloseSpeed: 3.53, PressSpeed: 6.32, TravelSpeed: 3.85, JockeyAt: 1.82, PressAt: 1.47, FirstLineOff: 4.94, GoAlong: 0.966,
		ShowOff: 0.0153, PressLoyal: 0.898, PressLeash: 2.59, PressUp: 3.24, PressHold: 3.03, CounterPress: 7.955, BallTight: 0.519, DeepTight: 0.138,
	}
}

// ParamInfo describes one parameter.
type ParamInfo struct {
	Name, Unit, Source string
	Lo, Hi, Default    float64
}

// ParamTable lists every parameter with its default.
func ParamTable() []ParamInfo {
	v := reflect.ValueOf(DefaultParams())
	table := make([]ParamInfo, v.NumField())
	for i := range table {
		f := v.Type().Field(i)
		lo, errLo := strconv.ParseFloat(f.Tag.Get("lo"), 64)
		hi, errHi := strconv.ParseFloat(f.Tag.Get("hi"), 64)
		if errLo != nil || errHi != nil {
			panic("model: parameter " + f.Name + " lacks a range")
		}
		table[i] = ParamInfo{f.Name, f.Tag.Get("unit"), f.Tag.Get("source"), lo, hi, v.Field(i).Float()}
	}
	return table
}
