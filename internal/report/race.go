package report

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"playout/internal/explain"
	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// RaceRun is what was played for one kind of race.
type RaceRun struct {
	File     string
	Scenario *model.Scenario
	Focus    explain.Focus
	Races    [][]explain.Race // by possession
	Target   float64          // share won that the changes are looked for
	Changes  []explain.Change
	Levers   []explain.Lever // that were to be tried
	Asked    int
	Search   int // possessions of each variant of the search
	Partial  bool
	Seed     uint64
	Own      bool
	Version  string
	Revision int
}

// Race says how the ball does against the block, in the order in which it is written
// as JSON. Keys are stable: fields may be added, but none is renamed or changes its
// meaning.
type Race struct {
	File        string      `json:"file"`
	Title       string      `json:"title"`
	Focus       string      `json:"focus"`
	Seed        uint64      `json:"seed"` // may exceed 2^53
	Possessions int64       `json:"possessions"`
	Asked       int64       `json:"asked"`
	Search      int64       `json:"search_possessions"` // of each variant
	Partial     bool        `json:"partial"`
	Version     string      `json:"version"`
	Revision    int         `json:"revision"`
	TickS       Number      `json:"tick_s"`
	Answer      []string    `json:"answer"`
	Notes       []string    `json:"notes"`
	Won         RaceShare   `json:"won"`
	All         RaceFigures `json:"all"`
	Winners     RaceFigures `json:"winners"`
	Beaten      RaceFigures `json:"beaten"`  // lost though the ball reached a team-mate
	Missed      RaceFigures `json:"missed"`  // the ball did not reach one
	Players     []RaceMan   `json:"players"` // most races first
	Target      Number      `json:"target"`  // share won that the changes are for
	Changes     []Change    `json:"changes"`

	focus explain.Focus
	again string
}

