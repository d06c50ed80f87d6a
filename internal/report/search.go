package report

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strconv"

	"playout/internal/experiment"
	"playout/internal/search"
	"playout/internal/stats"
)

// Search is the answer of a search, as the object of its JSON. Figures are per
// build-up.
type Search struct {
	Scenario string   `json:"scenario"`
	Figure   string   `json:"figure"`
	Wanted   string   `json:"wanted"`  // "more" or "less" of it
	Verdict  string   `json:"verdict"` // better, worse, cannot tell, the original, not judged
	Partial  bool     `json:"partial"`
	Answer   []string `json:"answer"`

	Changes  []SearchChange     `json:"changes"`
	Figures  []SearchFigure     `json:"figures"` // on fresh luck; the one searched for is among them
	Luckiest SearchLuckiest     `json:"luckiest"`
	Progress []SearchGeneration `json:"progress"`

	Free     int    `json:"free"`     // numbers that were free, two for each place
	Tried    int    `json:"tried"`    // variants
	Budget   int    `json:"budget"`   // build-ups, of all variants
	Searched int    `json:"searched"` // build-ups played while searching
	Fresh    int    `json:"fresh"`    // build-ups of each in the last comparison
	First    int    `json:"first"`    // number of the first of them
	Written  string `json:"written"`  // file of the variant; empty without one
	Seed     uint64 `json:"seed"`
	Version  string `json:"version"`
	Revision int    `json:"revision"`

	result *search.Result
	figure experiment.Figure
}

// SearchChange is a value that what was found changes.
type SearchChange struct {
	Path   string `json:"path"`
	Label  string `json:"label"`
	From   string `json:"from"`
	To     string `json:"to"`
	Unit   string `json:"unit"`
	By     Number `json:"by"`      // of a number: to minus from; of a place: the way, m
	Up     Number `json:"up"`      // of a place: m towards the opponent's goal
	ToLeft Number `json:"to_left"` // of a place: m
}

// Lead is a difference with its 95 % interval.
type Lead struct {
	Difference Number `json:"difference"`
	Low        Number `json:"low"`
	High       Number `json:"high"`
}

func lead(e stats.Estimate, sign float64) Lead {
	lo, hi := sign*e.Lo, sign*e.Hi
	return Lead{Number(sign * e.Value), Number(min(lo, hi)), Number(max(lo, hi))}
}

// SearchFigure is a figure of the original and of what was found, under the same luck.
type SearchFigure struct {
	Figure   string `json:"figure"`
	Original Number `json:"original"`
	Found    Number `json:"found"`
	Lead
}

// SearchLuckiest is the variant with the largest lead while searching, and that same
// variant on fresh luck.
type SearchLuckiest struct {
	BuildUps  int  `json:"build_ups"` // it had while searching
	Searching Lead `json:"searching"`
	Fresh     Lead `json:"fresh"`
}

// SearchGeneration is a step of the search. Leads are over the original, on the same
// build-ups.
type SearchGeneration struct {
	Spent    int    `json:"spent"` // build-ups up to its end
	Variants int    `json:"variants"`
	BuildUps int    `json:"build_ups"` // of each variant that stayed to the end
	Dropped  int    `json:"dropped"`   // variants that dropped out early
	Best     Lead   `json:"best"`      // picked for being best
	Half     Lead   `json:"half"`      // mean of the better half; picked too
	Spread   Number `json:"spread"`    // standard deviation of a free value, as a share of its range
}

