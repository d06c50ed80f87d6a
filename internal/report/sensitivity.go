package report

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"playout/internal/hinge"
	"playout/internal/stats"
)

// Sensitivity is what a figure hangs on, in the order in which it is written as JSON.
// Keys are stable. A figure is per 100 build-ups; a share is of the figure's variance
// over all spans at once, as estimated: chance may take one below 0. What is not known
// is null.
type Sensitivity struct {
	Scenario    string   `json:"scenario"`
	Figure      string   `json:"figure"`
	Label       string   `json:"label"` // of the figure, for people
	Unit        string   `json:"unit"`
	Seed        uint64   `json:"seed"`   // may exceed 2^53
	Points      int      `json:"points"` // places in the spans that were looked at
	AskedPoints int      `json:"asked_points"`
	Screened    int      `json:"screened_points"` // places that were screened before; 0: there was no screening
	PerPoint    int      `json:"possessions_per_point"`
	Possessions int64    `json:"possessions"` // in all, screening included
	Partial     bool     `json:"partial"`     // interrupted; figures hold for what was played
	Version     string   `json:"version"`
	Revision    int      `json:"revision"`
	Answer      []string `json:"answer"` // in plain English
	Notes       []string `json:"notes"`

	Mean     Interval  `json:"mean"`     // over all spans
	Variance Interval  `json:"variance"` // over all spans, without the luck of the build-ups
	Noise    Number    `json:"noise"`    // variance that this luck adds to a point's value
	Together Interval  `json:"together"` // share that no input brings alone
	Inputs   []Hanging `json:"inputs"`   // ranked
	Rest     *Rest     `json:"rest"`     // inputs that screening left to be judged together; null: none

	decimals int
}

// Hanging is one input and what the figure owes to it.
type Hanging struct {
	Path  string   `json:"path"`
	Label string   `json:"label"`
	Unit  string   `json:"unit"`
	Now   Number   `json:"now"`
	From  Number   `json:"from"`
	To    Number   `json:"to"`
	Odds  bool     `json:"odds"` // tried evenly in logarithm; the step is a factor
	Step  Number   `json:"step"`
	Each  Interval `json:"change_per_step"`
	Total Interval `json:"total"` // share with others; null for one of the rest
	First Interval `json:"alone"`
	// Mean of the figure with the input in the lower, middle and upper third of its span.
	Thirds    [3]Interval `json:"thirds"`
	Screening *Screening  `json:"screening"` // null: there was none
}

// Screening is what the first look at an input found, for its whole span.
type Screening struct {
	Change Interval `json:"change"` // mean effect
	Size   Interval `json:"size"`   // mean size of the effect
	Spread Number   `json:"spread"` // of the effects from place to place
}

// Rest are inputs judged together.
type Rest struct {
	Paths []string `json:"paths"`
	Total Interval `json:"total"`
	First Interval `json:"alone"`
}

func intervalOf(e stats.Estimate, unit float64) Interval {
	return Interval{Number(unit * e.Value), Number(unit * e.Lo), Number(unit * e.Hi)}
}

var noInterval = Interval{missing, missing, missing}

// DescribeSensitivity puts a study into words and rows.
func DescribeSensitivity(title string, st *hinge.Study, version string, revision int) *Sensitivity {
	s := &Sensitivity{
		Scenario: title, Figure: st.Figure.Name, Label: st.Figure.Label, Unit: st.Figure.Unit,
		Seed: st.Seed, AskedPoints: st.Points, Screened: st.Stars, PerPoint: st.Possessions, Possessions: int64(st.Played),
		Partial: !st.Whole, Version: version, Revision: revision,
		Mean: noInterval, Variance: noInterval, Noise: missing, Together: noInterval,
		decimals: st.Figure.Decimals,
	}
	all := make([]Hanging, len(st.Inputs))
	for i := range all {
		all[i] = s.input(st, i)
	}
	var order []int
	if d := st.Shares; d != nil {
		s.Points = d.Rows
		s.Mean, s.Variance, s.Noise = intervalOf(d.Mean, 1), intervalOf(d.Variance, 1), Number(d.Noise)
		s.Together = intervalOf(d.Together, 1)
		order = s.shares(st, all)
	} else if st.Effects != nil {
		order = hinge.ByStrength(st.Effects)
	}
	for _, i := range order {
		s.Inputs = append(s.Inputs, all[i])
	}
	s.Notes = append(s.Notes, st.Notes...)
	s.Answer = s.answer()
	return s
}

