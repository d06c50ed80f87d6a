package report

import (
	"encoding/csv"
	"io"
	"math"
	"strconv"

	"playout/internal/experiment"
	"playout/model"
	"playout/sim"
)

// Compare is what variants of a scenario differ by, in the order in which it is
// written as JSON. Keys are stable: fields may be added, but none is renamed or
// changes its meaning. Values are in the unit that stands beside them: per 100
// build-ups or, of shares, %.
type Compare struct {
	Scenarios        []Compared   `json:"scenarios"`         // the reference first
	Seed             uint64       `json:"seed"`              // of all; may exceed 2^53
	Possessions      int          `json:"possessions"`       // of each that are compared
	Asked            int          `json:"asked"`             // to be played of each
	Partial          bool         `json:"partial"`           // interrupted
	Precision        Number       `json:"precision"`         // half-width of the difference asked for, per build-up; null when none was
	PrecisionReached bool         `json:"precision_reached"` // false also when none was asked for
	Version          string       `json:"version"`
	Revision         int          `json:"revision"`
	TickS            Number       `json:"tick_s"`
	Figure           string       `json:"figure"` // the figure asked about
	Answer           []string     `json:"answer"`
	Notes            []string     `json:"notes"`
	Comparisons      []Comparison `json:"comparisons"`

	asked       experiment.Figure
	comparisons []experiment.Comparison
	changes     [][]experiment.Change // by scenario
}

// Compared is one of the scenarios.
type Compared struct {
	Letter  string   `json:"letter"`
	File    string   `json:"file"`
	Title   string   `json:"title"`
	Differs []string `json:"differs"` // parts in which it differs from the reference
}

// Comparison is a variant against the reference.
type Comparison struct {
	Variant   string     `json:"variant"` // letters
	Reference string     `json:"reference"`
	Asked     Contrast   `json:"asked"`
	Others    []Contrast `json:"others"`
	Lanes     []Contrast `json:"lanes"`
}

// Contrast is one figure of two variants.
type Contrast struct {
	Figure      string `json:"figure"`
	Label       string `json:"label"`
	Unit        string `json:"unit"`
	Reference   Number `json:"reference"`
	Variant     Number `json:"variant"`
	Difference  Number `json:"difference"` // variant - reference
	Low         Number `json:"low"`        // of its 95 % interval, by itself
	High        Number `json:"high"`
	SE          Number `json:"se"`
	P           Number `json:"p"`          // two-sided, of no difference
	PAdjusted   Number `json:"p_adjusted"` // after Holm, within asked, others or lanes
	Verdict     string `json:"verdict"`
	Little      bool   `json:"little"` // told, but not worth having
	Worth       Number `json:"worth"`  // a difference up to this is not; null: any is
	Needed      Number `json:"needed"` // build-ups of each that tell such a difference; null where there is hardly one
	Apart       int64  `json:"apart"`  // build-ups in which the two differ
	Correlation Number `json:"correlation"`
	Gain        Number `json:"gain"`        // variance with independent luck over this one; null: the two agree throughout
	Independent Number `json:"independent"` // build-ups of each for this interval with independent luck
}

// CompareRun is what was compared, and how.
type CompareRun struct {
	Files     []string // the reference first
	Scenarios []*model.Scenario
	Results   *experiment.Results
	Asked     int // possessions of each that were to be played
	Figure    experiment.Figure
	Worth     float64 // difference of the figure worth having, per possession; 0: the usual share
	Seed      uint64
	Precision float64 // half-width asked for, per possession; 0: none
	Reached   bool
	Version   string
	Revision  int
}

