package main

// hadamard is the Sylvester-Hadamard matrix of order n, a power of two: entries
// +1 and -1, columns orthogonal. Its columns but the first are a Plackett-Burman
// design: every run moves all parameters at once, so that every run tells
// something of every slope.
//
// Reference: Plackett R., Burman J. (1946), The design of optimum multifactorial
// experiments, Biometrika 33:305-325.
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

// design returns runs of +1 and -1 for k parameters: a Plackett-Burman design
// followed by its mirror image, so that slopes are clear of the interactions of
// two parameters.
func design(k int) [][]float64 {
	n := 1
	for n <= k {
		n *= 2
	}
	var runs [][]float64
	for _, row := range hadamard(n) {
		plus := append([]float64(nil), row[1:k+1]...)
		minus := make([]float64, k)
		for j := range plus {
			minus[j] = -plus[j]
		}
		runs = append(runs, plus, minus)
	}
	return runs
}
