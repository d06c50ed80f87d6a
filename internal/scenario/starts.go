package scenario

import (
	"fmt"
	"strings"

	"github.com/invopop/jsonschema"

	"playout/model"
)

// startSays is what the words of start: {from: ...} mean.
var startSays = [model.NumStarts]string{
	model.FromMix:        "as in matches: mostly regain, some keeper, few of the others",
	model.FromGoalKick:   "kicked from the goal area, opponents outside the penalty area",
	model.FromKeeper:     "the keeper has the ball near his goal, play going on",
	model.FromCentreBack: "one of the deepest four, mostly a centre-back, has time on it",
	model.FromSettled:    "at the place given as ball: [x, y], both teams in their shapes",
	model.FromRegain:     "just won in the own third, opponents still up the pitch",
}

// Starts lists the words that say how a build-up begins, one on a line with its meaning.
func Starts() string {
	var b strings.Builder
	for i, says := range startSays {
		fmt.Fprintf(&b, "  %-11s  %s\n", model.StartKind(i), says)
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// JSONSchemaExtend adds what the words of from mean.
func (startDoc) JSONSchemaExtend(s *jsonschema.Schema) {
	from, _ := s.Properties.Get("from")
	for i, says := range startSays {
		from.Description += fmt.Sprintf(" %s: %s.", model.StartKind(i), says)
	}
}
