package export

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"time"

	"playout/model"
	"playout/sim"
)

// CDFVersion is the version of the Common Data Format that is written, whose
// schemas are in testdata.
const CDFVersion = "0.2.3"

// framesPerSecond of the tracking data: one frame for each tick.
const framesPerSecond = 10

const onlyPeriod = "first_half"

// kickOff is the start of the synthetic clock.
var kickOff = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// slot is the time from the start of one possession to that of the next on the
// synthetic clock, s: whole minutes that no possession with its aftermath outlasts.
func slot(sc *model.Scenario) int {
	return 60 * int(math.Floor((sc.Clock+sc.AfterLoss+1)/60)+1)
}

// frameID is the number of a tick on the synthetic clock.
func (c *cdf) frameID(id, tick int) int { return id*c.slot*framesPerSecond + tick }

func (c *cdf) at(id, tick int) string {
	return kickOff.Add(time.Duration(c.frameID(id, tick)) * (time.Second / framesPerSecond)).Format("2006-01-02T15:04:05.000Z")
}

// cdf writes the events and frames of an export as one match.
type cdf struct {
	sc       *model.Scenario
	match    string
	slot     int
	team     [2]string
	player   [2][11]string
	foot     [2][11]string
	events   *json.Encoder
	tracking *json.Encoder
	eventOut *output
	frameOut *output

	score [2]int
	goals []cdfGoal
	last  int // frame
}

func newCDF(sc *model.Scenario, match string, events, tracking *output) *cdf {
	c := &cdf{sc: sc, match: match, slot: slot(sc), eventOut: events, frameOut: tracking}
	c.events, c.tracking = jsonLines(events), jsonLines(tracking)
	for side := range sc.Teams {
		c.team[side] = "synthetic_" + sides[side]
		for i, p := range sc.Teams[side].Players {
			c.player[side][i] = fmt.Sprintf("%s_%d", c.team[side], p.Number)
			c.foot[side][i] = "right_foot"
			if p.Foot == model.LeftFoot {
				c.foot[side][i] = "left_foot"
			}
		}
	}
	return c
}

func jsonLines(w io.Writer) *json.Encoder {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e
}

type cdfID struct {
	ID string `json:"id"`
}

type cdfEventLine struct {
	Match      cdfID    `json:"match"`
	Possession int      `json:"possession"`
	Meta       cdfSync  `json:"meta"`
	Event      cdfEvent `json:"event"`
	Tracking   struct {
		Frame int `json:"frame_id"`
		End   int `json:"frame_id_end"`
	} `json:"tracking"`
}

type cdfSync struct {
	IsSynced bool `json:"is_synced"`
}

type cdfEvent struct {
	ID           string      `json:"id"`
	Time         string      `json:"time"`
	Period       string      `json:"period"`
	Type         string      `json:"type"`
	SubType      *string     `json:"sub_type"`
	Successful   bool        `json:"is_successful"`
	Outcome      string      `json:"outcome_type"`
	Player       string      `json:"player_id"`
	Team         string      `json:"team_id"`
	Receiver     *string     `json:"receiver_id"`
	ReceiverTime *string     `json:"receiver_time"`
	X            float64     `json:"x"`
	Y            float64     `json:"y"`
	XEnd         float64     `json:"x_end"`
	YEnd         float64     `json:"y_end"`
	BodyPart     string      `json:"body_part"`
	Related      []string    `json:"related_event_ids"`
	Metrics      *cdfMetrics `json:"metrics,omitempty"`
}

type cdfMetrics struct {
	XG    *float64 `json:"xg,omitempty"`
	XPass *float64 `json:"xpass,omitempty"`
}

// cdfTypes sorts actions by the types of the format.
var cdfTypes = [numActs][2]string{
	actStart: {"misc", "start"}, actPass: {"pass", ""}, actCarry: {"misc", "carry"}, actTakeOn: {"misc", "take_on"},
	actShot: {"shot", ""}, actTouch: {"misc", "touch"}, actRecovery: {"defending", "recovery"}, actRestart: {"misc", ""},
	actChallenge: {"defending", "challenge"}, actDeflection: {"defending", "deflection"}, actPress: {"defending", "pressing"},
}

