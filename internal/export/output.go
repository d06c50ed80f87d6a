package export

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"hash"
	"io"
)

// note is a key with its value in the metadata of a Parquet file.
type note struct{ key, value string }

// file is what is needed of an *os.File; a test puts a full disk behind it.
type file interface {
	io.WriteCloser
	Sync() error
}

// output is a file that grows in the stage, with what the manifest says of it.
type output struct {
	name   string
	says   string
	rows   int64
	covers int // possessions, from the first
	bytes  int64
	sum    hash.Hash
	f      file
	buf    *bufio.Writer
}

func newOutput(name, says string, f file) *output {
	o := &output{name: name, says: says, f: f, sum: sha256.New()}
	o.buf = bufio.NewWriterSize((*counted)(o), 1<<16)
	return o
}

// counted is the file under the buffer.
type counted output

func (c *counted) Write(p []byte) (int, error) {
	n, err := c.f.Write(p)
	c.sum.Write(p[:n])
	c.bytes += int64(n)
	return n, err
}

func (o *output) Write(p []byte) (int, error) { return o.buf.Write(p) }

// close makes sure that the file is whole on the disk.
func (o *output) close() error {
	err := o.buf.Flush()
	if err == nil {
		err = o.f.Sync()
	}
	if closed := o.f.Close(); err == nil {
		err = closed
	}
	return err
}

func (o *output) digest() string { return hex.EncodeToString(o.sum.Sum(nil)) }
