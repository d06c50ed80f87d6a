package report

import (
	"slices"
	"strings"
	"testing"

	"playout/internal/explain"
	"playout/internal/stats"
	"playout/model"
)

// raced is a run of n build-ups with one race each, won of them won; every second race
// comes before the final third, and of these every second build-up gets there.
func raced(n, won int) RaceRun {
	sc := model.AverageScenario()
	run := RaceRun{File: "plan.yaml", Scenario: &sc, Focus: explain.SwitchRace, Asked: n, Search: n / 4, Target: explain.Half, Own: true}
	for i := range n {
		run.Races = append(run.Races, []explain.Race{{Possession: i, Reached: true, Player: 7, Won: i < won, Early: i%2 == 0, Entered: i%4 == 0}})
	}
	return run
}

// stood is a lever that was tried at its present value only, won of n races won there.
func stood(outcome explain.Outcome, won, n int) explain.Change {
	p := explain.Point{X: 1.5, Share: stats.Proportion(int64(won), int64(n), level), Won: won, Races: n}
	return explain.Change{Lever: explain.Lever{Name: "tempo", Label: "time on the ball", Unit: "s", Now: 1.5, Lo: 0.3, Hi: 6}, Outcome: outcome, Points: []explain.Point{p}, Best: p}
}

// The search plays build-ups of its own, fewer than the headline: what is said of it says
// how many, and what was won in them.
func TestSearchNamesItsSample(t *testing.T) {
	run := raced(400, 172)
	run.Changes = []explain.Change{stood(explain.There, 48, 100)}
	r := NewRace(run)
	text := strings.Join(r.Answer, " ")
	for _, want := range []string{"Of 100 switches of play the ball wins 43 ", "In the 100 build-ups of the search 48 of 100 (38 to 58) are won as it stands, which cannot be told from 50"} {
		if !strings.Contains(text, want) {
			t.Errorf("%s\nlacks %q", text, want)
		}
	}
	if note := r.changeTable().note; !strings.Contains(note, "played in 100 build-ups") || !strings.Contains(note, "In these 48 of 100 (38 to 58)") {
		t.Error(note)
	}
	// Whether a rise or a fall is looked for goes by the build-ups of the search as well.
	run.Changes = []explain.Change{stood(explain.Never, 70, 100)}
	if text := strings.Join(NewRace(run).Answer, " "); !strings.Contains(text, "No one thing tried brings it down to 50 of 100") {
		t.Error(text)
	}
	run.Changes = []explain.Change{stood(explain.May, 70, 100)}
	r = NewRace(run)
	for _, want := range []string{"As it stands 70 of 100 (60 to 78) are won in the 100 build-ups of the search: more than 50 of 100 already.", "alone would bring it down to 50 of 100 cannot be told yet"} {
		if text := strings.Join(r.Answer, " "); !strings.Contains(text, want) {
			t.Errorf("%s\nlacks %q", text, want)
		}
	}
	if title := r.changeTable().title; title != "What would bring it down to 50 of 100" {
		t.Error(title)
	}
}

// Shares of races that led into the final third name what they are shares of.
func TestRacesNameTheirDenominator(t *testing.T) {
	run := raced(400, 172)
	run.Races[399][0].Reached = false
	r := NewRace(run)
	if text := r.Answer[0]; !strings.HasSuffix(text, "Of the 86 won before the final third 50 of 100 then get there, of the 114 lost 50 of 100.") {
		t.Error(text)
	}
	var b strings.Builder
	if err := r.Write(&b, Table); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "50% of 86") {
		t.Error(b.String())
	}
}

// The table of men adds up to all races; that of a press has the words of a press.
func TestRaceTables(t *testing.T) {
	run := raced(80, 40)
	for i := range run.Races {
		run.Races[i][0].Player = i % 8
	}
	men := NewRace(run).menTable()
	if last := men.rows[len(men.rows)-1]; len(men.rows) != mostMen+1 || last[0] != "2 others" || last[1] != "20" || last[2] != "50.0" {
		t.Error(men.rows)
	}
	run.Focus = explain.PressRace
	press := NewRace(run).figureTable()
	if got := strings.Join(press.head, ","); got != "presses,won,presser there first,ball lost" {
		t.Error(got)
	}
	if !slices.ContainsFunc(press.rows, func(row []string) bool { return row[0] == "presser there after (2 m), s" }) {
		t.Error(press.rows)
	}
}
