package report

import (
	"fmt"

	"playout/internal/explain"
	"playout/internal/picture"
)

// Picture draws the share of races won: as it stands, and with every lever at the ends
// of its range and where half are won.
func (r *Race) Picture() picture.Drawing {
	half := 100 * explain.Half
	rows := &picture.Rows{
		Words: picture.Words{
			Title:    fmt.Sprintf("%s: %s of 100 %s won", r.title(), percent1(r.Won.Rate), raceNouns[r.focus]),
			Subtitle: "Share won, with its 95% interval, as it stands and with one thing changed. The broken line is a half.",
			Note:     "Won: " + r.wonMeans() + ". " + fmt.Sprintf("Seed %d, engine revision %d. ", r.Seed, r.Revision) + caution,
		},
		X: "won, %", Level: &half, Marked: 1,
		Names:  []string{"as it stands"},
		Series: []picture.Series{{Values: []picture.Interval{drawn(r.Won)}}},
	}
	for i := range r.Changes {
		c := &r.Changes[i]
		for k := range c.Points {
			p := &c.Points[k]
			if p.Value == c.Now {
				continue
			}
			rows.Names = append(rows.Names, c.label+": "+c.value(p.Value))
			rows.Series[0].Values = append(rows.Series[0].Values, drawn(p.Won))
		}
	}
	return rows
}

func drawn(s RaceShare) picture.Interval {
	return picture.Interval{Value: 100 * float64(s.Rate), Lo: 100 * float64(s.Low), Hi: 100 * float64(s.High)}
}
