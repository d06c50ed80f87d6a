package export

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/parquet-go/parquet-go"
)

// groupValues bounds a row group, in values: with what is made ready to be written some 20 MB, which
// is what a table costs in memory however long it becomes.
const groupValues = 500_000

// batchRows is how many rows are handed on at a time.
const batchRows = 256

// ordered is a group of columns in our order rather than that of their names.
type ordered struct {
	parquet.Group
	order []string
}

func (o ordered) Fields() []parquet.Field {
	fields := o.Group.Fields()
	slices.SortFunc(fields, func(a, b parquet.Field) int {
		return slices.Index(o.order, a.Name()) - slices.Index(o.order, b.Name())
	})
	return fields
}

// parquetWriter writes typed columns, all of which may be null.
type parquetWriter struct {
	out   *parquet.GenericWriter[any]
	heads []head
	rows  []parquet.Row
	n     int
}

func newParquet(w io.Writer, name string, heads []head, notes []note) (rowWriter, error) {
	root := ordered{Group: parquet.Group{}}
	for _, h := range heads {
		root.order = append(root.order, h.name)
		root.Group[h.name] = parquet.Optional(leaf(h.kind))
	}
	options := []parquet.WriterOption{
		parquet.NewSchema(name, root), parquet.Compression(&parquet.Zstd),
		parquet.MaxRowsPerRowGroup(int64(groupValues / len(heads))), parquet.CreatedBy("playout", "", ""),
	}
	for _, n := range notes {
		options = append(options, parquet.KeyValueMetadata("playout."+n.key, n.value))
	}
	p := &parquetWriter{out: parquet.NewGenericWriter[any](w, options...), heads: heads, rows: make([]parquet.Row, batchRows)}
	for i := range p.rows {
		p.rows[i] = make(parquet.Row, len(heads))
	}
	return p, nil
}

func leaf(k kind) parquet.Node {
	switch k {
	case yes:
		return parquet.Leaf(parquet.BooleanType)
	case whole:
		return parquet.Encoded(parquet.Int(64), &parquet.DeltaBinaryPacked)
	case number:
		return parquet.Leaf(parquet.DoubleType)
	}
	return parquet.Encoded(parquet.String(), &parquet.RLEDictionary)
}

func (p *parquetWriter) write(row []cell) error {
	to := p.rows[p.n]
	for i, c := range row {
		if !c.known {
			to[i] = parquet.NullValue().Level(0, 0, i)
			continue
		}
		var v parquet.Value
		switch p.heads[i].kind {
		case yes:
			v = parquet.BooleanValue(c.n != 0)
		case whole:
			v = parquet.Int64Value(c.n)
		case number:
			v = parquet.DoubleValue(c.x)
		case text:
			v = parquet.ByteArrayValue([]byte(strings.ToValidUTF8(c.s, "\uFFFD")))
		}
		to[i] = v.Level(0, 1, i)
	}
	if p.n++; p.n == len(p.rows) {
		return p.flush()
	}
	return nil
}

func (p *parquetWriter) flush() error {
	_, err := p.out.WriteRows(p.rows[:p.n])
	p.n = 0
	if err != nil {
		return fmt.Errorf("writing parquet: %w", err)
	}
	return nil
}

func (p *parquetWriter) close() error {
	if err := p.flush(); err != nil {
		return err
	}
	if err := p.out.Close(); err != nil {
		return fmt.Errorf("writing parquet: %w", err)
	}
	return nil
}
