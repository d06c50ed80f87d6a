package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"playout/internal/experiment"
	"playout/internal/parts"
)

// workshop is a directory with two scenarios of which a build-up is soon played, the
// scripts of the help topics, and playout in the path.
type workshop struct {
	t           *testing.T
	dir         string
	playout     string // the program
	env         []string
	possessions string
}

func newWorkshop(t *testing.T) *workshop {
	t.Helper()
	w := &workshop{t: t, dir: t.TempDir(), possessions: "130"}
	w.write("a.yaml", "title: As it is\nstart: {from: settled, ball: [8, 0]}\nclock: 5\nafter_loss: 0\npossessions: 10\n")
	w.write("b.yaml", "extends: a.yaml\ntitle: Wider\ndefence: {block: {width: 55}}\n")
	w.write("players.csv", "name,foot,pace\nOne,left,80\nTwo,right,20\n")
	w.write("playout.sh", helpSlurm)
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	bin := t.TempDir()
	w.playout = filepath.Join(bin, "playout")
	if err := os.Symlink(exe, w.playout); err != nil { // see TestMain
		t.Fatal(err)
	}
	w.env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"))
	return w
}

func (w *workshop) write(name, text string) {
	w.t.Helper()
	if err := os.WriteFile(filepath.Join(w.dir, name), []byte(text), 0o666); err != nil {
		w.t.Fatal(err)
	}
}

func (w *workshop) file(name string) string {
	data, err := os.ReadFile(filepath.Join(w.dir, name))
	if err != nil {
		return err.Error()
	}
	return string(data)
}

func (w *workshop) compare() []string {
	return []string{"compare", "a.yaml", "b.yaml", "--possessions", w.possessions}
}

// process is a program that runs in the directory; playout is the one under test.
func (w *workshop) process(program string, args ...string) *exec.Cmd {
	if program == "playout" {
		program = w.playout
	}
	c := exec.Command(program, args...)
	c.Dir, c.Env = w.dir, slices.Clone(w.env)
	return c
}

// run runs a program to its end, which has to be a good one, and returns what it prints.
func (w *workshop) run(program string, args ...string) string {
	w.t.Helper()
	out, err := w.process(program, args...).CombinedOutput()
	if err != nil {
		w.t.Fatalf("%s %q: %v: %s", program, args, err, out)
	}
	return string(out)
}

// want is the answer in one go.
func (w *workshop) want(more ...string) string {
	w.t.Helper()
	return w.run("playout", append(w.compare(), more...)...)
}

func (w *workshop) partsIn(dir string) []string {
	names, err := filepath.Glob(filepath.Join(w.dir, dir, "*.part"))
	if err != nil {
		w.t.Fatal(err)
	}
	return names
}

// experiments are, for every command that keeps parts, a small one that is shared out
// among so many, 0 if it cannot be, and the flags that show its answer.
var experiments = map[string]struct {
	args   []string
	shares int
	shows  [][]string
}{
	"compare": {[]string{"a.yaml", "b.yaml", "--possessions", "230"}, 3, [][]string{{"--format", "json"}, {"--format", "markdown", "--output", "out"}}},
	"sweep": {[]string{"b.yaml", "--vary", "defence.block.width=30:50:10", "--vary", "attack.plan.tempo=1,2", "--possessions", "60"}, 4, // more than a cell has blocks
		[][]string{{"--format", "parquet", "--output", "out"}, {"--picture", "out.svg"}}},
	"matrix": {[]string{"--plans", "a.yaml,b.yaml", "--answers", "4-4-2-low,b.yaml", "--possessions", "130"}, 2,
		[][]string{{"--format", "json"}, {"--format", "csv", "--output", "out"}, {"--picture", "out.svg"}}},
	"people": {[]string{"a.yaml", "--slot", "7", "--shortlist", "players.csv", "--possessions", "40"}, 0,
		[][]string{{"--format", "json"}, {"--format", "csv", "--output", "out"}, {"--picture", "out.svg"}}},
	"sensitivity": {[]string{"b.yaml", "--over", "attack.plan.tempo", "--over", "attack.plan.risk", "--points", "4", "--possessions", "4"}, 0,
		[][]string{{"--format", "json"}, {"--format", "csv", "--output", "out"}, {"--picture", "out.svg"}}},
	"search": {[]string{"b.yaml", "--free", "attack.plan.tempo=0.5:4", "--budget", "400"}, 0,
		[][]string{{"--format", "json"}, {"--format", "markdown", "--output", "out"}, {"--full", "--picture", "out.svg"}}},
}

