package export

import "math"

// kind is the type of a column.
type kind uint8

const (
	yes    kind = iota // true or false
	whole              // 64-bit integer
	number             // double
	text               // UTF-8
)

var kindNames = [...]string{"yes/no", "whole", "number", "text"}

// cell is a value of a row; the zero cell holds none.
type cell struct {
	known bool
	n     int64 // whole; yes: 1
	x     float64
	s     string
}

func ofBool(b bool) cell {
	if b {
		return cell{known: true, n: 1}
	}
	return cell{known: true}
}

func ofInt[T ~int | ~int64 | ~uint8](n T) cell { return cell{known: true, n: int64(n)} }

func ofText(s string) cell { return cell{known: true, s: s} }

// rounded is a number to so many decimal places; an unknown one is no value.
func rounded(x float64, places float64) cell {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return cell{}
	}
	scale := math.Pow(10, places)
	return cell{known: true, x: math.Round(x*scale)/scale + 0} // + 0: no negative zero
}

// metres to the millimetre, seconds to the tick, shares and goals to a millionth.
func metres(x float64) cell { return rounded(x, 3) }
func share(x float64) cell  { return rounded(x, 6) }

// given is a value that only exists under a condition.
func given(condition bool, c cell) cell {
	if condition {
		return c
	}
	return cell{}
}

// column is one column of a table whose rows are made from R.
type column[R any] struct {
	name, unit, says string
	kind             kind
	of               func(r *R) cell
}

// table is a table and what a row of it is.
type table[R any] struct {
	name, says string
	columns    []column[R]
}

// rowWriter is a file of rows in one format.
type rowWriter interface {
	write(row []cell) error
	close() error
}

// sheet is a table that is being written, in one or more formats.
type sheet[R any] struct {
	table *table[R]
	row   []cell
	out   []rowWriter
	files []*output
}

// add writes a row.
func (s *sheet[R]) add(r *R) error {
	if len(s.out) == 0 {
		return nil
	}
	s.row = s.row[:0]
	for i := range s.table.columns {
		s.row = append(s.row, s.table.columns[i].of(r))
	}
	for i, w := range s.out {
		if err := w.write(s.row); err != nil {
			return err
		}
		s.files[i].rows++
	}
	return nil
}

func (s *sheet[R]) close() error {
	for _, w := range s.out {
		if err := w.close(); err != nil {
			return err
		}
	}
	return nil
}

// head is what writers need of the columns.
type head struct {
	name string
	kind kind
}

func (t *table[R]) heads() []head {
	out := make([]head, len(t.columns))
	for i, c := range t.columns {
		out[i] = head{c.name, c.kind}
	}
	return out
}
