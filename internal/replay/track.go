package replay

import (
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
)

// track is the way of a mark through the picture, px, frame by frame.
type track struct {
	at  []r2.Vec
	cut []bool // no motion leads to this frame
}

// tolerance is how far a mark may be drawn from its place, px: less than 0.1 m.
const tolerance = 0.6

// keys lists the frames that are enough to draw the way by straight lines between
// them, within tolerance at every frame: the ends, both sides of a cut, and where
// the way bends (Douglas and Peucker 1973, with time in the place of length).
func (t *track) keys() []int {
	keep := make([]bool, len(t.at))
	first := 0
	for i := range t.at {
		if i == len(t.at)-1 || t.cut[i+1] {
			t.bend(keep, first, i)
			first = i + 1
		}
	}
	var keys []int
	for i, k := range keep {
		if k {
			keys = append(keys, i)
		}
	}
	return keys
}

// bend keeps both ends of a stretch and, while a frame between them is too far from
// the line, the furthest one.
func (t *track) bend(keep []bool, from, to int) {
	keep[from], keep[to] = true, true
	worst, far := 0, tolerance
	for i := from + 1; i < to; i++ {
		share := float64(i-from) / float64(to-from)
		on := r2.Add(r2.Scale(1-share, t.at[from]), r2.Scale(share, t.at[to]))
		if d := r2.Norm(r2.Sub(t.at[i], on)); d > far {
			worst, far = i, d
		}
	}
	if worst > 0 {
		t.bend(keep, from, worst)
		t.bend(keep, worst, to)
	}
}

// css is the way as keyframes of that name.
func (t *track) css(name string) string {
	var b strings.Builder
	b.WriteString("@keyframes " + name + "{")
	put := func(percent string, p r2.Vec) {
		b.WriteString(percent + "{transform:translate(" + px(p.X) + "," + px(p.Y) + ")}")
	}
	n := len(t.at)
	for _, i := range t.keys() {
		put(percent(float64(i), n), t.at[i])
		if i+1 < n && t.cut[i+1] {
			put(percent(float64(i)+0.99, n), t.at[i]) // stays, then jumps
		}
	}
	b.WriteString("}")
	return b.String()
}

// percent is the moment of a frame of n in the time of the whole film.
func percent(frame float64, n int) string {
	return strconv.FormatFloat(math.Round(1e6*frame/float64(n-1))/1e4, 'f', -1, 64) + "%"
}

func px(x float64) string {
	return strconv.FormatFloat(math.Round(10*x)/10+0, 'f', -1, 64) + "px"
}

// shown is an opacity by frame that changes in steps, as keyframes of that name.
func shown(name string, n int, opacity func(frame int) float64) string {
	var b strings.Builder
	b.WriteString("@keyframes " + name + "{")
	last := math.NaN()
	for i := range n {
		if o := opacity(i); o != last || i == n-1 {
			b.WriteString(percent(float64(i), n) + "{opacity:" + strconv.FormatFloat(o, 'f', -1, 64) + "}")
			last = o
		}
	}
	b.WriteString("}")
	return b.String()
}
