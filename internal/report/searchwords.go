package report

import (
	"fmt"

	"playout/internal/experiment"
	"playout/model"
)

// answer says in two paragraphs whether something better was found, and how far the
// search's own figures could be trusted.
func (s *Search) answer() []string {
	out := []string{s.verdictSentence()}
	if s.Asked != nil && len(s.Changes) > 0 {
		out = append(out, s.luckSentence())
	}
	return out
}

func (s *Search) verdictSentence() string {
	none := "No better structure found within the freedom allowed: "
	switch {
	case len(s.Changes) == 0:
		return none + "the search came back to the original."
	case s.Asked == nil:
		return "Whether what the search settled on is better cannot be said: there was no time to play it on fresh luck."
	}
	x := &s.result.Comparison.Asked
	if s.Better {
		text := "A better structure was found"
		if x.Little() {
			text += ", though by little"
		}
		return text + ". " + s.valuesSentence()
	}
	switch x.Verdict {
	case experiment.Worse, experiment.Fewer:
		none += "what the search settled on is worse. "
	case experiment.Same:
		none += "what the search settled on does the same as the original in every build-up."
		return none
	case experiment.Level:
		none += "between what the search settled on and the original there is no difference worth having. "
	default:
		none += "what the search settled on cannot be told from the original. "
	}
	return none + s.valuesSentence() + s.neededSentence()
}

// valuesSentence gives the figure for both, and the difference.
func (s *Search) valuesSentence() string {
	x := &s.result.Comparison.Asked
	f, d := &x.Figure, &x.Difference
	n := func(v float64) string { return hundredfold(Number(v), f.Decimals) }
	values := fmt.Sprintf("%s (%s): %s in place of %s", f.Label, f.Unit, n(x.Variant), n(x.Reference))
	if verb := doing[f.Name]; verb != "" {
		values = fmt.Sprintf("of 100 build-ups %s %s in place of %s", n(x.Variant), verb, n(x.Reference))
	}
	return fmt.Sprintf("%s; difference %s (%s), on %s fresh build-ups that the search had not seen.",
		capital(values), signedTo(d.Value, f.Decimals), signedSpan(d.Lo, d.Hi, f.Decimals), thousands(int64(s.Fresh)))
}

// neededSentence says what it would take to tell a gain as large as the one seen.
func (s *Search) neededSentence() string {
	x := &s.result.Comparison.Asked
	switch {
	case x.Needed == 0 || x.Difference.Value*s.result.Config.Sign() < 0:
		return ""
	case x.Needed > model.MaxPossessions:
		return " It would take more build-ups than can be played to tell a difference this small."
	}
	return fmt.Sprintf(" To tell a difference this small takes about %s build-ups of each.", count(x.Needed))
}

// luckSentence sets what the search measured itself beside what fresh luck says.
func (s *Search) luckSentence() string {
	say := func(v Lead) string {
		return fmt.Sprintf("%s (%s)", signedTo(float64(v.Difference)/100, s.figure.Decimals),
			signedSpan(float64(v.Low)/100, float64(v.High)/100, s.figure.Decimals))
	}
	text := fmt.Sprintf("Do not go by a search's own figures: each is of few build-ups, and picked for being good. Of %s variants tried the luckiest showed %s, on %s build-ups",
		thousands(int64(s.Tried)), say(s.Luckiest.Lead), thousands(int64(s.Luckiest.BuildUps)))
	if s.Claim == nil {
		return text + "."
	}
	return text + fmt.Sprintf("; this one, picked from %d finalists, showed %s on %s build-ups, and %s on fresh luck.",
		s.Claim.Of, say(s.Claim.Lead), thousands(int64(s.Claim.BuildUps)), signedTo(float64(s.Asked.Difference)/100, s.figure.Decimals))
}

func (s *Search) notes() []string {
	var out []string
	if s.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups; this is the best so far, judged on %s fresh build-ups.",
			thousands(int64(s.Searched+2*s.Fresh)), thousands(int64(s.Budget)), thousands(int64(s.Fresh))))
	}
	if s.Fresh > 0 && s.Fresh < few {
		out = append(out, fmt.Sprintf("Only %d fresh build-ups of each were played: read the intervals.", s.Fresh))
	}
	wanted := "higher"
	if s.Wanted == "less" {
		wanted = "lower"
	}
	out = append(out, fmt.Sprintf("Only \"%s\" was asked to be %s: look at the other figures before you believe a change, and at whether it makes sense on grass. "+
		"The opponent does not answer: his block stays as the file has it, where a real one adapts. Play what was found against several blocks with playout matrix.", s.figure.Label, wanted))
	if s.Written != "" {
		out = append(out, fmt.Sprintf("The variant is in %s.", clean(s.Written)))
	}
	if !s.Better {
		out = append(out, "A search that finds nothing has not shown that there is nothing: a larger --budget, fewer free values or a figure that chance blurs less (final_third) see more.")
	}
	return append(out, caution)
}