// Parts that are merged give the bytes of one run, with the scenarios gone, whatever
// the answer is shown as.
func TestMergeGivesTheSameBytes(t *testing.T) {
	for _, c := range newRootCmd().Commands() {
		if _, tested := experiments[c.Name()]; tested != (c.Flags().Lookup("parts") != nil) && c.Name() != "merge" {
			t.Errorf("%s keeps parts, so it needs a line in experiments", c.CommandPath())
		}
	}
	for name, x := range experiments {
		t.Run(name, func(t *testing.T) {
			w := newWorkshop(t)
			args := append([]string{name, "--quiet"}, x.args...)
			shown := func(args ...string) string { // all that is printed and written
				all := w.run("playout", args...)
				for _, out := range []string{"out", "out.svg"} {
					if slices.Contains(args, out) {
						all += w.file(out)
						os.Remove(filepath.Join(w.dir, out))
					}
				}
				return all
			}
			shows := append([][]string{nil}, x.shows...)
			var want, dirs []string
			for _, show := range shows {
				want = append(want, shown(append(args, show...)...))
			}
			for i := range x.shares {
				dir := fmt.Sprintf("machine%d", x.shares-i)
				dirs = append(dirs, dir)
				w.run("playout", append(args, "--workers", "1", "--parts", dir, "--shard", fmt.Sprintf("%d/%d", i+1, x.shares))...)
			}
			if x.shares == 0 {
				dirs = []string{"work"}
				if got := w.run("playout", append(args, "--parts", "work")...); got != want[0] {
					t.Errorf("with --parts\n%s\nwithout\n%s", got, want[0])
				}
			}
			inputs, err := filepath.Glob(filepath.Join(w.dir, "*.[yc][as][mv]*"))
			for _, path := range inputs {
				err = errors.Join(err, os.Remove(path))
			}
			if err != nil {
				t.Fatal(err)
			}
			for i, show := range shows {
				if got := shown(slices.Concat([]string{"merge"}, dirs, show)...); got != want[i] || len(got) < 500 {
					t.Errorf("%q: merged\n%.3000s\nin one go\n%.3000s", show, got, want[i])
				}
			}
		})
	}
}

// Names with commas are lists of the command line too, and what is kept is not
// written over.
func TestMergeOfHardNames(t *testing.T) {
	w := newWorkshop(t)
	w.write("a,b \"x\".yaml", w.file("a.yaml"))
	args := []string{"matrix", "--quiet", "--possessions", "20", "--plans", `"a,b ""x"".yaml",b.yaml`, "--answers", "4-4-2-low,4-4-2-mid", "--parts", "work"}
	want := w.run("playout", args...)
	if got := w.run("playout", "merge", "work"); got != want {
		t.Errorf("merged\n%s\nin one go\n%s", got, want)
	}
	manifest := w.file("work/manifest.json")
	for _, again := range [][]string{append(args, "--output", "work/manifest.json"), {"merge", "work", "--output", "./work/manifest.json"}} {
		said, err := w.process("playout", again...).CombinedOutput()
		if err == nil || !strings.Contains(string(said), "where build-ups are kept") || w.file("work/manifest.json") != manifest {
			t.Errorf("%q: %v, %s", again, err, said)
		}
	}
}

