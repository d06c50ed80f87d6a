package report

import (
	"math"

	"playout/internal/stats"
	"playout/model"
	"playout/sim"
)

// Chance is what the shots of one lane or source were worth. A possession ends
// with its shot, so it has at most one.
type Chance struct {
	ShotsPer100 Number `json:"shots_per_100"`
	XGPer100    Number `json:"xg_per_100"`
	GoalsPer100 Number `json:"goals_per_100"`
	Shots       Rate   `json:"shots"` // of possessions
	Goals       Rate   `json:"goals"`
	XGPerShot   Number `json:"xg_per_shot"`
}

// LaneChance is the chances of a lane of entry.
type LaneChance struct {
	Chance
	XGPer100Entries Number `json:"xg_per_100_entries"` // by this lane
}

// Passing is the passes of the team on the ball. The interval allows for the
// passes of one possession hanging together.
type Passing struct {
	Attempts  int64         `json:"attempts"`
	Completed int64         `json:"completed"`
	Rate      Number        `json:"rate"`
	Low       Number        `json:"low"`
	High      Number        `json:"high"`
	ByKind    Object[Share] `json:"by_kind"`
}

// BuildUp is the ladder of the possessions that open event data would list as
// build-up: begun in the own third, with at least two passes completed inside
// the own half. It counts a zone as reached when an own action begins there or
// a completed pass ends there, so it is not comparable with Summary.Rates.
type BuildUp struct {
	Possessions     int64        `json:"possessions"`
	Rates           Object[Rate] `json:"rates"` // of these possessions
	Means           Object[Mean] `json:"means"`
	Passing         Passing      `json:"passing"`
	EntriesByLane   Object[Rate] `json:"entries_by_lane"` // of final thirds reached
	EntriesByMethod Object[Rate] `json:"entries_by_method"`
	LossesByThird   Object[Rate] `json:"losses_by_third"` // of these possessions
}

func (s *Summary) progress(t *sim.Tally) {
	of := func(count int64) Rate { return rate(count, t.Possessions) }
	s.Rates = Object[Rate]{
		{"own_third_exit", of(t.ExitOwnThird)},
		{"halfway", of(t.Halfway)},
		{"final_third_entry", of(t.FinalThird)},
		{"final_third_reached", of(t.FinalReached)},
		{"box_entry", of(t.Box)},
		{"shot", of(t.Shot)},
		{"goal", of(t.Goal)},
		{"turnover", of(t.Turnover)},
		{"stalled", of(t.Stalled)},
		{"forced_back", of(t.ForcedBack)},
	}
	s.Means = append(means(t),
		Field[Mean]{"entry_s", mean(t.EntryTicks, sim.TickSeconds)},
		Field[Mean]{"entry_passes", mean(t.EntryPasses, 1)})
	s.StartsByThird = object(model.NumThirds, func(k model.Third) Rate { return of(t.Starts[k]) })
	s.EntriesByLane = object(model.NumLanes, func(l model.Lane) Rate { return rate(t.EntryLane[l], t.FinalThird) })
	s.EntriesByMethod = object(sim.NumMethods, func(m sim.Method) Rate { return rate(t.EntryMethod[m], t.FinalThird) })
	s.EntriesByLaneMethod = object(model.NumLanes, func(l model.Lane) Object[Rate] {
		return object(sim.NumMethods, func(m sim.Method) Rate { return rate(t.EntryLaneMethod[l][m], t.FinalThird) })
	})
	s.Passing = passing(t)
}

// means are those of all possessions.
func means(t *sim.Tally) Object[Mean] {
	return Object[Mean]{
		{"duration_s", mean(t.Duration, sim.TickSeconds)},
		{"active_s", mean(t.Active, sim.TickSeconds)},
		{"passes", mean(t.PassSumDone, 1)},
		{"passes_attempted", mean(t.PassSum, 1)},
		{"xg", mean(t.XG, sim.XGUnit)},
	}
}

func passing(t *sim.Tally) Passing {
	e := stats.Ratio(stats.RatioSums{
		Num: float64(t.PassSumDone.X), Den: float64(t.PassSum.X),
		NumSq: float64(t.PassSumDone.XX), DenSq: float64(t.PassSum.XX), NumDen: float64(t.PassCross),
		N: t.Possessions,
	}, level)
	return Passing{
		Attempts:  t.PassSum.X,
		Completed: t.PassSumDone.X,
		Rate:      Number(e.Value),
		Low:       within01(e.Lo),
		High:      within01(e.Hi),
		ByKind:    object(sim.NumPassKinds, func(k sim.PassKind) Share { return share(t.Completed[k], t.Attempted[k]) }),
	}
}

// within01 holds a bound of a share between 0 and 1, of which the interval of a
// ratio knows nothing.
func within01(x float64) Number {
	if math.IsInf(x, 0) {
		return missing
	}
	return Number(min(max(x, 0), 1))
}

func (s *Summary) chances(t *sim.Tally) {
	of := func(shots, xg, goals int64) Chance { return chance(shots, xg, goals, t.Possessions) }
	s.ChancesByLane = object(model.NumLanes, func(l model.Lane) LaneChance {
		return LaneChance{of(t.ShotsByEntry[l], t.XGByEntry[l], t.GoalsByEntry[l]), scaled(t.XGByEntry[l], t.EntryLane[l], 100*sim.XGUnit)}
	})
	s.ChancesByLastLane = object(model.NumLanes, func(l model.Lane) Chance {
		return of(t.ShotsByLast[l], t.XGByLast[l], t.GoalsByLast[l])
	})
	s.ShotsBySource = object(sim.NumSources, func(k sim.Source) Chance {
		return of(t.ShotsBy[k], t.XGBy[k], t.GoalsBy[k])
	})
}

func chance(shots, xg, goals, possessions int64) Chance {
	return Chance{
		ShotsPer100: scaled(shots, possessions, 100),
		XGPer100:    scaled(xg, possessions, 100*sim.XGUnit),
		GoalsPer100: scaled(goals, possessions, 100),
		Shots:       rate(shots, possessions),
		Goals:       rate(goals, possessions),
		XGPerShot:   scaled(xg, shots, sim.XGUnit),
	}
}

func buildUp(t *sim.Tally) BuildUp {
	of := func(count int64) Rate { return rate(count, t.Possessions) }
	return BuildUp{
		Possessions: t.Possessions,
		Rates: Object[Rate]{
			{"own_third_exit", of(t.ExitOwnThird)},
			{"halfway", of(t.Halfway)},
			{"final_third_reached", of(t.FinalReached)},
			{"box_entry", of(t.Box)},
			{"shot", of(t.Shot)},
			{"goal", of(t.Goal)},
			{"turnover", of(t.Turnover)},
		},
		Means:           means(t),
		Passing:         passing(t),
		EntriesByLane:   object(model.NumLanes, func(l model.Lane) Rate { return rate(t.ReachLane[l], t.FinalReached) }),
		EntriesByMethod: object(sim.NumWays, func(w sim.Way) Rate { return rate(t.ReachWay[w], t.FinalReached) }),
		LossesByThird:   object(model.NumThirds, func(k model.Third) Rate { return of(sumLanes(t.LostIn[k])) }),
	}
}

func sumLanes(n [model.NumLanes]int64) int64 {
	sum := int64(0)
	for _, x := range n {
		sum += x
	}
	return sum
}