// NewCompare computes what the variants differ by.
func NewCompare(run CompareRun) *Compare {
	n := run.Results.Paired()
	c := &Compare{
		Seed: run.Seed, Possessions: n, Asked: run.Asked, Partial: n < run.Asked && !run.Reached,
		Precision: missing, PrecisionReached: run.Reached,
		Version: run.Version, Revision: run.Revision, TickS: Number(sim.TickSeconds),
		Figure: run.Figure.Name, asked: run.Figure,
	}
	if run.Precision > 0 {
		c.Precision = Number(run.Precision)
	}
	for i, sc := range run.Scenarios {
		changes := experiment.Changes(run.Scenarios[0], sc)
		differs := []string{}
		for _, ch := range changes {
			differs = append(differs, ch.String())
		}
		c.changes = append(c.changes, changes)
		c.Scenarios = append(c.Scenarios, Compared{Letter(i), clean(run.Files[i]), untitled(clean(sc.Title)), differs})
	}
	c.comparisons = experiment.Compare(run.Results, n, run.Figure, run.Worth)
	for i := range c.comparisons {
		x := &c.comparisons[i]
		c.Comparisons = append(c.Comparisons, Comparison{
			Letter(i + 1), Letter(0), contrastRow(&x.Asked), contrastRows(x.Others), contrastRows(x.Lanes),
		})
	}
	c.Answer = c.answer()
	c.Notes = c.notes(run.Scenarios)
	return c
}

// Letter names variant i: A is the reference.
func Letter(i int) string { return string(rune('A' + i)) }

// MaxCompared is how many letters there are.
const MaxCompared = 26

func untitled(title string) string {
	if title == "" {
		return "Untitled scenario"
	}
	return title
}

func contrastRows(list []experiment.Contrast) []Contrast {
	out := make([]Contrast, len(list))
	for i := range list {
		out[i] = contrastRow(&list[i])
	}
	return out
}

// contrastRow is a contrast per 100 possessions.
func contrastRow(c *experiment.Contrast) Contrast {
	of := func(x float64) Number { return Number(100 * x) }
	d := &c.Difference
	row := Contrast{
		Figure: c.Figure.Name, Label: c.Figure.Label, Unit: c.Figure.Unit,
		Reference: of(c.Reference), Variant: of(c.Variant), Difference: of(d.Value), Low: of(d.Lo), High: of(d.Hi), SE: of(d.StdErr),
		P: Number(c.P), PAdjusted: Number(c.Adjusted), Verdict: c.Verdict.String(), Little: c.Little(),
		Worth: missing, Needed: missing, Apart: d.Apart,
		Correlation: Number(d.Correlation), Gain: Number(d.Gain), Independent: Number(math.Round(c.Independent())),
	}
	if c.Worth > 0 {
		row.Worth = of(c.Worth)
	}
	if c.Needed > 0 {
		row.Needed = Number(c.Needed)
	}
	return row
}

// Write prints the comparison.
func (c *Compare) Write(w io.Writer, f Format) error {
	return writeAs(w, f, c.document, c.writeCSV, c)
}

// writeCSV writes one contrast in a row.
func (c *Compare) writeCSV(w io.Writer) error {
	out := csv.NewWriter(w)
	out.Write([]string{"variant", "reference", "family", "figure", "unit", "reference_value", "variant_value", "difference", "low", "high", "se",
		"p", "p_adjusted", "verdict", "worth", "needed", "apart", "correlation", "gain", "independent"})
	for _, x := range c.Comparisons {
		for _, family := range []struct {
			name string
			rows []Contrast
		}{{"asked", []Contrast{x.Asked}}, {"others", x.Others}, {"lanes", x.Lanes}} {
			for _, r := range family.rows {
				row := []string{x.Variant, x.Reference, family.name, r.Figure, r.Unit}
				for _, n := range []Number{r.Reference, r.Variant, r.Difference, r.Low, r.High, r.SE, r.P, r.PAdjusted} {
					row = append(row, n.text())
				}
				row = append(row, r.Verdict, r.Worth.text(), r.Needed.text(), strconv.FormatInt(r.Apart, 10), r.Correlation.text(), r.Gain.text(), r.Independent.text())
				out.Write(row)
			}
		}
	}
	out.Flush()
	return out.Error()
}
