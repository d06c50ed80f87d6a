package report

import (
	"cmp"
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/internal/explain"
)

// Sizes of the flow's picture, px: made to be read at the width of a phone, 390 px, and
// on paper.
const (
	flowStep   = 120.0 // from one stage to the next
	flowBar    = 7.0   // width of a node
	flowScale  = 330.0 // height of all build-ups
	flowLine   = 17.0  // least height for a node with its words
	flowGap    = 8.0   // between nodes
	flowSide   = 16.0  // margin
	flowEnds   = 150.0 // for the words of the last stage
	flowLetter = 12.5
)

// flowInks are those of what comes of a build-up.
var flowInks = [explain.NumResults]draw.Style{
	explain.Worked: draw.Fill(draw.Side).Faded(0.6), explain.Stopped: draw.Fill(draw.Pencil).Faded(0.3), explain.Failed: draw.Fill(draw.Block).Faded(0.35),
}

// flowNode is a node of the picture.
type flowNode struct {
	n       int
	top, h  float64
	in, out [explain.NumResults]float64 // how much of each part is taken already, px
	count   [explain.NumResults]int
}

// Picture draws the flow of the build-ups from the start on the left to the end on the
// right; nil when there is none.
func (e *Explain) Picture() *draw.Scene {
	if e.Possessions == 0 {
		return nil
	}
	first := explain.StartStage
	if e.stageNodes(first) == 1 {
		first++ // all begin in the same third
	}
	stages := make([][]flowNode, explain.NumStages)
	tall := 0.0
	for st := first; st < explain.NumStages; st++ {
		stages[st] = e.flowNodes(st)
		last := stages[st][len(stages[st])-1]
		tall = max(tall, last.top+max(last.h, flowLine))
	}
	w := 2*flowSide + flowStep*float64(explain.EndStage-first) + flowBar + flowEnds
	heading := draw.Words{Size: 15, Bold: true}
	quiet := draw.Words{Size: 11, Ink: draw.Pencil}
	s := &draw.Scene{W: w, ID: "flow", Title: clean(e.title()), Desc: e.described()}
	y := flowSide
	paragraph := func(text string, words draw.Words, most int) {
		for _, line := range words.Wrap(text, w-2*flowSide, most) {
			y += words.Size * 1.3
			s.Write(r2.Vec{X: flowSide, Y: y}, line, words)
		}
		y += 4
	}
	paragraph(e.title(), heading, 2)
	paragraph(e.key(first), draw.Words{Size: flowLetter}, 3)
	top := y + 26
	x := func(st explain.Stage) float64 { return flowSide + flowStep*float64(st-first) }
	for st := first; st < explain.EndStage; st++ {
		e.ribbons(s, st, stages[st], stages[st+1], x(st)+flowBar, x(st+1), top)
	}
	for st := first; st < explain.NumStages; st++ {
		s.Write(r2.Vec{X: x(st), Y: top - 10}, stageHeads[st], quiet)
		for i := range stages[st] {
			e.flowWords(s, st, &stages[st][i], x(st), top)
		}
	}
	y = top + tall + 6
	paragraph("Numbers: of 100 build-ups. "+capital(e.facts()), quiet, 2)
	paragraph("A model's estimate, to compare ideas with, not a forecast of a match: see playout help limits.", quiet, 2)
	s.H = y + flowSide
	return s
}

func (e *Explain) stageNodes(st explain.Stage) int {
	k := 0
	for _, n := range e.flow.Nodes[st] {
		if n > 0 {
			k++
		}
	}
	return k
}

// flowNodes sets the nodes of a stage below one another: the furthest third on top,
// lanes from left to right, causes the commonest first.
func (e *Explain) flowNodes(st explain.Stage) []flowNode {
	var out []flowNode
	for n, count := range e.flow.Nodes[st] {
		if count > 0 {
			out = append(out, flowNode{n: n, h: flowScale * float64(count) / float64(e.Possessions), count: e.flow.Ends(st, n)})
		}
	}
	switch st {
	case explain.StartStage, explain.ThirdStage:
		slices.Reverse(out)
	case explain.EndStage:
		slices.SortStableFunc(out, func(a, b flowNode) int {
			if a.n < int(explain.Failed) || b.n < int(explain.Failed) {
				return cmp.Compare(min(a.n, int(explain.Failed)), min(b.n, int(explain.Failed)))
			}
			return cmp.Compare(b.h, a.h)
		})
	}
	y := 0.0
	for i := range out {
		out[i].top = y
		y += max(out[i].h+flowGap, flowLine)
	}
	return out
}

