package report

import (
	"fmt"
	"strconv"
	"strings"

	"playout/internal/explain"
	"playout/model"
	"playout/sim"
)

// raceNouns name the races of a focus, raceWon what winning one means.
var raceNouns = [explain.NumFocuses]string{"switches of play", "passes to an overlap", "passes to an underlap", "passes forward into the centre", "presses"}

func (r *Race) wonMeans() string {
	if r.focus == explain.PressRace {
		return fmt.Sprintf("the ball is passed on before the presser is within %.0f m", explain.PressureAt)
	}
	return fmt.Sprintf("the receiver has played on, or carried it %.0f m forward, before a defender is within %.0f m", explain.CarriedBy, explain.ThereAt)
}

func (r *Race) answer() []string {
	if r.All.Races == 0 {
		return []string{fmt.Sprintf("In %s there are no %s, so there is no race to explain.", plural(r.Possessions, "build-up"), raceNouns[r.focus])}
	}
	w := r.Won
	first := fmt.Sprintf("Of 100 %s the ball wins %s (%s to %s): %s.", raceNouns[r.focus], percent1(w.Rate), percent1(w.Low), percent1(w.High), r.wonMeans())
	lost := Share{Count: r.Beaten.Entered.Count + r.Missed.Entered.Count, Of: r.Beaten.Entered.Of + r.Missed.Entered.Of}
	lost.Rate = ratio(lost.Count, lost.Of)
	if r.Winners.Entered.Of > 0 && lost.Of > 0 {
		first += fmt.Sprintf(" Of the %s won before the final third %s then get there, of the %s lost %s.",
			thousands(r.Winners.Entered.Of), of100(r.Winners.Entered), thousands(lost.Of), of100(lost))
	}
	return []string{first, r.whyLost() + r.whatChanges()}
}

// percent1 is a share in 100 without a sign.
func percent1(n Number) string { return hundredfold(n, 0) }

// ofHow is a share with what it is a share of.
func ofHow(s Share) string { return percent(s.Rate) + " of " + thousands(s.Of) }

func of100(s Share) string { return hundredfold(s.Rate, 0) + " of 100" }

// whyLost sets those lost beside those won.
func (r *Race) whyLost() string {
	lost := r.All.Races - r.Won.Count
	if lost == 0 {
		return "None was lost. "
	}
	text := fmt.Sprintf("Of the %s lost, %s never reach their man", thousands(lost), thousands(r.Missed.Races))
	there, verb := r.Beaten.There.Median, "the block is there"
	if r.focus == explain.PressRace {
		text = fmt.Sprintf("Of the %s lost, in %s the ball is lost as well", thousands(lost), thousands(r.Missed.Races))
		there, verb = r.Beaten.First.Median, "the presser is there"
	}
	if r.Beaten.Races > 0 && there.Known() {
		text += fmt.Sprintf("; in %s %s after %s s, before he has played on", thousands(r.Beaten.Races), verb, fixed(there, 1))
		if r.Winners.Left.Median.Known() {
			text += fmt.Sprintf(". In the races won he has played on after %s s", fixed(r.Winners.Left.Median, 1))
		}
	}
	return text + ". "
}

