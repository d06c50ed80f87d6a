package export

import (
	"encoding/csv"
	"io"
	"strconv"

	"playout/internal/plain"
)

// csvWriter writes RFC 4180 with a line of names first; a value that is not known
// is empty. Texts that a spreadsheet would take for a formula begin with an
// apostrophe there.
type csvWriter struct {
	out   *csv.Writer
	heads []head
	row   []string
}

func newCSV(w io.Writer, heads []head) (rowWriter, error) {
	c := &csvWriter{out: csv.NewWriter(w), heads: heads, row: make([]string, len(heads))}
	for i, h := range heads {
		c.row[i] = h.name
	}
	return c, c.out.Write(c.row)
}

func (c *csvWriter) write(row []cell) error {
	for i, v := range row {
		c.row[i] = ""
		if !v.known {
			continue
		}
		switch c.heads[i].kind {
		case yes:
			c.row[i] = strconv.FormatBool(v.n != 0)
		case whole:
			c.row[i] = strconv.FormatInt(v.n, 10)
		case number:
			c.row[i] = strconv.FormatFloat(v.x, 'f', -1, 64)
		case text:
			c.row[i] = plain.Guard(v.s)
		}
	}
	return c.out.Write(c.row)
}

func (c *csvWriter) close() error {
	c.out.Flush()
	return c.out.Error()
}
