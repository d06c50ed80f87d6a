package scenario

import (
	"reflect"

	"playout/model"
)

// The types below are the file format: the decoder, the writer and the JSON
// Schema are all made from their names and tags. A nil field was not written.
// Ranges repeat those of model.Validate; a test compares the two. says and unit
// name a value for people, on the axes of pictures; %s is the team, as in "the
// defence's", or what the value belongs to.

type document struct {
	Extends     *string   `yaml:"extends" jsonschema:"minLength=1" jsonschema_description:"Another scenario file, relative to this one, that this one changes."`
	Title       *string   `yaml:"title" jsonschema:"maxLength=200" jsonschema_description:"What the scenario asks, in a line; left out: the name of the file."`
	Pitch       *pitchDoc `yaml:"pitch,flow"`
	Possessions *int      `yaml:"possessions" jsonschema:"minimum=1,maximum=100000000" jsonschema_description:"How many possessions to play."`
	Seed        *uint64   `yaml:"seed" jsonschema:"minimum=0" jsonschema_description:"Names the luck: the same seed gives the same possessions."`
	Clock       *float64  `yaml:"clock" jsonschema:"minimum=5,maximum=600" jsonschema_description:"A possession that lasts longer has stalled, s." says:"longest build-up" unit:"s"`
	AfterLoss   *float64  `yaml:"after_loss" jsonschema:"minimum=0,maximum=30" jsonschema_description:"How much of the opponent's attack after a loss is played, s; 0: none." says:"time played after a loss" unit:"s"`
	Start       *startDoc `yaml:"start,flow"`
	Attack      *teamDoc  `yaml:"attack" jsonschema_description:"The team that starts with the ball; its build-up is tested."`
	Defence     *teamDoc  `yaml:"defence" jsonschema_description:"The team that starts in its block."`
}

type pitchDoc struct {
	Length *float64 `yaml:"length" jsonschema:"minimum=90,maximum=120" jsonschema_description:"Touchline, m (Law 1)." says:"length of the pitch" unit:"m"`
	Width  *float64 `yaml:"width" jsonschema:"minimum=45,maximum=90" jsonschema_description:"Goal line, m (Law 1)." says:"width of the pitch" unit:"m"`
}

type startDoc struct {
	From   *model.StartKind `yaml:"from" jsonschema_description:"How a possession begins." says:"how the build-up begins"`
	Player *int             `yaml:"player" jsonschema:"minimum=1,maximum=99" jsonschema_description:"Shirt number on the ball; left out: whoever stands nearest." says:"who begins on the ball"`
	Ball   *point           `yaml:"ball" jsonschema_description:"Place of the ball, [x, y] in m from the centre spot; only with from: settled." says:"where the ball begins" unit:"m"`
}

type teamDoc struct {
	Name      *string       `yaml:"name" jsonschema:"maxLength=60"`
	Level     *float64      `yaml:"level" jsonschema:"minimum=0,maximum=100" jsonschema_description:"Percentile of every quality that a player does not say; 50 is the league average." says:"level of %s players" unit:"percentile"`
	Players   []playerDoc   `yaml:"players" jsonschema:"minItems=1,maxItems=11" jsonschema_description:"Eleven players, the keeper first; in a file that extends another, those that change."`
	Structure *structureDoc `yaml:"structure" jsonschema_description:"Where the team stands with the ball, by phase."`
	Plan      *planDoc      `yaml:"plan" jsonschema_description:"What tilts its choices on the ball."`
	Runs      []runDoc      `yaml:"runs,flow" jsonschema:"maxItems=100" jsonschema_description:"Runs off the ball; left out: the usual ones of each position; []: none." says:"%s runs"`
	Block     *blockDoc     `yaml:"block" jsonschema_description:"Where the team stands without the ball: the name of a library block, or a mapping." says:"%s block"`
}

type playerDoc struct {
	Number      *int            `yaml:"number" jsonschema:"required,minimum=1,maximum=99" jsonschema_description:"Shirt number."`
	Name        *string         `yaml:"name" jsonschema:"maxLength=60"`
	Position    *model.Position `yaml:"position" jsonschema_description:"Where he plays, by the codes of match sheets; decides with whom his percentiles compare him." says:"position of %s"`
	Foot        *model.Foot     `yaml:"foot" jsonschema_description:"Strong foot; left out: the usual one of the position." says:"strong foot of %s"`
	Behaviour   *behaviour      `yaml:"behaviour" jsonschema_description:"What he does off the ball when his team has it; left out: the usual of the position." says:"what %s does off the ball"`
	Percentiles percentiles     `yaml:",inline" jsonschema:"-"`
	TopSpeed    *float64        `yaml:"top_speed" jsonschema:"minimum=6,maximum=10.5" jsonschema_description:"Top speed, m/s; left out: from the pace percentile." says:"top speed of %s" unit:"m/s"`
	PeakAccel   *float64        `yaml:"peak_acceleration" jsonschema:"minimum=3,maximum=8" jsonschema_description:"Acceleration from standing, m/s^2; left out: from the acceleration percentile." says:"acceleration of %s" unit:"m/s^2"`
}

