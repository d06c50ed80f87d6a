package sim

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/model"
)

// Who stands in each slot: a 4-3-3 on the ball, a 4-4-2 against it.
var (
	oursAt   = [11]model.Position{model.GK, model.LB, model.LCB, model.RCB, model.RB, model.CDM, model.LCM, model.RCM, model.LW, model.CF, model.RW}
	theirsAt = [11]model.Position{model.GK, model.LB, model.LCB, model.RCB, model.RB, model.LM, model.LCM, model.RCM, model.RM, model.LCF, model.RCF}
)

// world sets up the still, or its mirror image with side -1, and weighs the
// carrier's options without an error of his judgement.
func (s *still) world(t *testing.T, side float64) *stillWorld {
	t.Helper()
	par := model.DefaultParams()
	par.Misjudge = 0
	scene, body := s.scene(t, side)
	w := &stillWorld{world: scene.world(par), body: body}
	w.weigh(false)
	return w
}

// scene is the still as the engine takes it, and the index of each body by its name.
func (s *still) scene(t *testing.T, side float64) (*Still, map[string]int) {
	t.Helper()
	sc := model.AverageScenario()
	for i := range 11 {
		sc.Teams[0].Players[i] = model.AveragePlayer(i+1, oursAt[i])
		sc.Teams[1].Players[i] = model.AveragePlayer(i+1, theirsAt[i])
		sc.Teams[0].Players[i].Foot, sc.Teams[1].Players[i].Foot = model.BothFeet, model.BothFeet
	}
	scene, body := &Still{Scenario: &sc, Face: r2.Vec{X: s.face.X, Y: side * s.face.Y}}, map[string]int{}
	for i := range 11 {
		body[oursAt[i].String()] = i
		body[strings.ToLower(theirsAt[i].String())] = 11 + i
	}
	lay(t, scene, body, s.ours, side, 0)
	lay(t, scene, body, s.theirs, side, 1)
	var ok bool
	if scene.Carrier, ok = body[s.carrier]; !ok {
		t.Fatalf("%s: no carrier %q", s.name, s.carrier)
	}
	if s.run != "" {
		scene.Running[body[s.run]] = true
	}
	return scene, body
}

// stillWorld is a world with names for its bodies.
type stillWorld struct {
	*world
	body map[string]int
}

// lay places a team of a still.
func lay(t *testing.T, scene *Still, body map[string]int, places string, side float64, team int) {
	t.Helper()
	seen := map[string]bool{}
	words := strings.Fields(places)
	for i := 0; i+1 < len(words); i += 2 {
		b, ok := body[words[i]]
		if !ok || teamOf(b) != team || seen[words[i]] {
			t.Fatalf("player %q: not of this team, or twice", words[i])
		}
		seen[words[i]] = true
		var v [4]float64
		for k, word := range strings.Split(words[i+1], ",") {
			x, err := strconv.ParseFloat(word, 64)
			if err != nil {
				t.Fatalf("place of %s: %v", words[i], err)
			}
			v[k] = x
		}
		scene.Pos[team][b%11] = r2.Vec{X: v[0], Y: side * v[1]}
		scene.Vel[team][b%11] = r2.Vec{X: v[2], Y: side * v[3]}
	}
	if len(seen) != 11 {
		t.Fatalf("%d of 11 placed", len(seen))
	}
}

// best is the greatest quantity among the options that a name means; -Inf when
// the carrier has no such option.
func (w *stillWorld) best(t *testing.T, name string, by quantity) float64 {
	t.Helper()
	means := w.parseOption(t, name)
	best := math.Inf(-1)
	for i := range w.opt.n {
		o := &w.opt.o[i]
		if !means(o) {
			continue
		}
		switch by {
		case odds:
			best = max(best, o.score)
		case chance:
			best = max(best, o.chance)
		case worth:
			best = max(best, o.worth)
		}
	}
	return best
}

// parseOption reads the name of an option: "stand", "carry on", "carry back",
// "take on", "shoot", or a kind of pass and a receiver, as in "pass LB" (any
// kind), "ground LB", "feet LB", "space LB", "high LB", "cross LB", "cut back LB".
func (w *stillWorld) parseOption(t *testing.T, name string) func(*option) bool {
	t.Helper()
	length := func(o *option) float64 { return o.target.X - w.pos[w.carrier].X }
	switch name {
	case "stand":
		return func(o *option) bool { return o.act == keepBall && dist(o.target, w.pos[w.carrier]) < 0.1 }
	case "carry on":
		return func(o *option) bool { return o.act == keepBall && length(o) > 1 }
	case "carry back":
		return func(o *option) bool { return o.act == keepBall && length(o) < -1 }
	case "take on":
		return func(o *option) bool { return o.act == takeOn }
	case "shoot":
		return func(o *option) bool { return o.act == shoot }
	}
	kinds := map[string]func(*option) bool{
		"pass":     func(o *option) bool { return true },
		"ground":   func(o *option) bool { return !o.cross && o.kind == Ground },
		"feet":     func(o *option) bool { return !o.cross && o.kind == Ground && !o.space },
		"space":    func(o *option) bool { return !o.cross && o.kind == Ground && o.space },
		"high":     func(o *option) bool { return !o.cross && o.kind != Ground },
		"cross":    func(o *option) bool { return o.cross && o.kind != Ground },
		"cut back": func(o *option) bool { return o.cross && o.kind == Ground && o.back },
	}
	i := strings.LastIndex(name, " ")
	kind, to := kinds[name[:max(i, 0)]], w.body[name[i+1:]]
	if kind == nil || w.carrier == to || (to == 0 && name[i+1:] != "GK") {
		t.Fatalf("no option is called %q", name)
	}
	return func(o *option) bool { return o.act == playPass && o.aim == to && kind(o) }
}

// listed is every option, the likeliest first, for a test that fails.
func (w *stillWorld) listed() string {
	var names [bodies]string
	for name, b := range w.body {
		names[b] = name
	}
	l := slices.Clone(w.opt.o[:w.opt.n])
	slices.SortStableFunc(l, func(a, b option) int { return int(math.Copysign(1, b.score-a.score)) })
	var s strings.Builder
	fmt.Fprintf(&s, "pressure %.2f, scale %.5f\n", w.pressure, w.opt.scale)
	for _, o := range l {
		to := ""
		if o.aim != nobody {
			to = names[o.aim]
		}
		fmt.Fprintf(&s, "%7.2f  chance %.3f worth %.4f  %-8s %-4s %-8v cross=%t back=%t space=%t to %.1f,%.1f\n",
			o.score, o.chance, o.worth, [...]string{"pass", "keep", "take on", "shoot"}[o.act], to, o.kind, o.cross, o.back, o.space, o.target.X, o.target.Y)
	}
	return s.String()
}
