package parts

import (
	"bytes"
	"slices"
	"sort"
)

// index finds records by cell and possession.
type index struct {
	record int // bytes of one
	cells  map[Key][]piece
}

// piece is a range of possessions of a cell that one part gave. The pieces of a
// cell are in order and do not overlap.
type piece struct {
	first int
	data  []byte
	from  string // the part
}

func (x *index) end(p *piece) int { return p.first + len(p.data)/x.record }

// find returns the records of possessions first to first+n-1, nil unless all are there.
func (x *index) find(key Key, first, n int) []byte {
	pieces := x.cells[key]
	i := sort.Search(len(pieces), func(i int) bool { return x.end(&pieces[i]) > first })
	var out []byte
	for at := first; at < first+n; i++ {
		if i == len(pieces) || pieces[i].first > at {
			return nil
		}
		upTo := min(x.end(&pieces[i]), first+n)
		out = append(out, pieces[i].data[(at-pieces[i].first)*x.record:(upTo-pieces[i].first)*x.record]...)
		at = upTo
	}
	return out
}

// insert adds the records of a block. Those that are there already are compared:
// twin is a part that has some of them too, doubled the number of possessions, and
// differs says whether the two contradict each other; then nothing more is added.
func (x *index) insert(b block, from string) (twin string, doubled int, differs bool) {
	pieces := x.cells[b.Cell]
	i := sort.Search(len(pieces), func(i int) bool { return x.end(&pieces[i]) > b.First })
	end := b.First + b.Possessions
	for at := b.First; at < end; i++ {
		if i < len(pieces) && pieces[i].first <= at {
			p := &pieces[i]
			upTo := min(x.end(p), end)
			twin = p.from
			doubled += upTo - at
			if !bytes.Equal(p.data[(at-p.first)*x.record:(upTo-p.first)*x.record], b.data[(at-b.First)*x.record:(upTo-b.First)*x.record]) {
				return twin, doubled, true
			}
			at = upTo
			continue
		}
		upTo := end
		if i < len(pieces) {
			upTo = min(upTo, pieces[i].first)
		}
		pieces = slices.Insert(pieces, i, piece{at, b.data[(at-b.First)*x.record : (upTo-b.First)*x.record], from})
		at = upTo
	}
	x.cells[b.Cell] = pieces
	return twin, doubled, false
}
