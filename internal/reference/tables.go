package reference

import (
	"embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
)

//go:embed data/*.csv
var data embed.FS

// Figure is a value of the real game with its spread over competitions,
// matches or teams.
type Figure struct {
	Name      string
	Value     float64
	Low, High float64
}

// rows reads a table: its header line and the rows as maps from column to cell.
func rows(name string) []map[string]string {
	f, err := data.Open("data/" + name + ".csv")
	if err != nil {
		panic(fmt.Sprintf("reference: %v", err))
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	lines, err := r.ReadAll()
	if err != nil || len(lines) < 2 {
		panic(fmt.Sprintf("reference: table %s: %v", name, err))
	}
	out := make([]map[string]string, 0, len(lines)-1)
	for _, line := range lines[1:] {
		row := make(map[string]string, len(line))
		for i, cell := range line {
			row[lines[0][i]] = cell
		}
		out = append(out, row)
	}
	return out
}

// number reads a cell of a shipped table; a cell that is none is a fault of the
// build.
func number(row map[string]string, column string) float64 {
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		panic(fmt.Sprintf("reference: column %s: %v", column, err))
	}
	return x
}

// unmodelled are ends that the engine does not tell apart: the whistle at the
// end of a half, own goals, and two kinds of loss of which there is one in a
// thousand possessions.
var unmodelled = map[string]bool{
	"end_period_end": true, "end_own_goal": true, "end_clearance": true, "end_completed_pass_then_lost": true,
}

// Figures returns every figure the engine is held against, in the order of the
// tables. The mix of passes has no spread in its table: a tenth of a length and
// a fifth of a share are a judgement.
func Figures() []Figure {
	var out []Figure
	add := func(row map[string]string, value, low, high string, name ...string) {
		out = append(out, Figure{strings.Join(name, "/"), number(row, value), number(row, low), number(row, high)})
	}
	for _, r := range rows("possession_outcomes") {
		if r["possessions"] == "build_up" && !unmodelled[r["figure"]] {
			add(r, "value", "comp_min", "comp_max", "possession_outcomes", r["possessions"], r["figure"])
		}
	}
	for _, r := range rows("final_third_entries") {
		switch {
		case r["figure"] == "share_of_entries" && r["method"] == "any":
			add(r, "rate", "comp_min", "comp_max", "final_third_entries", r["figure"], r["lane"])
		case r["figure"] == "share_of_entries":
			add(r, "rate", "comp_min", "comp_max", "final_third_entries", r["figure"], r["method"])
		}
	}
	high := map[string]float64{}
	for _, r := range rows("pass_mix_build_up") {
		third := r["start_third"]
		if r["ptype"] == "high" {
			high[third] += number(r, "share")
		} else if r["direction"] == "forward" {
			p50 := number(r, "len_p50")
			out = append(out, Figure{"pass_mix_build_up/" + third + "/ground_length_p50", p50, 0.9 * p50, 1.1 * p50})
		}
	}
	for _, third := range []string{"own", "middle", "final"} {
		out = append(out, Figure{"pass_mix_build_up/" + third + "/high_share", high[third], 0.8 * high[third], 1.2 * high[third]})
	}
	for _, r := range rows("headline") {
		add(r, "value", "low", "high", r["figure"])
	}
	for _, r := range rows("movement") {
		add(r, "value", "low", "high", r["figure"])
	}
	return out
}
