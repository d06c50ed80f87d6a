package replay

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"encoding/xml"
	"fmt"
	"image/gif"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"playout/internal/draw"
	"playout/model"
	"playout/sim"
)

// told makes a few stories that between them hold every way to end: chosen by what
// happens, not by number, since the engine changes.
func told(t *testing.T) []*Story {
	t.Helper()
	sc := model.AverageScenario()
	var out []*Story
	want := map[string]func(f *sim.Film) bool{
		"in play": func(f *sim.Film) bool { return f.Possession.After.By == sim.WonInPlay },
		"restart": func(f *sim.Film) bool {
			return f.Possession.After.Played && f.Possession.After.By != sim.WonInPlay
		},
		"shot":     func(f *sim.Film) bool { return f.Possession.Shot },
		"not lost": func(f *sim.Film) bool { return !f.Possession.Shot && !f.Possession.End.Lost() },
		"set play": func(f *sim.Film) bool { return f.Possession.After.By == sim.BySetPlay },
	}
	for id := 0; len(want) > 0 && id < 300; id++ {
		f := sim.Record(&sc, nil, id)
		for name, is := range want {
			if is(f) {
				delete(want, name)
				out = append(out, New(&sc, f, "test"))
				break
			}
		}
	}
	if len(want) > 0 {
		t.Fatalf("no possession of 300 shows %v", want)
	}
	return out
}

// A ball's length is not the ground it gains: both are told where they differ.
func TestWay(t *testing.T) {
	from := r2.Vec{X: -10, Y: 5}
	for to, want := range map[r2.Vec]string{
		{X: -5, Y: 26.4}:    "22 m (5 m forward)",
		{X: 12, Y: 5}:       "22 m forward",
		{X: 11.8, Y: 7}:     "22 m forward",
		{X: -8, Y: 27}:      "22 m square",
		{X: -12, Y: -17}:    "22 m square",
		{X: -19, Y: 25}:     "22 m (9 m back)",
		{X: -32, Y: 5}:      "22 m back",
		{X: -7, Y: 8}:       "4 m (3 m forward)", // a short ball has to be the more level
		{X: -9.6, Y: 5.9}:   "1 m square",
		{X: -6.8, Y: -15.6}: "21 m (3 m forward)",
	} {
		if got := way(0, from, to, "square"); got != want {
			t.Errorf("to %v: %s, want %s", to, got, want)
		}
	}
	if got := way(1, from, r2.Vec{X: -15, Y: 26.4}, "square"); got != "22 m (5 m forward)" {
		t.Errorf("the other team: %s", got)
	}
}

// onBall reports whether an event's place is the ball's.
func onBall(k sim.EventKind) bool { return k != sim.EventJump }

