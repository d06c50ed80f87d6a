package report

import (
	"fmt"

	"playout/model"
)

func (s *Summary) fullTables() []*table {
	out := []*table{
		s.methodTable(), s.lastLaneTable(), s.sourceTable(), s.zoneTable(), s.loserTable(), s.restTable(),
	}
	if s.AfterLoss.Seconds > 0 {
		out = append(out, s.takeoverTable())
	}
	return append(out, s.passTable(), s.jumpTable(), s.overloadTable(), s.switchTable(), s.meanTable(), s.openDataTable())
}

func (s *Summary) methodTable() *table {
	t := &table{title: "How it gets into the final third", note: "On the right: the shares of each lane, in % of all entries.",
		head: []string{"by", "entries", "share, %", intervalHead}}
	for _, lane := range laneHeads {
		t.head = append(t.head, lane)
	}
	for _, f := range mostFirst(s.EntriesByMethod, func(f Field[Rate]) int64 { return f.Value.Count }) {
		row := []string{methodWords[f.Key], thousands(f.Value.Count), hundredfold(f.Value.Rate, 1), interval(f.Value)}
		for _, lane := range s.EntriesByLaneMethod {
			row = append(row, hundredfold(lane.Value.Get(f.Key).Rate, 1))
		}
		t.add(row...)
	}
	return t
}

// laneHeads are the lanes as narrow column heads, from left to right.
var laneHeads = [model.NumLanes]string{"l wing", "l half", "centre", "r half", "r wing"}

func (s *Summary) lastLaneTable() *table {
	t := &table{title: "Where the last action before the shot was", note: "By lane of the last pass, carry or cross; per 100 build-ups."}
	t.chances("lane", s.ChancesByLastLane, laneWords)
	return t
}

func (s *Summary) sourceTable() *table {
	t := &table{title: "What the shots came from", note: "Per 100 build-ups."}
	t.chances("source", mostFirst(s.ShotsBySource, func(f Field[Chance]) int64 { return f.Value.Shots.Count }), sourceWords)
	return t
}

func (t *table) chances(first string, rows Object[Chance], words map[string]string) {
	t.head = []string{first, "shots", intervalHead, "xG", "goals", "xG per shot"}
	for _, f := range rows {
		c := f.Value
		t.add(words[f.Key], fixed(c.ShotsPer100, 2), span(c.Shots.Low, c.Shots.High, 100, 2),
			fixed(c.XGPer100, 2), fixed(c.GoalsPer100, 2), fixed(c.XGPerShot, 2))
	}
}

// zoneTable shows the pitch with the attack going up the page.
func (s *Summary) zoneTable() *table {
	t := &table{title: "Where the ball is lost", note: "Losses per 100 build-ups; the attack goes up the page.",
		head: append([]string{""}, laneHeads[:]...)}
	for i := len(s.LossesByZone) - 1; i >= 0; i-- {
		row := []string{thirdWords[s.LossesByZone[i].Key]}
		for _, f := range s.LossesByZone[i].Value {
			row = append(row, hundredfold(f.Value.Rate, 1))
		}
		t.add(row...)
	}
	return t
}

func (s *Summary) loserTable() *table {
	t := &table{title: "Who loses it", head: []string{"player", "losses", "share, %", intervalHead}}
	for _, p := range mostFirst(s.LossesByPlayer, func(p PlayerRate) int64 { return p.Count }) {
		t.add(who(p.Number, p.Name, p.Position), thousands(p.Count), hundredfold(p.Rate.Rate, 1), interval(p.Rate))
	}
	return t
}

func (s *Summary) restTable() *table {
	t := &table{title: "Rest defence when the ball is lost", note: "Means: outfield team-mates goal-side of the ball, opponents ahead of it.",
		head: []string{"lost in", "losses", "team-mates", "std error", "opponents", "std error"}}
	for _, f := range s.RestDefence {
		own, opp := f.Value.TeamMates, f.Value.Opponents
		t.add(thirdWords[f.Key], thousands(own.N), fixed(own.Mean, 2), fixed(own.SE, 3), fixed(opp.Mean, 2), fixed(opp.SE, 3))
	}
	return t
}