// percentiles are a player's qualities, keyed by the names of the attributes.
type percentiles [model.NumAttributes]*float64

// behaviour is written as a word, or as {pin: last_line} or {pin: 5}.
type behaviour model.Behaviour

// point is [x, y] in metres from the centre spot.
type point [2]float64

type structureDoc struct {
	BuildUp     *phaseDoc `yaml:"build_up,flow" jsonschema_description:"With the ball deep in the own third." says:"%s shape in build-up"`
	Progression *phaseDoc `yaml:"progression,flow" jsonschema_description:"With the ball near halfway." says:"%s shape in progression"`
	FinalThird  *phaseDoc `yaml:"final_third,flow" jsonschema_description:"With the ball in the final third." says:"%s shape in the final third"`
	BallSide    *float64  `yaml:"ball_side" jsonschema:"minimum=0,maximum=1" jsonschema_description:"Share of the ball's lateral offset that the places follow." says:"how far %s places follow the ball across" unit:"share"`
}

// phaseDoc is a shape, places of single players, or both.
type phaseDoc struct {
	Shape  *model.Shape  `yaml:"shape" jsonschema_description:"Rows from the last line to the first; left out: as in the phase before." says:"%s shape"`
	Places map[int]point `yaml:",inline" jsonschema:"-"`
}

type planDoc struct {
	Lanes      *lanesDoc `yaml:"lanes,flow" jsonschema_description:"Odds of playing or carrying the ball into each lane, times the usual."`
	Tempo      *float64  `yaml:"tempo" jsonschema:"minimum=0.3,maximum=6" jsonschema_description:"Typical time on the ball before it is released, s." says:"%s time on the ball" unit:"s"`
	Risk       *float64  `yaml:"risk" jsonschema:"minimum=0,maximum=1" jsonschema_description:"How little a loss is feared: 0 most careful, 0.5 as the numbers say, 1 not at all." says:"%s appetite for risk"`
	Switching  *float64  `yaml:"switching" jsonschema:"minimum=0,maximum=20" jsonschema_description:"Odds of a pass 30 m or more across, times the usual." says:"%s liking for the switch" unit:"times the usual odds"`
	Directness *float64  `yaml:"directness" jsonschema:"minimum=0.05,maximum=20" jsonschema_description:"Odds of an action for every 20 m it gains, times the usual." says:"%s directness" unit:"times the usual odds"`
	Find       []int     `yaml:"find" jsonschema:"maxItems=11" jsonschema_description:"Shirt numbers to look for: passes to them have doubled odds." says:"whom %s plan looks for"`
}

type lanesDoc struct {
	LeftWing       *float64 `yaml:"left_wing" jsonschema:"minimum=0,maximum=20" says:"%s liking for the left wing" unit:"times the usual odds"`
	LeftHalfSpace  *float64 `yaml:"left_half_space" jsonschema:"minimum=0,maximum=20" says:"%s liking for the left half-space" unit:"times the usual odds"`
	Centre         *float64 `yaml:"centre" jsonschema:"minimum=0,maximum=20" says:"%s liking for the centre" unit:"times the usual odds"`
	RightHalfSpace *float64 `yaml:"right_half_space" jsonschema:"minimum=0,maximum=20" says:"%s liking for the right half-space" unit:"times the usual odds"`
	RightWing      *float64 `yaml:"right_wing" jsonschema:"minimum=0,maximum=20" says:"%s liking for the right wing" unit:"times the usual odds"`
}

type runDoc struct {
	Run    *model.RunKind `yaml:"run" jsonschema:"required" says:"what %s is"`
	Player *int           `yaml:"player" jsonschema:"required,minimum=1,maximum=99" jsonschema_description:"Shirt number of the runner." says:"runner of %s"`
	With   []int          `yaml:"with" jsonschema:"maxItems=10" jsonschema_description:"Shirt numbers, one of whom has the ball; left out: any." says:"who has the ball in %s"`
	Lane   []model.Lane   `yaml:"lane" jsonschema:"maxItems=5" jsonschema_description:"The ball is in one of these; left out: any." says:"lanes of %s"`
	Third  []model.Third  `yaml:"third" jsonschema:"maxItems=3" jsonschema_description:"The ball is in one of these; left out: any." says:"thirds of %s"`
	Chance *float64       `yaml:"chance" jsonschema:"minimum=0,maximum=1" jsonschema_description:"Of going each time this comes up; left out: 0.2." says:"chance of %s"`
}