// whatChanges says which levers take the share won to the target.
func (r *Race) whatChanges() string {
	var to, no, may []string
	best := -1
	for i := range r.Changes {
		c := &r.Changes[i]
		switch c.Outcome {
		case explain.Reaches.String():
			to = append(to, fmt.Sprintf("%s %s (now %s)", c.label, c.value(c.At), c.value(c.Now)))
		case explain.Never.String():
			no = append(no, c.label)
		case explain.May.String():
			may = append(may, c.label)
		case explain.There.String():
			if c.Best.GainLow > 0 && (best < 0 || c.Best.Gain > r.Changes[best].Best.Gain) {
				best = i
			}
			continue
		}
	}
	goal := percent1(r.Target) + " of 100"
	now := r.searched()
	// Won more often than asked about, it is a fall that is looked for.
	said := ""
	reached, missed, open := goal+" would be won with ", "no one thing tried takes it to "+goal, " alone would do cannot be told yet"
	if r.above() {
		said = fmt.Sprintf("As it stands %s (%s to %s) are won in the %s of the search: more than %s already. ",
			of100(now.Won.share()), percent1(now.Won.Low), percent1(now.Won.High), plural(r.Search, "build-up"), goal)
		reached, missed = "it would fall to "+goal+" with ", "no one thing tried brings it down to "+goal
		open = " alone would bring it down to " + goal + " cannot be told yet"
	}
	var out []string
	switch {
	case len(r.Changes) > 0 && r.Changes[0].Outcome == explain.There.String():
		out = append(out, fmt.Sprintf("in the %s of the search %s (%s to %s) are won as it stands, which cannot be told from %s",
			plural(r.Search, "build-up"), of100(now.Won.share()), percent1(now.Won.Low), percent1(now.Won.High), percent1(r.Target)))
		if best >= 0 {
			c := &r.Changes[best]
			out = append(out, fmt.Sprintf("of what was tried %s gains most: %s of 100 won at %s", c.label, percent1(c.Best.Won.Rate), c.value(c.Best.Value)))
		} else {
			out = append(out, "nothing tried by itself surely wins more")
		}
	case len(to) > 0:
		out = append(out, reached+either(to))
	case len(no) > 0 && len(may) == 0:
		out = append(out, missed)
	}
	if len(to) > 0 && len(no) > 0 {
		out = append(out, "not with "+either(no)+" alone")
	}
	if len(may) > 0 {
		out = append(out, "whether "+either(may)+open)
	}
	if len(out) == 0 {
		return ""
	}
	return said + capital(strings.Join(out, "; ")) + "."
}

// above reports whether more is surely won as it stands than was asked about.
func (r *Race) above() bool {
	now := r.searched()
	return now != nil && now.Won.Low > r.Target && r.Changes[0].Outcome != explain.TooFew.String()
}

// searched is what was won as it stands in the build-ups that the search played: they may
// be fewer than those of the headline. nil without a search.
func (r *Race) searched() *RacePoint {
	if len(r.Changes) == 0 {
		return nil
	}
	c := &r.Changes[0]
	for i := range c.Points {
		if c.Points[i].Value == c.Now {
			return &c.Points[i]
		}
	}
	return nil
}

func either(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	out := names[0]
	for _, n := range names[1 : len(names)-1] {
		out += ", " + n
	}
	return out + ", or " + names[len(names)-1]
}

// value of a lever with its unit.
func (c *Change) value(x Number) string {
	d := 1
	if c.whole {
		d = 0
	}
	return fixed(x, d) + " " + c.Unit
}

func (r *Race) notes(run RaceRun) []string {
	var out []string
	if r.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups and %d of %d things to change.",
			thousands(r.Possessions), thousands(r.Asked), len(run.Changes), len(run.Levers)))
	}
	if r.Possessions < few || r.All.Races < 100 {
		out = append(out, fmt.Sprintf("Only %s in %s: read the intervals, not the shares.", plural(r.All.Races, "race"), plural(r.Possessions, "build-up")))
	}
	return append(out,
		"The speed of passes is a parameter of the engine, for both teams and for passes along the ground alone; pinning men are added from the front. What is moved changes more than the race: see what else by playout compare or sweep.",
		caution)
}

func (r *Race) title() string { return "The ball against the block: " + r.name() }

func (r *Race) name() string {
	if r.Title == "" {
		return "untitled scenario"
	}
	return r.Title
}

func (r *Race) document() *document {
	d := &document{title: r.title(), answer: r.Answer, notes: r.Notes}
	played := thousands(r.Possessions) + " build-ups"
	if r.Partial {
		played = "PARTIAL: " + thousands(r.Possessions) + " of " + thousands(r.Asked) + " build-ups"
		d.warning, d.notes = r.Notes[0], r.Notes[1:]
	}
	d.facts = fmt.Sprintf("seed %d, %s, %s of each variant of the search with the same luck, tick %s s, version %s, engine revision %d.",
		r.Seed, played, thousands(r.Search), r.TickS.text(), r.Version, r.Revision)
	if r.All.Races == 0 {
		return d
	}
	d.tables = append(d.tables, r.figureTable(), r.menTable())
	if len(r.Changes) > 0 {
		d.tables = append(d.tables, r.changeTable())
	}
	return d
}

// waysToLose head the columns of the races that are not won.
func (r *Race) waysToLose() []string {
	if r.focus == explain.PressRace {
		return []string{"presser there first", "ball lost"}
	}
	return []string{"block there first", "not reached"}
}

