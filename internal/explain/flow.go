package explain

import "playout/model"

// Stages of the flow of build-ups from their start to their end. Every build-up
// passes through one node of every stage, so that the nodes of a stage, and the links
// between two, add up to all of them.
type Stage uint8

// The stages.
const (
	StartStage  Stage = iota // third in which it began
	ThirdStage               // furthest third in which the ball was under control
	LaneStage                // lane of the deciding moment
	ActionStage              // what the man on the ball did there
	EndStage                 // worked, stopped, or the cause of failure
	NumStages
)

// numEnds of the last stage: the two results that are no failures, and the causes.
const numEnds = int(Failed) + int(NumCauses)

var stageSizes = [NumStages]int{int(model.NumThirds), int(model.NumThirds), int(model.NumLanes), int(NumActions), numEnds}

// Flow counts build-ups by node of every stage and by link to the next. Node n of
// EndStage is Result(n) below Failed, and the cause n-Failed from there on.
type Flow struct {
	Nodes [NumStages][]int
	Links [NumStages - 1][][][NumResults]int // from node, to node: by what came of them
	ends  [NumStages][][NumResults]int
}

// Ends are the results of the build-ups that pass through a node.
func (f *Flow) Ends(st Stage, node int) [NumResults]int { return f.ends[st][node] }

// node of a story at a stage.
func (s *Story) node(st Stage) int {
	switch st {
	case StartStage:
		return int(s.Start)
	case ThirdStage:
		return int(s.Furthest)
	case LaneStage:
		return int(s.Lane)
	case ActionStage:
		return int(s.Action)
	}
	if s.Result == Failed {
		return int(Failed) + int(s.Cause)
	}
	return int(s.Result)
}

// NodeName is the name of a node in CSV and JSON.
func NodeName(st Stage, n int) string {
	switch st {
	case StartStage, ThirdStage:
		return model.Third(n).String()
	case LaneStage:
		return model.Lane(n).String()
	case ActionStage:
		return Action(n).String()
	}
	if n >= int(Failed) {
		return Cause(n - int(Failed)).String()
	}
	return Result(n).String()
}

// FlowOf counts the stories.
func FlowOf(stories []Story) Flow {
	var f Flow
	for st, n := range stageSizes {
		f.Nodes[st] = make([]int, n)
		f.ends[st] = make([][NumResults]int, n)
		if st > 0 {
			links := make([][][NumResults]int, stageSizes[st-1])
			for i := range links {
				links[i] = make([][NumResults]int, n)
			}
			f.Links[st-1] = links
		}
	}
	for i := range stories {
		s := &stories[i]
		for st := range NumStages {
			n := s.node(st)
			f.Nodes[st][n]++
			f.ends[st][n][s.Result]++
			if st > 0 {
				f.Links[st-1][s.node(st-1)][n][s.Result]++
			}
		}
	}
	return f
}
