package replay

import (
	"fmt"
	"strings"

	"playout/internal/plain"
	"playout/sim"
)

// columns is the width of the account.
const columns = 100

// Text is the account for a terminal.
func (st *Story) Text() []byte {
	var b strings.Builder
	paragraph := func(text string) {
		for _, line := range plain.Wrap(text, columns) {
			b.WriteString(line + "\n")
		}
	}
	paragraph(plain.Cut(st.Title, columns))
	paragraph(fmt.Sprintf("Build-up %d", st.Film.Possession.ID))
	b.WriteByte('\n')
	paragraph(strings.Join(st.Headline(), " "))
	b.WriteByte('\n')
	b.WriteString(fmt.Sprintf("%5s  %-30s %4s %7s  %s\n", "s", "where", "up", "across", "what"))
	const indent = 5 + 2 + 30 + 1 + 4 + 1 + 7 + 2
	for i := range st.Steps {
		s := &st.Steps[i]
		lines := plain.Wrap(s.What, columns-indent)
		fmt.Fprintf(&b, "%5.1f  %-30s %4d %7d  %s\n", s.Seconds(), s.Place, Up(st.Scenario.Pitch, s.From), Across(st.Scenario.Pitch, s.From), lines[0])
		for _, line := range lines[1:] {
			b.WriteString(strings.Repeat(" ", indent) + line + "\n")
		}
	}
	b.WriteByte('\n')
	for _, n := range st.Notes() {
		paragraph(n)
	}
	return []byte(b.String())
}

// Facts is what lets the possession be seen again.
func (st *Story) Facts() string {
	return fmt.Sprintf("Run: seed %d, build-up %d, version %s, engine revision %d.", st.Scenario.Seed, st.Film.Possession.ID, st.Version, sim.Revision)
}

// Notes say how to read the account and how far to trust it.
func (st *Story) Notes() []string {
	return []string{
		"up, across: metres from the goal line and from the left touchline of the side that starts with the ball; " +
			"of a defender who jumps, his own place, of all else the ball's.",
		"A pass is as long as to where the man it was meant for takes it; one that he does not get is told as it was aimed.",
		fmt.Sprintf("A pass's chance is what the engine gives it when it is chosen. Open further forward: passes that would have gained %.0f m or more "+
			"with a chance of %.0f in 100 or more, at most %d, by chance times worth.", openGain, 100*openChance, openMost),
		st.Facts(),
		caution,
	}
}

// caution says how far to trust one possession.
const caution = "One possession of a model, drawn by lot among many: it shows how something can happen, not how often it does."

// team is the name of a team, safe to show and not too long.
func (st *Story) team(side int) string {
	name := plain.Cut(plain.Clean(st.Scenario.Teams[side].Name), 28)
	if name == "" {
		return [...]string{"Attack", "Defence"}[side]
	}
	return name
}

// Alternative is the story for those who cannot see the picture: every step with
// its time and place.
func (st *Story) Alternative() string {
	var b strings.Builder
	b.WriteString(strings.Join(st.Headline(), " "))
	for i := range st.Steps {
		s := &st.Steps[i]
		fmt.Fprintf(&b, " %.1f s, %s: %s", s.Seconds(), s.Place, s.What)
	}
	return b.String()
}
