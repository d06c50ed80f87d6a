package scenario

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// mostNear is how many paths a message proposes.
const mostNear = 3

// noPath is the error of a path that is not there.
func (b *Base) noPath(path string) error {
	switch path {
	case "possessions", "seed", "extends":
		return fmt.Errorf("%s is not a value to change here; every variant shares it", path)
	}
	if near := b.near(path); len(near) > 0 {
		return fmt.Errorf("there is no value %s; did you mean %s?", quote(path), strings.Join(near, " or "))
	}
	return fmt.Errorf("there is no value %s; a path is made of the keys of the file, such as defence.block.press.height or attack.players.7.pace", quote(path))
}

// near lists the paths that a wrong one was probably meant to be, the nearest
// first.
func (b *Base) near(path string) []string {
	if len(path) > pathWidth {
		return nil
	}
	type scored struct {
		path string
		far  float64
	}
	steps := strings.Split(path, ".")
	memo := map[[2]string]float64{}
	limit := 0.9 + 0.2*float64(len(steps)) // a step is wrong or left out, and letters of others
	var found []scored
	for _, p := range b.Paths() {
		if far := stepsApart(steps, strings.Split(p.Path, "."), memo); far <= limit {
			found = append(found, scored{p.Path, far})
		}
	}
	slices.SortStableFunc(found, func(x, y scored) int { return cmp.Compare(x.far, y.far) })
	var out []string
	for _, f := range found[:min(len(found), mostNear)] {
		if f.far <= found[0].far+0.35 {
			out = append(out, f.path)
		}
	}
	return out
}

// Costs of a step left out and of one too many.
const leftOut, tooMany = 0.4, 1.0

// stepsApart is the cost of turning the steps of a path into those of another:
// a step left out costs 0.4, one too many 1, a misspelt one the share of its
// letters that are wrong.
func stepsApart(from, to []string, memo map[[2]string]float64) float64 {
	row := make([]float64, len(to)+1)
	for j := range to {
		row[j+1] = row[j] + leftOut
	}
	for _, a := range from {
		before := row[0]
		row[0] += tooMany
		for j, b := range to {
			best := min(before+wordApart(a, b, memo), row[j+1]+tooMany, row[j]+leftOut)
			before, row[j+1] = row[j+1], best
		}
	}
	return row[len(to)]
}

func wordApart(a, b string, memo map[[2]string]float64) float64 {
	if a == b {
		return 0
	}
	if d, ok := memo[[2]string{a, b}]; ok {
		return d
	}
	a0, b0 := plainForm(a), plainForm(b)
	d := 1.5 * float64(distance(a0, b0)) / float64(max(len(a0), len(b0), 1))
	if strings.Trim(a+b, "0123456789") == "" {
		d = 0.6 // another shirt number is another man
	}
	if d > 0.8 {
		d = tooMany + leftOut // another word
	}
	memo[[2]string{a, b}] = d
	return d
}
