package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"playout/internal/stats"
	"playout/sim"
)

// level is the level of every interval of a report.
const level = 0.95

// Number is a figure that may be missing: NaN stands for "no cases", prints as
// "-", is an empty cell in CSV and null in JSON.
type Number float64

// missing is the Number of no cases.
var missing = Number(math.NaN())

// Known reports whether the number is there.
func (n Number) Known() bool { return !math.IsNaN(float64(n)) && !math.IsInf(float64(n), 0) }

// digits is how many significant digits go into JSON and CSV: more than any
// run can justify, few enough that the last bits of a division do not show.
const digits = 9

func (n Number) text() string {
	if !n.Known() {
		return ""
	}
	if n == 0 {
		return "0" // never -0
	}
	return strconv.FormatFloat(float64(n), 'g', digits, 64)
}

// MarshalJSON writes null for a missing number: JSON has no NaN.
func (n Number) MarshalJSON() ([]byte, error) {
	if !n.Known() {
		return []byte("null"), nil
	}
	return []byte(n.text()), nil
}

// Rate is Count cases of Of with a 95 % Wilson interval. The cases are
// independent: at most one for each possession (or loss, or entry) in Of.
type Rate struct {
	Count int64  `json:"count"`
	Of    int64  `json:"of"`
	Rate  Number `json:"rate"`
	Low   Number `json:"low"`
	High  Number `json:"high"`
}

func rate(count, of int64) Rate {
	if of == 0 {
		return Rate{count, of, missing, missing, missing}
	}
	e := stats.Proportion(count, of, level)
	return Rate{count, of, Number(e.Value), Number(e.Lo), Number(e.Hi)}
}

// Share is Count cases of Of without an interval: one possession can hold
// several cases, which hang together, so the interval of independent cases
// would be too narrow.
type Share struct {
	Count int64  `json:"count"`
	Of    int64  `json:"of"`
	Rate  Number `json:"rate"`
}

func share(count, of int64) Share { return Share{count, of, ratio(count, of)} }

// ratio is a over b, missing when b is 0.
func ratio(a, b int64) Number { return scaled(a, b, 1) }

// scaled is unit times a over b, missing when b is 0.
func scaled(a, b int64, unit float64) Number {
	if b == 0 {
		return missing
	}
	return Number(float64(a) / float64(b) * unit)
}

// Mean is a mean over N possessions with its standard error and 95 % interval.
// With fewer than two possessions there is no standard error.
type Mean struct {
	N    int64  `json:"n"`
	Mean Number `json:"mean"`
	SE   Number `json:"se"`
	Low  Number `json:"low"`
	High Number `json:"high"`
}

// mean is the mean of an exact sum in the given unit.
func mean(s sim.Sum, unit float64) Mean {
	e := stats.Mean(float64(s.X), float64(s.XX), s.N, level)
	of := func(x float64) Number { return Number(x * unit) }
	return Mean{s.N, of(e.Value), of(e.StdErr), of(e.Lo), of(e.Hi)}
}

// Object is a JSON object whose keys keep their order.
type Object[T any] []Field[T]

// Field is one entry of an Object.
type Field[T any] struct {
	Key   string
	Value T
}

// Get returns the value of a key; the zero value when there is none.
func (o Object[T]) Get(key string) T {
	for i := range o {
		if o[i].Key == key {
			return o[i].Value
		}
	}
	var zero T
	return zero
}

// MarshalJSON writes the fields in their order.
func (o Object[T]) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, f := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		key, err := json.Marshal(f.Key)
		if err != nil {
			return nil, err
		}
		value, err := json.Marshal(f.Value)
		if err != nil {
			return nil, err
		}
		b.Write(key)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// object makes an Object with one field for each value of an enumeration.
func object[K interface {
	~uint8
	String() string
}, T any](n K, value func(K) T) Object[T] {
	out := make(Object[T], 0, int(n))
	for k := K(0); k < n; k++ {
		out = append(out, Field[T]{k.String(), value(k)})
	}
	return out
}