// RaceShare is a share of races with a 95 % interval that allows for several in one
// build-up.
type RaceShare struct {
	Count int64  `json:"count"`
	Of    int64  `json:"of"`
	Rate  Number `json:"rate"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
}

func (s RaceShare) share() Share { return Share{Count: s.Count, Of: s.Of, Rate: s.Rate} }

// RaceFigures sum up races. Times in s, distances in m, as medians; a time that did not
// come counts as longer than all that did, and is null when it is the median.
type RaceFigures struct {
	Races    int64  `json:"races"`
	Reached  Share  `json:"reached"` // a team-mate had the ball under control
	Seconds  Spread `json:"ball_s"`
	Near     Spread `json:"nearest_defender_m"`
	Edge     Spread `json:"beyond_the_block_m"`
	There    Spread `json:"block_there_s"`
	First    Spread `json:"first_pressure_s"`
	Left     Spread `json:"played_on_s"`
	Entered  Share  `json:"then_final_third"`
	Typical  *int   `json:"typical"` // possession
	TypicalS Number `json:"typical_s"`
}

// Spread is a median with quartiles.
type Spread struct {
	Median Number `json:"median"`
	Low    Number `json:"q25"`
	High   Number `json:"q75"`
}

// RaceMan is a player's races: as the receiver, or as the man pressed.
type RaceMan struct {
	Number   int    `json:"number"`
	Name     string `json:"name"`
	Position string `json:"position"`
	Won      Rate   `json:"won"`
}

// Change is what one lever does.
type Change struct {
	Lever   string      `json:"lever"`
	Unit    string      `json:"unit"`
	Now     Number      `json:"now"`
	Low     Number      `json:"low"` // range looked at
	High    Number      `json:"high"`
	Outcome string      `json:"outcome"`
	At      Number      `json:"at"` // where the target is won; null: not found
	From    Number      `json:"from"`
	To      Number      `json:"to"`
	Best    RacePoint   `json:"best"`
	Points  []RacePoint `json:"points"`

	label string
	whole bool
}

// RacePoint is the share won at one value.
type RacePoint struct {
	Value    Number    `json:"value"`
	Won      RaceShare `json:"won"`
	Gain     Number    `json:"gain"` // over the share as it stands, paired by possession
	GainLow  Number    `json:"gain_low"`
	GainHigh Number    `json:"gain_high"`
}

func raceShare(e stats.Estimate, won, of int64) RaceShare {
	return RaceShare{won, of, Number(e.Value), Number(e.Lo), Number(e.Hi)}
}

// NewRace sums the races up.
func NewRace(run RaceRun) *Race {
	n := int64(len(run.Races))
	r := &Race{
		File: clean(run.File), Title: clean(run.Scenario.Title), Focus: run.Focus.String(), Seed: run.Seed, Possessions: n, Asked: int64(run.Asked),
		Search: int64(run.Search), Partial: run.Partial, Version: run.Version, Revision: run.Revision, TickS: Number(sim.TickSeconds), Target: Number(run.Target), focus: run.Focus,
	}
	if !run.Own {
		r.again = fmt.Sprintf(" --seed %d", run.Seed)
	}
	is := func(won, reached bool) func(*explain.Race) bool {
		return func(x *explain.Race) bool { return x.Won == won && x.Reached == reached }
	}
	all := gather(run.Races, func(*explain.Race) bool { return true })
	r.All = raceFigures(all)
	r.All.TypicalS = missing
	for _, kind := range []struct {
		figures *RaceFigures
		keep    func(*explain.Race) bool
	}{{&r.Winners, is(true, true)}, {&r.Beaten, is(false, true)}, {&r.Missed, is(false, false)}} {
		*kind.figures = raceFigures(gather(run.Races, kind.keep))
		kind.figures.TypicalS = missing
		if t := explain.TypicalRace(run.Races, kind.keep); t != nil {
			kind.figures.Typical, kind.figures.TypicalS = &t.Possession, Number(float64(t.Tick)*sim.TickSeconds)
		}
	}
	r.Won = raceShare(explain.ShareWon(run.Races, level), r.Winners.Races, r.All.Races)
	r.Players = raceMen(all, &run.Scenario.Teams[model.Attack])
	for i := range run.Changes {
		r.Changes = append(r.Changes, changeOf(&run.Changes[i]))
	}
	r.Answer, r.Notes = r.answer(), r.notes(run)
	return r
}

func gather(races [][]explain.Race, keep func(*explain.Race) bool) []explain.Race {
	var out []explain.Race
	for _, of := range races {
		for i := range of {
			if keep(&of[i]) {
				out = append(out, of[i])
			}
		}
	}
	return out
}

func raceFigures(races []explain.Race) RaceFigures {
	f := RaceFigures{Races: int64(len(races))}
	reached, early, entered := int64(0), int64(0), int64(0)
	var seconds, near, edge, there, first, left []float64
	for i := range races {
		x := &races[i]
		seconds, near, edge = append(seconds, x.Seconds), append(near, x.Near), append(edge, x.Edge)
		if x.Early {
			early++
		}
		if x.Entered {
			entered++
		}
		if x.Reached {
			reached++
			there, first, left = append(there, x.There), append(first, x.First), append(left, x.Left)
		}
	}
	f.Reached, f.Entered = share(reached, f.Races), share(entered, early)
	f.Seconds, f.Near, f.Edge = spread(seconds), spread(near), spread(edge)
	f.There, f.First, f.Left = spread(there), spread(first), spread(left)
	return f
}

func spread(x []float64) Spread {
	at := func(q float64) Number {
		v := quantile(x, q)
		if math.IsInf(v, 0) {
			return missing
		}
		return Number(v)
	}
	return Spread{at(0.5), at(0.25), at(0.75)}
}

func raceMen(races []explain.Race, team *model.Team) []RaceMan {
	var won, of [11]int64
	for i := range races {
		if p := races[i].Player; p >= 0 {
			of[p]++
			if races[i].Won {
				won[p]++
			}
		}
	}
	var out []RaceMan
	for i := range of {
		if of[i] > 0 {
			p := &team.Players[i]
			out = append(out, RaceMan{p.Number, clean(p.Name), p.Position.String(), rate(won[i], of[i])})
		}
	}
	slices.SortStableFunc(out, func(a, b RaceMan) int { return cmp.Compare(b.Won.Of, a.Won.Of) })
	return out
}

func changeOf(c *explain.Change) Change {
	point := func(p *explain.Point) RacePoint {
		return RacePoint{Number(p.X), raceShare(p.Share, int64(p.Won), int64(p.Races)), Number(p.Gain.Value), Number(p.Gain.Lo), Number(p.Gain.Hi)}
	}
	out := Change{
		Lever: c.Lever.Name, Unit: c.Lever.Unit, Now: Number(c.Lever.Now), Low: Number(c.Lever.Lo), High: Number(c.Lever.Hi),
		Outcome: c.Outcome.String(), At: missing, From: missing, To: missing, Best: point(&c.Best), label: c.Lever.Label, whole: c.Lever.Whole,
	}
	if c.Outcome == explain.Reaches {
		out.At, out.From, out.To = Number(c.At), Number(c.From), Number(c.To)
	}
	for i := range c.Points {
		out.Points = append(out.Points, point(&c.Points[i]))
	}
	return out
}

// Write prints the answer.
func (r *Race) Write(w io.Writer, f Format) error {
	return writeAs(w, f, r.document, func(w io.Writer) error { return writeRows(w, r.rows()) }, r)
}
