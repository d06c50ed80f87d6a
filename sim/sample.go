package sim

import (
	"math"
)

// sampleBlock measures the block.
func (t *tracker) sampleBlock(w *world) {
	def := 1 - w.onBall
	s := &w.p.BlockSample
	s.Ticks++
	if w.def.stance == pressing {
		s.Pressing++
	}
	left, right := math.Inf(-1), math.Inf(1)
	deep, high := math.Inf(1), math.Inf(-1)
	sum := 0.0
	for i := 1; i < 11; i++ {
		p := own(def, w.pos[11*def+i])
		left, right = max(left, p.Y), min(right, p.Y)
		deep, high = min(deep, p.X), max(high, p.X)
		sum += p.Y
		if w.def.pinned[i] {
			s.Pinned++
		}
	}
	for b := range w.vel {
		v := w.vel[b]
		v2, k := v.X*v.X+v.Y*v.Y, 0
		for k < len(speedCuts) && v2 > speedCuts[k]*speedCuts[k] {
			k++
		}
		s.Speed[k]++
	}
	u := w.halfL + own(def, w.ball).X
	band := &s.Line[min(max(int(u/10), 0), lineBands-1)]
	band.N++
	band.X += cm(w.halfL - w.att.last)
	s.Width += cm(left - right)
	s.Length += cm(high - deep)
	if w.att.lines > 1 {
		s.GapN++
		s.Gap += cm(w.att.line[0] - w.att.line[1])
		s.Midfield += cm(w.halfL - w.att.line[1])
	}
	c := sum / 10
	if t.ready {
		speed := (c - t.centroid) / (viewEvery * TickSeconds)
		e := w.team(def).Block.ShiftGain*own(def, w.ball).Y - c
		s.LagEC += cm(e) * cm(speed)
		s.LagCC += cm(speed) * cm(speed)
	}
	t.centroid, t.ready = c, true
}

func cm(m float64) int64 { return int64(math.Round(100 * m)) }