// event writes action nth of possession id.
func (c *cdf) event(id, nth int, a *action) error {
	if a.player == nobody {
		return nil
	}
	line := cdfEventLine{Match: cdfID{c.match}, Possession: id, Meta: cdfSync{true}}
	line.Tracking.Frame, line.Tracking.End = c.frameID(id, a.tick), c.frameID(id, a.end)
	e := &line.Event
	*e = cdfEvent{
		ID: fmt.Sprintf("synthetic_p%06d_e%03d", id, nth), Time: c.at(id, a.tick), Period: onlyPeriod,
		Type: cdfTypes[a.kind][0], Successful: a.success, Outcome: a.outcome,
		Player: c.player[a.team][a.player], Team: c.team[a.team], BodyPart: c.bodyPart(a),
		X: metres(a.from.X).x, Y: metres(a.from.Y).x, XEnd: metres(a.to.X).x, YEnd: metres(a.to.Y).x,
	}
	if sub := cdfTypes[a.kind][1]; sub != "" {
		e.SubType = &sub
	} else if a.detail != "" {
		e.SubType = &a.detail
	}
	switch {
	case a.kind == actPass:
		x := share(a.chance).x
		e.Metrics = &cdfMetrics{XPass: &x}
	case a.kind == actShot:
		x := share(a.xg).x
		e.Metrics = &cdfMetrics{XG: &x}
	}
	if a.receiver != nobody {
		who, when := c.player[a.team][a.receiver], c.at(id, a.end)
		e.Receiver, e.ReceiverTime = &who, &when
	}
	if a.outcome == goal {
		c.scored(id, a)
	}
	if err := c.events.Encode(&line); err != nil {
		return err
	}
	c.eventOut.rows++
	return nil
}

// bodyPart is what the player plays the ball with. The engine knows the head and the
// strong foot, not which foot a ball was played with.
func (c *cdf) bodyPart(a *action) string {
	switch {
	case a.event != nil && a.event.Header:
		return "head"
	case a.kind == actPass || a.kind == actShot || a.kind == actCarry || a.kind == actTakeOn:
		return c.foot[a.team][a.player]
	}
	return "other"
}

type cdfFrame struct {
	Frame      int    `json:"frame_id"`
	Timestamp  string `json:"timestamp"`
	Period     string `json:"period"`
	Match      cdfID  `json:"match"`
	Possession int    `json:"possession"`
	Teams      struct {
		Home cdfSide `json:"home"`
		Away cdfSide `json:"away"`
	} `json:"teams"`
	Ball struct {
		X float64 `json:"x"`
		Y float64 `json:"y"`
		Z float64 `json:"z"`
	} `json:"ball"`
	InPlay   bool   `json:"ball_status"`
	PossTeam string `json:"ball_poss_team_id"`
}

type cdfSide struct {
	ID      string     `json:"id"`
	Players []cdfPlace `json:"players"`
}

type cdfPlace struct {
	ID string  `json:"id"`
	X  float64 `json:"x"`
	Y  float64 `json:"y"`
}

// frame writes a tick of possession id.
func (c *cdf) frame(id int, f *sim.Frame) error {
	var line cdfFrame
	line.Frame, line.Timestamp, line.Period, line.Match, line.Possession = c.frameID(id, f.Tick), c.at(id, f.Tick), onlyPeriod, cdfID{c.match}, id
	for side, to := range []*cdfSide{&line.Teams.Home, &line.Teams.Away} {
		to.ID, to.Players = c.team[side], make([]cdfPlace, 11)
		for k, p := range f.Players[side] {
			to.Players[k] = cdfPlace{c.player[side][k], metres(p.X).x, metres(p.Y).x}
		}
	}
	line.Ball.X, line.Ball.Y, line.Ball.Z = metres(f.Ball.X).x, metres(f.Ball.Y).x, metres(f.Height).x
	line.InPlay, line.PossTeam = true, c.team[f.OnBall]
	c.last = line.Frame
	if err := c.tracking.Encode(&line); err != nil {
		return err
	}
	c.frameOut.rows++
	return nil
}
