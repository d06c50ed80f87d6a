package report

import (
	"fmt"

	"playout/internal/picture"
)

// Picture draws the share of races won: as it stands, and with every lever at the ends
// of its range and where half are won.
func (r *Race) Picture() picture.Drawing {
	target := 100 * float64(r.Target)
	rows := &picture.Rows{
		Words: picture.Words{
			Title:    fmt.Sprintf("%s: %s of 100 %s won", r.name(), percent1(r.Won.Rate), raceNouns[r.focus]),
			Subtitle: "Share won, with its 95% interval, as it stands and with one thing changed. Broken line: " + percent1(r.Target) + " of 100.",
			Note:     "Won: " + r.wonMeans() + ". " + fmt.Sprintf("Seed %d, engine revision %d. ", r.Seed, r.Revision) + caution,
		},
		X: "won, %", Level: &target, Marked: 1,
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
			rows.Names = append(rows.Names, c.label+": "+fixed(p.Value, c.decimals(p.Value))+" "+c.Unit)
			rows.Series[0].Values = append(rows.Series[0].Values, drawn(p.Won))
		}
	}
	return rows
}

func drawn(s RaceShare) picture.Interval {
	return picture.Interval{Value: 100 * float64(s.Rate), Lo: 100 * float64(s.Low), Hi: 100 * float64(s.High)}
}

// decimals are as few as tell a value from the others of its lever.
func (c *Change) decimals(x Number) int {
	if c.whole {
		return 0
	}
	for i := range c.Points {
		if v := c.Points[i].Value; v != x && fixed(v, 1) == fixed(x, 1) {
			return 2
		}
	}
	return 1
}
