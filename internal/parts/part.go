package parts

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
)

// Key names a cell by a hash of all that its records depend on.
type Key [sha256.Size]byte

// MarshalText and UnmarshalText write and read a key in hexadecimal digits.
func (k Key) MarshalText() ([]byte, error) { return []byte(hex.EncodeToString(k[:])), nil }

// UnmarshalText reads what MarshalText has written.
func (k *Key) UnmarshalText(b []byte) error {
	if len(b) != 2*len(k) {
		return fmt.Errorf("a key has %d digits", 2*len(k))
	}
	_, err := hex.Decode(k[:], b)
	return err
}

// block is a range of possessions of a cell with its records.
type block struct {
	Cell        Key `json:"cell"`
	First       int `json:"first"`
	Possessions int `json:"possessions"`
	data        []byte
}

// header is the second line of a part.
type header struct {
	Stamp  stamp   `json:"stamp"`
	Shard  Shard   `json:"shard"`
	Record int     `json:"record_bytes"`
	Blocks []block `json:"blocks"`
}

// magic is the first line; its number goes up when the format changes.
const magic = "playout part 1\n"

// encode is the file of some blocks. Blocks that follow each other become one.
func encode(st stamp, sh Shard, record int, blocks []block) []byte {
	slices.SortFunc(blocks, func(a, b block) int {
		return cmp.Or(bytes.Compare(a.Cell[:], b.Cell[:]), cmp.Compare(a.First, b.First))
	})
	h := header{Stamp: st, Shard: sh, Record: record}
	var data []byte
	for _, b := range blocks {
		data = append(data, b.data...)
		if n := len(h.Blocks); n > 0 && h.Blocks[n-1].Cell == b.Cell && h.Blocks[n-1].First+h.Blocks[n-1].Possessions == b.First {
			h.Blocks[n-1].Possessions += b.Possessions
			continue
		}
		h.Blocks = append(h.Blocks, block{Cell: b.Cell, First: b.First, Possessions: b.Possessions})
	}
	line, err := json.Marshal(h)
	if err != nil {
		panic("parts: " + err.Error()) // strings and numbers always encode
	}
	out := slices.Concat([]byte(magic), line, []byte("\n"), data)
	sum := sha256.Sum256(out)
	return append(out, sum[:]...)
}

// again is how to mend a part that is no good.
const again = "delete this file and run the same command again: only what it held is played anew"

// decode reads a part and checks everything in it but the stamp.
func decode(path string, file []byte, record int) (*header, error) {
	damaged := &Fault{path, "is damaged: its checksum does not fit its contents", again}
	rest, ok := bytes.CutPrefix(file, []byte(magic))
	if !ok {
		switch {
		case len(file) < len(magic) && bytes.HasPrefix([]byte(magic), file):
			return nil, &Fault{path, fmt.Sprintf("is cut off after %d bytes", len(file)), again}
		case bytes.HasPrefix(file, []byte("playout part ")):
			return nil, &Fault{path, "is a part of another format, of another version of playout or damaged", again}
		}
		return nil, &Fault{path, "is not a part of an experiment", "take it out of this directory"}
	}
	line, data, ok := bytes.Cut(rest, []byte("\n"))
	if !ok {
		return nil, &Fault{path, fmt.Sprintf("is cut off after %d bytes", len(file)), again}
	}
	h := &header{}
	if json.Unmarshal(line, h) != nil || h.Record != record {
		return nil, damaged
	}
	want := 0
	for _, b := range h.Blocks {
		if b.First < 0 || b.Possessions <= 0 || b.Possessions > maxPossessions || b.First > maxPossessions {
			return nil, damaged
		}
		want += b.Possessions * record
	}
	if len(data) < want+sha256.Size {
		whole := len(file) - len(data) + want + sha256.Size
		return nil, &Fault{path, fmt.Sprintf("is cut off after %d of %d bytes", len(file), whole), again}
	}
	end := len(file) - sha256.Size
	if sum := sha256.Sum256(file[:end]); len(data) > want+sha256.Size || !bytes.Equal(sum[:], file[end:]) {
		return nil, damaged
	}
	for i := range h.Blocks {
		b := &h.Blocks[i]
		b.data, data = data[:b.Possessions*record], data[b.Possessions*record:]
	}
	return h, nil
}

// maxPossessions bounds ranges, so that no damaged number can overflow.
const maxPossessions = 1 << 40
