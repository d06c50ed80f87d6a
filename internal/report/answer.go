package report

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"playout/internal/stats"
	"playout/model"
)

// few is the number of build-ups below which a run is called small: with 400,
// a rate near one third is known to about 5 in 100.
const few = 400

// answer says in three or four sentences what the run found.
func answer(s *Summary) []string {
	if s.Possessions == 0 {
		return []string{"No build-up was played, so there is nothing to report."}
	}
	out := []string{entrySentence(s), shotSentence(s), endSentence(s)}
	if s.AfterLoss.Seconds > 0 {
		out = append(out, afterSentence(s))
	}
	if s.ParameterDoubt.On {
		out = append(out, doubtSentence(s))
	}
	return out
}

func entrySentence(s *Summary) string {
	r := s.widest("final_third_entry")
	if r.Count == 0 {
		return fmt.Sprintf("None of %s build-ups reached the final third under control (at most %s in 100).",
			thousands(r.Of), per100(r.High, r))
	}
	return fmt.Sprintf("Of 100 build-ups %s reach the final third under control (%s to %s), %s.",
		per100(r.Rate, r), per100(r.Low, r), per100(r.High, r), commonLanes(s.EntriesByLane))
}

func shotSentence(s *Summary) string {
	r := s.widest("shot")
	if r.Count == 0 {
		return fmt.Sprintf("None ends in a shot (at most %s in 100).", per100(r.High, r))
	}
	xg := s.widestMean("xg")
	return fmt.Sprintf("%s of 100 end in a shot (%s to %s), worth %.2f expected goals per 100 build-ups (%.2f to %.2f).",
		per100(r.Rate, r), per100(r.Low, r), per100(r.High, r), 100*float64(xg.Mean), 100*max(float64(xg.Low), 0), 100*float64(xg.High))
}

func endSentence(s *Summary) string {
	top := s.Ends[0]
	for _, e := range s.Ends {
		if e.Value.Count > top.Value.Count {
			top = e
		}
	}
	third := top.Value.ByThird[0]
	for _, t := range top.Value.ByThird {
		if t.Value.Count > third.Value.Count {
			third = t
		}
	}
	lost := s.widest("turnover")
	return fmt.Sprintf("The commonest end is %s (%s of 100), most often in the %s; %s of 100 lose the ball.",
		endNouns[top.Key], per100(top.Value.Rate.Rate, top.Value.Rate), thirdWords[third.Key], per100(lost.Rate, lost))
}

// commonLanes names the lane with most entries, or says that the leading ones
// cannot be told apart.
func commonLanes(lanes Object[Rate]) string {
	top := lanes[0]
	for _, l := range lanes {
		if l.Value.Count > top.Value.Count {
			top = l
		}
	}
	level := []string{laneWords[top.Key]}
	for _, l := range lanes {
		if l.Key != top.Key && !clearlyMore(top.Value, l.Value) {
			level = append(level, laneWords[l.Key])
		}
	}
	share := fmt.Sprintf("%.0f%% of entries", float64(top.Value.Rate)*100)
	switch len(level) {
	case 1:
		return fmt.Sprintf("most often by the %s (%s)", level[0], share)
	case 2:
		return fmt.Sprintf("most often by the %s (%s) or the %s, too close to call", level[0], share, level[1])
	}
	return "with no lane clearly ahead of the others"
}

// clearlyMore reports whether the 95 % interval of the difference of two shares
// of the same entries leaves out zero. The shares compete, so the variance of
// the difference is (p + q - (p-q)^2) / n.
func clearlyMore(a, b Rate) bool {
	p, q := float64(a.Rate), float64(b.Rate)
	return p-q > 1.96*math.Sqrt((p+q-(p-q)*(p-q))/float64(a.Of))
}

// per100 writes a bound or the value of r as cases in 100, with as many
// decimals as its interval deserves.
func per100(x Number, r Rate) string {
	decimals := 0
	for w := float64(r.High-r.Low) * 100; w < 1 && decimals < 2; w *= 10 {
		decimals++
	}
	return strconv.FormatFloat(float64(x)*100, 'f', decimals, 64)
}

// notes are what a reader has to know about the run: doubts first.
func notes(s *Summary) []string {
	var out []string
	if s.Partial {
		out = append(out, fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups; every figure is of those that were played.",
			thousands(s.Possessions), thousands(s.Asked)))
	}
	if n := s.Possessions; n > 0 && n < few {
		out = append(out, fmt.Sprintf("Only %d build-ups were played: read the intervals, not the rates.", n))
	}
	if s.Precision.Known() && s.Possessions > 0 {
		out = append(out, precisionNote(s))
	}
	return append(out, "A model's estimate, to compare ideas with, not a forecast of a match. "+s.ParameterDoubt.coverage()+
		" Left out: fatigue, weather, set plays, deception, communication, what the keeper saves beyond xG. See: playout help limits.")
}

func precisionNote(s *Summary) string {
	r := s.Rates.Get("final_third_entry")
	half := float64(r.High-r.Low) / 2
	asked := float64(s.Precision)
	if s.PrecisionReached {
		return fmt.Sprintf("Precision reached: final-third entries are known to %.2g in 100 (asked: %.2g) after %s build-ups.",
			half*100, asked*100, thousands(s.Possessions))
	}
	advice := "more than a run can play"
	if need := stats.NeededForHalfWidth(float64(r.Rate), asked, level); need <= model.MaxPossessions {
		advice = "about " + thousands(roundUp(need))
	}
	return fmt.Sprintf("Precision not reached: final-third entries are known to %.2g in 100 (asked: %.2g) after %s build-ups; needed: %s.",
		half*100, asked*100, thousands(s.Possessions), advice)
}

// roundUp rounds a count up to two significant digits.
func roundUp(n int64) int64 {
	unit := int64(1)
	for n/unit >= 100 {
		unit *= 10
	}
	return (n + unit - 1) / unit * unit
}

// thousands writes 1234567 as 1,234,567.
func thousands(n int64) string {
	digits := strconv.FormatInt(n, 10)
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 && digits[i-1] != '-' {
			b.WriteByte(',')
		}
		b.WriteRune(d)
	}
	return b.String()
}