// ribbons draws the links between two stages: in each node those that worked on top,
// then those stopped, then those that failed.
func (e *Explain) ribbons(s *draw.Scene, st explain.Stage, from, to []flowNode, left, right, top float64) {
	scale := flowScale / float64(e.Possessions)
	part := func(n *flowNode, r explain.Result) float64 { // where a result's part begins
		y := top + n.top
		for q := range r {
			y += scale * float64(n.count[q])
		}
		return y
	}
	for i := range from {
		for j := range to {
			a, b := &from[i], &to[j]
			for r := range explain.NumResults {
				h := scale * float64(e.flow.Links[st][a.n][b.n][r])
				if h == 0 {
					continue
				}
				y0, y1 := part(a, r)+a.out[r], part(b, r)+b.in[r]
				a.out[r] += h
				b.in[r] += h
				s.Polygon(flowInks[r], ribbon(r2.Vec{X: left, Y: y0}, r2.Vec{X: right, Y: y1}, h)...)
			}
		}
	}
}

// ribbon is a band of height h between two points, its edges cubic (smoothstep).
func ribbon(a, b r2.Vec, h float64) []r2.Vec {
	const n = 16
	points := make([]r2.Vec, 0, 2*n+2)
	at := func(i int) r2.Vec {
		t := float64(i) / n
		return r2.Vec{X: a.X + (b.X-a.X)*t, Y: a.Y + (b.Y-a.Y)*t*t*(3-2*t)}
	}
	for i := range n + 1 {
		points = append(points, at(i))
	}
	for i := n; i >= 0; i-- {
		p := at(i)
		points = append(points, r2.Vec{X: p.X, Y: p.Y + h})
	}
	return points
}

// flowWords draws a node and its words.
func (e *Explain) flowWords(s *draw.Scene, st explain.Stage, n *flowNode, x, top float64) {
	s.Rect(draw.Box{Min: r2.Vec{X: x, Y: top + n.top}, Max: r2.Vec{X: x + flowBar, Y: top + n.top + max(n.h, 1)}}, draw.Fill(draw.Text))
	at, text, words := e.flowText(st, n, x, top)
	s.Write(at, text, words)
}

// flowText is what stands beside a node.
func (e *Explain) flowText(st explain.Stage, n *flowNode, x, top float64) (at r2.Vec, text string, words draw.Words) {
	words = draw.Words{Size: flowLetter, Centre: true, Halo: st != explain.EndStage}
	room := flowStep - flowBar - 8
	if st == explain.EndStage {
		room = flowEnds
		words.Bold = n.n == int(explain.Worked)
	}
	share := 100 * float64(n.count[0]+n.count[1]+n.count[2]) / float64(e.Possessions)
	decimals := 0
	if share < 1 {
		decimals = 1
	}
	number := " " + fixed(Number(share), decimals)
	return r2.Vec{X: x + flowBar + 4, Y: top + n.top + max(n.h, 1)/2}, words.Fit(e.nodeWords(st, n.n), room-words.Width(number)) + number, words
}

// flowLabel is the box in which it stands.
func (e *Explain) flowLabel(st explain.Stage, n *flowNode, x, top float64) (draw.Box, string) {
	at, text, words := e.flowText(st, n, x, top)
	return words.Extent(at, text), text
}

// key says how to read the picture.
func (e *Explain) key(first explain.Stage) string {
	text := "Each band is build-ups, from how far they get to how they end; in every node those that work on top, those stopped next, those that fail below."
	if first > explain.StartStage {
		for n, count := range e.flow.Nodes[explain.StartStage] {
			if count > 0 {
				text += " All begin in the " + e.nodeWords(explain.StartStage, n) + "."
			}
		}
	}
	return text
}

// described is the picture in words.
func (e *Explain) described() string {
	text := e.key(explain.StartStage)
	for st := range explain.NumStages {
		text += " " + capital(stageHeads[st]) + ":"
		for n, count := range e.flow.Nodes[st] {
			if count > 0 {
				text += fmt.Sprintf(" %s %d,", e.nodeWords(st, n), count)
			}
		}
		text = text[:len(text)-1] + "."
	}
	return text
}
