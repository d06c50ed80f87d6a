package report

import (
	"fmt"
	"strings"
)

// sentences say what the matrix found.
func (m *Matrix) sentences() []string {
	switch {
	case len(m.Plans) == 1 && len(m.Answers) == 1:
		return []string{fmt.Sprintf("One plan against one answer leaves nothing to choose: %s against %s gives %s.",
			m.Plans[0].Name, m.Answers[0].Name, m.worth(m.Payoffs[0][0]))}
	case len(m.Plans) == 1:
		p := m.Plans[0]
		return []string{fmt.Sprintf("Against %s their best answer is %s: it leaves you %s. With one plan there is nothing to mix.",
			p.Name, oneOf(p.Replies), m.worth(p.Worst))}
	case len(m.Answers) == 1:
		a := m.Answers[0]
		return append([]string{fmt.Sprintf("Against %s the best plan is %s: it gives %s. With one answer there is nothing to mix.",
			a.Name, oneOf(a.Replies), m.worth(a.Worst))}, m.undecided()...)
	}
	return []string{strings.Join(append([]string{m.safest()}, m.undecided()...), " "), m.mixing(), m.deserted()}
}

// worth is a value in words: +0.92 xG per 100 build-ups (0.62 to 1.22).
func (m *Matrix) worth(v Interval) string {
	return fmt.Sprintf("%s %s (%s)", m.number(v.Value), m.Unit, m.bounds(v))
}

// number writes a value of the figure; one that may lie on either side of 0 with its sign.
func (m *Matrix) number(x Number) string {
	if m.twoSided() {
		return plus(x, m.figure)
	}
	return fixed(x, m.figure.Decimals)
}

func (m *Matrix) twoSided() bool { return m.Figure == "net_xg" }

func (m *Matrix) bounds(v Interval) string { return m.number(v.Low) + " to " + m.number(v.High) }

// price writes what something costs, which is never below 0.
func (m *Matrix) price(v Interval) string {
	return fmt.Sprintf("%s (%s)", fixed(v.Value, m.figure.Decimals), span(v.Low, v.High, 1, m.figure.Decimals))
}

// oneOf joins names: "A", "A or B", "A, B or C".
func oneOf(names []string) string { return Listed(names, "or") }

// Listed joins names for a sentence, the last two with a word.
func Listed(names []string, last string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	k := len(names) - 1
	return strings.Join(names[:k], ", ") + " " + last + " " + names[k]
}

func (m *Matrix) safest() string {
	for _, p := range m.Plans {
		if p.Safest {
			return fmt.Sprintf("Without mixing the safest plan is %s: whatever they answer it is worth %s or %s; their best answer is %s.",
				p.Name, m.worth(p.Worst), m.better(), oneOf(p.Replies))
		}
	}
	return ""
}

// better is the direction the plans want.
func (m *Matrix) better() string {
	if m.Sense < 0 {
		return "less"
	}
	return "more"
}

// undecided says that the safest plan may be another one.
func (m *Matrix) undecided() []string {
	if m.Rival == "" {
		return nil
	}
	for _, p := range m.Plans {
		if p.Safest {
			return []string{fmt.Sprintf("It cannot be told from %s yet: with other luck it comes out ahead in %s of 100; about %s build-ups of each pairing would tell.",
				m.Rival, hundredths(p.SafestIn), about(m.Needed))}
		}
	}
	return nil
}

// about is a number of build-ups that nobody should take to the letter.
func about(n int64) string {
	if n > 10_000_000 {
		return "more than 10 million"
	}
	return thousands(roundUp(n))
}

func hundredths(x Number) string { return fixed(100*x, 0) }

// mixing says how both sides should mix, or that they need not.
func (m *Matrix) mixing() string {
	if m.Pure {
		text := fmt.Sprintf("Neither side gains by mixing: you should always play %s and they should always answer %s, which is worth %s.",
			oneOf(certain(m.Plans)), oneOf(certain(m.Answers)), m.worth(m.Value))
		if m.PureIn < level {
			text += fmt.Sprintf(" That is not sure: with other luck mixing pays in %s of 100.", hundredths(1-m.PureIn))
		}
		return text + m.prices()
	}
	return fmt.Sprintf("They should play %s: it is worth %s then, whether you play %s. You should play %s: it is worth that, whether they play %s.%s",
		mix(m.Answers), m.worth(m.Value), oneOf(certain(m.Plans)), mix(m.Plans), oneOf(certain(m.Answers)), m.prices())
}

// used is the least share of a mix that is told, one build-up in 200.
const used = 0.005

// certain are the names that the side's best mix uses.
func certain(sides []MatrixSide) []string {
	var out []string
	for _, s := range sides {
		if s.Share.Value >= used {
			out = append(out, s.Name)
		}
	}
	return out
}

// mix says a mix in words: A in 62 of 100 build-ups (48 to 80) and B in 38 (20 to 52).
func mix(sides []MatrixSide) string {
	var out []string
	for _, s := range sides {
		if s.Share.Value >= used {
			unit := ""
			if len(out) == 0 {
				unit = " of 100 build-ups"
			}
			out = append(out, fmt.Sprintf("%s in %s%s (%s)", s.Name, hundredths(s.Share.Value), unit, span(s.Share.Low, s.Share.High, 100, 0)))
		}
	}
	return Listed(out, "and")
}

// prices say what the other side gives away by always answering alike.
func (m *Matrix) prices() string {
	var out []string
	for _, a := range m.Answers {
		if a.Price.Value > 0 && len(out) < 3 {
			out = append(out, fmt.Sprintf("always %s costs them %s, your best being %s then", a.Name, m.price(a.Price), oneOf(a.Replies)))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " " + sentence(strings.Join(out, "; "))
}

// deserted names the plans and answers that need never be played.
func (m *Matrix) deserted() string {
	out := append(deserted(m.Plans, "your"), deserted(m.Answers, "their")...)
	if len(out) == 0 {
		return "No plan and no answer is beaten everywhere by another."
	}
	return sentence(strings.Join(out, "; "))
}

// deserted joins what is dominated by the same thing, and says when that is not sure.
func deserted(sides []MatrixSide, whose string) []string {
	var order []string
	names := map[string][]string{}
	for _, s := range sides {
		if s.Dominated == nil {
			continue
		}
		how := fmt.Sprintf("%s does %s against everything", s.Dominated.words(), s.Dominated.degree())
		if s.Doubt < level {
			how += fmt.Sprintf(" (not sure: in %s of 100 with other luck)", hundredths(s.Doubt))
		}
		if names[how] == nil {
			order = append(order, how)
		}
		names[how] = append(names[how], s.Name)
	}
	var out []string
	for _, how := range order {
		verb := "never pays"
		if len(names[how]) > 1 {
			verb = "never pay"
		}
		out = append(out, fmt.Sprintf("%s %s %s: %s", whose, Listed(names[how], "and"), verb, how))
	}
	return out
}

// sentence gives a text a capital and a full stop.
func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }

func (d *Mixture) degree() string {
	if d.Strict {
		return "better"
	}
	return "at least as well"
}

// words name what dominates: a name, or a mix with its shares.
func (d *Mixture) words() string {
	if len(d.Of) == 1 {
		return d.Of[0].Key
	}
	var out []string
	for _, f := range d.Of {
		out = append(out, fmt.Sprintf("%s in %s of 100", f.Key, hundredths(f.Value)))
	}
	return "a mix of " + Listed(out, "and")
}
