package reference

import "strings"

// reasons say why figures of the shipped tables are not measured in the engine; the
// first that matches holds.
var reasons = []struct {
	match func(f *Figure) bool
	why   string
}{
	{prefix("possession_outcomes/all/", "pass_chain_length/all/"), "of all possessions of a match; the engine plays those that begin in the own third"},
	{names("possession_outcomes/build_up/end_period_end"), "the engine has no end of a half"},
	{names("possession_outcomes/build_up/end_own_goal"), "the engine has no own goals"},
	{names("possession_outcomes/build_up/end_clearance", "possession_outcomes/build_up/end_completed_pass_then_lost"),
		"one in a thousand possessions; the engine does not tell it from an interception"},
	{names("pass_chain_length/build_up/0", "pass_chain_length/build_up/1"), "none, by the definition of a build-up possession"},
	{byDirectionAndLength, "by direction and length: held by direction and by length apart"},
	{few("pass_completion/", 1000), "fewer than 1,000 passes in the reference"},
	{rare("pass_mix_build_up/", 0.01), "fewer than one pass in a hundred"},
	{few("turnover_cost/", 1000), "fewer than 1,000 losses in the reference"},
	{names("pass_to_next_action_s/own/p05", "pass_to_next_action_s/middle/p05", "pass_to_next_action_s/final/p05"),
		"ticks of a tenth of a second are too coarse for it"},
	{suffix("/unknown"), "the foot is not known"},
	{few("shot_conversion/", 300), "fewer than 300 shots in the reference"},
}

// reasonAgainst is why a figure is not measured, empty when it is.
func reasonAgainst(f *Figure) string {
	for _, r := range reasons {
		if r.match(f) {
			return r.why
		}
	}
	return ""
}

func prefix(beginnings ...string) func(*Figure) bool {
	return func(f *Figure) bool {
		for _, p := range beginnings {
			if strings.HasPrefix(f.Name, p) {
				return true
			}
		}
		return false
	}
}

func suffix(s string) func(*Figure) bool {
	return func(f *Figure) bool { return strings.HasSuffix(f.Name, s) }
}

func names(names ...string) func(*Figure) bool {
	return func(f *Figure) bool {
		for _, n := range names {
			if f.Name == n {
				return true
			}
		}
		return false
	}
}

// few matches figures of a table with fewer than n cases.
func few(table string, n float64) func(*Figure) bool {
	return func(f *Figure) bool { return strings.HasPrefix(f.Name, table) && f.n < n }
}

// rare matches shares below x.
func rare(table string, x float64) func(*Figure) bool {
	return func(f *Figure) bool {
		return strings.HasPrefix(f.Name, table) && strings.HasSuffix(f.Name, "/share") && f.Value < x
	}
}

// byDirectionAndLength matches completion by direction in a band of length.
func byDirectionAndLength(f *Figure) bool {
	if !strings.HasPrefix(f.Name, "pass_completion/") || strings.HasSuffix(f.Name, "/any") {
		return false
	}
	for _, d := range directionNames {
		if strings.Contains(f.Name, "/"+d+"/") {
			return true
		}
	}
	return false
}
