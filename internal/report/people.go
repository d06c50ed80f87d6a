package report

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"playout/internal/experiment"
	"playout/internal/stats"
	"playout/model"
)

// People is candidates for a place in a team, against the man who has it, and what the
// place asks for. Differences are of a figure per 100 build-ups.
type People struct {
	Side    string     `json:"side"`
	Figures []string   `json:"figures"` // the one that ranks, then one beside it
	Place   PersonName `json:"place"`   // who has it now

	Candidates []Candidate `json:"candidates"` // the best first, the man who has the place among them
	Feet       []FootRow   `json:"feet"`       // the same man with another strong foot
	Profile    []TraitRow  `json:"profile"`    // per ten percentiles, what helps most first

	Run         Played   `json:"run"`
	ProfileRuns Played   `json:"profile_run"` // each of them is a variant with many attributes moved
	Answer      []string `json:"answer"`
	Notes       []string `json:"notes"`

	figures [2]experiment.Figure
	good    [2]float64 // +1: more of the figure is better for the side, -1: less is
}

// PersonName is a player.
type PersonName struct {
	Number   int    `json:"number"`
	Name     string `json:"name"`
	Position string `json:"position"`
}

func (p PersonName) String() string {
	if p.Name == "" {
		return fmt.Sprintf("number %d", p.Number)
	}
	return fmt.Sprintf("%d %s", p.Number, p.Name)
}

func personName(p *model.Player) PersonName {
	return PersonName{p.Number, clean(p.Name), p.Position.String()}
}

// Candidate is a man in the place. Values and Differences are by figure, in the order of
// People.Figures; differences are against the man who has the place now.
type Candidate struct {
	Name        string              `json:"name"`
	Position    string              `json:"position"`
	Foot        string              `json:"foot"`
	Now         bool                `json:"now"` // he has the place
	From        int                 `json:"from"`
	To          int                 `json:"to"` // he stands somewhere from From to To; who overlaps cannot be told apart
	Values      []Interval          `json:"values"`
	Differences []Interval          `json:"differences"`
	Verdicts    []string            `json:"verdicts"` // better, worse or cannot_tell_yet, all candidates judged together
	Needed      int64               `json:"needed"`   // build-ups that would tell his first difference, if it is what it seems; 0: told
	paired      []experiment.Paired // as Differences, per build-up
}

// called is a candidate's name; a man in the place who has none goes by his number.
func (p *People) called(c *Candidate) string {
	if c.Now && c.Name == "" {
		return p.Place.String()
	}
	return c.Name
}

// FootRow is what another strong foot changes.
type FootRow struct {
	Foot        string     `json:"foot"`
	Differences []Interval `json:"differences"`
	Verdicts    []string   `json:"verdicts"`
}

// TraitRow is what ten percentiles more of an attribute change.
type TraitRow struct {
	Player    PersonName `json:"player"`
	Attribute string     `json:"attribute"`
	Now       Number     `json:"now"`     // his percentile
	Effects   []Interval `json:"effects"` // by figure
	Told      []bool     `json:"told"`    // whether the effect is told from none, all attributes judged together
}

// PeopleRun is what NewPeople reports on.
type PeopleRun struct {
	Scenario *model.Scenario
	Side     model.Side
	Index    int // of the place in the team
	Figures  [2]experiment.Figure

	People []model.Player // in the order of their cells: the man who has the place, then the candidates
	Feet   []model.Foot   // cells after those
	Cells  func(i int) []experiment.Outcome

	Traits []experiment.Trait
	Runs   [][]experiment.Outcome // of their profile; none: it was not played

	Played, Profile Played
}

// Verdicts of people.
const (
	better     = "better"
	worse      = "worse"
	cannotTell = "cannot_tell_yet"
)

// NewPeople ranks the candidates and reads the profile.
func NewPeople(r PeopleRun) *People {
	team := &r.Scenario.Teams[r.Side]
	p := &People{
		Side: r.Side.String(), Place: personName(&team.Players[r.Index]), Run: r.Played, ProfileRuns: r.Profile,
		Candidates: []Candidate{}, Feet: []FootRow{}, Profile: []TraitRow{}, figures: r.Figures,
	}
	for k, f := range r.Figures {
		p.Figures = append(p.Figures, f.Name)
		p.good[k] = float64(f.Sense)
		if r.Side == model.Defence {
			p.good[k] = -p.good[k]
		}
	}
	if len(r.People) > 1 {
		p.rank(r)
	}
	if r.Played.Possessions > 0 {
		p.feet(r)
	}
	if len(r.Runs) > 0 && len(r.Runs[0]) >= 2 {
		p.profile(r, team)
	}
	p.Answer = p.sentences()
	p.Notes = r.Played.notes(p.cautions()...)
	return p
}