func (r *Race) figureTable() *table {
	t := &table{
		title: "The race", head: append([]string{raceNouns[r.focus], "won"}, r.waysToLose()...),
		note: fmt.Sprintf("Medians, with quartiles in brackets. Won: %s. To look at a typical one: playout replay %s%s --possession NUMBER.",
			r.wonMeans(), shortFile(r.File), r.again),
	}
	if r.focus == explain.SwitchRace {
		t.note = fmt.Sprintf("A switch goes %.0f m or more across, in one pass or in a chain of passes within %.0f s, found or not; a cross is none. Its time runs from the first pass. ",
			model.SwitchWidth, sim.TickSeconds*explain.ChainFor) + t.note
	}
	columns := []*RaceFigures{&r.Winners, &r.Beaten, &r.Missed}
	row := func(name string, of func(f *RaceFigures) string) {
		cells := []string{name}
		for _, f := range columns {
			cells = append(cells, of(f))
		}
		t.add(cells...)
	}
	spread := func(s Spread, decimals int) string {
		if !s.Median.Known() {
			return "mostly none"
		}
		high := "-"
		if s.High.Known() {
			high = fixed(s.High, decimals)
		}
		return fmt.Sprintf("%s (%s to %s)", fixed(s.Median, decimals), fixed(s.Low, decimals), high)
	}
	some := func(name string, of func(f *RaceFigures) Spread) {
		row(name, func(f *RaceFigures) string {
			if of(f) == (Spread{}) || f.Races == 0 {
				return "-"
			}
			return spread(of(f), 1)
		})
	}
	reached := func(of func(f *RaceFigures) Spread) func(f *RaceFigures) Spread {
		return func(f *RaceFigures) Spread {
			if f.Reached.Count == 0 {
				return Spread{}
			}
			return of(f)
		}
	}
	row("races", func(f *RaceFigures) string { return thousands(f.Races) })
	row("per 100 build-ups", func(f *RaceFigures) string { return fixed(scaled(f.Races, r.Possessions, 100), 1) })
	if r.focus == explain.PressRace {
		some("time until the ball is let go, s", func(f *RaceFigures) Spread { return f.Seconds })
		some("presser when it is let go, m away", func(f *RaceFigures) Spread { return f.Near })
		some("presser there after (2 m), s", reached(func(f *RaceFigures) Spread { return f.First }))
	} else {
		some("time of the ball, s", func(f *RaceFigures) Spread { return f.Seconds })
		some("nearest defender when it arrives, m", func(f *RaceFigures) Spread { return f.Near })
		some("block's edge short of the ball then, m", func(f *RaceFigures) Spread { return f.Edge })
		some("block there after (3 m), s", reached(func(f *RaceFigures) Spread { return f.There }))
		some("first pressure after (2 m), s", reached(func(f *RaceFigures) Spread { return f.First }))
		some("played on after, s", reached(func(f *RaceFigures) Spread { return f.Left }))
	}
	row("then into the final third", func(f *RaceFigures) string { return ofHow(f.Entered) })
	row("typical scene", func(f *RaceFigures) string { return sceneText(f.Typical) })
	row("- sets out after, s", func(f *RaceFigures) string { return fixed(f.TypicalS, 1) })
	return t
}

// mostMen is how many players the table of a race shows.
const mostMen = 6

func (r *Race) menTable() *table {
	t := &table{title: "Whose races they are", head: []string{"player", "races", "won, %", intervalHead}}
	for i := range r.Players[:min(len(r.Players), mostMen)] {
		m := &r.Players[i]
		t.add(who(m.Number, m.Name, m.Position), thousands(m.Won.Of), hundredfold(m.Won.Rate, 1), interval(m.Won))
	}
	if rest := r.Players[min(len(r.Players), mostMen):]; len(rest) > 0 {
		won, of := int64(0), int64(0)
		for i := range rest {
			won, of = won+rest[i].Won.Count, of+rest[i].Won.Of
		}
		all := rate(won, of)
		t.add(plural(int64(len(rest)), "other"), thousands(of), hundredfold(all.Rate, 1), interval(all))
	}
	return t
}

