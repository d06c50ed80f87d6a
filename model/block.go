package model

// Trigger is a cue on which a compact block may turn to pressing.
type Trigger uint8

// Press triggers.
const (
	BackPass     Trigger = iota // the ball is played backwards
	LateralPass                 // the ball is played square
	PoorTouch                   // the ball gets away from the receiver
	FacingGoal                  // the receiver faces his own goal
	BallToKeeper                // the keeper has it
	Touchline                   // the ball is near a touchline
	NumTriggers
)

var triggerNames = [NumTriggers]string{
	"back_pass", "lateral_pass", "poor_touch", "facing_own_goal", "ball_to_keeper", "touchline",
}

func (t Trigger) String() string { return triggerNames[t] }

// Press is when and how the block leaves its shape to win the ball.
type Press struct {
	// Height is the line of engagement: the ball's distance from the defended
	// goal line below which the block presses whoever has it, m. From the pitch's
	// length on that is everywhere.
	Height float64
	// Intensity is the chance, 0 to 1, that a trigger beyond the line of
	// engagement is taken up, and how many join a press.
	Intensity float64
	// Triggers says which cues count.
	Triggers [NumTriggers]bool
}

// Block is the defending shape: slots that move with the ball. The defaults
// are the league average of the movement tables.
type Block struct {
	Shape Shape // rows from the last line

	// LineHeight is the last line's distance from its own goal line when the
	// ball is on the halfway line, m.
	LineHeight float64
	// Follow is how many metres the last line moves for each metre of the ball
	// along the pitch; with the ball near its goal a line stands no higher than the
	// average one.
	Follow float64
	// Length is the distance from the last line to the first, m.
	Length float64
	// Width is the distance between the outer players as it is measured in play,
	// m; the slots of a line of four span 93 % of it, the rest is wandering.
	Width float64
	// ShiftGain is the share of the ball's lateral offset that the block follows.
	ShiftGain float64
	// ShiftDelay is the time constant of that first-order response, s.
	ShiftDelay float64
	// ShiftSpeed caps the lateral speed of the block, m/s.
	ShiftSpeed float64
	// ManLoyalty is how far a defender leaves his zone for the opponent in it:
	// 0 zonal, 1 man to man.
	ManLoyalty float64

	Press Press

	// Slot is where each player (index 1 to 10 in the order of Team.Players)
	// stands in the block: X from 0 (last line) to 1 (first line), Y from -0.5
	// to 0.5 of the width, positive to this team's left.
	Slot [11]SlotPlace
}

// SlotPlace is a player's place in a block.
type SlotPlace struct {
	Row   int     // 0 is the last line
	Depth float64 // 0 at the last line, 1 at the first
	Side  float64 // -0.5 (right) to 0.5 (left), share of Block.Width
}

// League-average block. Source: movement tables (SkillCorner open data, MIT,
// and an anonymised optical sample): last line 2.6 + 0.54 d, line gaps 13.0
// and 10.3 m, outfield width 36 m in a mid block, lateral gain 0.44 with time
// constant 2.25 s, lateral speed q95 3.2 m/s.
const (
	AverageLineHeight = 2.6 + 0.54*52.5
	AverageFollow     = 0.54
	AverageLength     = 23.3
	AverageWidth      = 36
	AverageShiftGain  = 0.44
	AverageShiftDelay = 2.25
	AverageShiftSpeed = 3.2
	AverageLoyalty    = 0.5
	AveragePressAt    = 85
	AverageIntensity  = 0.40
)

// AverageBlock is a league-average mid block in the given shape.
func AverageBlock(shape Shape) Block {
	b := Block{
		Shape: shape, LineHeight: AverageLineHeight, Follow: AverageFollow, Length: AverageLength,
		Width: AverageWidth, ShiftGain: AverageShiftGain, ShiftDelay: AverageShiftDelay,
		ShiftSpeed: AverageShiftSpeed, ManLoyalty: AverageLoyalty,
		Press: Press{Height: AveragePressAt, Intensity: AverageIntensity},
	}
	for t := range b.Press.Triggers {
		b.Press.Triggers[t] = true
	}
	return b
}

// rowShare is how far apart the outer players of a row of n stand, as a share
// of the block's width: a back four spans it (11 m between neighbours at 33 m,
// movement tables); rows of two and three keep the distance of neighbours.
func rowShare(n int, first, last bool) float64 {
	switch n {
	case 1:
		return 0
	case 2:
		if last {
			return 0.26
		}
		return 0.32
	case 3:
		if first {
			return 0.62
		}
		return 0.75
	case 4:
		return 0.93
	}
	return 0.97
}

// rowDepth places row r of n between the last line (0) and the first (1): the
// gap in front of the last line is the larger one, 13.0 to 10.3 m.
func rowDepth(r, n int) float64 {
	const behind = 13.0 / 23.3
	switch {
	case r == 0:
		return 0
	case n == 2:
		return 1
	case n == 3:
		return [3]float64{0, behind, 1}[r]
	}
	return 0.45 + 0.55*float64(r-1)/float64(n-2)
}

// SetSlots hands the slots of the block's shape to the players whose positions
// fit them best.
func (b *Block) SetSlots(players []Player) {
	var slots [10]SlotPlace
	i := 0
	n := len(b.Shape)
	for row, count := range b.Shape {
		share := rowShare(count, row == 0, row == n-1)
		for k := 0; k < count; k++ {
			side := 0.0
			if count > 1 {
				side = share * (0.5 - float64(k)/float64(count-1))
			}
			slots[i] = SlotPlace{Row: row, Depth: rounded(rowDepth(row, n), 1000), Side: rounded(side, 1000)}
			i++
		}
	}
	want := wants(players, b.Shape, 0, 30)
	places := want
	for j, s := range slots {
		places[j].X, places[j].Y = 30*s.Depth, 50*s.Side
	}
	for i, j := range assign(want, places) {
		b.Slot[i+1] = slots[j]
	}
}
