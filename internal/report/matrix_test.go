package report

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"playout/internal/experiment"
	"playout/internal/picture"
)

// testMatrix is a matrix whose pairings get into the final third with these chances, all
// with the same luck.
func testMatrix(t *testing.T, figure string, chances [][]float64) *Matrix {
	t.Helper()
	f, err := experiment.FigureNamed(figure)
	if err != nil {
		t.Fatal(err)
	}
	p := Pairings{Figure: f, Outcomes: func(i, j int) []experiment.Outcome { return invented(1, 1000, chances[i][j]) }}
	for i := range chances {
		p.Plans, p.PlanTitles = append(p.Plans, []string{"round", "=through", "over"}[i]), append(p.PlanTitles, "Plan "+string(rune('A'+i)))
	}
	for j := range chances[0] {
		p.Answers, p.AnswerTitles = append(p.Answers, []string{"jump", "stay", "4-4-2-mid"}[j]), append(p.AnswerTitles, []string{"They jump", "They | stay", "4-4-2-mid"}[j])
	}
	p.Opponent = "Corran Quay"
	m, err := NewMatrix(p, Played{Seed: 1, Variants: len(p.Plans) * len(p.Answers), Possessions: 1000, Asked: 1000, Version: "v0.0.0-test", Revision: 1})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// dilemma has no saddle: round against jump, through against stay; over is worse than round.
var dilemma = [][]float64{{0.3, 0.6, 0.7}, {0.55, 0.4, 0.75}, {0.2, 0.5, 0.6}}

func golden(t *testing.T, file string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", file)
	if *update {
		if err := os.WriteFile(path, got, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Errorf("output differs from %s; run with -update and read the difference. Got:\n%s", path, got)
	}
	if strings.HasSuffix(file, ".txt") {
		for line := range strings.Lines(string(got)) {
			if len([]rune(line)) > maxColumns+1 {
				t.Errorf("wider than %d columns: %s", maxColumns, line)
			}
		}
	}
	if strings.HasSuffix(file, ".json") && !json.Valid(got) {
		t.Error("no valid JSON")
	}
}

func TestMatrixGolden(t *testing.T) {
	m := testMatrix(t, "final_third", dilemma)
	for file, format := range map[string]Format{"matrix.txt": Table, "matrix.md": Markdown, "matrix.csv": CSV, "matrix.json": JSON} {
		var b bytes.Buffer
		if err := m.Write(&b, format); err != nil {
			t.Fatal(err)
		}
		golden(t, file, b.Bytes())
	}
}

// The game of the dilemma is that of its first two plans and answers, solved by the
// closed formula from the shares that were played.
func TestMatrixSolvesTheGame(t *testing.T) {
	m := testMatrix(t, "final_third", dilemma)
	at := func(i, j int) float64 { return float64(m.Payoffs[i][j].Value) }
	a, b, c, d := at(0, 0), at(0, 1), at(1, 0), at(1, 1)
	k := a + d - b - c
	near := func(what string, got Number, want float64) {
		t.Helper()
		if math.Abs(float64(got)-want) > 1e-9 {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	near("value", m.Value.Value, (a*d-b*c)/k)
	near("share of round", m.Plans[0].Share.Value, (d-c)/k)
	near("share of jump", m.Answers[0].Share.Value, (d-b)/k)
	near("price of always jumping", m.Answers[0].Price.Value, c-(a*d-b*c)/k)
	if m.Pure || m.PureIn > 0.05 || !m.Plans[1].Safest || m.Plans[2].Dominated == nil || m.Answers[2].Dominated == nil {
		t.Errorf("%+v", m)
	}
	for _, s := range append(m.Plans, m.Answers...) {
		if s.Share.Low > s.Share.Value || s.Share.High < s.Share.Value {
			t.Errorf("%s: share %+v", s.Name, s.Share)
		}
	}
}

// When less is better for the plans the same game comes out with its sign turned: lost
// is 100 less what gets in.
func TestMatrixOfALoss(t *testing.T) {
	more, less := testMatrix(t, "final_third", dilemma), testMatrix(t, "lost", dilemma)
	if d := float64(more.Value.Value + less.Value.Value); math.Abs(d-100) > 1e-9 {
		t.Errorf("values %v and %v", more.Value, less.Value)
	}
	for i := range more.Plans {
		if a, b := more.Plans[i], less.Plans[i]; math.Abs(float64(a.Share.Value-b.Share.Value)) > 1e-9 || !slices.Equal(a.Replies, b.Replies) || math.Abs(float64(a.Worst.Value+b.Worst.Value)-100) > 1e-9 {
			t.Errorf("%+v against %+v", a, b)
		}
	}
	if less.Value.Low > less.Value.Value || less.Value.High < less.Value.Value {
		t.Errorf("interval %+v", less.Value)
	}
}

func TestMatrixAnswers(t *testing.T) {
	for _, c := range []struct {
		name    string
		figure  string
		chances [][]float64
		want    []string
	}{
		{"one of each", "final_third", [][]float64{{0.5}}, []string{"One plan against one answer leaves nothing to choose: round against jump gives "}},
		{"one plan", "final_third", [][]float64{{0.5, 0.3}}, []string{"Against round their best answer is stay: it leaves you ", "nothing to mix"}},
		{"one answer", "final_third", [][]float64{{0.5}, {0.3}}, []string{"Against jump the best plan is round", "nothing to mix"}},
		{"one answer, not told", "net_xg", [][]float64{{0.5}, {0.52}}, []string{"It cannot be told from ", "build-ups of each pairing would tell."}},
		{"a saddle", "final_third", [][]float64{{0.5, 0.6}, {0.3, 0.55}}, []string{
			"Without mixing the safest plan is round", "Neither side gains by mixing: you should always play round and they should always answer jump",
			"Always stay costs them ", "Your =through never pays: round does better against everything", "Their stay never pays: jump does better",
		}},
		{"a dilemma", "final_third", [][]float64{{0.3, 0.6}, {0.55, 0.4}}, []string{
			"They should play jump in ", " of 100 build-ups (", ", whether you play round or =through. You should play ", "No plan and no answer is beaten everywhere",
		}},
		{"all the same", "final_third", [][]float64{{0.4, 0.4}, {0.4, 0.4}}, []string{"Neither side gains by mixing"}},
		{"nothing ever", "final_third", [][]float64{{0, 0}, {0, 0}}, []string{"Neither side gains by mixing"}},
	} {
		text := strings.Join(testMatrix(t, c.figure, c.chances).Answer, " ")
		for _, want := range c.want {
			if !strings.Contains(strings.ToLower(text), strings.ToLower(want)) {
				t.Errorf("%s: no %q in: %s", c.name, want, text)
			}
		}
	}
}

func TestMatrixPicture(t *testing.T) {
	m := testMatrix(t, "final_third", dilemma)
	g := m.Picture().(*picture.Grid)
	if g.Rows[len(g.Rows)-1] != "round" || g.Rows[g.HereRow] != "=through" || g.Columns[g.HereColumn] != "stay" || !strings.HasPrefix(g.Title, "They should play jump in ") {
		t.Errorf("%+v", g)
	}
	if v := g.Values[g.HereRow][g.HereColumn]; v.Value != float64(m.Payoffs[1][1].Value) || g.Unclear[g.HereRow][g.HereColumn] {
		t.Errorf("framed: %+v", v)
	}
	for _, name := range []string{"a.svg", "a.png"} {
		if _, err := picture.Encode(name, m.Picture()); err != nil {
			t.Error(err)
		}
	}
}