// input is what the scenario and the screening say of an input.
func (s *Sensitivity) input(st *hinge.Study, i int) Hanging {
	in := &st.Inputs[i]
	h := Hanging{
		Path: in.Path, Label: in.Label, Unit: in.Unit, Now: Number(in.Now), From: Number(in.From), To: Number(in.To),
		Odds: in.Ratio, Step: Number(in.Step), Each: noInterval, Total: noInterval, First: noInterval,
		Thirds: [3]Interval{noInterval, noInterval, noInterval},
	}
	if st.Effects != nil {
		e := st.Effects[i]
		h.Screening = &Screening{intervalOf(e.Mean, 1), intervalOf(e.Size, 1), Number(e.Sigma)}
		h.Each = intervalOf(e.Mean, in.PerStep())
	}
	return h
}

// shares fills in what the shares of variance say and returns the ranking: by share
// with others, and those left to be judged together last, by their screening.
func (s *Sensitivity) shares(st *hinge.Study, all []Hanging) []int {
	var order []int
	for k, inputs := range st.Factors {
		f := st.Shares.Factors[k]
		if len(inputs) != 1 {
			s.Rest = &Rest{Total: intervalOf(f.Total, 1), First: intervalOf(f.First, 1)}
			for _, i := range inputs {
				s.Rest.Paths = append(s.Rest.Paths, st.Inputs[i].Path)
			}
			continue
		}
		h := &all[inputs[0]]
		h.Total, h.First = intervalOf(f.Total, 1), intervalOf(f.First, 1)
		h.Each = intervalOf(f.Slope, st.Inputs[inputs[0]].PerStep())
		for t := range h.Thirds {
			h.Thirds[t] = intervalOf(f.Third[t], 1)
		}
		order = append(order, inputs[0])
	}
	rank(order, func(i int) float64 { return float64(all[i].Total.Value) })
	if s.Rest != nil {
		for _, i := range hinge.ByStrength(st.Effects) {
			if !all[i].Total.Value.Known() {
				order = append(order, i)
			}
		}
	}
	return order
}

// Write prints the answer. CSV and JSON hold everything.
func (s *Sensitivity) Write(w io.Writer, f Format) error {
	return writeAs(w, f, s.document, s.writeCSV, s)
}

// writeCSV writes a row for each input; a cell for which there is no figure is empty.
func (s *Sensitivity) writeCSV(w io.Writer) error {
	head := []string{"rank", "path", "label", "unit", "now", "from", "to", "odds", "step"}
	for _, name := range []string{"change_per_step", "total", "alone", "third_low", "third_middle", "third_high", "screening_change", "screening_size"} {
		head = append(head, name, name+"_lo", name+"_hi")
	}
	out := csv.NewWriter(w)
	lines := [][]string{head}
	for i, h := range s.Inputs {
		line := []string{strconv.Itoa(i + 1), h.Path, guard(h.Label), guard(h.Unit), h.Now.text(), h.From.text(), h.To.text(), fmt.Sprint(h.Odds), h.Step.text()}
		change, size := noInterval, noInterval
		if h.Screening != nil {
			change, size = h.Screening.Change, h.Screening.Size
		}
		for _, v := range []Interval{h.Each, h.Total, h.First, h.Thirds[0], h.Thirds[1], h.Thirds[2], change, size} {
			line = append(line, v.Value.text(), v.Low.text(), v.High.text())
		}
		lines = append(lines, line)
	}
	if s.Rest != nil {
		line := make([]string, len(head))
		line[1], line[2] = strings.Join(s.Rest.Paths, " "), "all of these together"
		for i, v := range []Interval{s.Rest.Total, s.Rest.First} {
			copy(line[12+3*i:], []string{v.Value.text(), v.Low.text(), v.High.text()})
		}
		lines = append(lines, line)
	}
	return out.WriteAll(lines)
}