// A run that is killed and given again has the answer of one that is not. Two more at
// work in the same directory at the same time do not disturb it.
func TestKilledRun(t *testing.T) {
	w := newWorkshop(t)
	w.possessions = "1000"
	begin := time.Now()
	want := w.want()
	whole := time.Since(begin)
	args := append(w.compare(), "--parts", "work")
	c := w.process("playout", args...)
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	for begin := time.Now(); len(w.partsIn("work")) == 0 && time.Since(begin) < whole*6/10; {
		time.Sleep(2 * time.Millisecond)
	}
	if err := c.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	if err := c.Wait(); err == nil {
		t.Error("it ended by itself")
	}
	t.Logf("killed after %d parts were written", len(w.partsIn("work")))
	var all sync.WaitGroup
	for range 2 {
		all.Go(func() {
			out, err := w.process("playout", args...).CombinedOutput()
			if err != nil || string(out) != want {
				t.Errorf("after the kill: %v, %s", err, out)
			}
		})
	}
	all.Wait()
	if out, err := w.process("playout", "merge", "work").Output(); err != nil || string(out) != want {
		t.Errorf("merged: %v, %s", err, out)
	}
}

// Ctrl-C keeps what has been played, and so does the request to end by which queues
// give notice; the same command goes on.
func TestInterruptedWithParts(t *testing.T) {
	t.Parallel()
	w := newWorkshop(t)
	w.possessions = "100000"
	for _, x := range []struct {
		signal os.Signal
		more   []string
		says   string
	}{
		{syscall.SIGTERM, []string{"--shard", "1/2"}, `^playout: interrupted: [1-9]\d+ build-ups of this share are kept in work; the same command goes on from there\n$`},
		{os.Interrupt, nil, `^playout: interrupted`},
	} {
		kept := len(w.partsIn("work"))
		c := w.process("playout", slices.Concat(w.compare(), []string{"--parts", "work"}, x.more)...)
		var stdout, stderr bytes.Buffer
		c.Stdout, c.Stderr = &stdout, &stderr
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		for begin := time.Now(); len(w.partsIn("work")) == kept && time.Since(begin) < 30*time.Second; {
			time.Sleep(5 * time.Millisecond)
		}
		if err := c.Process.Signal(x.signal); err != nil {
			t.Fatal(err)
		}
		c.Wait()
		if code := c.ProcessState.ExitCode(); code != exitInterrupted || !regexp.MustCompile(x.says).MatchString(stderr.String()) || x.more != nil && stdout.Len() > 0 {
			t.Errorf("%v: exit code %d, %s%s", x.signal, code, &stdout, &stderr)
		}
		if len(w.partsIn("work")) <= kept {
			t.Errorf("%v: nothing more is kept", x.signal)
		}
	}
}