// rank fills the candidates.
func (p *People) rank(r PeopleRun) {
	cells := make([][]experiment.Outcome, len(r.People))
	differences := [2][]experiment.Paired{}
	for i := range r.People {
		cells[i] = r.Cells(i)
		if i > 0 {
			for k, f := range r.Figures {
				differences[k] = append(differences[k], experiment.Difference(cells[0], cells[i], f))
			}
		}
	}
	places := experiment.Places(cells, r.Figures[0], int(p.good[0]))
	for i, man := range r.People {
		c := Candidate{
			Name: clean(man.Name), Position: man.Position.String(), Foot: man.Foot.String(), Now: i == 0,
			From: places[i].From, To: places[i].To,
		}
		for k, f := range r.Figures {
			c.Values = append(c.Values, per100Of(experiment.Mean(cells[i], f)))
			if i > 0 {
				d := differences[k][i-1]
				c.Differences, c.paired = append(c.Differences, per100Of(d.Estimate)), append(c.paired, d)
			}
		}
		p.Candidates = append(p.Candidates, c)
	}
	for k := range r.Figures {
		for i, adjusted := range experiment.AdjustedP(differences[k]) {
			c := &p.Candidates[i+1]
			c.Verdicts = append(c.Verdicts, p.verdict(k, differences[k][i].Value, adjusted))
			if k == 0 && c.Verdicts[0] == cannotTell && differences[k][i].Value != 0 {
				c.Needed = stats.NeededToTell(differences[k][i].Estimate, level)
			}
		}
	}
	sortFalling(p.Candidates, func(c Candidate) float64 { return p.good[0] * float64(c.Values[0].Value) })
}

// sortFalling puts the largest first and leaves equals in their order.
func sortFalling[T any](list []T, by func(T) float64) {
	slices.SortStableFunc(list, func(a, b T) int { return cmp.Compare(by(b), by(a)) })
}

// verdict says which way a difference in figure k goes, if that can be told.
func (p *People) verdict(k int, d, adjusted float64) string {
	switch {
	case adjusted > 1-level:
		return cannotTell
	case d*p.good[k] > 0:
		return better
	}
	return worse
}

// feet fills what another strong foot of the same man changes.
func (p *People) feet(r PeopleRun) {
	differences := [2][]experiment.Paired{}
	for i, foot := range r.Feet {
		row := FootRow{Foot: foot.String()}
		for k, f := range r.Figures {
			d := experiment.Difference(r.Cells(0), r.Cells(len(r.People)+i), f)
			row.Differences, differences[k] = append(row.Differences, per100Of(d.Estimate)), append(differences[k], d)
		}
		p.Feet = append(p.Feet, row)
	}
	for k := range r.Figures {
		for i, adjusted := range experiment.AdjustedP(differences[k]) {
			p.Feet[i].Verdicts = append(p.Feet[i].Verdicts, p.verdict(k, differences[k][i].Value, adjusted))
		}
	}
}

// profile fills the traits.
func (p *People) profile(r PeopleRun, team *model.Team) {
	for _, t := range r.Traits {
		p.Profile = append(p.Profile, TraitRow{Player: personName(&team.Players[t.Index]), Attribute: t.Attribute.String(), Now: Number(t.Now)})
	}
	for _, f := range r.Figures {
		effects := experiment.TraitEffects(r.Traits, r.Runs, f)
		values := make([]float64, len(effects))
		for i, e := range effects {
			values[i] = stats.PValue(e)
		}
		for i, adjusted := range stats.Holm(values) {
			p.Profile[i].Effects = append(p.Profile[i].Effects, per100Of(effects[i]))
			p.Profile[i].Told = append(p.Profile[i].Told, adjusted <= 1-level)
		}
	}
	p.Profile = p.sorted(0)
}

// Write prints the answer.
func (p *People) Write(w io.Writer, f Format) error {
	return writeAs(w, f, p.document, p.writeCSV, p)
}

func (p *People) document() *document {
	return &document{title: p.title(), warning: p.warning(), answer: p.Answer, tables: p.tables(), facts: p.facts(), notes: p.Notes}
}
