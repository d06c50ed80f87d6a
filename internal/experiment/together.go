package experiment

import "playout/internal/stats"

// Together are the means of a figure in several cells over their first n
// possessions, which share their luck, with the covariances that this gives them.
func Together(r *Results, cells []int, n int, f Figure) stats.Joint {
	values := make([][]float64, len(cells))
	for i, c := range cells {
		values[i] = make([]float64, n)
		for k, o := range r.Outcomes(c)[:n] {
			values[i][k] = f.Of(&o)
		}
	}
	return stats.JointMeans(values)
}