// What is wrong with a directory is said before anything is played, and mended as the
// message says.
func TestDamagedPartIsMended(t *testing.T) {
	w := newWorkshop(t)
	t.Chdir(w.dir)
	want := w.want()
	args := append(w.compare(), "--parts", "work")
	for _, sh := range []string{"1/2", "2/2"} {
		w.run("playout", append(args, "--shard", sh)...)
	}
	path := w.partsIn("work")[0]
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	path, err = filepath.Rel(w.dir, path)
	if err != nil {
		t.Fatal(err)
	}
	data[len(data)/2] ^= 4
	for damage, spoilt := range map[string][]byte{"is damaged": data, "is cut off after": data[:len(data)-100]} {
		w.write(path, string(spoilt))
		for _, again := range [][]string{args, {"merge", "work"}} {
			code, stdout, stderr := runCommand(context.Background(), again...)
			if code != exitFailed || stdout != "" || !strings.HasPrefix(stderr, "playout: "+path+": "+damage) {
				t.Errorf("%q: exit code %d, %q, %s", again, code, stdout, stderr)
			}
		}
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if code, _, stderr := runCommand(context.Background(), "merge", "work"); code != exitFailed || !regexp.MustCompile(`^playout: work: \d+ of 260 build-ups are missing, of the shares [12]/2; run the same command`).MatchString(stderr) {
		t.Errorf("exit code %d, %s", code, stderr)
	}
	if got := w.run("playout", args...); got != want {
		t.Errorf("mended: %s", got)
	}
}

// Merge does not answer with this program what another one has played.
func TestMergeOfAnotherProgram(t *testing.T) {
	ours := thisProgram()
	ours.Seed, ours.Command, ours.Inputs = 1, []string{"compare", "--", "a.yaml", "b.yaml"}, map[string]string{}
	older, newer, other, alien := ours, ours, ours, ours
	older.Revision--
	newer.Version = "v99.0.0"
	other.Arch = "s390x"
	alien.Command = []string{"run", "--", "a.yaml"}
	for words, m := range map[string]parts.Manifest{
		"was not played by this program: engine revision ":     older,
		"was not played by this program: version v99.0.0 of ":  newer,
		"was not played by this program: played on s390x, ":    other,
		"its manifest holds no experiment: playout run a.yaml": alien,
	} {
		dir := filepath.Join(t.TempDir(), "work")
		d, err := parts.Open(dir, m, parts.Shard{}, experiment.OutcomeBytes)
		if err == nil {
			err = errors.Join(d.Save(parts.Key{}, 0, make([]byte, 100*experiment.OutcomeBytes)), d.Flush())
		}
		if err != nil {
			t.Fatal(err)
		}
		code, stdout, stderr := runCommand(context.Background(), "merge", dir)
		if code != exitFailed || stdout != "" || !strings.HasPrefix(stderr, "playout: "+dir+": "+words) {
			t.Errorf("exit code %d, %q, %s, want %s", code, stdout, stderr, words)
		}
	}
}

// The script of playout help slurm, run by sh in several processes at once with the
// environment that a job array sets.
func TestArrayScript(t *testing.T) {
	t.Parallel()
	w := newWorkshop(t)
	w.write("playout.sh", w.run("playout", "help", "slurm"))
	var all sync.WaitGroup
	for i := range 3 {
		c := w.process("sh", append([]string{"playout.sh", "3", "work"}, w.compare()...)...)
		c.Env = append(c.Env, fmt.Sprint("SLURM_ARRAY_TASK_ID=", i+1), "SLURM_CPUS_PER_TASK=1")
		all.Go(func() {
			if out, err := c.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
	all.Wait()
	if got := w.run("sh", "playout.sh", "merge", "work"); got != w.want() {
		t.Errorf("got %s", got)
	}
	c := w.process("sh", append([]string{"playout.sh", "3", "work"}, w.compare()...)...)
	if out, err := c.CombinedOutput(); err == nil || !strings.Contains(string(out), "give sbatch --array=1-3") {
		t.Errorf("outside an array: %v, %s", err, out)
	}
}

// The command of playout help kubernetes, run by sh for every index of the job.
func TestIndexedJob(t *testing.T) {
	t.Parallel()
	w := newWorkshop(t)
	w.write("a.yaml", strings.Replace(w.file("a.yaml"), "possessions: 10", "possessions: 320", 1))
	_, script, found := strings.Cut(helpKubernetes, "            - |\n")
	script, _, ends := strings.Cut(script, "          resources:")
	number := func(pattern string) string {
		m := regexp.MustCompile(pattern).FindStringSubmatch(helpKubernetes)
		if m == nil {
			t.Fatalf("nothing fits %s", pattern)
		}
		return m[1]
	}
	shares := number(`SHARES\n +value: "(\d+)"`)
	if !found || !ends || number(`completions: (\d+)`) != shares || !strings.Contains(helpKubernetes, "completionMode: Indexed") {
		t.Fatal("the job has another form")
	}
	var all sync.WaitGroup
	for i := range 8 {
		c := w.process("sh", "-c", script)
		c.Env = append(c.Env, fmt.Sprint("JOB_COMPLETION_INDEX=", i), "SHARES="+shares)
		all.Go(func() {
			if out, err := c.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
	all.Wait()
	if got := w.run("playout", "merge", "work"); got != w.run("playout", "compare", "a.yaml", "b.yaml") {
		t.Errorf("got %s", got)
	}
}
