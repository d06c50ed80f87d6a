package reference

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the list of known misses anew; new ones wait for an explanation")

// misses is the list of known misses: a name and an explanation in each line. A
// figure that is far off and not on it, or on it and far off no more, fails the test.
const misses = "testdata/misses.txt"

const unexplained = "EXPLAIN"

// leastInside is how many figures lie inside their spread in the run of TestLeague;
// it goes up with the fit.
const leastInside = 100

// TestLeague plays the league (fixed seed) and holds every figure against open data
// (sources in the tables): none may lie further beyond the spread of the competitions
// or matches than a quarter of its value, save the known misses.
func TestLeague(t *testing.T) {
	if testing.Short() {
		t.Skip("plays thousands of possessions")
	}
	known := readMisses(t)
	inside, judged := 0, 0
	var list strings.Builder
	for _, c := range Compare(mustMeasure(t, Config{Possessions: 12000, Seed: 1, Intervals: true})) {
		why, listed := known[c.Name]
		delete(known, c.Name)
		if !c.Enough() {
			if listed { // it may be judged with more possessions
				fmt.Fprintf(&list, "%s\t%s\n", c.Name, why)
			}
			continue
		}
		judged++
		if c.Inside() {
			inside++
		}
		off := math.Abs(c.Beyond())
		switch {
		case off > FarOff && (!listed || why == unexplained):
			t.Errorf("%s: %.4g, reference %.4g (%.4g to %.4g): %+.0f %%", c.Name, c.Engine.Value, c.Value, c.Low, c.High, 100*c.Beyond())
			fmt.Fprintf(&list, "%s\t%s\n", c.Name, unexplained)
		case off > FarOff:
			t.Logf("known miss: %s: %+.0f %% (%s)", c.Name, 100*c.Beyond(), why)
			fmt.Fprintf(&list, "%s\t%s\n", c.Name, why)
		case listed && off < 0.8*FarOff:
			t.Errorf("%s: %.4g is near enough to %.4g: take it off the list of misses", c.Name, c.Engine.Value, c.Value)
		case listed:
			fmt.Fprintf(&list, "%s\t%s\n", c.Name, why)
		}
	}
	for name := range known {
		t.Errorf("%s is on the list of misses but is no figure", name)
	}
	t.Logf("%d of %d inside", inside, judged)
	if inside < leastInside {
		t.Errorf("%d of %d figures inside, want at least %d", inside, judged, leastInside)
	}
	if *update {
		if err := os.WriteFile(misses, []byte(missesHead+list.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

const missesHead = "# Figures further beyond the spread of the data than a quarter of their value, each with the best explanation.\n"

func readMisses(t *testing.T) map[string]string {
	data, err := os.ReadFile(misses)
	if err != nil {
		t.Fatal(err)
	}
	known := map[string]string{}
	for line := range strings.Lines(string(data)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		name, why, ok := strings.Cut(line, "\t")
		if !ok || strings.TrimSpace(why) == "" {
			t.Fatalf("%s: %q needs a name, a tab and an explanation", misses, line)
		}
		known[name] = why
	}
	return known
}
