package report

import (
	"fmt"
	"strconv"
	"strings"

	"playout/internal/explain"
)

// mostWays is how many ways that worked a table shows.
const mostWays = 8

// Document is the answer for people.
func (e *Explain) Document() *Document { return e.document() }

func (e *Explain) document() *document {
	d := &document{title: e.title(), answer: e.Answer, facts: e.facts(), notes: e.Notes}
	if e.Partial {
		d.warning, d.notes = e.Notes[0], e.Notes[1:]
	}
	if len(e.Causes) > 0 {
		d.tables = append(d.tables, e.causeTable(), e.adviceTable())
	}
	if len(e.Works) > 0 {
		d.tables = append(d.tables, e.worksTable())
	}
	if e.Possessions > 0 {
		d.tables = append(d.tables, e.flowTable())
	}
	return d
}

func (e *Explain) title() string {
	if e.Title == "" {
		return "Why build-ups fail: untitled scenario"
	}
	return "Why build-ups fail: " + e.Title
}

// facts is the line that lets the run be repeated.
func (e *Explain) facts() string {
	played := thousands(e.Possessions) + " build-ups"
	if e.Partial {
		played = "PARTIAL: " + thousands(e.Possessions) + " of " + thousands(e.Asked) + " build-ups"
	}
	return fmt.Sprintf("seed %d, %s, tick %s s, version %s, engine revision %d.", e.Seed, played, e.TickS.text(), e.Version, e.Revision)
}

// scene is a possession to look at.
func sceneText(id *int) string {
	if id == nil {
		return "-"
	}
	return strconv.Itoa(*id)
}

func (e *Explain) causeTable() *table {
	fails := e.Results.Get(explain.Failed.String())
	t := &table{
		title: "Why they fail", head: []string{"cause", "cases", "of 100", intervalHead, "most often in", "share", "scene"},
		note: fmt.Sprintf("%s build-ups fail; of 100 of these. Scene: the number of the build-up most typical of it; to look at it: playout replay %s%s --possession NUMBER",
			thousands(fails.Count), shortFile(e.File), e.again),
	}
	for i := range e.Causes {
		c := &e.Causes[i]
		t.add(causeWords[c.Cause], thousands(c.Rate.Count), hundredfold(c.Share.Rate, 1), interval(c.Share),
			thirdWords[c.Third]+", "+laneWords[c.Lane], percent(c.There.Rate), sceneText(c.Typical))
	}
	return t
}

// shortFile is the file as a command line would name it.
func shortFile(file string) string {
	if file == "" || file == "standard input" || strings.ContainsAny(file, " '\"\\$`*?&;|<>()") {
		return "FILE" // nothing a shell would take for something else
	}
	return cut(file, 60)
}

func (e *Explain) adviceTable() *table {
	t := &table{title: "What goes with it, and what to try", list: []string{}}
	for i := range e.Causes {
		c := &e.Causes[i]
		if i > 0 && c.Factor == nil && c.Rate.Count*20 < e.Results.Get(explain.Failed.String()).Count {
			continue // rare, and nothing to say
		}
		t.list = append(t.list, capital(causeWords[c.Cause])+". "+c.Advice)
	}
	return t
}

func (e *Explain) worksTable() *table {
	t := &table{
		title: "What works", head: []string{"key action", "into", "cases", "of 100", intervalHead, "then a shot", "xG per 100", "scene"},
	}
	works := e.Results.Get(explain.Worked.String())
	t.note = fmt.Sprintf("%s build-ups work: the action that took them there, and the lane it led into. On the ball: carried in, or a loose ball.", thousands(works.Count))
	if e.Best != nil {
		t.note += fmt.Sprintf(" The one that worked best is number %d.", *e.Best)
	}
	rest := int64(0)
	for i := range e.Works {
		w := &e.Works[i]
		if i >= mostWays {
			rest += w.Share.Count
			continue
		}
		t.add(actionWords[w.Action], laneWords[w.Lane], thousands(w.Share.Count), hundredfold(w.Share.Rate, 1), interval(w.Share),
			percent(w.Shots.Rate), fixed(w.XG, 1), sceneText(w.Typical))
	}
	if rest > 0 {
		r := rate(rest, works.Count)
		t.add("other ways", "", thousands(rest), hundredfold(r.Rate, 1), interval(r), "", "", "")
	}
	return t
}

// stageHeads are the stages of the flow for people.
var stageHeads = [explain.NumStages]string{"begins in", "gets as far as", "decided in", "by", "ends"}

// nodeWords name a node of the flow.
func (e *Explain) nodeWords(st explain.Stage, n int) string {
	key := explain.NodeName(st, n)
	switch st {
	case explain.StartStage, explain.ThirdStage:
		return thirdWords[key]
	case explain.LaneStage:
		return laneWords[key]
	case explain.ActionStage:
		return actionWords[key]
	}
	if n == int(explain.Worked) {
		return e.worked()
	}
	if n == int(explain.Stopped) {
		return resultWords[key]
	}
	return causeWords[key]
}

// flowTable shows how the build-ups of each action, lane and third end; its rows and
// the stages add up to all build-ups.
func (e *Explain) flowTable() *table {
	t := &table{
		title: "The flow: start, thirds, lanes, key action, end", head: []string{"stage", "node", "build-ups", "of 100", "worked", "stopped", "failed"},
		note: "Every build-up passes through one node of each stage. Each stage adds up to all.",
	}
	for st := range explain.EndStage {
		if st > 0 {
			t.gap()
		}
		for n, count := range e.flow.Nodes[st] {
			if count == 0 {
				continue
			}
			ends := e.flow.Ends(st, n)
			t.add(stageHeads[st], e.nodeWords(st, n), thousands(int64(count)), hundredfold(ratio(int64(count), e.Possessions), 1),
				thousands(int64(ends[explain.Worked])), thousands(int64(ends[explain.Stopped])), thousands(int64(ends[explain.Failed])))
		}
	}
	t.gap()
	var all [explain.NumResults]int64
	for r := range explain.NumResults {
		all[r] = e.Results.Get(r.String()).Count
	}
	t.add("all", "", thousands(e.Possessions), "100.0", thousands(all[0]), thousands(all[1]), thousands(all[2]))
	return t
}

// explainHead names the columns of CSV: one figure a row.
var explainHead = []string{"table", "name", "detail", "count", "of", "value", "low", "high", "possession", "text"}

func (e *Explain) rows() [][]string {
	out := [][]string{explainHead}
	count := func(n int64) string { return strconv.FormatInt(n, 10) }
	rated := func(table, name, detail string, r Rate, possession *int, text string) {
		id := ""
		if possession != nil {
			id = strconv.Itoa(*possession)
		}
		out = append(out, []string{table, name, detail, count(r.Count), count(r.Of), r.Rate.text(), r.Low.text(), r.High.text(), id, guard(text)})
	}
	for _, r := range e.Results {
		rated("results", r.Key, "", r.Value, nil, "")
	}
	for i := range e.Causes {
		c := &e.Causes[i]
		rated("causes", c.Cause, c.Third+" "+c.Lane, c.Share, c.Typical, c.Advice)
	}
	for i := range e.Works {
		w := &e.Works[i]
		rated("works", w.Action, w.Lane, w.Share, w.Typical, "")
	}
	for _, n := range e.Flow {
		rated("flow", n.Stage, n.Node, rate(int64(n.BuildUps), e.Possessions), nil, "")
	}
	for _, l := range e.Links {
		rated("links", l.From, l.To, rate(int64(l.BuildUps), e.Possessions), nil, "")
	}
	return out
}
