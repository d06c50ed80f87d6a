package report

import (
	"encoding/csv"
	"io"
	"strconv"

	"playout/internal/experiment"
	"playout/internal/search"
	"playout/internal/stats"
	"playout/sim"
)

// Search is the answer of a search, in the order in which it is written as JSON.
// Keys are stable. Differences are variant minus original, per 100 build-ups.
type Search struct {
	Scenario string   `json:"scenario"`
	Figure   string   `json:"figure"`
	Wanted   string   `json:"wanted"` // "more" or "less" of it
	Better   bool     `json:"better"` // on fresh luck; only then a variant is written
	Written  string   `json:"written"`
	Partial  bool     `json:"partial"`
	Answer   []string `json:"answer"`
	Notes    []string `json:"notes"`

	Changes  []SearchChange     `json:"changes"`  // of what the search settled on
	Asked    *Contrast          `json:"asked"`    // the figure searched for, on fresh luck; null when that was not played
	Others   []Contrast         `json:"others"`   // the other figures
	Claim    *SearchClaim       `json:"claim"`    // what the search itself measured of it; null when it was cut short
	Luckiest SearchClaim        `json:"luckiest"` // the largest lead of any variant while searching
	Progress []SearchGeneration `json:"progress"`

	Free     int    `json:"free"`     // numbers that were free, two for each place
	Tried    int    `json:"tried"`    // variants
	Budget   int    `json:"budget"`   // build-ups, of all variants
	Searched int    `json:"searched"` // of them, played while searching
	Fresh    int    `json:"fresh"`    // build-ups of each in the comparison on fresh luck
	First    int    `json:"first"`    // number of the first of them
	Seed     uint64 `json:"seed"`     // may exceed 2^53
	Version  string `json:"version"`
	Revision int    `json:"revision"`
	TickS    Number `json:"tick_s"`

	result *search.Result
	figure experiment.Figure
}

// SearchChange is a value that what was found changes.
type SearchChange struct {
	Path   string `json:"path"`
	Label  string `json:"label"`
	Unit   string `json:"unit"`
	From   string `json:"from"`
	To     string `json:"to"`
	By     Number `json:"by"`      // of a number: to minus from; of a place: the way, m; null of a word
	Up     Number `json:"up"`      // of a place: m towards the opponent's goal
	ToLeft Number `json:"to_left"` // of a place: m
}

// Lead is a difference from the original with its 95 % interval.
type Lead struct {
	Difference Number `json:"difference"`
	Low        Number `json:"low"`
	High       Number `json:"high"`
}

// leadOf is an estimate per build-up as a lead per 100. The search counts a figure
// that is to be less with its sign turned; sign turns it back.
func leadOf(e stats.Estimate, sign float64) Lead {
	lo, hi := 100*sign*e.Lo, 100*sign*e.Hi
	return Lead{Number(100 * sign * e.Value), Number(min(lo, hi)), Number(max(lo, hi))}
}

// SearchClaim is a lead that a search measured and picked for being large.
type SearchClaim struct {
	BuildUps int `json:"build_ups"`
	Of       int `json:"of"` // it was picked from so many
	Lead
}

// SearchGeneration is a step of the search.
type SearchGeneration struct {
	Spent    int    `json:"spent"` // build-ups up to its end
	Variants int    `json:"variants"`
	BuildUps int    `json:"build_ups"` // of each variant that stayed to the end
	Dropped  int    `json:"dropped"`   // variants given up early
	Best     Lead   `json:"best"`      // of the best variant, picked for being best
	Half     Lead   `json:"half"`      // of the mean of the better half; picked too
	Spread   Number `json:"spread"`    // standard deviation of a free value, % of its range
}

