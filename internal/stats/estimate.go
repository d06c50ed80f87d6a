package stats

import (
	"encoding/json"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Estimate is a value with its standard error and interval.
type Estimate struct {
	Value  float64 // NaN when there is nothing to estimate it from
	StdErr float64 // of Value, in its unit; NaN when unknown
	Lo, Hi float64 // bounds of the interval; infinite when unbounded
	Level  float64 // confidence level of the interval, in (0, 1)
	N      int64   // independent observations behind it
}

// MarshalJSON writes the fields in lower camel case, and null for the NaN and the
// infinities that JSON has no number for.
func (e Estimate) MarshalJSON() ([]byte, error) {
	number := func(x float64) *float64 {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return nil
		}
		return &x
	}
	return json.Marshal(struct {
		Value  *float64 `json:"value"`
		StdErr *float64 `json:"stdErr"`
		Lo     *float64 `json:"lo"`
		Hi     *float64 `json:"hi"`
		Level  float64  `json:"level"`
		N      int64    `json:"n"`
	}{number(e.Value), number(e.StdErr), number(e.Lo), number(e.Hi), e.Level, e.N})
}

// around is the estimate with a symmetric interval of t standard errors.
func around(value, stdErr, t, level float64, n int64) Estimate {
	return Estimate{
		Value: value, StdErr: stdErr,
		Lo: value - t*stdErr, Hi: value + t*stdErr,
		Level: level, N: n,
	}
}

// unbounded is the estimate of too few observations.
func unbounded(value, level float64, n int64) Estimate {
	return Estimate{
		Value: value, StdErr: math.NaN(),
		Lo: math.Inf(-1), Hi: math.Inf(1),
		Level: level, N: n,
	}
}

// normalQuantile is the two-sided standard normal quantile, 1.96 at level 0.95.
func normalQuantile(level float64) float64 {
	checkLevel(level)
	return -distuv.UnitNormal.Quantile((1 - level) / 2)
}

// studentQuantile is the two-sided quantile of Student's t. Above a million degrees
// of freedom it is the normal one, then within 3e-6 of it: the library's t loses its
// digits there.
func studentQuantile(level float64, df int64) float64 {
	if df > 1_000_000 {
		return normalQuantile(level)
	}
	checkLevel(level)
	return -distuv.StudentsT{Sigma: 1, Nu: float64(df)}.Quantile((1 - level) / 2)
}

func checkLevel(level float64) {
	if !(level > 0 && level < 1) {
		panic("stats: level outside (0, 1)")
	}
}