// The account, the page's data, the moving picture and the engine's events say the
// same to the metre and the tenth of a second.
func TestAllAgree(t *testing.T) {
	for _, st := range told(t) {
		id := st.Film.Possession.ID
		// The events: every one is a step, save carries that go on.
		next := 0
		for i, e := range st.Film.Events {
			if next < len(st.Steps) && st.Steps[next].Event == e {
				next++
			} else if e.Kind != sim.EventCarry {
				t.Errorf("possession %d: event %d, %v, is not told", id, i, e.Kind)
			}
		}
		if next != len(st.Steps) {
			t.Errorf("possession %d: %d of %d steps are events", id, next, len(st.Steps))
		}
		// The reel shows the ball where the event was, at its time.
		for _, s := range st.Steps {
			f := st.Reel[s.Frame]
			if f.Tick != s.Tick {
				t.Errorf("possession %d: %v at tick %d is shown at tick %d", id, s.Kind, s.Tick, f.Tick)
			}
			if onBall(s.Kind) && r2.Norm(r2.Sub(f.Ball, s.From)) > 1 {
				t.Errorf("possession %d, %.1f s: %v at %v, the ball is shown at %v", id, s.Seconds(), s.Kind, s.From, f.Ball)
			}
			if s.Kind == sim.EventJump && r2.Norm(r2.Sub(f.Players[s.Team][s.Player], s.From)) > 1 {
				t.Errorf("possession %d: who jumps is not where he is shown", id)
			}
		}
		// The account: time and place of its lines, read back.
		line := regexp.MustCompile(`(?m)^ *(\d+\.\d)  (\S.*?\S) +(\d+) +(\d+)  \S`)
		rows := line.FindAllStringSubmatch(string(st.Text()), -1)
		if len(rows) != len(st.Steps) {
			t.Fatalf("possession %d: the account has %d lines for %d steps", id, len(rows), len(st.Steps))
		}
		number := func(s string) float64 {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		for i, row := range rows {
			e := st.Steps[i].Event
			at := r2.Vec{X: number(row[3]) - 52.5, Y: 34 - number(row[4])}
			if math.Abs(number(row[1])-float64(e.Tick)/10) > 1e-9 || math.Abs(at.X-e.From.X) > 0.5+1e-9 || math.Abs(at.Y-e.From.Y) > 0.5+1e-9 {
				t.Errorf("possession %d: the account says %v s, %v; the event was at %d, %v", id, row[1], at, e.Tick, e.From)
			}
			if row[2] != place(st.Scenario.Pitch, e.From) {
				t.Errorf("possession %d: %q for %v", id, row[2], e.From)
			}
		}
		agreesWithPage(t, st)
		agreesWithPicture(t, st)
	}
}

func agreesWithPage(t *testing.T, st *Story) {
	t.Helper()
	page, err := st.HTML()
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(page), `id="film-data">`)
	text, _, _ := strings.Cut(rest, "</script>")
	var d data
	if err := json.Unmarshal([]byte(text), &d); err != nil {
		t.Fatal(err)
	}
	if len(d.Steps) != len(st.Steps) {
		t.Fatalf("%d steps on the page, %d in the story", len(d.Steps), len(st.Steps))
	}
	for i, s := range d.Steps {
		e := st.Steps[i].Event
		ball := r2.Vec{X: float64(d.Ball[2*s.Frame]) / 10, Y: float64(d.Ball[2*s.Frame+1]) / 10}
		if s.Seconds != float64(e.Tick)*sim.TickSeconds || d.Tick[s.Frame] != e.Tick || s.Event != e.Kind.String() || s.What != st.Steps[i].What {
			t.Errorf("the page has %v at %v s, the event is %v at tick %d", s.Event, s.Seconds, e.Kind, e.Tick)
		}
		if onBall(e.Kind) && r2.Norm(r2.Sub(ball, e.From)) > 1 || math.Hypot(s.X-e.From.X, s.Y-e.From.Y) > 0.01 {
			t.Errorf("the page has the ball at %v and the event at %v, %v; it was at %v", ball, s.X, s.Y, e.From)
		}
	}
	if len(d.Ball) != 2*len(st.Reel) || len(d.Bodies[21]) != 2*len(st.Reel) || len(d.Presser) != len(st.Reel) {
		t.Error("the page's film has not the reel's length")
	}
}

// agreesWithPicture reads the key frames of the moving SVG back as a browser would.
func agreesWithPicture(t *testing.T, st *Story) {
	t.Helper()
	svg := string(st.SVG())
	b := st.newBoard(svgWidth)
	for _, name := range []string{"ball", "p0", "p13"} {
		_, rest, ok := strings.Cut(svg, "@keyframes "+name+"{")
		if !ok {
			t.Fatalf("no key frames of %s", name)
		}
		text, _, _ := strings.Cut(rest, "}}")
		var when []float64
		var where []r2.Vec
		for _, m := range regexp.MustCompile(`([\d.]+)%\{transform:translate\((-?[\d.]+)px,(-?[\d.]+)px\)`).FindAllStringSubmatch(text+"}", -1) {
			var at, x, y float64
			if _, err := fmt.Sscan(m[1]+" "+m[2]+" "+m[3], &at, &x, &y); err != nil {
				t.Fatal(err)
			}
			when, where = append(when, at/100*float64(len(st.Reel)-1)), append(where, r2.Vec{X: x, Y: y})
		}
		for _, s := range st.Steps {
			f := &st.Reel[s.Frame]
			k := 0
			for k+2 < len(when) && when[k+1] <= float64(s.Frame)+1e-3 {
				k++
			}
			share := (float64(s.Frame) - when[k]) / (when[k+1] - when[k])
			p := b.view.Back(r2.Add(r2.Scale(1-share, where[k]), r2.Scale(share, where[k+1])))
			want := f.Ball
			switch name {
			case "ball":
				want = b.view.Back(ballMark(b.view, f))
			case "p0":
				want = f.Players[0][0]
			case "p13":
				want = f.Players[1][2]
			}
			if d := r2.Norm(r2.Sub(p, want)); d > 0.15 {
				t.Errorf("%.1f s: %s is drawn %.2f m off", s.Seconds(), name, d)
			}
		}
	}
}

