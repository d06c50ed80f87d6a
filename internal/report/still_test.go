package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"playout/internal/draw"
	"playout/internal/still"
	"playout/scenarios"
)

func exampleStill(t *testing.T) *Still {
	t.Helper()
	f, err := still.Parse("example.yaml", scenarios.Still)
	if err != nil {
		t.Fatal(err)
	}
	return NewStill(StillRun{File: "example.yaml", Title: f.Title, Still: &f.Still, Judgement: f.Still.Judge(nil), Version: "test"})
}

// The JSON object is enough to compute the control model again: this does it from
// nothing else, with the ball's equations of motion integrated by themselves, once with
// the step the engine uses and once with a fine one.
func TestStillRecomputed(t *testing.T) {
	var text bytes.Buffer
	if err := exampleStill(t).Write(&text, JSON, false); err != nil {
		t.Fatal(err)
	}
	var s Still
	if err := json.Unmarshal(text.Bytes(), &s); err != nil {
		t.Fatal(err)
	}
	worst, worstFine, coarse, balls := 0.0, 0.0, 0.0, 0
	for i := range s.Options {
		o := &s.Options[i]
		if o.Detail == nil {
			continue
		}
		chance := 0.0
		for k := range o.Detail.Balls {
			b := &o.Detail.Balls[k]
			p, off := s.nearest(o, b)
			worst = max(worst, off)
			fine := s.again(o, b, 0.002, 0)
			ours, sum := 0.0, 0.0
			for side, list := range [][]StillShare{b.Attack, b.Defence} {
				for _, take := range list {
					key := [2]int{side, take.Number}
					worstFine = max(worstFine, math.Abs(fine[key]-take.Fine))
					coarse = max(coarse, math.Abs(take.Fine-take.Chance))
					sum += p[key]
					if side == 0 {
						ours += p[key]
					}
				}
			}
			chance += b.Weight * (ours + (1-sum)/2)
			balls++
		}
		if got := (1 - o.Detail.Blocked) * o.Detail.Touch * chance; math.Abs(got-o.Chance) > 0.01 {
			t.Errorf("%s: chance %v, computed again %v", o.Words, o.Chance, got)
		}
	}
	t.Logf("%d balls: largest difference %.4f, with a fine step %.4f; the two steps differ by %.3f", balls, worst, worstFine, coarse)
	if balls < 20 || worst > 0.002 || worstFine > 0.004 {
		t.Errorf("over %d balls a probability is off by %v, with a fine step by %v", balls, worst, worstFine)
	}
	// A ball out of the air passes head height within a step or two of the carrier's.
	if coarse > 0.1 {
		t.Errorf("the carrier's step is off by %v", coarse)
	}
}

// nearest is the control model in the carrier's steps, and how far its probabilities are
// off at most. A step may catch the ball within a hair of head or foot height, where it
// counts or does not; so the ball is also tried a centimetre lower and higher.
func (s *Still) nearest(o *StillOption, b *StillBall) (best map[[2]int]float64, off float64) {
	off = math.Inf(1)
	for _, lift := range []float64{0, -0.01, 0.01} {
		p, worst := s.again(o, b, s.Control.Step, lift), 0.0
		for side, list := range [][]StillShare{b.Attack, b.Defence} {
			for _, take := range list {
				worst = max(worst, math.Abs(p[[2]int{side, take.Number}]-take.Chance))
			}
		}
		if worst < off {
			best, off = p, worst
		}
	}
	return best, off
}

// again integrates the control model of Spearman et al. (2017) for one ball, by side and
// number; lift is added to the ball's height, m.
func (s *Still) again(o *StillOption, b *StillBall, step, lift float64) map[[2]int]float64 {
	path := s.flown(b)
	p, sum := map[[2]int]float64{}, 0.0
	for t := step / 2; t < b.Until && sum < s.Control.Enough; t += step {
		at := path[min(int(math.Round(t/flownStep)), len(path)-1)]
		x, y := b.Origin[0]+at[0]*b.Dir[0], b.Origin[1]+at[0]*b.Dir[1]
		rate := 1.0
		if at[1]+lift > s.Control.HeadHeight {
			continue
		} else if at[1]+lift > s.Control.FootHeight {
			rate = s.Control.HeadRate
		}
		pull, total, theirs, apart := map[[2]int]float64{}, 0.0, 0.0, map[[2]int]float64{}
		body, off, own := 0.0, 0.0, 0.0 // of the man it is meant for
		for side, list := range [][]StillPlayer{s.Attack, s.Defence} {
			for _, m := range list {
				if m.Carrier {
					continue
				}
				reaction := m.Reaction
				if side == 0 && m.Number == *o.Player {
					reaction = m.Aimed
				} else if w := o.Detail.Watcher; side == 1 && w != nil && m.Number == *w {
					reaction = m.Watching
				}
				d := math.Hypot(x-m.At[0]-m.Velocity[0]*reaction, y-m.At[1]-m.Velocity[1]*reaction)
				tau := reaction + d/m.Speed
				z := math.Pi / math.Sqrt(3) / s.Control.Spread * (t - tau)
				if z < -s.Control.Edge || math.Hypot(x-m.At[0], y-m.At[1]) > m.Top*t+s.Control.Reach {
					continue
				}
				run := max(t-s.Control.Twitch, 0)
				if left := math.Hypot(x-m.At[0]-m.Velocity[0]*t, y-m.At[1]-m.Velocity[1]*t); t < s.Control.Swift && left > s.Control.Reach+m.Accel*run*run/2 {
					continue
				}
				pull[[2]int{side, m.Number}] = m.Rate * rate / (1 + math.Exp(-z))
				apart[[2]int{side, m.Number}] = d
				if side == 0 && m.Number == *o.Player {
					if rate == 1 {
						body, off = b.Shield/(1+math.Exp(-z)), d+0.01
					}
					own = m.Rate
				}
			}
		}
		for key, r := range pull {
			if key[0] == 1 {
				pull[key] = r * (1 - body*apart[key]/(apart[key]+off))
				theirs += pull[key]
			}
		}
		if key := [2]int{0, *o.Player}; pull[key] > 0 && rate == 1 {
			pull[key] *= b.Feet
			if b.Within > 0 {
				share := max(min(b.Length, b.RestS)-at[0], 0) / b.Within
				pull[key] *= max(1-share*share, min(theirs/own, 1))
			}
		}
		for _, r := range pull {
			total += r
		}
		if total == 0 {
			continue
		}
		gain := (1 - sum) * (1 - math.Exp(-total*step))
		sum += gain
		for key, r := range pull {
			p[key] += gain * r / total
		}
	}
	return p
}

