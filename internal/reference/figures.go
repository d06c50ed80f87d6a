package reference

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// Figure is a value of the real game with its spread over competitions,
// matches or teams.
type Figure struct {
	Name      string
	Value     float64
	Low, High float64
	Source    string
	Judged    bool    // the spread is a judgement or from one match
	n         float64 // cases; 0 where the table has no number
}

// Table is the reference table a figure belongs to.
func (f *Figure) Table() string {
	table, _, _ := strings.Cut(f.Name, "/")
	return table
}

// Figures returns every figure the engine is held against, in the order of the
// tables.
func Figures() []Figure {
	kept, _ := sorted()
	return slices.Clone(kept)
}

// Unmeasured returns the names of the figures of the shipped tables that the engine
// is not held against, with the reason.
func Unmeasured() map[string]string {
	_, left := sorted()
	return left
}

// sorted parts the rows of the shipped tables in those the engine is held against
// and the others.
var sorted = sync.OnceValues(func() ([]Figure, map[string]string) {
	var kept []Figure
	left := map[string]string{}
	for _, f := range shipped() {
		if why := reasonAgainst(&f); why != "" {
			left[f.Name] = why
		} else {
			kept = append(kept, f)
		}
	}
	return kept, left
})

// eventData opens the source of every figure from events.
const eventData = "Pappalardo et al. 2019"

// Sources are the data behind the figures, by the names that their Source gives them.
var Sources = []struct{ Tag, Text string }{
	{eventData, "Pappalardo et al. 2019, Scientific Data 6:236, CC BY 4.0: events of 1,140 matches of the men's first divisions of Spain, Italy and France 2017/18"},
	{"BT10", "BT10, SkillCorner open data (MIT): broadcast tracking of 8 matches of one professional men's league 2024/25"},
	{"OT6", "OT6, anonymised optical tracking of 288 s of one professional men's match (MIT)"},
	{"EV3", "EV3, Metrica Sports sample data: timed passes of two anonymised matches"},
}

// shipped are all rows of the shipped tables as figures.
func shipped() []Figure {
	var out []Figure
	rates := func(table, value string, name func(table string, r map[string]string) string) {
		for _, r := range rows(table) {
			f := Figure{Name: name(table, r), Value: number(r, value), Source: eventData, n: number(r, "n")}
			f.Low, f.High = f.Value, f.Value
			if r["comp_min"] != "" {
				f.Low, f.High = number(r, "comp_min"), number(r, "comp_max")
			}
			out = append(out, f)
		}
	}
	join := func(columns ...string) func(string, map[string]string) string {
		return func(table string, r map[string]string) string {
			parts := []string{table}
			for _, c := range columns {
				if r[c] != "" {
					parts = append(parts, r[c])
				}
			}
			return strings.Join(parts, "/")
		}
	}
	rates("possession_outcomes", "value", join("possessions", "figure"))
	rates("pass_chain_length", "rate", join("possessions", "completed_passes"))
	rates("pass_completion", "rate", completionName)
	out = append(out, completionByThird()...)
	for _, r := range rows("pass_kept") {
		name := "pass_completion/high_kept/"
		if r["start_third"] != "any" {
			name += r["start_third"] + "/"
		}
		out = append(out, Figure{name + r["length_m"], number(r, "kept"), number(r, "low"), number(r, "high"),
			eventData + "; spread as that of completion", true, number(r, "n")})
	}
	out = append(out, mixFigures()...)
	rates("final_third_entries", "rate", func(table string, r map[string]string) string {
		if r["method"] == "any" {
			return table + "/" + r["figure"] + "/" + r["lane"]
		}
		if r["lane"] == "any" {
			return table + "/" + r["figure"] + "/" + r["method"]
		}
		return table + "/" + r["figure"] + "/" + r["lane"] + "/" + r["method"]
	})
	rates("press_intensity", "rate", func(table string, r map[string]string) string {
		return table + "/" + map[string]string{"1 high press": "high", "2 middle": "middle", "3 low press": "low"}[r["press"]] + "/" + r["figure"]
	})
	rates("switches", "rate", join("figure", "start_third", "ptype"))
	rates("crosses", "rate", func(table string, r map[string]string) string {
		if r["side_foot"] != "" {
			return table + "/" + r["figure"] + "/any/" + r["side_foot"]
		}
		return table + "/" + r["figure"] + "/" + r["origin"] + "/" + r["height"]
	})
	out = append(out, crossShares()...)
	rates("turnover_cost", "rate", turnoverName)
	rates("pass_to_next_action_s", "mean", func(table string, r map[string]string) string { return table + "/" + r["start_third"] + "/mean" })
	for _, r := range rows("pass_to_next_action_s") {
		for _, c := range []string{"p05", "p25", "p50", "p75", "p95"} {
			x := number(r, c)
			out = append(out, Figure{"pass_to_next_action_s/" + r["start_third"] + "/" + c, x, 0.95 * x, 1.05 * x,
				eventData + "; spread a twentieth", true, number(r, "n")})
		}
	}
	rates("shot_conversion", "rate", join("header", "distance_band_m"))
	out = append(out, shotShares()...)
	out = append(out, shotCells()...)
	for _, r := range rows("headline") {
		out = append(out, Figure{r["figure"], number(r, "value"), number(r, "low"), number(r, "high"), eventData + "; " + r["source"], r["judged"] == "yes", 0})
	}
	for _, r := range rows("movement") {
		out = append(out, Figure{r["figure"], number(r, "value"), number(r, "low"), number(r, "high"), r["source"], r["judged"] == "yes", 0})
	}
	return out
}

