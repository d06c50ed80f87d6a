package report

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"playout/internal/explain"
	"playout/model"
	"playout/sim"
)

// ExplainRun is what was played and read off the films.
type ExplainRun struct {
	File     string
	Scenario *model.Scenario
	Stories  []explain.Story
	Goal     explain.Goal
	Asked    int
	Seed     uint64
	Own      bool // the seed is the scenario's own
	Version  string
	Revision int
}

// Explain says why build-ups fail and what works, in the order in which it is written
// as JSON. Keys are stable: fields may be added, but none is renamed or changes its
// meaning.
type Explain struct {
	File        string       `json:"file"`
	Title       string       `json:"title"`
	Goal        string       `json:"goal"`
	Seed        uint64       `json:"seed"` // may exceed 2^53
	Possessions int64        `json:"possessions"`
	Asked       int64        `json:"asked"`
	Partial     bool         `json:"partial"`
	Version     string       `json:"version"`
	Revision    int          `json:"revision"`
	TickS       Number       `json:"tick_s"`
	Answer      []string     `json:"answer"`
	Notes       []string     `json:"notes"`
	Results     Object[Rate] `json:"results"`
	Causes      []Cause      `json:"causes"` // the commonest first
	Works       []Way        `json:"works"`  // the commonest first
	Best        *int         `json:"best"`   // possession that worked best; null: none did
	Flow        []FlowNode   `json:"flow"`
	Links       []FlowLink   `json:"links"`

	goal  explain.Goal
	flow  explain.Flow
	again string // flags that repeat the luck
}

// Cause is a cause of failure.
type Cause struct {
	Cause   string  `json:"cause"`
	Rate    Rate    `json:"rate"`  // of all build-ups
	Share   Rate    `json:"share"` // of those that failed
	Third   string  `json:"third"` // where it is decided most often
	Lane    string  `json:"lane"`
	There   Share   `json:"there"`   // of its cases, in that third and lane
	Typical *int    `json:"typical"` // possession; null: there is none
	Factor  *Factor `json:"factor"`  // what goes with it most; null: nothing that chance would not explain
	Advice  string  `json:"advice"`

	cause explain.Cause
}

// Words name the cause for people.
func (c *Cause) Words() string { return causeWords[c.Cause] }

// Factor is a condition under which a cause is surely commoner than otherwise.
type Factor struct {
	Kind     string `json:"kind"`
	Value    string `json:"value"`
	Among    string `json:"among"` // the trade of the others whom a man is held against; empty: no man
	Under    Share  `json:"under"` // of the spells under it, those that failed so
	Others   Share  `json:"others"`
	Instead  string `json:"instead"` // the value of that kind with the lowest rate; empty for yes or no
	InsteadK Share  `json:"instead_share"`
}

// Way is a way in which build-ups worked.
type Way struct {
	Action  string `json:"action"`
	Lane    string `json:"lane"`
	Share   Rate   `json:"share"` // of the build-ups that worked
	Shots   Share  `json:"shots"`
	XG      Number `json:"xg_per_100"` // of these
	Typical *int   `json:"typical"`
}

// FlowNode and FlowLink count build-ups: in a node of a stage, and from one to the next.
type FlowNode struct {
	Stage     string `json:"stage"`
	Node      string `json:"node"`
	BuildUps  int    `json:"build_ups"`
	OfHundred Number `json:"of_100"`
}

type FlowLink struct {
	From     string `json:"from"` // stage:node
	To       string `json:"to"`
	BuildUps int    `json:"build_ups"`
}

// NewExplain adds the stories up.
func NewExplain(run ExplainRun) *Explain {
	n := int64(len(run.Stories))
	e := &Explain{
		File: clean(run.File), Title: clean(run.Scenario.Title), Goal: run.Goal.String(), Seed: run.Seed, Possessions: n, Asked: int64(run.Asked),
		Partial: n < int64(run.Asked), Version: run.Version, Revision: run.Revision, TickS: Number(sim.TickSeconds), goal: run.Goal,
	}
	if !run.Own {
		e.again = fmt.Sprintf(" --seed %d", run.Seed)
	}
	var results [explain.NumResults]int64
	for i := range run.Stories {
		results[run.Stories[i].Result]++
	}
	e.Results = object(explain.NumResults, func(r explain.Result) Rate { return rate(results[r], n) })
	e.Causes = causes(run, results[explain.Failed])
	e.Works = ways(run, results[explain.Worked])
	if best := explain.BestOf(run.Stories); best != nil {
		e.Best = &best.ID
	}
	e.flow = explain.FlowOf(run.Stories)
	e.fillFlow()
	e.Answer, e.Notes = e.answer(), e.notes()
	return e
}