// wellFormed reads a document as XML and returns its elements' names.
func wellFormed(t *testing.T, doc []byte) map[string]int {
	t.Helper()
	names := map[string]int{}
	d := xml.NewDecoder(bytes.NewReader(doc))
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return names
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		if el, ok := tok.(xml.StartElement); ok {
			names[el.Name.Local]++
			for _, a := range el.Attr {
				if strings.HasPrefix(a.Name.Local, "on") {
					t.Errorf("an attribute %s", a.Name.Local)
				}
			}
		}
	}
}

func TestHostileScenario(t *testing.T) {
	for _, name := range []string{`</script><script>alert(1)</script>`, `"><img src=x onerror=alert(1)>`, "a\u202eb\x00\x1b[31m", strings.Repeat("long ", 2000), "=cmd()", "@keyframes x{}*/</style>"} {
		sc := model.AverageScenario()
		sc.Title = name
		for side := range sc.Teams {
			sc.Teams[side].Name = name
			for i := range sc.Teams[side].Players {
				sc.Teams[side].Players[i].Name = name
			}
		}
		st := New(&sc, sim.Record(&sc, nil, 0), "test")
		if n := wellFormed(t, st.SVG()); n["script"] > 0 || n["style"] != 1 || n["img"] > 0 {
			t.Errorf("%.30q: the SVG holds %v", name, n)
		}
		wellFormed(t, st.Strip().SVG(""))
		page, err := st.HTML()
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(page, []byte("<script")); n != 2 {
			t.Errorf("%.30q: %d scripts on the page", name, n)
		}
		if bytes.Contains(page, []byte("<img")) || bytes.Count(page, []byte("</style")) != 1 || bytes.ContainsAny(page, "\x00\x1b\u202e") {
			t.Errorf("%.30q: got into the page", name)
		}
		if len(page) > 400_000 {
			t.Errorf("%.30q: the page has %d bytes", name, len(page))
		}
		for _, line := range strings.Split(string(st.Text()), "\n") {
			if len([]rune(line)) > columns || strings.ContainsAny(line, "\x00\x1b\u202e") {
				t.Errorf("%.30q: line %q", name, line)
			}
		}
	}
}

