package sim

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// switchWatch follows a switch of play to its verdict.
type switchWatch struct {
	on     bool
	kind   SwitchKind
	from   float64 // x of the passer
	to     float64 // x of the reception
	before bool    // played before the final third
	tick   int     // of the reception
	race   int     // 0 open, 1 decided
}

// lookForSwitch compares where the ball is with where it came from. A cross is no switch,
// nor part of a chain.
func (t *tracker) lookForSwitch(w *world, at r2.Vec) {
	if t.passKind == Cross {
		t.chained = t.nHistory
		return
	}
	kind := NumSwitchKinds
	from := t.passFrom
	if math.Abs(at.Y-from.Y) >= model.SwitchWidth {
		kind = SinglePass
	} else {
		for i := max(t.nHistory-len(t.history), t.chained, 0); i < t.nHistory; i++ {
			h := t.history[i%len(t.history)]
			if w.tick-h.tick <= chainWindow && math.Abs(at.Y-h.y) >= model.SwitchWidth {
				kind, from = PassChain, r2.Vec{X: h.x, Y: h.y}
				break
			}
		}
	}
	t.history[t.nHistory%len(t.history)] = touch{t.passTick, t.passFrom.Y, t.passFrom.X}
	t.nHistory++
	if kind == NumSwitchKinds {
		return
	}
	t.chained = t.nHistory
	for i := range t.switches {
		if sw := &t.switches[i]; !sw.on {
			*sw = switchWatch{on: true, kind: kind, from: from.X, to: at.X, before: from.X <= w.pitch.Length/6, tick: w.tick}
			return
		}
	}
}

func (t *tracker) watchSwitches(w *world) {
	x := own(w.onBall, w.ball).X
	controlled := w.state == held
	for i := range t.switches {
		sw := &t.switches[i]
		if !sw.on {
			continue
		}
		age := w.tick - sw.tick
		if sw.race == 0 && controlled {
			if w.gapTo < 3 && age <= raceWindow {
				w.p.SwitchRace[0]++
				sw.race = 1
			}
		}
		if sw.race == 0 && age > raceWindow {
			w.p.SwitchRace[1]++
			sw.race = 1
		}
		switch {
		case controlled && (x >= sw.from+progressBy || sw.before && w.p.FinalThird && x > w.pitch.Length/6):
			t.judge(w, sw, SwitchProgressed)
		case x <= sw.to-forcedBackBy:
			t.judge(w, sw, SwitchForcedBack)
		case age >= switchWindow:
			t.judge(w, sw, SwitchHeld)
		}
	}
}

func (t *tracker) judge(w *world, sw *switchWatch, v Verdict) {
	w.p.Switches[sw.kind][v]++
	sw.on = false
}
