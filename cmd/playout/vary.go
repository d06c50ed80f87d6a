package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"playout/internal/report"
	"playout/internal/scenario"
)

// mostCells is how many combinations of values a sweep plays.
const mostCells = 10_000

// vary reads a --vary: PATH=FROM:TO:STEP, or PATH=VALUE,VALUE,... with words,
// numbers or places.
func vary(base *scenario.Base, text string) (report.Axis, error) {
	path, values, ok := strings.Cut(text, "=")
	if !ok {
		return report.Axis{}, usagef("--vary %q has no values; write PATH=FROM:TO:STEP or PATH=VALUE,VALUE", text)
	}
	p, err := base.Path(strings.TrimSpace(path))
	if err != nil {
		return report.Axis{}, usagef("--vary: %w", err)
	}
	a := report.Axis{Path: p.Path, Label: p.Label, Unit: p.Unit, Now: p.Value}
	if strings.Contains(values, ":") && !strings.ContainsAny(values, "{[") {
		a.Values, err = steps(values)
	} else {
		a.Values, err = list(values)
	}
	if err != nil {
		return a, usagef("--vary %s: %w", text, err)
	}
	if p.Kind == scenario.Number || p.Kind == scenario.Whole {
		for _, v := range a.Values { // YAML would take it for a remark, and the name of the cell would have it
			if strings.Contains(v, "#") {
				return a, usagef("--vary %s: %q is not a number", text, v)
			}
		}
		a.Numbers = ascending(a.Values)
	}
	for i := range a.Values {
		if slices.Contains(a.Values[:i], a.Values[i]) || i > 0 && a.Numbers != nil && a.Numbers[i] == a.Numbers[i-1] {
			return a, usagef("--vary %s: %s is there twice", text, a.Values[i])
		}
	}
	return a, nil
}

// ascending sorts values that are numbers and returns them; nil when one is none,
// which the reading of the scenario refuses with its place.
func ascending(values []string) []float64 {
	numbers := make([]float64, len(values))
	of := map[string]float64{}
	for i, v := range values {
		x, err := strconv.ParseFloat(v, 64)
		if err != nil || math.IsNaN(x) {
			return nil
		}
		numbers[i], of[v] = x, x
	}
	slices.SortStableFunc(values, func(s, t string) int { return cmp.Compare(of[s], of[t]) })
	slices.Sort(numbers)
	return numbers
}

// list cuts values at the commas that stand outside brackets.
func list(text string) ([]string, error) {
	var out []string
	depth, from := 0, 0
	add := func(to int) error {
		v := strings.TrimSpace(text[from:to])
		if v == "" {
			return fmt.Errorf("a value is missing; write PATH=VALUE,VALUE")
		}
		out = append(out, v)
		from = to + 1
		return nil
	}
	for i, r := range text {
		switch r {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		case ',':
			if depth == 0 {
				if err := add(i); err != nil {
					return nil, err
				}
			}
		}
		if len(out) > mostCells {
			return nil, fmt.Errorf("more than %d values", mostCells)
		}
	}
	return out, add(len(text))
}

// steps counts from FROM to TO by STEP in the decimals in which they are written.
func steps(text string) ([]string, error) {
	parts := strings.Split(text, ":")
	if len(parts) != 3 {
		return nil, fmt.Errorf("write FROM:TO:STEP, such as 40:100:10")
	}
	var x [3]float64
	decimals := 0
	for i, part := range parts {
		part = strings.TrimSpace(part)
		v, err := strconv.ParseFloat(part, 64)
		if err != nil || math.IsInf(v, 0) || math.IsNaN(v) || strings.ContainsAny(part, "xX_") {
			return nil, fmt.Errorf("%q is not a number; write FROM:TO:STEP, such as 40:100:10", part)
		}
		x[i] = v
		if _, after, ok := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), "."); ok {
			decimals = max(decimals, len(after))
		}
	}
	from, to, step := x[0], x[1], x[2]
	if step == 0 {
		return nil, fmt.Errorf("the step is 0; give a step that leads from %s to %s", parts[0], parts[1])
	}
	n := (to - from) / step
	switch {
	case from == to:
		return nil, fmt.Errorf("FROM and TO are the same; write PATH=%s for a single value", parts[0])
	case n < 0:
		return nil, fmt.Errorf("a step of %s leads away from %s; write %s:%s:%s", parts[2], parts[1], parts[0], parts[1], number(-step))
	case n >= mostCells:
		return nil, fmt.Errorf("%s values are more than the %d a sweep plays; take a larger step", manyValues(n), mostCells)
	}
	whole := math.Round(n)
	if math.Abs(n-whole) > 1e-6 {
		below := from + math.Floor(n)*step
		return nil, fmt.Errorf("steps of %s from %s do not end at %s but at %s or %s; write one of these, or another step",
			parts[2], parts[0], parts[1], number(round(below, decimals)), number(round(below+step, decimals)))
	}
	if whole == 0 {
		return nil, fmt.Errorf("a step of %s is longer than the way from %s to %s", parts[2], parts[0], parts[1])
	}
	var out []string
	for i := range int(whole) + 1 {
		out = append(out, number(round(from+float64(i)*step, decimals)))
	}
	return out, nil
}

// manyValues is the number of values of n steps in words that stay short.
func manyValues(n float64) string {
	if n >= 1e12 {
		return "so many"
	}
	return fmt.Sprintf("these %.0f", math.Floor(n)+1)
}

func round(x float64, decimals int) float64 {
	v, err := strconv.ParseFloat(strconv.FormatFloat(x, 'f', min(decimals, 15), 64), 64)
	if err != nil {
		return x
	}
	return v + 0 // no -0
}

func number(x float64) string { return scenario.FormatNumber(x) }
