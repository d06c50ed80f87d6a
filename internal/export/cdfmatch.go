package export

import (
	"fmt"

	"playout/internal/plain"
	"playout/model"
)

// The match sheet and the meta data of the match that an export is.

type cdfScore struct {
	Home int `json:"home"`
	Away int `json:"away"`
}

type cdfGoal struct {
	Time    string   `json:"time"`
	Period  string   `json:"period"`
	Team    string   `json:"team_id"`
	Player  string   `json:"player_id"`
	OwnGoal bool     `json:"is_own_goal"`
	Penalty bool     `json:"is_penalty"`
	Score   cdfScore `json:"score"`
}

func (c *cdf) scored(id int, a *action) {
	c.score[a.team]++
	c.goals = append(c.goals, cdfGoal{Time: c.at(id, a.tick), Period: onlyPeriod, Team: c.team[a.team],
		Player: c.player[a.team][a.player], Score: cdfScore{c.score[0], c.score[1]}})
}

type cdfPlayer struct {
	ID        string `json:"id"`
	FirstName string `json:"first_name"`
	LastName  string `json:"last_name"`
	Team      string `json:"team_id"`
	Number    int    `json:"jersey_number"`
	Starter   bool   `json:"is_starter"`
	Played    bool   `json:"has_played"`
	Position  string `json:"position"`
	Foot      string `json:"foot"`
}

type cdfSheetTeam struct {
	ID        string      `json:"id"`
	ShortName string      `json:"short_name"`
	Players   []cdfPlayer `json:"players"`
}

type object map[string]any // encoding/json writes its keys in order

// matchSheet is match.json. The score is that of all filmed possessions, which is
// no result of a match; a draw has no winner, for which the schema wants a text.
func (c *cdf) matchSheet() object {
	score := cdfScore{c.score[0], c.score[1]}
	winner := ""
	switch {
	case score.Home > score.Away:
		winner = c.team[0]
	case score.Away > score.Home:
		winner = c.team[1]
	}
	goals := c.goals
	if goals == nil {
		goals = []cdfGoal{}
	}
	return object{
		"match": object{
			"id":     c.match,
			"status": object{"is_neutral": true, "has_extratime": false, "has_shootout": false},
			// The schema looks for has_extratime and has_shootout among the results, and
			// wants those results unless it finds there that there were none.
			"result": object{"final": score, "final_winning_team_id": winner, "first_half": score, "second_half": cdfScore{},
				"has_extratime": false, "has_shootout": false},
		},
		"teams":    object{"home": c.sheetTeam(model.Attack), "away": c.sheetTeam(model.Defence)},
		"referees": []object{},
		"events":   object{"goals": goals, "substitutions": nil, "cards": nil},
		"meta":     object{"vendor": vendor},
	}
}

// vendor names the source of the data, and that they are synthetic.
const vendor = "playout (synthetic)"

func (c *cdf) sheetTeam(side model.Side) cdfSheetTeam {
	t := &c.sc.Teams[side]
	out := cdfSheetTeam{ID: c.team[side], ShortName: plain.Clean(t.Name)}
	for i, p := range t.Players {
		name := plain.Clean(p.Name)
		if name == "" {
			name = fmt.Sprintf("%s %d", side, p.Number)
		}
		out.Players = append(out.Players, cdfPlayer{ID: c.player[side][i], LastName: name, Team: c.team[side], Number: p.Number,
			Starter: true, Played: true, Position: p.Position.String(), Foot: p.Foot.String()})
	}
	return out
}

// meta is meta.json; version is the program's.
func (c *cdf) meta(version string) object {
	start, end := c.at(0, 0), c.at(0, c.last)
	team := func(side model.Side) object {
		var players []object
		for i, p := range c.sc.Teams[side].Players {
			players = append(players, object{"id": c.player[side][i], "team_id": c.team[side], "jersey_number": p.Number, "is_starter": true})
		}
		return object{"id": c.team[side], "players": players}
	}
	source := object{"name": vendor, "version": version, "fps": framesPerSecond, "collection_timing": "simulated"}
	return object{
		"competition": object{"id": "synthetic"},
		"season":      object{"id": "synthetic"},
		"match": object{
			"id": c.match, "kickoff_time": start,
			"periods": []object{{
				"period": onlyPeriod, "play_direction": "left_right", "time_start": start, "time_end": end,
				"frame_id_start": 0, "frame_id_end": c.last, "left_team_id": c.team[0], "right_team_id": c.team[1],
			}},
			"whistles": []object{
				{"type": onlyPeriod, "sub_type": "start", "time": start},
				{"type": onlyPeriod, "sub_type": "end", "time": end},
			},
		},
		"teams":   object{"home": team(model.Attack), "away": team(model.Defence)},
		"stadium": object{"id": "synthetic_pitch", "pitch_length": c.sc.Pitch.Length, "pitch_width": c.sc.Pitch.Width},
		"meta": object{
			"video": nil, "landmarks": nil, "ball": nil, "tracking": source,
			"event": object{"name": vendor, "version": version, "collection_timing": "simulated"},
			"meta":  object{"name": vendor, "version": version},
			"cdf":   object{"version": CDFVersion},
		},
	}
}
