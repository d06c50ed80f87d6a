package sim

import (
	"math"
	"testing"

	"playout/model"
)

// A film tells the same possession as a run, and its frames agree with its events.
func TestFilmAgreesWithReplay(t *testing.T) {
	sc := model.AverageScenario()
	for id := range 60 {
		f := Record(&sc, nil, id)
		p, events := Replay(&sc, nil, id)
		if f.Possession != *p || len(f.Events) != len(events) {
			t.Fatalf("possession %d: filmed and replayed differ", id)
		}
		for i, fr := range f.Frames {
			if fr.Tick != i {
				t.Fatalf("possession %d: frame %d shows tick %d", id, i, fr.Tick)
			}
		}
		for i, e := range f.Events {
			if e != events[i] {
				t.Fatalf("possession %d: event %d differs", id, i)
			}
			if e.Tick >= len(f.Frames) {
				t.Fatalf("possession %d: no frame for %v at tick %d", id, e.Kind, e.Tick)
			}
			fr := f.Frames[e.Tick]
			if e.Kind == EventReceive && fr.Carrier >= 0 && math.Hypot(fr.Ball.X-e.From.X, fr.Ball.Y-e.From.Y) > 1 {
				t.Errorf("possession %d: received at %v, the ball is at %v", id, e.From, fr.Ball)
			}
		}
		// Between two frames nobody is faster than a man can be.
		for i := 1; i < len(f.Frames); i++ {
			if f.Frames[i].Cut {
				continue
			}
			for team := range f.Frames[i].Players {
				for k, p := range f.Frames[i].Players[team] {
					q := f.Frames[i-1].Players[team][k]
					if v := math.Hypot(p.X-q.X, p.Y-q.Y) / TickSeconds; v > 11 {
						t.Errorf("possession %d, tick %d: player %d of team %d runs at %.1f m/s", id, i, k, team, v)
					}
				}
			}
		}
	}
}

// Every pass and shot of the film was chosen from options whose shares add up to 1.
func TestFilmKeepsChoices(t *testing.T) {
	sc := model.AverageScenario()
	f := Record(&sc, nil, 3)
	for _, c := range f.Decisions {
		sum := 0.0
		for _, o := range c.Options {
			sum += o.Share
			if o.Share < 0 || o.Share > 1 {
				t.Errorf("tick %d: %v has a share of %v", c.Tick, o.Act, o.Share)
			}
		}
		if math.Abs(sum-1) > 1e-9 || c.Taken >= len(c.Options) {
			t.Errorf("tick %d: shares add up to %v, taken %d of %d", c.Tick, sum, c.Taken, len(c.Options))
		}
	}
	for _, e := range f.Events {
		if e.Kind != EventPass && e.Kind != EventShot {
			continue
		}
		found := false
		for _, c := range f.Decisions {
			o := c.Options[c.Taken]
			found = found || c.Tick == e.Tick && c.Player == e.Player && o.To == e.To && o.Chance == e.Chance
		}
		if !found {
			t.Errorf("%v at tick %d was not chosen", e.Kind, e.Tick)
		}
	}
}
