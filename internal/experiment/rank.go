package experiment

import "playout/internal/stats"

// Place is where a variant may stand among others: From 1, the best, to how many there
// are. Two variants that cannot be told apart share places.
type Place struct{ From, To int }

// Places ranks variants of the same possessions by a figure; sense is +1 where more of
// it is better and -1 where less is. Every pair is compared, and the chance that even
// one pair is put in the wrong order is at most 5 in 100 (Holm's correction).
func Places(variants [][]Outcome, f Figure, sense int) []Place {
	type pair struct {
		a, b int
		d    Paired
	}
	var pairs []pair
	var p []float64
	for b := range variants {
		for a := range b {
			d := Difference(variants[a], variants[b], f)
			pairs, p = append(pairs, pair{a, b, d}), append(p, d.pValue())
		}
	}
	places := make([]Place, len(variants))
	for i := range places {
		places[i] = Place{1, len(variants)}
	}
	for k, adjusted := range stats.Holm(p) {
		if adjusted > alpha {
			continue
		}
		better, worse := pairs[k].b, pairs[k].a
		if pairs[k].d.Value*float64(sense) < 0 {
			better, worse = worse, better
		}
		places[better].To--
		places[worse].From++
	}
	return places
}

// pValue is that of no difference; 1 when too few possessions differ to judge by.
func (p *Paired) pValue() float64 {
	if p.Apart < fewApart {
		return 1
	}
	return stats.PValue(p.Estimate)
}

// AdjustedP are the p-values of several differences that are judged together, after
// Holm's correction.
func AdjustedP(differences []Paired) []float64 {
	p := make([]float64, len(differences))
	for i := range differences {
		p[i] = differences[i].pValue()
	}
	return stats.Holm(p)
}
