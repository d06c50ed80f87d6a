package sensitivity

// product is the unbiased estimate of E[u] E[v] from replicates: the mean of u_r v_s
// over all r ≠ s. One replicate is exact: u v.
func product(u, v []float64) float64 {
	if len(u) == 1 {
		return u[0] * v[0]
	}
	su, sv, same := 0.0, 0.0, 0.0
	for r := range u {
		su += u[r]
		sv += v[r]
		same += u[r] * v[r]
	}
	n := float64(len(u))
	return (su*sv - same) / (n * (n - 1))
}

// minus is u - v, replicate by replicate.
func minus(u, v []float64) []float64 {
	d := make([]float64, len(u))
	for r := range u {
		d[r] = u[r] - v[r]
	}
	return d
}

func mean(u []float64) float64 {
	s := 0.0
	for _, x := range u {
		s += x
	}
	return s / float64(len(u))
}

// size estimates |E[u]| without taking noise for size: the sign comes from every
// second replicate, the size from the others, and the other way round. It is 0 on
// average where E[u] is 0, and otherwise too small where the noise hides the sign.
// One replicate is exact.
func size(u []float64) float64 {
	if len(u) == 1 {
		return max(u[0], -u[0])
	}
	var half [2]float64
	for r, x := range u {
		half[r%2] += x
	}
	x, y := half[0]/float64((len(u)+1)/2), half[1]/float64(len(u)/2)
	return (sign(x)*y + sign(y)*x) / 2
}

func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}
