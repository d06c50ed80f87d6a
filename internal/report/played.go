package report

import (
	"fmt"
	"strings"

	"playout/internal/experiment"
	"playout/internal/stats"
)

// Played is what an experiment has played: the same build-ups of every variant.
type Played struct {
	Seed        uint64 `json:"seed"`        // may exceed 2^53
	Variants    int    `json:"variants"`    // cells that were played
	Possessions int64  `json:"possessions"` // of each variant
	Asked       int64  `json:"asked"`       // of each variant
	Partial     bool   `json:"partial"`     // interrupted
	Version     string `json:"version"`
	Revision    int    `json:"revision"`
}

// facts is the line that lets the experiment be repeated.
func (p *Played) facts() string {
	played := thousands(p.Possessions)
	if p.Partial {
		played = "PARTIAL: " + played + " of " + thousands(p.Asked)
	}
	return fmt.Sprintf("seed %d, %s build-ups of each of %d variants with the same luck, version %s, engine revision %d.",
		p.Seed, played, p.Variants, p.Version, p.Revision)
}

// warning says that the experiment was cut short; "" when it was not.
func (p *Played) warning() string {
	if !p.Partial {
		return ""
	}
	return fmt.Sprintf("PARTIAL: interrupted after %s of %s build-ups of each variant; every figure is of those that were played.",
		thousands(p.Possessions), thousands(p.Asked))
}

// notes are the doubts about what was played, and the caution.
func (p *Played) notes(more ...string) []string {
	var out []string
	if p.Possessions > 0 && p.Possessions < few {
		out = append(out, fmt.Sprintf("Only %d build-ups of each variant were played: read the intervals, not the values.", p.Possessions))
	}
	return append(append(out, more...), caution)
}

// Interval is a value with the bounds of its 95 % interval, per 100 build-ups where it
// is a figure.
type Interval struct {
	Value Number `json:"value"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
}

// per100Of is an estimate per build-up as an interval per 100.
func per100Of(e stats.Estimate) Interval {
	return intervalOf(e, 100)
}

// signed writes a difference of a figure with its interval: +0.31 (+0.10 to +0.52).
func (v Interval) signed(f experiment.Figure) string {
	return v.signedBy(f.Decimals)
}

// signedBy is signed with a number of decimals.
func (v Interval) signedBy(decimals int) string {
	return fmt.Sprintf("%s (%s to %s)", signedText(float64(v.Value), decimals), signedText(float64(v.Low), decimals), signedText(float64(v.High), decimals))
}

func plus(x Number, f experiment.Figure) string { return signedText(float64(x), f.Decimals) }

// signedText writes a number with its sign, and zero without one.
func signedText(x float64, decimals int) string {
	s := fmt.Sprintf("%+.*f", decimals, x)
	if strings.Trim(s, "+-0.") == "" {
		return s[1:]
	}
	return s
}
