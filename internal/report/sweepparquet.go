package report

import (
	"fmt"
	"io"
	"strconv"

	"github.com/parquet-go/parquet-go"
)

// Parquet is every figure, one in a row, for data frames and databases. Only a
// sweep has it.
const Parquet Format = "parquet"

// parquetColumn is a column and how a row fills it; a value that is not known is
// null.
type parquetColumn struct {
	node  parquet.Node
	value func(r *sweepRow) parquet.Value
}

func parquetNumber(of func(r *sweepRow) Number) parquetColumn {
	return parquetColumn{parquet.Optional(parquet.Leaf(parquet.DoubleType)), func(r *sweepRow) parquet.Value {
		if n := of(r); n.Known() {
			return parquet.DoubleValue(float64(n))
		}
		return parquet.NullValue()
	}}
}

func parquetText(of func(r *sweepRow) string) parquetColumn {
	return parquetColumn{parquet.Encoded(parquet.Optional(parquet.String()), &parquet.RLEDictionary), func(r *sweepRow) parquet.Value {
		if text := of(r); text != "" {
			return parquet.ByteArrayValue([]byte(text))
		}
		return parquet.NullValue()
	}}
}

func parquetYes(of func(r *sweepRow) bool) parquetColumn {
	return parquetColumn{parquet.Leaf(parquet.BooleanType), func(r *sweepRow) parquet.Value { return parquet.BooleanValue(of(r)) }}
}

// parquetColumns are those of CSV, by name; an axis of numbers is one of numbers.
func (s *Sweep) parquetColumns() map[string]parquetColumn {
	out := map[string]parquetColumn{
		"as_it_stands":    parquetYes(func(r *sweepRow) bool { return r.asItStands }),
		"in_sweep":        parquetYes(func(r *sweepRow) bool { return r.inSweep }),
		"figure":          parquetText(func(r *sweepRow) string { return r.figure.Name }),
		"unit":            parquetText(func(r *sweepRow) string { return r.figure.Unit }),
		"value":           parquetNumber(func(r *sweepRow) Number { return r.v.Value }),
		"low":             parquetNumber(func(r *sweepRow) Number { return r.v.Low }),
		"high":            parquetNumber(func(r *sweepRow) Number { return r.v.High }),
		"difference":      parquetNumber(func(r *sweepRow) Number { return r.v.Difference }),
		"difference_low":  parquetNumber(func(r *sweepRow) Number { return r.v.DifferenceLow }),
		"difference_high": parquetNumber(func(r *sweepRow) Number { return r.v.DifferenceHigh }),
		"gain":            parquetNumber(func(r *sweepRow) Number { return r.v.Gain }),
		"verdict":         parquetText(func(r *sweepRow) string { return r.verdict }),
		"build_ups":       parquetNumber(func(*sweepRow) Number { return Number(s.Possessions) }),
	}
	for i, a := range s.Axes {
		out[a.Path] = parquetText(func(r *sweepRow) string { return r.values[i] })
		if a.Numbers != nil {
			out[a.Path] = parquetNumber(func(r *sweepRow) Number {
				x, err := strconv.ParseFloat(r.values[i], 64)
				if err != nil {
					return missing
				}
				return Number(x)
			})
		}
	}
	return out
}

// writeParquet writes the rows of CSV with typed columns, in the order of their
// names; what the run was stands in the metadata of the file.
func (s *Sweep) writeParquet(w io.Writer) error {
	columns, group := s.parquetColumns(), parquet.Group{}
	for name, c := range columns {
		group[name] = c.node
	}
	schema := parquet.NewSchema("sweep", group)
	out := parquet.NewWriter(w, schema, parquet.Compression(&parquet.Zstd),
		parquet.KeyValueMetadata("scenario", s.title()), parquet.KeyValueMetadata("run", s.facts()),
		parquet.KeyValueMetadata("seed", strconv.FormatUint(s.Seed, 10)), parquet.KeyValueMetadata("note", caution))
	order := schema.Columns()
	var rows []parquet.Row
	for _, r := range s.rows() {
		row := make(parquet.Row, len(order))
		for i, path := range order {
			c := columns[path[0]]
			v, defined := c.value(&r), 0
			if c.node.Optional() && !v.IsNull() {
				defined = 1
			}
			row[i] = v.Level(0, defined, i)
		}
		rows = append(rows, row)
	}
	if _, err := out.WriteRows(rows); err != nil {
		return fmt.Errorf("writing parquet: %w", err)
	}
	return out.Close()
}