func (s *Summary) passTable() *table {
	p := &s.Passing
	t := &table{title: "Passing", head: []string{"", "attempts", "completed", "share, %", intervalHead}}
	t.add("all passes", thousands(p.Attempts), thousands(p.Completed), hundredfold(p.Rate, 1), span(p.Low, p.High, 100, 1))
	for _, f := range p.ByKind {
		t.add("- "+passKindWords[f.Key], thousands(f.Value.Of), thousands(f.Value.Count), hundredfold(f.Value.Rate, 1), "")
	}
	return t
}

func (s *Summary) jumpTable() *table {
	t := &table{title: "Who jumps out of the block", head: []string{"player", "jumps", "share, %"}}
	for _, p := range mostFirst(s.Block.JumpsByPlayer, func(p PlayerShare) int64 { return p.Count }) {
		t.add(who(p.Number, p.Name, p.Position), thousands(p.Count), hundredfold(p.Rate, 1))
	}
	return t
}

func (s *Summary) overloadTable() *table {
	t := &table{title: "Overloads", note: "Per 100 build-ups; won: 10 m further on within 5 s, or a shot.", head: []string{"lane"}}
	for _, f := range s.Overloads {
		t.head = append(t.head, f.Key, "won")
	}
	for i, f := range s.EntriesByLane {
		row := []string{laneWords[f.Key]}
		for _, kind := range s.Overloads {
			o := kind.Value[i].Value
			row = append(row, fixed(o.Per100, 1), percent(o.Won.Rate))
		}
		t.add(row...)
	}
	return t
}

func (s *Summary) switchTable() *table {
	t := &table{title: "Switches of play", note: "Those that reached a team-mate, and what came of them within 10 s, in % of the switches.",
		head: []string{"", "per 100", "switches"}}
	if m := s.Switches.ReceiverMet; m.Of > 0 {
		t.note += fmt.Sprintf(" A defender got to within 3 m of the receiver in 3 s in %s.", percent(m.Rate))
	}
	for _, f := range s.Switches.SinglePass.Verdicts {
		t.head = append(t.head, verdictWords[f.Key])
	}
	add := func(name string, sw Switch) {
		row := []string{name, fixed(sw.Per100, 1), thousands(sw.Count)}
		for _, f := range sw.Verdicts {
			row = append(row, hundredfold(f.Value.Rate, 1))
		}
		t.add(row...)
	}
	add("in one pass", s.Switches.SinglePass)
	add("in a chain of passes", s.Switches.Chain)
	return t
}

func (s *Summary) meanTable() *table {
	t := &table{title: "Time, passes and worth", note: "Means of a build-up; to the entry: of those that got in.",
		head: []string{"", "mean", intervalHead, "std error"}}
	for _, f := range s.Means {
		m := f.Value
		decimals := 2
		if f.Key == "xg" {
			decimals = 4
		}
		t.add(meanWords[f.Key], fixed(m.Mean, decimals), span(m.Low, m.High, 1, decimals), fixed(m.SE, decimals+1))
	}
	return t
}

func (s *Summary) openDataTable() *table {
	b := &s.BuildUp
	t := &table{
		title: "As open event data count it",
		note: fmt.Sprintf("Only the %s of %s build-ups that begin in the own third and complete two passes in the own half; "+
			"a zone counts once an action begins or a pass ends there. Set it beside published figures, never beside the tables above.",
			thousands(b.Possessions), thousands(s.Possessions)),
		head: []string{"per 100 of these", "rate", intervalHead, "build-ups"},
	}
	for _, f := range b.Rates {
		t.add(stepWords[f.Key], hundredfold(f.Value.Rate, 1), interval(f.Value), thousands(f.Value.Count))
	}
	for _, f := range b.LossesByThird {
		t.add("- lost in the "+thirdWords[f.Key], hundredfold(f.Value.Rate, 1), interval(f.Value), thousands(f.Value.Count))
	}
	return t
}