func (r *Race) changeTitle() string {
	if r.above() {
		return fmt.Sprintf("What would bring it down to %s of 100", percent1(r.Target))
	}
	return fmt.Sprintf("What would have to change to win %s of 100", percent1(r.Target))
}

func (r *Race) changeTable() *table {
	t := &table{
		title: r.changeTitle(),
		head:  []string{"one thing at a time", "now", "tried", "it takes", "between", "most", "at", "gain"},
		note: r.searchNote() + "Between: outside, as far as was tried, the share is surely on one side. " +
			"Most won of all values tried, at which, and its gain over the share as it stands, in 100, with its " + intervalHead + ".",
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		at, between := "", "-"
		switch c.Outcome {
		case explain.Reaches.String():
			at, between = c.short(c.At), c.short(c.From)+" to "+c.short(c.To)
		case explain.There.String():
			at = "as it stands"
		case explain.May.String():
			at = "cannot tell"
		case explain.Never.String():
			at = "never"
		case explain.TooFew.String():
			at = "too few races"
		}
		b := &c.Best
		gain := "-"
		if b.Value != c.Now {
			gain = fmt.Sprintf("%s (%s to %s)", signedText(100*float64(b.Gain), 0), signedText(100*float64(b.GainLow), 0), signedText(100*float64(b.GainHigh), 0))
		}
		label := c.label
		if !c.whole {
			label += ", " + c.Unit
		}
		t.add(label, c.short(c.Now), c.short(c.Low)+" to "+c.short(c.High), at, between, percent(b.Won.Rate), c.short(b.Value), gain)
	}
	return t
}

// searchNote says what the search compares with: the same build-ups as it stands.
func (r *Race) searchNote() string {
	text := fmt.Sprintf("Every value was played in %s with the same luck, the rest as it stands.", plural(r.Search, "build-up"))
	if now := r.searched(); now != nil && now.Won.Of > 0 {
		text += fmt.Sprintf(" In these %s (%s to %s) are won as it stands.", of100(now.Won.share()), percent1(now.Won.Low), percent1(now.Won.High))
	}
	return text + " "
}

func (c *Change) short(x Number) string {
	d := 1
	if c.whole {
		d = 0
	}
	return fixed(x, d)
}

func (r *Race) rows() [][]string {
	out := [][]string{{"table", "name", "detail", "count", "of", "value", "low", "high", "possession"}}
	count := func(n int64) string { return strconv.FormatInt(n, 10) }
	w := r.Won
	out = append(out, []string{"race", "won", "", count(w.Count), count(w.Of), w.Rate.text(), w.Low.text(), w.High.text(), ""})
	for _, of := range []struct {
		name string
		f    *RaceFigures
	}{{"all", &r.All}, {"won", &r.Winners}, {"beaten", &r.Beaten}, {"missed", &r.Missed}} {
		id := ""
		if of.f.Typical != nil {
			id = strconv.Itoa(*of.f.Typical)
		}
		shares := func(name string, s Share) {
			out = append(out, []string{"race", name, of.name, count(s.Count), count(s.Of), s.Rate.text(), "", "", id})
		}
		shares("reached", of.f.Reached)
		for _, s := range []struct {
			name string
			s    Spread
		}{{"ball_s", of.f.Seconds}, {"nearest_defender_m", of.f.Near}, {"beyond_the_block_m", of.f.Edge}, {"block_there_s", of.f.There}, {"first_pressure_s", of.f.First}, {"played_on_s", of.f.Left}} {
			out = append(out, []string{"race", s.name, of.name, "", count(of.f.Races), s.s.Median.text(), s.s.Low.text(), s.s.High.text(), id})
		}
		shares("then_final_third", of.f.Entered)
	}
	for i := range r.Players {
		m := &r.Players[i]
		out = append(out, []string{"players", strconv.Itoa(m.Number), guard(m.Name), count(m.Won.Count), count(m.Won.Of), m.Won.Rate.text(), m.Won.Low.text(), m.Won.High.text(), ""})
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		out = append(out, []string{"changes", c.Lever, c.Outcome, "", "", c.At.text(), c.From.text(), c.To.text(), ""})
		for _, p := range c.Points {
			out = append(out, []string{"points", c.Lever, p.Value.text(), count(p.Won.Count), count(p.Won.Of), p.Won.Rate.text(), p.Won.Low.text(), p.Won.High.text(), ""})
		}
	}
	return out
}
