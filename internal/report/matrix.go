package report

import (
	"io"

	"playout/internal/experiment"
	"playout/internal/stats"
	"playout/internal/zerosum"
)

// Matrix is plans against the opponent's answers: what every pairing is worth, and the
// zero-sum game that the payoffs make. Values are those of the figure per 100 build-ups;
// shares lie between 0 and 1.
type Matrix struct {
	Figure string `json:"figure"`
	Unit   string `json:"unit"`
	Sense  int    `json:"sense"` // +1: the plans want much of it, -1: little

	Plans   []MatrixSide `json:"plans"`
	Answers []MatrixSide `json:"answers"`
	Payoffs [][]Interval `json:"payoffs"` // by plan, then answer

	Value   Interval `json:"value"`    // of the game, both sides mixing at their best
	Pure    bool     `json:"pure"`     // neither side needs to mix
	PureIn  Number   `json:"pure_in"`  // share of the resampled games in which that is so
	Repeats int      `json:"repeats"`  // resampled games behind the intervals of the game
	Needed  int64    `json:"needed"`   // build-ups of each pairing that would tell the safest plan; 0: it can be told
	Rival   string   `json:"rival"`    // plan that may be safer than the safest; "" when there is none
	Players string   `json:"opponent"` // whose players play the answers that are blocks; "" when none is

	Run    Played   `json:"run"`
	Answer []string `json:"answer"`
	Notes  []string `json:"notes"`

	figure  experiment.Figure
	unclear [][]bool     // pairings that cannot be told from the safest plan against its best answer
	game    zerosum.Game // of what the plans want: Sense times the figure per 100 build-ups
}

// MatrixSide is a plan, or an answer.
type MatrixSide struct {
	Name  string `json:"name"`
	Title string `json:"title"`

	Worst     Interval `json:"worst"`        // its value against the best reply of the other side
	Replies   []string `json:"replies"`      // the best replies
	Safest    bool     `json:"safest"`       // its worst is the best of its side
	SafestIn  Number   `json:"safest_in"`    // share of the resampled games in which it is; null for answers
	Share     Interval `json:"share"`        // in its side's best mix
	Price     Interval `json:"price"`        // what always playing it gives away
	Dominated *Mixture `json:"dominated"`    // null: nothing else does as well everywhere
	Doubt     Number   `json:"dominated_in"` // share of the resampled games in which it is dominated
}

// Mixture is what dominates.
type Mixture struct {
	Of     Object[Number] `json:"of"`     // share by name
	Strict bool           `json:"strict"` // better against everything; else never worse and somewhere better
}

// Pairings are the cells of a matrix: plan by plan, each against all answers.
type Pairings struct {
	Plans, Answers           []string // short names
	PlanTitles, AnswerTitles []string
	Opponent                 string // whose players play the blocks
	Figure                   experiment.Figure
	Outcomes                 func(plan, answer int) []experiment.Outcome // of the same possessions in every cell
}

// repeats is how many games are resampled: the share of a mix's 2.5 % quantile is then
// known to half a per cent.
const repeats = 1000

// NewMatrix solves the game of the pairings. The figure must have a sense.
func NewMatrix(p Pairings, run Played) (*Matrix, error) {
	m := &Matrix{
		Figure: p.Figure.Name, Unit: p.Figure.Unit, Sense: p.Figure.Sense, Repeats: repeats,
		Players: clean(p.Opponent), Run: run, figure: p.Figure,
	}
	values := make([][][]float64, len(p.Plans))
	for i := range p.Plans {
		values[i] = make([][]float64, len(p.Answers))
		var row []Interval
		for j := range p.Answers {
			o := p.Outcomes(i, j)
			row = append(row, per100Of(experiment.Mean(o, p.Figure)))
			for k := range o {
				values[i][j] = append(values[i][j], float64(p.Figure.Sense)*100*p.Figure.Of(&o[k]))
			}
		}
		m.Payoffs = append(m.Payoffs, row)
	}
	m.game = zerosum.Means(values)
	solution, err := zerosum.Solve(m.game)
	if err != nil {
		return nil, err
	}
	doubt, err := zerosum.Spread(zerosum.Resample(values, repeats, run.Seed), level)
	if err != nil {
		return nil, err
	}
	if err := m.sides(p, solution, doubt); err != nil {
		return nil, err
	}
	m.Value = m.seen(solution.Value, doubt.Value)
	m.Pure = len(m.game.Saddles()) > 0
	m.PureIn = Number(doubt.Saddle)
	m.rival(p, doubt)
	m.compared(p)
	m.Answer = m.sentences()
	m.Notes = m.Run.notes(gameCaution)
	return m, nil
}

