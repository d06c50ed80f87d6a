package model

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"reflect"
	"strconv"
	"sync"
)

// Uncertainty is what the calibration leaves open about the parameters: a
// normal distribution around DefaultParams. The draw for z, independent
// standard normal numbers, is
//
//	theta = default + L z
//
// where L is a square root of the covariance. It is the uncertainty of the fit
// given the model and the figures it was fitted to; what the model leaves out
// is no part of it.
type Uncertainty struct {
	centre     Params
	rows       []uncertain
	directions int
}

// uncertain is one parameter that is not known exactly.
type uncertain struct {
	field  int       // of Params
	lo, hi float64   // admissible range
	factor []float64 // its row of L, in its own unit
}

// Directions is the number of standard normal numbers a draw takes.
func (u *Uncertainty) Directions() int { return u.directions }

// Draw is the parameters for z, which must have Directions numbers. A parameter
// that would leave its admissible range stays at the end of it, one that the
// calibration does not fit keeps its default. z = 0 gives the defaults.
func (u *Uncertainty) Draw(z []float64) Params {
	if len(z) != u.directions {
		panic("model: a draw of the parameters needs one number for each direction")
	}
	p := u.centre
	v := reflect.ValueOf(&p).Elem()
	for i := range u.rows {
		r := &u.rows[i]
		x := v.Field(r.field).Float()
		for k, f := range r.factor {
			x += f * z[k]
		}
		v.Field(r.field).SetFloat(min(max(x, r.lo), r.hi))
	}
	return p
}

//go:embed uncertainty.csv
var uncertaintyCSV []byte

// DefaultUncertainty is that of DefaultParams, as internal/calibrate wrote it
// into uncertainty.csv.
var DefaultUncertainty = sync.OnceValue(func() *Uncertainty {
	u, err := ParseUncertainty(bytes.NewReader(uncertaintyCSV))
	if err != nil {
		panic(fmt.Sprintf("model: uncertainty.csv: %v", err))
	}
	return u
})

// ParseUncertainty reads a table as in uncertainty.csv: comments that begin
// with #, the head parameter,sd,d1,d2,..., and a row for each parameter with
// its standard deviation and its row of L, in its own unit. The two must agree:
// the standard deviation is the length of the row, within a hundredth.
func ParseUncertainty(r io.Reader) (*Uncertainty, error) {
	in := csv.NewReader(r)
	in.Comment = '#'
	lines, err := in.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(lines) < 2 {
		return nil, errors.New("no parameter in it: it needs a head and at least one row")
	}
	head := lines[0]
	for i, cell := range head {
		want := "d" + strconv.Itoa(i-1)
		if i < 2 {
			want = [2]string{"parameter", "sd"}[i]
		}
		if cell != want {
			return nil, fmt.Errorf("column %d is %q; the head is parameter,sd,d1,d2 and so on", i+1, cell)
		}
	}
	if len(head) < 3 {
		return nil, errors.New("no direction in it: the head is parameter,sd,d1,d2 and so on")
	}
	u := &Uncertainty{centre: DefaultParams(), directions: len(head) - 2}
	table := ParamTable()
	seen := map[string]bool{}
	for _, line := range lines[1:] {
		name := line[0]
		if seen[name] {
			return nil, fmt.Errorf("parameter %s stands there twice", name)
		}
		seen[name] = true
		row, err := readUncertain(line, table)
		if err != nil {
			return nil, fmt.Errorf("parameter %s: %w", name, err)
		}
		u.rows = append(u.rows, row)
	}
	return u, nil
}

// readUncertain reads a row: name, standard deviation, factors.
func readUncertain(line []string, table []ParamInfo) (uncertain, error) {
	row := uncertain{field: -1}
	for i, p := range table {
		if p.Name == line[0] {
			row.field, row.lo, row.hi = i, p.Lo, p.Hi
		}
	}
	if row.field < 0 {
		return row, errors.New("the engine has none of this name")
	}
	length := 0.0
	for i, cell := range line[1:] {
		x, err := strconv.ParseFloat(cell, 64)
		if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
			return row, fmt.Errorf("column %d is %q, not a number", i+2, cell)
		}
		row.factor = append(row.factor, x)
		if i > 0 {
			length = math.Hypot(length, x)
		}
	}
	sd := row.factor[0]
	row.factor = row.factor[1:]
	if sd < 0 || math.Abs(length-sd) > 0.01*sd {
		return row, fmt.Errorf("standard deviation %g, but its factors give %.4g", sd, length)
	}
	return row, nil
}