// The page needs no network and lets in nothing but its own style and script, by
// their hashes (CSP level 3: SHA-256 of the element's content).
func TestPageStandsAlone(t *testing.T) {
	st := told(t)[0]
	page, err := st.HTML()
	if err != nil {
		t.Fatal(err)
	}
	text := string(page)
	for _, element := range []struct{ open, close string }{{"<style>", "</style>"}, {"<script>", "</script>"}} {
		_, rest, _ := strings.Cut(text, element.open)
		content, _, _ := strings.Cut(rest, element.close)
		sum := sha256.Sum256([]byte(content))
		if !strings.Contains(text, "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'") {
			t.Errorf("the policy does not name the content of %s", element.open)
		}
	}
	for _, bad := range []string{`src=`, `href=`, `style="`, "@import", "url("} {
		if strings.Contains(text, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	if strings.Count(text, "http") != strings.Count(text, "http://www.w3.org/2000/svg")+strings.Count(text, "http-equiv") {
		t.Error("the page names an address")
	}
	seen := map[string]bool{}
	for _, m := range regexp.MustCompile(` id="([^"]+)"`).FindAllStringSubmatch(text, -1) {
		if seen[m[1]] {
			t.Errorf("id %q is there twice", m[1])
		}
		seen[m[1]] = true
	}
	for _, want := range []string{"prefers-reduced-motion", "prefers-color-scheme", "<title>", "<desc", `lang="en"`, "aria-live", "@page"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if svg := string(st.SVG()); !strings.Contains(svg, "prefers-reduced-motion:reduce") || len(svg) > 400_000 {
		t.Errorf("the SVG moves for everybody, or has %d bytes", len(svg))
	}
}

func TestSameBytesTwice(t *testing.T) {
	sc := model.AverageScenario()
	make := func() []byte {
		st := New(&sc, sim.Record(&sc, nil, 2), "test")
		page, err := st.HTML()
		if err != nil {
			t.Fatal(err)
		}
		return append(append(page, st.SVG()...), st.Text()...)
	}
	if !bytes.Equal(make(), make()) {
		t.Error("one possession gives two different replays")
	}
}

// The moving picture for slides can be read back, keeps the speed of play and shows
// the ball.
func TestGIF(t *testing.T) {
	sc := model.AverageScenario()
	sc.Clock, sc.AfterLoss = model.MinClock, 0
	st := New(&sc, sim.Record(&sc, nil, 0), "test")
	out, err := st.GIF()
	if err != nil {
		t.Fatal(err)
	}
	g, err := gif.DecodeAll(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	hundredths := 0
	for _, d := range g.Delay {
		hundredths += d
	}
	if played := 10 * len(st.Reel); hundredths < played-10 || hundredths > played+20 {
		t.Errorf("it lasts %d hundredths of a second, the reel %d", hundredths, played)
	}
	b := st.newBoard(gifWidth)
	c := ballMark(b.view, &st.Reel[0])
	r, gr, bl, _ := g.Image[0].At(int(math.Round(c.X)), int(math.Round(c.Y))).RGBA()
	if want := draw.Ball.Colour(draw.Light); uint8(r>>8) != want.R || uint8(gr>>8) != want.G || uint8(bl>>8) != want.B {
		t.Errorf("the ball is not where it should be: %x %x %x", r>>8, gr>>8, bl>>8)
	}
}

// The strip begins with the first action and ends with the end, in order.
func TestKeyMoments(t *testing.T) {
	for _, st := range told(t) {
		keys := st.Key()
		if len(keys) == 0 || len(keys) > moments {
			t.Fatalf("%d key moments", len(keys))
		}
		hasEnd := false
		for i, k := range keys {
			hasEnd = hasEnd || st.Steps[k].Kind == sim.EventEnd || st.Steps[k].Kind == sim.EventShot && st.Steps[k].Team == 0
			if i > 0 && k <= keys[i-1] {
				t.Errorf("key moments %v are not in order", keys)
			}
		}
		if !hasEnd {
			t.Errorf("possession %d: the end is no key moment", st.Film.Possession.ID)
		}
	}
}

// A way is drawn by few key frames and never further off than the tolerance.
func TestTrackKeys(t *testing.T) {
	var tr track
	for i := range 200 {
		x := float64(i)
		tr.at = append(tr.at, r2.Vec{X: x, Y: 40 * math.Sin(x/20)})
		tr.cut = append(tr.cut, i == 120)
		if i >= 120 {
			tr.at[i].X += 300
		}
	}
	keys := tr.keys()
	if len(keys) > 60 || keys[0] != 0 || keys[len(keys)-1] != 199 {
		t.Fatalf("%d key frames from %d to %d", len(keys), keys[0], keys[len(keys)-1])
	}
	for k := 1; k < len(keys); k++ {
		a, b := keys[k-1], keys[k]
		if a < 120 && b >= 120 {
			if a != 119 || b != 120 {
				t.Errorf("the cut at 120 lies between %d and %d", a, b)
			}
			continue
		}
		for i := a; i <= b; i++ {
			share := float64(i-a) / float64(b-a)
			on := r2.Add(r2.Scale(1-share, tr.at[a]), r2.Scale(share, tr.at[b]))
			if d := r2.Norm(r2.Sub(on, tr.at[i])); d > tolerance+1e-9 {
				t.Errorf("frame %d is drawn %.2f px off", i, d)
			}
		}
	}
}

// A pass that the man it was meant for takes is as long as to where he takes it; one
// that he does not get says that it was aimed. Headers have a direction as passes do.
func TestPassed(t *testing.T) {
	sc := model.AverageScenario()
	pass := sim.Event{Kind: sim.EventPass, From: r2.Vec{X: -30}, To: r2.Vec{X: 3}, Player: 3, Other: 4, Chance: 0.8}
	taken := sim.Event{Kind: sim.EventReceive, Tick: 20, From: r2.Vec{X: -9}, Player: 4, Other: -1}
	head := pass
	head.Header = true
	behind := taken
	behind.From.X = -37
	another := taken
	another.Player = 5
	theirs := taken
	theirs.Team = 1
	for name, x := range map[string]struct {
		pass, next sim.Event
		want       string
	}{
		"found":       {pass, taken, " passes 21 m forward to "},
		"header":      {head, behind, " heads it 7 m back to "},
		"another man": {pass, another, " passes 33 m forward, aimed at "},
		"cut out":     {pass, theirs, " passes 33 m forward, aimed at "},
	} {
		st := &Story{Scenario: &sc, Film: &sim.Film{}, Steps: []Step{{Event: x.pass}, {Event: x.next}}}
		if got := st.passed(0); !strings.Contains(got, x.want) {
			t.Errorf("%s: %q, want %q in it", name, got, x.want)
		}
	}
}