// completionName is type and length, with the third and the direction unless any.
func completionName(table string, r map[string]string) string {
	if r["length_m"] == "any in build-up" {
		return table + "_build_up/" + r["ptype"]
	}
	parts := []string{table, r["ptype"]}
	for _, c := range []string{"start_third", "direction"} {
		if r[c] != "any" {
			parts = append(parts, r[c])
		}
	}
	return strings.Join(append(parts, r["length_m"]), "/")
}

// completionByThird is the completion of passes of every length by third, and by third and
// direction: the means of the table's bands of length, weighed with their passes; likewise
// its lowest and highest competition, which is a judgement.
func completionByThird() []Figure {
	index := map[string]int{}
	var out []Figure
	for _, r := range rows("pass_completion") {
		if r["start_third"] == "any" || !slices.Contains(bandNames[:], r["length_m"]) {
			continue
		}
		name := strings.TrimSuffix(completionName("pass_completion", r), r["length_m"]) + "any"
		i, ok := index[name]
		if !ok {
			i = len(out)
			index[name] = i
			out = append(out, Figure{Name: name, Source: eventData + "; mean of the bands of length", Judged: true})
		}
		f, n, x := &out[i], number(r, "n"), number(r, "rate")
		low, high := x, x
		if r["comp_min"] != "" {
			low, high = number(r, "comp_min"), number(r, "comp_max")
		}
		f.n += n
		f.Value, f.Low, f.High = f.Value+n*x, f.Low+n*low, f.High+n*high
	}
	for i := range out {
		f := &out[i]
		f.Value, f.Low, f.High = f.Value/f.n, f.Low/f.n, f.High/f.n
	}
	return out
}

// turnoverName is the place of the loss and what follows; a corridor is named by its
// place unless any.
func turnoverName(table string, r map[string]string) string {
	x := strconv.FormatFloat(number(r, "loss_x_from_m"), 'f', -1, 64)
	if corridor, _, _ := strings.Cut(r["loss_corridor"], " "); corridor != "any" {
		x += "/" + corridor
	}
	return table + "/" + x + "/" + r["figure"]
}

// withinAFifth is a share of a table that has no spread: a fifth is a judgement.
func withinAFifth(name string, share, n float64) Figure {
	return Figure{name, share, 0.8 * share, min(1.2*share, 1), eventData + "; spread a fifth", true, n}
}

// crossShares are the shares of crosses by origin and height.
func crossShares() []Figure {
	total, n, names := 0.0, map[string]float64{}, []string(nil)
	for _, r := range rows("crosses") {
		if r["figure"] != "completed" || r["side_foot"] != "" {
			continue
		}
		name := r["origin"] + "/" + r["height"]
		names = append(names, name)
		n[name] = number(r, "n")
		total += n[name]
	}
	var out []Figure
	for _, name := range names {
		out = append(out, withinAFifth("crosses/share/"+name, n[name]/total, n[name]))
	}
	return out
}

// shotShares are the shares of shots by distance, with the foot and the head together.
func shotShares() []Figure {
	total, n := 0.0, map[string]float64{}
	for _, r := range rows("shot_conversion") {
		n[r["distance_band_m"]] += number(r, "n")
		total += number(r, "n")
	}
	var out []Figure
	for _, band := range shotBandNames {
		out = append(out, withinAFifth("shot_conversion/share/"+band, n[band]/total, n[band]))
	}
	return out
}

// shotCells are the shares of a team's actions that are shots, by where they happen. The table
// holds what follows set pieces too.
func shotCells() []Figure {
	var out []Figure
	for _, r := range rows("threat_grid") {
		name := fmt.Sprintf("threat_grid/shot_share/%.1f/%.1f", number(r, "x_m"), math.Abs(number(r, "y_m")))
		out = append(out, withinAFifth(name, number(r, "shot_share"), number(r, "actions")))
	}
	return out
}

// mixFigures are the passes of build-up possessions by kind and direction, and their
// lengths. The table has no spread: a fifth of a share and a tenth of a length are a
// judgement.
func mixFigures() []Figure {
	var out []Figure
	seen := map[string]bool{}
	for _, r := range rows("pass_mix_build_up") {
		name := fmt.Sprintf("pass_mix_build_up/%s/%s", r["start_third"], r["ptype"])
		out = append(out, withinAFifth(name+"/"+r["direction"]+"/share", number(r, "share"), 0))
		if seen[name] {
			continue
		}
		seen[name] = true
		for _, c := range []string{"p10", "p25", "p50", "p75", "p90"} {
			x := number(r, "len_"+c)
			out = append(out, Figure{name + "/len_" + c, x, 0.9 * x, 1.1 * x, eventData + "; spread a tenth", true, 0})
		}
	}
	return out
}
