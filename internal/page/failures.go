package page

import (
	"fmt"
	"strings"

	"playout/internal/explain"
	"playout/internal/report"
	"playout/model"
	"playout/sim"
)

// mostMoments is how many causes are shown by their typical scene.
const mostMoments = 3

// FailuresOf shows why build-ups fail: the commonest causes with the scene that is
// typical of each, and the build-up that worked best. record films a possession.
func FailuresOf(e *report.Explain, stories []explain.Story, record func(id int) *sim.Film) *Failures {
	doc := e.Document()
	tables := doc.Tables()
	most := min(2, len(tables)) // causes and what goes with them
	f := &Failures{Lead: strings.Join(doc.Answer(), " "), Tables: tables[:most], More: tables[most:], Flow: e.Picture()}
	moment := func(id int, name, title, caption string) {
		s := &stories[id]
		spell := &s.Spells[s.Decisive]
		f.Moments = append(f.Moments, Moment{
			Name: name, Title: title, Film: record(id), Tick: s.Tick, Rival: s.Rival,
			Caption: sentences(caption, fmt.Sprintf("Build-up %d at %.1f s", id, float64(s.Tick)*sim.TickSeconds)),
			Meant:   spell.Target, Missed: s.Result == explain.Failed && spell.Left == explain.ByPass && !spell.Found,
		})
	}
	for i := range e.Causes {
		if c := &e.Causes[i]; c.Typical != nil && len(f.Moments) < mostMoments {
			moment(*c.Typical, "scene-"+c.Cause, capital(c.Words()),
				fmt.Sprintf("%s of 100 failures (%s to %s). %s", number(100*float64(c.Share.Rate)), number(100*float64(c.Share.Low)), number(100*float64(c.Share.High)), c.Advice))
		}
	}
	if e.Best != nil {
		moment(*e.Best, "scene-best", "The one that worked best", "How it looks when it comes off")
	}
	return f
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// Filmed plays a possession of a scenario again, as playout replay does.
func Filmed(sc *model.Scenario) func(id int) *sim.Film {
	return func(id int) *sim.Film { return sim.Record(sc, nil, id) }
}