// NewSearch makes the answer of a search; written is the file of the variant, if any.
func NewSearch(r *search.Result, written, version string) *Search {
	c, found := &r.Config, r.Search
	boldest := found.Boldest()
	s := &Search{
		Scenario: untitled(clean(r.Title)), Figure: c.Figure.Name, Wanted: "more", Better: r.Better(), Written: written,
		Partial: r.Stopped || r.Partial, Changes: []SearchChange{}, Others: []Contrast{},
		Luckiest: SearchClaim{boldest.Looks, r.Tried, leadOf(boldest.Best, c.Sign())},
		Free:     r.Freedom.Dimensions(), Tried: r.Tried, Budget: c.Budget, Searched: found.Spent, Fresh: r.Judged, First: r.First,
		Seed: c.Seed, Version: version, Revision: sim.Revision, TickS: Number(sim.TickSeconds),
		result: r, figure: c.Figure,
	}
	if c.Sign() < 0 {
		s.Wanted = "less"
	}
	for _, ch := range r.Changes {
		s.Changes = append(s.Changes, searchChange(ch))
	}
	if r.Judged >= 2 {
		row := contrastRow(&r.Comparison.Asked)
		s.Asked, s.Others = &row, contrastRows(r.Comparison.Others)
	}
	if found.Looks > 0 {
		s.Claim = &SearchClaim{found.Looks, found.Finalists, leadOf(found.Lead, c.Sign())}
	}
	for _, g := range found.Generations {
		s.Progress = append(s.Progress, SearchGeneration{g.Spent, g.Points, g.Looks, g.Dropped,
			leadOf(g.Best, c.Sign()), leadOf(g.Half, c.Sign()), Number(100 * g.Spread)})
	}
	s.Answer, s.Notes = s.answer(), s.notes()
	return s
}

func searchChange(c search.Change) SearchChange {
	out := SearchChange{clean(c.Path), clean(c.Label), c.Unit, clean(c.From), clean(c.To), Number(c.Size), missing, missing}
	switch {
	case c.Place:
		out.Up, out.ToLeft = Number(c.DX), Number(c.DY)
	case c.Size == 0: // a word
		out.By = missing
	}
	return out
}

// Write prints the answer. Full adds how the search went to Table and Markdown; CSV
// and JSON always hold everything.
func (s *Search) Write(w io.Writer, f Format, full bool) error {
	return writeAs(w, f, func() *document { return s.document(full) }, s.writeCSV, s)
}

// writeCSV writes a row for each change, each figure on fresh luck, what the search
// claimed, and two for each generation.
func (s *Search) writeCSV(w io.Writer) error {
	lines := [][]string{{"part", "name", "original", "found", "difference", "low", "high", "build_ups", "verdict"}}
	for _, c := range s.Changes {
		lines = append(lines, []string{"change", guard(c.Path), guard(c.From), guard(c.To), c.By.text(), "", "", "", ""})
	}
	of := func(part, name string, a, b Number, l Lead, n int, verdict string) {
		lines = append(lines, []string{part, name, a.text(), b.text(), l.Difference.text(), l.Low.text(), l.High.text(), strconv.Itoa(n), verdict})
	}
	figures := s.Others
	if s.Asked != nil {
		figures = append([]Contrast{*s.Asked}, s.Others...)
	}
	for _, f := range figures {
		of("fresh", f.Figure, f.Reference, f.Variant, Lead{f.Difference, f.Low, f.High}, s.Fresh, f.Verdict)
	}
	if s.Claim != nil {
		of("claim", s.Figure, missing, missing, s.Claim.Lead, s.Claim.BuildUps, "")
	}
	of("luckiest", s.Figure, missing, missing, s.Luckiest.Lead, s.Luckiest.BuildUps, "")
	for i, g := range s.Progress {
		of("generation", strconv.Itoa(i+1)+"/best", missing, missing, g.Best, g.BuildUps, "")
		of("generation", strconv.Itoa(i+1)+"/half", missing, missing, g.Half, g.BuildUps, "")
	}
	return csv.NewWriter(w).WriteAll(lines)
}
