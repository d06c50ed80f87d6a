package explain

import (
	"context"
	"fmt"

	"playout/model"
)

// DefaultPossessions is how many build-ups playout explain plays when it is not told:
// a cause with one case in ten is then known to about 1.4 in 100.
const DefaultPossessions = 2000

// DefaultSearch is how many build-ups of each variant the search for what would have to
// change plays when it is not told: of a share near a half with one race in two
// build-ups, the interval is then plus or minus 4 in 100.
const DefaultSearch = 1000

// Typical plays the possessions and gives the one that is most typical of a cause of
// failure on the way to the final third: the scene that playout explain names. The
// error says when no build-up failed that way.
func Typical(ctx context.Context, sc *model.Scenario, par *model.Params, cfg Config, cause Cause) (*Story, error) {
	stories, err := Collect(ctx, sc, par, cfg, Teller(sc, ToFinalThird))
	if err != nil {
		return nil, err
	}
	s := TypicalOf(stories, func(s *Story) bool { return s.Result == Failed && s.Cause == cause })
	if s == nil {
		return nil, fmt.Errorf("none of %d build-ups failed by %s", cfg.Possessions, cause)
	}
	return s, nil
}

// Best plays the possessions and gives the one that worked best (see BestOf).
func Best(ctx context.Context, sc *model.Scenario, par *model.Params, cfg Config) (*Story, error) {
	stories, err := Collect(ctx, sc, par, cfg, Teller(sc, ToFinalThird))
	if err != nil {
		return nil, err
	}
	if s := BestOf(stories); s != nil {
		return s, nil
	}
	return nil, fmt.Errorf("none of %d build-ups reached the final third under control", cfg.Possessions)
}