// Searched makes the answer of a search.
func Searched(r *search.Result, written, version string, revision int) *Search {
	c, found := &r.Config, r.Search
	s := &Search{
		Scenario: r.Title, Figure: c.Figure.Name, Wanted: "more", Verdict: string(r.Verdict()), Partial: r.Stopped || r.Partial,
		Free: r.Freedom.Dimensions(), Tried: r.Tried, Budget: c.Budget, Searched: found.Spent, Fresh: r.Judged, First: r.First,
		Written: written, Seed: c.Seed, Version: version, Revision: revision,
		Changes: []SearchChange{}, Figures: []SearchFigure{}, result: r, figure: c.Figure,
	}
	if c.Sign() < 0 {
		s.Wanted = "less"
	}
	for _, ch := range r.Changes {
		s.Changes = append(s.Changes, searchChange(ch))
	}
	for _, f := range searchFigures(c.Figure) {
		a, b := experiment.Mean(r.Original, f), experiment.Mean(r.Found, f)
		s.Figures = append(s.Figures, SearchFigure{f.Name, Number(a.Value), Number(b.Value),
			lead(experiment.Difference(r.Original, r.Found, f).Estimate, 1)})
	}
	boldest := found.Boldest()
	s.Luckiest = SearchLuckiest{boldest.Looks, lead(boldest.Best, c.Sign()),
		lead(experiment.Difference(r.Original, r.Luckiest, c.Figure).Estimate, 1)}
	for _, g := range found.Generations {
		s.Progress = append(s.Progress, SearchGeneration{g.Spent, g.Points, g.Looks, g.Dropped,
			lead(g.Best, c.Sign()), lead(g.Half, c.Sign()), Number(g.Spread)})
	}
	s.Answer = s.answer()
	return s
}

// searchFigures are the headline figures, the one searched for first.
func searchFigures(wanted experiment.Figure) []experiment.Figure {
	out := []experiment.Figure{wanted}
	for _, f := range experiment.Headline {
		if f.Name != wanted.Name {
			out = append(out, f)
		}
	}
	return out
}

func searchChange(c search.Change) SearchChange {
	out := SearchChange{c.Path, c.Label, c.From, c.To, c.Unit, Number(c.Size), missing, missing}
	switch {
	case c.Place:
		out.Up, out.ToLeft = Number(c.DX), Number(c.DY)
	case c.Size == 0: // a word
		out.By = missing
	}
	return out
}

// Write prints the answer. Full adds the progress of the search to Table and
// Markdown; CSV and JSON always hold everything.
func (s *Search) Write(w io.Writer, f Format, full bool) error {
	switch f {
	case Table:
		return s.document(full).terminal(w)
	case Markdown:
		return s.document(full).markdown(w)
	case CSV:
		return s.writeCSV(w)
	case JSON:
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		return e.Encode(s)
	}
	return fmt.Errorf("report: unknown format %q", f)
}

// writeCSV writes one row for each change, figure, generation and measure of the
// luckiest variant.
func (s *Search) writeCSV(w io.Writer) error {
	lines := [][]string{{"part", "name", "original", "found", "difference", "low", "high", "build_ups", "spread"}}
	for _, c := range s.Changes {
		lines = append(lines, []string{"change", c.Path, guard(c.From), guard(c.To), c.By.text(), "", "", "", ""})
	}
	of := func(part, name string, a, b Number, l Lead, n int, spread Number) {
		lines = append(lines, []string{part, name, a.text(), b.text(), l.Difference.text(), l.Low.text(), l.High.text(), strconv.Itoa(n), spread.text()})
	}
	for _, f := range s.Figures {
		of("fresh", f.Figure, f.Original, f.Found, f.Lead, s.Fresh, missing)
	}
	of("luckiest", "searching", missing, missing, s.Luckiest.Searching, s.Luckiest.BuildUps, missing)
	of("luckiest", "fresh", missing, missing, s.Luckiest.Fresh, s.Fresh, missing)
	for i, g := range s.Progress {
		of("generation", strconv.Itoa(i+1)+"/best", missing, missing, g.Best, g.BuildUps, missing)
		of("generation", strconv.Itoa(i+1)+"/half", missing, missing, g.Half, g.BuildUps, g.Spread)
	}
	return csv.NewWriter(w).WriteAll(lines)
}

// decimals that a figure per 100 build-ups deserves.
func (s *Search) decimals() int { return s.figure.Decimals }

// spoken writes a lead per 100 build-ups with its interval.
func spoken(l Lead, decimals int) string {
	return fmt.Sprintf("%s (%s to %s)", plus(100*l.Difference, decimals), plus(100*l.Low, decimals), plus(100*l.High, decimals))
}

// plus writes a number with its sign, and none when it rounds to 0.
func plus(x Number, decimals int) string {
	text := fixed(x, decimals)
	if x > 0 && math.Abs(float64(x)) >= 0.5*math.Pow10(-decimals) {
		return "+" + text
	}
	return text
}