// causes that occurred, the commonest first.
func causes(run ExplainRun, failed int64) []Cause {
	var out []Cause
	var where [explain.NumCauses][model.NumThirds][model.NumLanes]int64
	var counts [explain.NumCauses]int64
	for i := range run.Stories {
		if s := &run.Stories[i]; s.Result == explain.Failed {
			counts[s.Cause]++
			where[s.Cause][run.Scenario.Pitch.ThirdOf(s.Place.X)][s.Lane]++
		}
	}
	for c := range explain.NumCauses {
		if counts[c] == 0 {
			continue
		}
		row := Cause{
			Cause: c.String(), cause: c, Rate: rate(counts[c], int64(len(run.Stories))), Share: rate(counts[c], failed),
		}
		most := int64(0)
		for t := range model.NumThirds {
			for l := range model.NumLanes {
				if k := where[c][t][l]; k > most {
					most, row.Third, row.Lane = k, t.String(), l.String()
				}
			}
		}
		row.There = share(most, counts[c])
		if s := explain.TypicalOf(run.Stories, func(s *explain.Story) bool { return s.Result == explain.Failed && s.Cause == c }); s != nil {
			row.Typical = &s.ID
		}
		row.Factor, row.Advice = advise(run, c, counts[c])
		out = append(out, row)
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return cmp.Compare(b.Rate.Count, a.Rate.Count) })
	return out
}

// ways that worked, the commonest first.
func ways(run ExplainRun, worked int64) []Way {
	type sums struct {
		n, shots int64
		xg       float64
	}
	var by [explain.NumActions][model.NumLanes]sums
	for i := range run.Stories {
		if s := &run.Stories[i]; s.Result == explain.Worked {
			b := &by[s.Action][s.Lane]
			b.n++
			b.xg += s.XG
			if s.End == sim.EndShot {
				b.shots++
			}
		}
	}
	var out []Way
	for a := range explain.NumActions {
		for l := range model.NumLanes {
			b := &by[a][l]
			if b.n == 0 {
				continue
			}
			w := Way{Action: a.String(), Lane: l.String(), Share: rate(b.n, worked), Shots: share(b.shots, b.n), XG: Number(100 * b.xg / float64(b.n))}
			if s := explain.TypicalOf(run.Stories, func(s *explain.Story) bool { return s.Result == explain.Worked && s.Action == a && s.Lane == l }); s != nil {
				w.Typical = &s.ID
			}
			out = append(out, w)
		}
	}
	slices.SortStableFunc(out, func(a, b Way) int { return cmp.Compare(b.Share.Count, a.Share.Count) })
	return out
}

// stageNames are the stages of the flow in JSON.
var stageNames = [explain.NumStages]string{"start", "third", "lane", "action", "end"}

// fillFlow lists nodes and links that were passed.
func (e *Explain) fillFlow() {
	for st := range explain.NumStages {
		for n, count := range e.flow.Nodes[st] {
			if count > 0 {
				e.Flow = append(e.Flow, FlowNode{stageNames[st], explain.NodeName(st, n), count, scaled(int64(count), e.Possessions, 100)})
			}
			if st+1 == explain.NumStages {
				continue
			}
			for m, links := range e.flow.Links[st][n] {
				if k := links[explain.Worked] + links[explain.Stopped] + links[explain.Failed]; k > 0 {
					e.Links = append(e.Links, FlowLink{stageNames[st] + ":" + explain.NodeName(st, n), stageNames[st+1] + ":" + explain.NodeName(st+1, m), k})
				}
			}
		}
	}
}

// Write prints the explanation.
func (e *Explain) Write(w io.Writer, f Format) error {
	return writeAs(w, f, e.document, func(w io.Writer) error { return writeRows(w, e.rows()) }, e)
}