// seen turns a value of the game, which the plans want large, into the figure's.
func (m *Matrix) seen(value float64, i zerosum.Interval) Interval {
	if m.Sense < 0 {
		return Interval{Number(-value), Number(-i.High), Number(-i.Low)}
	}
	return Interval{Number(value), Number(i.Low), Number(i.High)}
}

func asItIs(value float64, i zerosum.Interval) Interval {
	return Interval{Number(value), Number(i.Low), Number(i.High)}
}

// sides fills what is known of each plan and answer.
func (m *Matrix) sides(p Pairings, s zerosum.Solution, d *zerosum.Doubt) error {
	rows, columns := m.game.Prices(s.Value)
	safe := m.game.Security()
	for i := range p.Plans {
		replies := m.game.BestColumns(i)
		m.Plans = append(m.Plans, MatrixSide{
			Name: clean(p.Plans[i]), Title: clean(p.PlanTitles[i]),
			Worst: m.seen(m.game[i][replies[0]], d.Worst[i]), Replies: named(replies, p.Answers),
			Safest: i == safe.Row, SafestIn: Number(d.Safest[i]),
			Share: asItIs(s.Rows[i], d.Rows[i]), Price: asItIs(rows[i], d.RowPrice[i]), Doubt: Number(d.Dominated[i]),
		})
	}
	for j := range p.Answers {
		replies := m.game.BestRows(j)
		m.Answers = append(m.Answers, MatrixSide{
			Name: clean(p.Answers[j]), Title: clean(p.AnswerTitles[j]),
			Worst: m.Payoffs[replies[0]][j], Replies: named(replies, p.Plans),
			Safest: j == safe.Column, SafestIn: missing,
			Share: asItIs(s.Columns[j], d.Columns[j]), Price: asItIs(columns[j], d.ColPrice[j]), Doubt: Number(d.Beaten[j]),
		})
	}
	dominated, err := m.game.DominatedRows()
	if err != nil {
		return err
	}
	beaten, err := m.game.DominatedColumns()
	if err != nil {
		return err
	}
	for _, x := range dominated {
		m.Plans[x.Index].Dominated = mixture(x, p.Plans)
	}
	for _, x := range beaten {
		m.Answers[x.Index].Dominated = mixture(x, p.Answers)
	}
	return nil
}

func named(indices []int, names []string) []string {
	var out []string
	for _, i := range indices {
		out = append(out, clean(names[i]))
	}
	return out
}

func mixture(d zerosum.Dominance, names []string) *Mixture {
	m := &Mixture{Strict: d.Strict}
	for i, p := range d.By {
		if p > 0 {
			m.Of = append(m.Of, Field[Number]{clean(names[i]), Number(p)})
		}
	}
	return m
}

// rival finds the plan that may be safer than the safest one, and how many build-ups
// would tell the two worst cases apart.
func (m *Matrix) rival(p Pairings, d *zerosum.Doubt) {
	safe := m.game.Security().Row
	next := -1
	for i, share := range d.Safest {
		if i != safe && share > 1-level && (next < 0 || share > d.Safest[next]) {
			next = i
		}
	}
	if next < 0 {
		return
	}
	m.Rival = m.Plans[next].Name
	a := p.Outcomes(next, m.game.BestColumns(next)[0])
	b := p.Outcomes(safe, m.game.BestColumns(safe)[0])
	m.Needed = stats.NeededToTell(experiment.Difference(a, b, m.figure).Estimate, level)
}

// compared tells the pairings apart from the safest plan against its best answer.
func (m *Matrix) compared(p Pairings) {
	safe := m.game.Security().Row
	here := m.game.BestColumns(safe)[0]
	for i := range p.Plans {
		var row []bool
		for j := range p.Answers {
			d := experiment.Difference(p.Outcomes(safe, here), p.Outcomes(i, j), m.figure)
			row = append(row, (i != safe || j != here) && d.Lo <= 0 && d.Hi >= 0)
		}
		m.unclear = append(m.unclear, row)
	}
}

// Write prints the matrix.
func (m *Matrix) Write(w io.Writer, f Format) error {
	return writeAs(w, f, m.document, m.writeCSV, m)
}

// Document is the answer for people.
func (m *Matrix) Document() *Document { return m.document() }

func (m *Matrix) document() *document {
	return &document{
		title: "Plans against answers: " + m.figure.Label, warning: m.Run.warning(), answer: m.Answer,
		tables: m.tables(), facts: m.Run.facts(), notes: m.Notes,
	}
}

// gameCaution is what the game takes for granted.
const gameCaution = "The game is zero-sum by assumption: what one side gains in this figure the other loses, and nothing else counts. " +
	"Both are taken to know the payoffs and to choose without seeing what the other has chosen. Teams do not mix at random: read the shares " +
	"as how often a thing may be done before the other side can live off it, not as a rota."
