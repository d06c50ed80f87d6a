package experiment

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"playout/internal/parts"
	"playout/model"
)

// Kept are the Parts of some cells in a directory: what is there is taken, what is
// not is played if it is in the directory's share, and kept.
type Kept struct {
	Taken, Played int // possessions

	dir    *parts.Dir
	keys   []parts.Key // by cell
	lack   []int       // numbers of the blocks that are neither there nor played here
	lacked int         // possessions in them
}

// Keep is the Parts of the cells when they are played with a seed. A value that is
// no number is an error.
func Keep(dir *parts.Dir, cells []Cell, seed uint64) (*Kept, error) {
	k := &Kept{dir: dir}
	for _, c := range cells {
		key, err := keyOf(c, seed)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", c.Name, err)
		}
		k.keys = append(k.keys, key)
	}
	return k, nil
}

// keyOf is a hash of all that the cell's outcomes depend on but the engine: every
// value of the scenario, the seed, the parameters and whose luck it has. Title and number of
// possessions decide nothing. (JSON says every value exactly in a small
// part of the time of the canonical YAML.)
func keyOf(c Cell, seed uint64) (parts.Key, error) {
	sc := *c.Scenario
	sc.Title, sc.Possessions, sc.Seed = "", 0, seed
	text, err := json.Marshal(struct {
		Scenario *model.Scenario
		Params   *model.Params
		First    int `json:",omitempty"`
	}{&sc, c.Params, c.First})
	return sha256.Sum256(text), err
}

// number counts blocks so that the shares of a row of cells rotate: with as many
// shares as cells, no share has to play the slowest cell alone.
func number(b Block) int { return b.First/BlockSize + b.Cell }

// Load implements Parts.
func (k *Kept) Load(b Block) ([]Outcome, bool, error) {
	data := k.dir.Find(k.keys[b.Cell], b.First, b.N)
	if data == nil {
		return nil, false, nil
	}
	out := make([]Outcome, b.N)
	for i := range out {
		if err := out[i].Decode(data[i*OutcomeBytes : (i+1)*OutcomeBytes]); err != nil {
			return nil, false, fmt.Errorf("possession %d: %w; start again with an empty directory", b.First+i, err)
		}
	}
	k.Taken += b.N
	return out, true, nil
}

// Mine implements Parts.
func (k *Kept) Mine(b Block) bool {
	if k.dir.Mine(number(b)) {
		return true
	}
	k.lack = append(k.lack, number(b))
	k.lacked += b.N
	return false
}

// Save implements Parts.
func (k *Kept) Save(b Block, o []Outcome) error {
	data := make([]byte, 0, len(o)*OutcomeBytes)
	for i := range o {
		data = o[i].Append(data)
	}
	k.Played += b.N
	return k.dir.Save(k.keys[b.Cell], b.First, data)
}

// Missing says how many possessions are neither there nor played here, and, if the
// parts tell, which shares have not been finished; nil when there are none.
func (k *Kept) Missing() error {
	if k.lacked == 0 {
		return nil
	}
	what := fmt.Sprintf("%d of %d build-ups are missing", k.lacked, k.lacked+k.Taken+k.Played)
	of := 0
	for _, sh := range k.dir.Shards() {
		if sh.Of == 0 || of != 0 && sh.Of != of {
			of = -1
		} else if of == 0 {
			of = sh.Of
		}
	}
	if of <= 0 {
		return fmt.Errorf("%s; run the same command with --parts and without --shard, and it plays them", what)
	}
	var shares, flags []string
	for i := 1; i <= of; i++ {
		sh := parts.Shard{I: i, Of: of}
		if slices.ContainsFunc(k.lack, sh.Has) {
			shares = append(shares, sh.String())
			flags = append(flags, "--shard "+sh.String())
		}
	}
	return fmt.Errorf("%s, of the shares %s; run the same command with --parts and %s again, which play only what is not there", what, strings.Join(shares, ", "), strings.Join(flags, ", "))
}