type blockDoc struct {
	Library    *string         `yaml:"library" jsonschema_description:"A block of the library that the other keys change."`
	Shape      *model.Shape    `yaml:"shape" jsonschema_description:"Rows from the last line to the first." says:"shape of %s block"`
	LineHeight *float64        `yaml:"line_height" jsonschema:"minimum=8,maximum=60" jsonschema_description:"Last line's distance from its own goal line with the ball on halfway, m." says:"height of %s last line" unit:"m from its own goal line"`
	Follow     *float64        `yaml:"follow" jsonschema:"minimum=0,maximum=1" jsonschema_description:"Metres the last line moves for each metre of the ball along the pitch; with the ball near its goal a line stands no higher than the average." says:"how far %s last line follows the ball" unit:"m per m of the ball"`
	Length     *float64        `yaml:"length" jsonschema:"minimum=8,maximum=50" jsonschema_description:"From the last line to the first, m." says:"length of %s block" unit:"m"`
	Width      *float64        `yaml:"width" jsonschema:"minimum=15,maximum=90" jsonschema_description:"Between the outer players of the widest line, m." says:"width of %s block" unit:"m"`
	Shift      *shiftDoc       `yaml:"shift,flow" jsonschema_description:"How the block moves across with the ball."`
	ManLoyalty *float64        `yaml:"man_loyalty" jsonschema:"minimum=0,maximum=1" jsonschema_description:"How far a defender leaves his zone for the opponent in it: 0 zonal, 1 man to man." says:"man-marking in %s block (0 zonal, 1 man to man)"`
	Press      *pressDoc       `yaml:"press" jsonschema_description:"When and how the block leaves its shape to win the ball."`
	Slots      map[int]slotDoc `yaml:"slots,flow" jsonschema_description:"Places in the block by shirt number; left out: as the shape and the positions give them."`
}

type shiftDoc struct {
	Gain  *float64 `yaml:"gain" jsonschema:"minimum=0,maximum=1" jsonschema_description:"Share of the ball's lateral offset that the block follows." says:"how far %s block shifts across" unit:"share of the offset"`
	Delay *float64 `yaml:"delay" jsonschema:"minimum=0.2,maximum=10" jsonschema_description:"Time constant of the shift, s." says:"delay of %s shift across" unit:"s"`
	Speed *float64 `yaml:"speed" jsonschema:"minimum=0.5,maximum=8" jsonschema_description:"Fastest lateral movement, m/s." says:"speed of %s shift across" unit:"m/s"`
}

type pressDoc struct {
	Height    *float64        `yaml:"height" jsonschema:"minimum=0,maximum=120" jsonschema_description:"Line of engagement: the block presses a ball nearer than this to its own goal line, m; the pitch's length or more is everywhere." says:"height of %s press" unit:"m from its own goal line"`
	Intensity *float64        `yaml:"intensity" jsonschema:"minimum=0,maximum=1" jsonschema_description:"Chance that a trigger beyond the line of engagement is taken up, and how many join a press." says:"intensity of %s press"`
	Triggers  []model.Trigger `yaml:"triggers" jsonschema:"maxItems=6" jsonschema_description:"Cues that count; left out: all; []: none." says:"triggers of %s press"`
}

type slotDoc struct {
	Row   *int     `yaml:"row" jsonschema:"minimum=1,maximum=5" jsonschema_description:"Line of the block, 1 the last." says:"row of %s in the block (1 the last line)"`
	Depth *float64 `yaml:"depth" jsonschema:"minimum=0,maximum=1" jsonschema_description:"0 at the last line, 1 at the first." says:"depth of %s in the block (0 last line, 1 first)"`
	Side  *float64 `yaml:"side" jsonschema:"minimum=-0.6,maximum=0.6" jsonschema_description:"Share of the block's width from its middle, positive to the left." says:"side of %s in the block (left positive)" unit:"share of the width"`
}

// vocabulary holds the words of every enumeration, by type, in its order.
var vocabulary = map[reflect.Type][]string{
	reflect.TypeFor[model.StartKind]():     words(model.NumStarts),
	reflect.TypeFor[model.Position]():      words(model.NumPositions),
	reflect.TypeFor[model.Foot]():          words(model.NumFeet),
	reflect.TypeFor[model.BehaviourKind](): words(model.NumBehaviours),
	reflect.TypeFor[model.BlockLine]():     words(model.NumBlockLines),
	reflect.TypeFor[model.RunKind]():       words(model.NumRuns),
	reflect.TypeFor[model.Lane]():          words(model.NumLanes),
	reflect.TypeFor[model.Third]():         words(model.NumThirds),
	reflect.TypeFor[model.Trigger]():       words(model.NumTriggers),
}

// words lists the names of the values below n.
func words[T interface {
	~uint8
	String() string
}](n T) []string {
	var out []string
	for v := T(0); v < n; v++ {
		out = append(out, v.String())
	}
	return out
}

// attributeNames are the keys of percentiles.
var attributeNames = words(model.NumAttributes)