const flownStep = 0.0002 // s

// flown integrates the ball's motion: distance and height at even times.
func (s *Still) flown(b *StillBall) [][2]float64 {
	f := &s.Flight
	vs, vh := b.Launch*math.Cos(b.Angle), b.Launch*math.Sin(b.Angle)
	d, h := 0.0, 0.0
	air, rolls := b.Kind != "ground", false
	out := [][2]float64{{0, 0}}
	for t := 0.0; t < b.Until; t += flownStep {
		switch {
		case air:
			v := math.Hypot(vs, vh)
			mix := min(max((v-f.LowSpeed)/(f.HighSpeed-f.LowSpeed), 0), 1)
			k := f.LowDrag + mix*(f.HighDrag-f.LowDrag)
			vs, vh = vs-k*v*vs*flownStep, vh-(k*v*vh+f.Gravity)*flownStep
			if h += vh * flownStep; h < 0 {
				h, air, rolls, vs = 0, false, true, max(vs*f.RollShare-(1-f.RollShare)*f.BackSpin, 0)
			}
		case !rolls:
			vs -= f.Slide * flownStep
			rolls = vs <= f.RollShare*b.Launch
		default:
			vs = max(vs-(f.Roll+f.RollDrag*vs*vs)*flownStep, 0)
		}
		d += vs * flownStep
		out = append(out, [2]float64{d, h})
	}
	return out
}

// Every format holds the options; the tables fit a terminal; hostile titles do nothing.
func TestStillFormats(t *testing.T) {
	s := exampleStill(t)
	for _, f := range Formats {
		for _, full := range []bool{false, true} {
			var text bytes.Buffer
			if err := s.Write(&text, f, full); err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(text.String(), "pass to 3") {
				t.Errorf("%s: the far-side pass is not in it", f)
			}
			for line := range strings.Lines(text.String()) {
				if f == Table && width(strings.TrimRight(line, "\n")) > maxColumns {
					t.Errorf("a line is wider than %d columns: %s", maxColumns, line)
				}
			}
		}
	}
	f, err := still.Parse("x.yaml", bytes.Replace(scenarios.Still, []byte("title: "), []byte(`title: "<script>]]>&" # `), 1))
	if err != nil {
		t.Fatal(err)
	}
	hostile := NewStill(StillRun{Title: f.Title, Still: &f.Still, Judgement: f.Still.Judge(nil)})
	if svg := string(hostile.Scene(false).SVG("")); strings.Contains(svg, "<script") {
		t.Error("the title is markup in the picture")
	}
}

// Without --full the options left out have a line, so that the shares add up to 100; with
// it there is none.
func TestStillSharesAddUp(t *testing.T) {
	s := exampleStill(t)
	part, full, all := s.document(false).tables[0], s.document(true).tables[0], 0.0
	for _, o := range s.Options {
		all += o.Share
	}
	if math.Abs(all-1) > 1e-9 {
		t.Errorf("all shares add up to %v", all)
	}
	last, rest := part.rows[len(part.rows)-1], len(s.Options)-len(part.rows)+1
	if want := fmt.Sprintf("%d others (--full)", rest); last[0] != want || last[2] != "<1" {
		t.Errorf("last line %q, want %q with <1: what he does once in 100 is shown", last, want)
	}
	for _, of := range []*table{part, full} {
		sum, before := 0, 100
		for _, row := range of.rows {
			n, err := strconv.Atoi(row[2])
			if err != nil && row[2] != "<1" {
				t.Error(row)
			}
			if n > before {
				t.Errorf("%q is chosen more often than the row above", row)
			}
			sum, before = sum+n, n
		}
		if sum != 100 {
			t.Errorf("the column adds up to %d", sum)
		}
	}
	for _, row := range s.document(true).tables[0].rows {
		if strings.Contains(row[0], "other") {
			t.Errorf("a line for the rest with every option shown: %q", row)
		}
	}
}

// The picture is the same every time, and shows every man, upright too.
func TestStillPicture(t *testing.T) {
	s := exampleStill(t)
	for _, upright := range []bool{false, true} {
		svg := s.Scene(upright).SVG("")
		if !bytes.Equal(svg, s.Scene(upright).SVG("")) {
			t.Error("two drawings differ")
		}
		if n := bytes.Count(svg, []byte(">11<")); n != 2 {
			t.Errorf("number 11 stands %d times on the pitch", n)
		}
	}
	if _, err := s.Scene(false).PNG(draw.Dark, 1); err != nil {
		t.Error(err)
	}
}
