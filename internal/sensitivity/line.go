package sensitivity

// line is the linear part of a result: Σ slope (x - 1/2) over the inputs. Inputs that
// are judged with others have slope 0.
type line []float64

// slopes are by least squares from the moves of the factors of one input.
func slopes(design [][]Point, factors [][]int, y [][][]float64) line {
	l := make(line, len(design[0][0]))
	for k, inputs := range factors {
		if len(inputs) != 1 {
			continue
		}
		i, df, dx := inputs[0], 0.0, 0.0
		for j, row := range y {
			move := design[j][2+k][i] - design[j][0][i]
			df += (mean(row[2+k]) - mean(row[0])) * move
			dx += move * move
		}
		l[i] = df / dx
	}
	return l
}

func (l line) at(p Point) float64 {
	y := 0.0
	for i, slope := range l {
		y += slope * (p[i] - 0.5)
	}
	return y
}

// straighten takes the chance of the design out of what is linear. Of the linear part
// every sum has a known expectation, E[l²] = Σ slope²/12 and so on; so the sums of a
// row become those of the result less those of the line, plus the known values (control
// variates; Owen 2013, Monte Carlo Theory, Methods and Examples, section 8.9, from
// memory). Whatever the slopes, expectations stay as they are, but for 1 part in the
// number of rows because the slopes come from the same rows.
func (l line) straighten(s *rowSums, factors [][]int, a, b Point) {
	la, lb, known := l.at(a), l.at(b), 0.0
	for _, slope := range l {
		known += slope * slope / 12
	}
	s.mean -= (la + lb) / 2
	s.square -= (la*la+lb*lb)/2 - known
	for k, inputs := range factors {
		f := &s.factors[k]
		if len(inputs) != 1 {
			f.first -= lb * f.move
			continue
		}
		i := inputs[0]
		own, move := l[i]*(b[i]-0.5), l[i]*(b[i]-a[i])
		f.first -= (lb-own)*f.move + own*move - l[i]*l[i]/12
		f.total -= move*move/2 - l[i]*l[i]/12
	}
}
