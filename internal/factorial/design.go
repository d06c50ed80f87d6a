// Package factorial makes two-level designs of experiments: every run moves all factors
// at once, up or down, so that every run tells something of every factor's slope. It
// knows no football.
package factorial

// hadamard is the Sylvester-Hadamard matrix of order n, a power of two: entries
// +1 and -1, columns orthogonal.
func hadamard(n int) [][]float64 {
	h := [][]float64{{1}}
	for len(h) < n {
		m := len(h)
		g := make([][]float64, 2*m)
		for i := range g {
			g[i] = make([]float64, 2*m)
			for j := range g[i] {
				g[i][j] = h[i%m][j%m]
				if i >= m && j >= m {
					g[i][j] = -g[i][j]
				}
			}
		}
		h = g
	}
	return h
}

// Design returns runs of +1 and -1 for k factors: a Plackett-Burman design and, when
// fold is set, its mirror image, so that slopes are clear of the interactions of two
// factors. With its mirror image the column of ones serves a factor too.
//
// Reference: Plackett R., Burman J. (1946), The design of optimum multifactorial
// experiments, Biometrika 33:305-325; folding: Box G., Wilson K. (1951), On the
// experimental attainment of optimum conditions, J. Roy. Statist. Soc. B 13:1-45 (from
// memory).
func Design(k int, fold bool) [][]float64 {
	first := 1 // column of H that serves the first factor
	if fold {
		first = 0
	}
	n := 1
	for n < first+k {
		n *= 2
	}
	var runs [][]float64
	for _, row := range hadamard(n) {
		plus := append([]float64(nil), row[first:first+k]...)
		runs = append(runs, plus)
		if !fold {
			continue
		}
		minus := make([]float64, k)
		for j := range plus {
			minus[j] = -plus[j]
		}
		runs = append(runs, minus)
	}
	return runs
}
