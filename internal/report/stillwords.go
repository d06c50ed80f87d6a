package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/sim"
)

// name says what an option is.
func (s *Still) name(o *sim.StillOption) string {
	who := ""
	switch o.Act {
	case sim.ActShot:
		return "shoot"
	case sim.ActTakeOn:
		return "take on " + strconv.Itoa(s.number(1, o.Player))
	case sim.ActKeep:
		return s.keepName(o)
	}
	who = strconv.Itoa(s.number(0, o.Player))
	switch {
	case o.Back:
		return "cut-back to " + who
	case o.Option.Pass == sim.Cross && o.Flight == sim.Ground:
		return "low cross to " + who
	case o.Option.Pass == sim.Cross:
		return "cross to " + who
	case o.Flight != sim.Ground && o.Space:
		return "high ball ahead of " + who
	case o.Flight != sim.Ground:
		return "high ball to " + who
	case o.Space && s.ahead(o) > farAhead:
		return "ball far ahead of " + who
	case o.Space:
		return "ball ahead of " + who
	}
	return "pass to " + who
}

// farAhead tells the two balls into space of a runner apart, m.
const farAhead = 12.0

func (s *Still) ahead(o *sim.StillOption) float64 {
	p := s.run.Still.Pos[0][o.Player]
	return math.Hypot(o.To.X-p.X, o.To.Y-p.Y)
}

// keepName says where he takes the ball.
func (s *Still) keepName(o *sim.StillOption) string {
	p := s.run.Still.Pos[0][s.run.Still.Carrier]
	dx, dy := o.To.X-p.X, o.To.Y-p.Y
	if math.Hypot(dx, dy) < 0.5 {
		return "stand on the ball"
	}
	ways := [...]string{"carry forward", "carry forward, left", "carry left", "carry back, left", "carry back", "carry back, right", "carry right", "carry forward, right"}
	return ways[(int(math.Round(math.Atan2(dy, dx)*4/math.Pi))+8)%8]
}

// sentence tells an option as a coach would.
func (s *Still) sentence(o *StillOption) string {
	var b strings.Builder
	b.WriteString(o.Words)
	if o.Act == sim.ActPass.String() {
		b.WriteString(", " + s.place(o.To))
	}
	switch o.Act {
	case sim.ActShot.String():
		fmt.Fprintf(&b, ": %s of 100 go in", chanceText(o.Chance))
	case sim.ActPass.String():
		fmt.Fprintf(&b, ": %s of 100 get there", chanceText(o.Chance))
	default:
		fmt.Fprintf(&b, ": he keeps the ball %s times of 100", chanceText(o.Chance))
	}
	if o.Detail != nil {
		if t := o.cutter(); t.Chance >= 0.01 {
			fmt.Fprintf(&b, "; their %d is the likeliest to cut it out (%s)", t.Number, chanceText(t.Chance))
		}
	}
	return b.String()
}

// chanceText is a chance as so many of a hundred; a chance that is not 0 or 1 does not
// look like it.
func chanceText(p float64) string {
	return timesText(int(math.Round(100*p)), p)
}

// timesText is a chance that is told as n of a hundred.
func timesText(n int, p float64) string {
	switch {
	case n == 0 && p > 0:
		return "under 1"
	case n == 100 && p < 1:
		return "over 99"
	}
	return strconv.Itoa(n)
}

// answer is what he would do most often, and what would be worth most.
func (s *Still) answer() []string {
	first := &s.Options[0]
	out := []string{fmt.Sprintf("%s times of 100 player %d would %s.", timesText(first.times, first.Share), s.Ball.Player, s.doing(first))}
	best := first
	for i := range s.Options {
		if o := &s.Options[i]; !o.Offside && o.balance() > best.balance() {
			best = o
		}
	}
	if best == first {
		out = append(out, "It is also what is worth most, weighed with what a failure costs.")
	} else {
		out = append(out, fmt.Sprintf("Weighed with what a failure costs, this is worth most: %s. He would do so %s times of 100.", s.sentence(best), timesText(best.times, best.Share)))
	}
	var off []string
	for _, p := range s.Attack {
		if p.Offside {
			off = append(off, strconv.Itoa(p.Number))
		}
	}
	if len(off) > 0 {
		is := "is"
		if len(off) > 1 {
			is = "are"
		}
		out = append(out, fmt.Sprintf("%s %s in an offside position (Law 11).", Listed(off, "and"), is))
	}
	return out
}

// doing is an option as something one does.
func (s *Still) doing(o *StillOption) string {
	text := s.sentence(o)
	for _, noun := range []string{"high ball", "ball", "cross", "low cross", "cut-back"} {
		if strings.HasPrefix(text, noun+" ") {
			return "play a " + text
		}
	}
	return text
}

func (s *Still) notes() []string {
	return []string{
		"Chances are those the engine's players judge by, before the error of the passer's foot. " +
			"A still does not show who is about to move, where the carrier looks, or what is behind a body: what you typed is all the engine knows.",
		stillCaution,
	}
}

const stillCaution = "A model's estimate, to compare options with, not a verdict on a player. " +
	"Left out: fatigue, weather, deception, communication. See: playout help limits."
