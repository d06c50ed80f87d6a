package reference

import (
	"slices"
	"sync"

	"playout/model"
)

// passes sets the completion of passes by length and third. The tables hold all
// passes of matches and the engine plays possessions from the own third only, so
// the rate for any third is the engine's rate in each third weighed with the
// reference's number of passes there (direct standardisation).
func (v values) passes(s *sums) {
	const table = "pass_completion"
	n := passNumbers()
	for p := range s.Passes {
		name := passType(p).String()
		for b, band := range bandNames {
			for third := range numThirds {
				v.part(s.Passes[p][third][b], table, name, model.Third(third).String(), band)
			}
			v.standardised(column(&s.Passes[p], b), n.banded[p][b], table, name, band)
		}
		v.thirds(whole(&s.Passes[p]), table, name)
		for third := range numThirds {
			for d, x := range s.Directed[p][third] {
				v.part(x, table, name, model.Third(third).String(), directionNames[d], "any")
			}
		}
		v.standardised(whole(&s.Passes[p]), passed(n.banded[p][:]), table, name, "any")
		v.part(s.BuildUpPasses[p], "pass_completion_build_up", name)
	}
	for b, band := range bandNames {
		v.standardised(column(&s.Kept, b), n.banded[high][b], table, "high_kept", band)
	}
	v.thirds(whole(&s.Kept), table, "high_kept")
	v.standardised(whole(&s.Kept), passed(n.banded[high][:]), table, "high_kept", "any")
	v.thirds(s.Headed, table, "head")
	v.standardised(s.Headed, n.headed, table, "head", "any")
}

// thirds are the rates by third of passes of every length.
func (v values) thirds(p [numThirds]part, name ...string) {
	for t, x := range p {
		v.part(x, append(name, model.Third(t).String(), "any")...)
	}
}

// passesByThird are passes by third and length.
type passesByThird = [numThirds][len(bands)]part

func column(p *passesByThird, b int) (out [numThirds]part) {
	for t := range out {
		out[t] = p[t][b]
	}
	return out
}

// whole are passes of every length.
func whole(p *passesByThird) (out [numThirds]part) {
	for t := range p {
		for _, x := range p[t] {
			out[t].K += x.K
			out[t].N += x.N
		}
	}
	return out
}

// passed are the reference's passes of every length.
func passed(n [][numThirds]float64) (out [numThirds]float64) {
	for _, b := range n {
		for t, x := range b {
			out[t] += x
		}
	}
	return out
}

// standardised is the mean of the rates by third, weighed with the reference's
// numbers. A third with fewer than leastCases is left out; if the thirds left hold
// less than mostWeight of the reference's passes there is no rate.
func (v values) standardised(p [numThirds]part, weight [numThirds]float64, name ...string) {
	sum, held, all, n := 0.0, 0.0, 0.0, int64(0)
	for t, x := range p {
		all += weight[t]
		n += x.N
		if x.N >= leastCases {
			sum += weight[t] * float64(x.K) / float64(x.N)
			held += weight[t]
		}
	}
	if held < mostWeight*all {
		sum, held, n = 0, 0, 0
	}
	v.set(sum/held, n, name...)
}

const (
	leastCases = 10
	mostWeight = 0.75
)

// passCounts are numbers of passes by third.
type passCounts struct {
	banded [2][len(bands)][numThirds]float64 // ground and high, by band of length
	headed [numThirds]float64
}

// passNumbers are the reference's passes.
var passNumbers = sync.OnceValue(func() (n passCounts) {
	for _, r := range rows("pass_completion") {
		if r["direction"] != "any" {
			continue
		}
		p := slices.Index(passTypeNames[:], r["ptype"])
		b := slices.Index(bandNames[:], r["length_m"])
		for t := range numThirds {
			switch {
			case r["start_third"] != model.Third(t).String():
			case p == int(head):
				n.headed[t] = number(r, "n")
			case b >= 0 && p >= 0 && p <= int(high):
				n.banded[p][b][t] = number(r, "n")
			}
		}
	}
	return n
})
