package report

import (
	"playout/model"
	"playout/sim"
)

// EndRate is how often possessions ended in one way, and where.
type EndRate struct {
	Rate                 // of possessions
	Lost    bool         `json:"lost"` // the opponent has the ball or its restart
	ByThird Object[Rate] `json:"by_third"`
}

// PlayerRate is how often something fell to one player.
type PlayerRate struct {
	Number   int    `json:"number"`
	Name     string `json:"name"`
	Position string `json:"position"`
	Rate
}

// PlayerShare is PlayerRate for what can happen more than once in a possession.
type PlayerShare struct {
	Number   int    `json:"number"`
	Name     string `json:"name"`
	Position string `json:"position"`
	Share
}

// RestDefence is who stood where when the ball was lost: outfield team-mates
// goal-side of the ball and opponents ahead of it.
type RestDefence struct {
	TeamMates Mean `json:"team_mates_goal_side"`
	Opponents Mean `json:"opponents_ahead"`
}

func (s *Summary) losses(t *sim.Tally, players []model.Player) {
	of := func(count int64) Rate { return rate(count, t.Possessions) }
	s.Ends = object(sim.NumEnds, func(e sim.End) EndRate {
		all := int64(0)
		for _, n := range t.Ends[e] {
			all += n
		}
		return EndRate{of(all), e.Lost(), object(model.NumThirds, func(k model.Third) Rate { return of(t.Ends[e][k]) })}
	})
	s.LossesByZone = object(model.NumThirds, func(k model.Third) Object[Rate] {
		return object(model.NumLanes, func(l model.Lane) Rate { return of(t.LostIn[k][l]) })
	})
	s.LossesUnderPressure = rate(t.LostPressed, t.Turnover)
	for i, p := range players {
		s.LossesByPlayer = append(s.LossesByPlayer, PlayerRate{
			p.Number, clean(p.Name), p.Position.String(), rate(t.LostBy[i], t.Turnover),
		})
	}
	s.RestDefence = object(model.NumThirds, func(k model.Third) RestDefence {
		return RestDefence{mean(t.LostRest[k], 1), mean(t.Against[k], 1)}
	})
}
