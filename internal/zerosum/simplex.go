package zerosum

import "fmt"

// rounding is what the numbers of a tableau, which are of the order of 1, may be off.
const rounding = 1e-10

// maximise solves the linear programme
//
//	maximise c x  subject to  A x <= b, x >= 0,   b >= 0
//
// of which x = 0 is a first solution, and its dual: minimise b u subject to u A >= c,
// u >= 0. It keeps the whole tableau, takes the variable that helps most with the largest
// pivot, which keeps the digits, and turns to Bland's rule, which never returns to a basis,
// when that takes long: the games here are small, and rows that tie or are the same are
// common. (The
// revised method of gonum's lp.Simplex forms its basis anew at every step and gives up, or
// does not end, on some games with rows that are nearly the same.)
// Reference: Bland (1977), New finite pivoting rules for the simplex method, Math. Oper.
// Res. 2, 103-107 (from memory).
func maximise(a [][]float64, b, c []float64) (x, u []float64, err error) {
	m, n := len(b), len(c)
	// Rows of the tableau: the constraints, then the objective. Columns: x, the slacks, b.
	t := make([][]float64, m+1)
	basis := make([]int, m) // variable of each row
	for i := range t {
		t[i] = make([]float64, n+m+1)
		if i < m {
			copy(t[i], a[i])
			t[i][n+i], t[i][n+m] = 1, b[i]
			basis[i] = n + i
		}
	}
	for j, v := range c {
		t[m][j] = -v
	}
	for step := 0; ; step++ {
		if step > 1000*(m+n) {
			return nil, nil, fmt.Errorf("zerosum: a linear programme of %d by %d does not settle", m, n)
		}
		bland := step > 20*(m+n)
		enter := entering(t[m][:n+m], bland)
		if enter < 0 {
			break
		}
		leave := leaving(t, basis, enter, bland)
		if leave < 0 {
			return nil, nil, fmt.Errorf("zerosum: a linear programme of %d by %d has no bound", m, n)
		}
		pivot(t, leave, enter)
		basis[leave] = enter
	}
	x, u = make([]float64, n), make([]float64, m)
	for i, k := range basis {
		if k < n {
			x[k] = t[i][n+m]
		}
		u[i] = t[m][n+i]
	}
	return x, u, nil
}

// entering is the variable that helps most or, by Bland's rule, the first that helps; -1
// when none does.
func entering(objective []float64, bland bool) int {
	enter, least := -1, -rounding
	for j, v := range objective {
		if v < least {
			enter, least = j, v
			if bland {
				return enter
			}
		}
	}
	return enter
}

// leaving is the row that limits the variable that enters; -1 when none does. Of several
// it is the one with the largest pivot or, by Bland's rule, whose variable comes first.
func leaving(t [][]float64, basis []int, enter int, bland bool) int {
	leave, least := -1, 0.0
	last := len(t[0]) - 1
	for i, k := range basis {
		by := t[i][enter]
		if by <= rounding {
			continue
		}
		ratio := t[i][last] / by
		preferred := leave >= 0 && by > t[leave][enter]
		if bland {
			preferred = leave >= 0 && k < basis[leave]
		}
		if leave < 0 || ratio < least-rounding || ratio <= least+rounding && preferred {
			leave, least = i, ratio
		}
	}
	return leave
}

// pivot makes the entering variable's column that of a unit.
func pivot(t [][]float64, row, column int) {
	by := t[row][column]
	for j := range t[row] {
		t[row][j] /= by
	}
	for i := range t {
		factor := t[i][column]
		if i == row || factor == 0 {
			continue
		}
		for j := range t[i] {
			t[i][j] -= float64(factor * t[row][j]) // not fused: the same on every machine
		}
		t[i][column] = 0
	}
}
