package parts

import (
	"fmt"
	"strconv"
	"strings"
)

// Shard is one of several equal shares of an experiment's blocks. The zero value
// is the whole.
type Shard struct{ I, Of int } // I from 1 to Of

// MaxShards is more machines than anybody shares one experiment among.
const MaxShards = 100_000

// ParseShard reads "3/8": the third of eight shares.
func ParseShard(s string) (Shard, error) {
	i, of, ok := strings.Cut(s, "/")
	if ok {
		a, errI := strconv.Atoi(i)
		b, errOf := strconv.Atoi(of)
		if errI == nil && errOf == nil && 1 <= a && a <= b && b <= MaxShards {
			return Shard{a, b}, nil
		}
	}
	return Shard{}, fmt.Errorf("write which share of how many, from 1/8 to 8/8 for eight machines")
}

// Has reports whether the block with this number, from 0, is in the share.
func (s Shard) Has(block int) bool { return s.Of == 0 || block%s.Of == s.I-1 }

func (s Shard) String() string {
	if s.Of == 0 {
		return ""
	}
	return fmt.Sprintf("%d/%d", s.I, s.Of)
}

// MarshalText and UnmarshalText write and read what String gives.
func (s Shard) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads what MarshalText has written.
func (s *Shard) UnmarshalText(b []byte) (err error) {
	if len(b) == 0 {
		*s = Shard{}
		return nil
	}
	*s, err = ParseShard(string(b))
	return err
}
