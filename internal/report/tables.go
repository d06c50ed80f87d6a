package report

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"playout/model"
)

// tables are the tables for people: five that answer the question, then, in
// full, the rest.
func (s *Summary) tables(full bool) []*table {
	if s.Possessions == 0 {
		return nil
	}
	out := []*table{s.ladderTable(), s.laneTable(), s.endTable()}
	if s.AfterLoss.Seconds > 0 {
		out = append(out, s.afterTable())
	}
	out = append(out, s.blockTable())
	if full {
		out = append(out, s.fullTables()...)
	}
	if s.ParameterDoubt.split() {
		for _, t := range out[1:] { // the ladder's intervals cover more
			if i := slices.Index(t.head, intervalHead); i >= 0 {
				t.head[i] = chanceHead
			}
		}
	}
	return out
}

// The cells. A missing figure is a dash.

func fixed(n Number, decimals int) string {
	if !n.Known() {
		return "-"
	}
	text := strconv.FormatFloat(float64(n), 'f', decimals, 64)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

func hundredfold(n Number, decimals int) string { return fixed(n*100, decimals) }

func percent(n Number) string {
	if !n.Known() {
		return "-"
	}
	return hundredfold(n, 0) + "%"
}

func span(low, high Number, unit float64, decimals int) string {
	if !low.Known() || !high.Known() {
		return "-"
	}
	return fixed(low*Number(unit), decimals) + " to " + fixed(high*Number(unit), decimals)
}

// interval of a rate, per 100.
func interval(r Rate) string { return span(r.Low, r.High, 100, 1) }

// plusMinus writes a mean and its standard error inside a sentence.
func plusMinus(m Mean, unit string) string {
	return fmt.Sprintf("%s %s (standard error %s)", fixed(m.Mean, 1), unit, fixed(m.SE, 2))
}

// who names a player: shirt number, and his name or else his position.
func who(number int, name, position string) string {
	if name == "" {
		name = position
	}
	return strconv.Itoa(number) + " " + cut(name, maxName)
}

const (
	intervalHead = "95% interval"
	chanceHead   = "95% by chance" // where others in the report cover more
)

func (s *Summary) ladderTable() *table {
	t := &table{title: "How far it gets", head: []string{"per 100 build-ups", "rate", intervalHead, "build-ups"}}
	if e := s.Means.Get("entry_s"); e.N > 0 {
		t.note = "The controlled entry takes " + plusMinus(e, "s") + " and " + plusMinus(s.Means.Get("entry_passes"), "passes") + "."
	}
	split := s.ParameterDoubt.split()
	if split {
		t.head = append(t.head, doubtHead...)
		t.note = strings.TrimSpace(t.note + " " + doubtNote)
	}
	for _, f := range s.Rates {
		if f.Key == "final_third_reached" {
			continue // stands in the table of open data; here it would blur the ladder
		}
		if f.Key == "turnover" {
			t.gap()
		}
		row := []string{stepWords[f.Key], hundredfold(f.Value.Rate, 1), interval(s.widest(f.Key)), thousands(f.Value.Count)}
		if split {
			row = append(row, s.ParameterDoubt.Rates.Get(f.Key).cells()...)
		}
		t.add(row...)
	}
	return t
}

func (s *Summary) laneTable() *table {
	t := &table{
		title: "Where it gets in, and what comes of it",
		note:  "By lane (channel) of the controlled entry; shots, xG and goals per 100 build-ups.",
		head:  []string{"lane of entry", "entries", "share, %", intervalHead, "shots", "xG", "goals", "xG per 100 entries"},
	}
	for _, f := range s.EntriesByLane {
		c := s.ChancesByLane.Get(f.Key)
		t.add(laneWords[f.Key], thousands(f.Value.Count), hundredfold(f.Value.Rate, 1), interval(f.Value),
			fixed(c.ShotsPer100, 1), fixed(c.XGPer100, 2), fixed(c.GoalsPer100, 2), fixed(c.XGPer100Entries, 1))
	}
	return t
}

func (s *Summary) endTable() *table {
	t := &table{
		title: "How and where it ends",
		head:  []string{"per 100 build-ups", "rate", intervalHead, "own third", "middle third", "final third"},
	}
	if r := s.LossesUnderPressure; r.Of > 0 {
		t.note = fmt.Sprintf("%s of the losses come under pressure (%s).", percent(r.Rate), interval(r))
	}
	ends := mostFirst(s.Ends, func(f Field[EndRate]) int64 {
		if f.Value.Lost {
			return f.Value.Count + s.Possessions + 1 // losses come before the other ends
		}
		return f.Value.Count
	})
	row := func(name string, all Rate, third func(model.Third) Number) {
		t.add(name, hundredfold(all.Rate, 1), interval(all),
			hundredfold(third(model.OwnThird), 1), hundredfold(third(model.MiddleThird), 1), hundredfold(third(model.FinalThird), 1))
	}
	row("ball lost, of which", s.Rates.Get("turnover"), func(k model.Third) Number {
		sum := Number(0)
		for _, f := range s.LossesByZone.Get(k.String()) {
			sum += f.Value.Rate
		}
		return sum
	})
	for _, f := range ends {
		name := endWords[f.Key]
		if f.Value.Lost {
			name = "- " + name
		}
		row(name, f.Value.Rate, func(k model.Third) Number { return f.Value.ByThird.Get(k.String()).Rate })
	}
	return t
}

func (s *Summary) blockTable() *table {
	b := &s.Block
	t := &table{title: "What the block did", head: []string{"of the block", "value", "unit"}, units: true}
	if most := mostJumps(b.JumpsByPlayer); most != "" {
		t.note = "Jumped most: " + most + "."
	}
	t.add("time spent pressing", hundredfold(b.PressShare, 1), "% of the time")
	t.add("gap, last line to midfield line", fixed(b.GapM, 1), "m")
	t.add("width", fixed(b.WidthM, 1), "m")
	t.add("length, deepest to highest player", fixed(b.LengthM, 1), "m")
	t.add("lag in shifting across", fixed(b.LagS, 2), "s")
	t.add("when pressed, time to pressure", fixed(b.TimeToPressureS, 1), "s")
	t.add("receptions pressed before release", hundredfold(b.Pressed.Rate, 1), "% of receptions")
	t.add("jumps out of the block", fixed(b.JumpsPer100, 0), "per 100 build-ups")
	t.add("ball regained within 5 s of a jump", hundredfold(b.JumpsWon.Rate, 1), "% of jumps")
	t.add("passes per defensive action, whole pitch", fixed(b.PassesPerAction, 1), "passes")
	t.add("defenders pinned at any moment", fixed(b.Pinned, 2), "players")
	return t
}

// mostJumps names the three players who jumped most.
func mostJumps(players []PlayerShare) string {
	var names []string
	for _, p := range mostFirst(players, func(p PlayerShare) int64 { return p.Count }) {
		if p.Count > 0 && len(names) < 3 {
			names = append(names, fmt.Sprintf("%s (%s)", who(p.Number, p.Name, p.Position), percent(p.Rate)))
		}
	}
	return strings.Join(names, ", ")
}

// mostFirst is a copy of the rows, the highest count first, ties in their order.
func mostFirst[T any](rows []T, count func(T) int64) []T {
	sorted := slices.Clone(rows)
	slices.SortStableFunc(sorted, func(a, b T) int { return cmp.Compare(count(b), count(a)) })
	return sorted
}
