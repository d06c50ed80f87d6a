package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"playout/internal/experiment"
	"playout/internal/parts"
	"playout/internal/scenario"
	"playout/model"
)

// session is one execution of an experiment: where its files are read from and
// where the blocks it has finished are kept. Without --parts that is the disk and
// nowhere; under playout merge it is the manifest and the parts.
type session struct {
	cmd    *cobra.Command
	args   []string
	where  string // --parts
	shard  parts.Shard
	cells  cellList
	inputs map[string]string // text of the files read, by name
	merged *parts.Dir        // under playout merge: plays nothing
	dir    *parts.Dir        // nil until something is played
}

// cellList says whether an experiment knows its cells before it plays the first.
type cellList bool

// Experiments whose later cells depend on the outcomes of earlier ones can be kept
// and gone on with, but not shared out.
const (
	cellsFixed  cellList = true // one call of session.play plays them all
	cellsDepend cellList = false
)

// keepsParts gives an experiment the flags --parts and --shard and a session, which
// sessionOf finds.
func keepsParts(cmd *cobra.Command, cells cellList) *cobra.Command {
	var where string
	var shard shardFlag
	cmd.Flags().StringVar(&where, "parts", "", "keep finished build-ups in this `directory`, and go on with what is there")
	cmd.Flags().Var(&shard, "shard", "play only this share of the build-ups, such as 3/8, and keep it for playout merge")
	run := cmd.RunE
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		s := &session{cmd: cmd, args: args, where: where, shard: parts.Shard(shard), cells: cells, inputs: map[string]string{}}
		if err := s.check(); err != nil {
			return err
		}
		cmd.SetContext(context.WithValue(cmd.Context(), sessionKey{}, s))
		return s.end(run(cmd, args))
	}
	return cmd
}

type sessionKey struct{}

// sessionOf is the session of a command that keepsParts has been given.
func sessionOf(cmd *cobra.Command) *session { return cmd.Context().Value(sessionKey{}).(*session) }

// merged are the parts that playout merge gives to the command it repeats.
type merged struct {
	dir   *parts.Dir
	where []string // the directories
}

type mergedKey struct{}

func (s *session) check() error {
	flags := s.cmd.Flags()
	if m, ok := s.cmd.Context().Value(mergedKey{}).(merged); ok {
		s.merged, s.where = m.dir, strings.Join(m.where, ", ")
		return s.apart(m.where)
	}
	switch {
	case flags.Changed("parts") && s.where == "":
		return usagef("--parts names no directory")
	case s.shard.Of > 0 && s.where == "":
		return usagef("--shard needs --parts: the directory its share of the build-ups is kept in")
	case s.cells == cellsDepend:
		if err := s.dependsBy(""); err != nil {
			return err
		}
	}
	for _, name := range []string{"output", "picture", "write"} {
		if s.shard.Of > 0 && flags.Changed(name) {
			return usagef("--%s and --shard do not go together: a share has no answer; give --%s to playout merge", name, name)
		}
	}
	return s.apart([]string{s.where})
}

// apart refuses to write an answer over what one of the directories keeps.
func (s *session) apart(dirs []string) error {
	for _, name := range []string{"output", "picture", "write"} {
		f := s.cmd.Flags().Lookup(name)
		if f == nil || !parts.Keeps(filepath.Base(f.Value.String())) {
			continue
		}
		at, err := os.Stat(filepath.Dir(f.Value.String()))
		for _, dir := range dirs {
			if kept, failed := os.Stat(dir); dir != "" && err == nil && failed == nil && os.SameFile(at, kept) {
				return usagef("--%s is %q, where build-ups are kept; name another file", name, f.Value)
			}
		}
	}
	return nil
}

// dependsBy refuses --shard for a command whose cells are fixed unless a certain flag
// is given: what it plays later then depends on outcomes.
func (s *session) dependsBy(flag string) error {
	if s.shard.Of == 0 {
		return nil
	}
	what := s.cmd.CommandPath()
	if flag != "" {
		what += " with " + flag
	}
	return usagef("--shard cannot share out %s: what it plays later depends on what came of the first build-ups; give --parts alone, and it can be stopped and gone on with", what)
}

// read reads a file of the experiment, "-" being standard input.
func (s *session) read(name string) ([]byte, error) {
	if s.merged != nil {
		text, ok := s.merged.Manifest.Inputs[name]
		if !ok {
			return nil, &fs.PathError{Op: "read", Path: name, Err: fs.ErrNotExist}
		}
		return []byte(text), nil
	}
	if text, ok := s.inputs[name]; ok { // so that what is kept is what was read
		return []byte(text), nil
	}
	if s.dir != nil {
		panic("session: a file is read after something was played, so the manifest lacks it")
	}
	text, err := scenario.ReadFile(name)
	if err == nil {
		s.inputs[name] = string(text)
	}
	return text, err
}

// scenario loads a scenario file of the experiment.
func (s *session) scenario(path string) (*model.Scenario, error) {
	return scenario.LoadFrom(path, s.read)
}

// files are the names of the files read, without standard input.
func (s *session) files() []string {
	names := slices.Sorted(maps.Keys(s.inputs))
	return slices.DeleteFunc(names, func(name string) bool { return name == "-" })
}

// play is experiment.Play with the parts. Under --shard it ends with a shareDone.
func (s *session) play(ctx context.Context, cells []experiment.Cell, cfg experiment.Config) (*experiment.Results, error) {
	return s.playBy(ctx, cells, cfg, func(cfg experiment.Config) (*experiment.Results, error) {
		return experiment.Play(ctx, cells, cfg)
	})
}

// playBy is play by another function than experiment.Play, which is handed the
// configuration with the parts.
func (s *session) playBy(ctx context.Context, cells []experiment.Cell, cfg experiment.Config, play func(experiment.Config) (*experiment.Results, error)) (*experiment.Results, error) {
	if err := s.open(cfg.Seed); err != nil {
		return nil, err
	}
	if s.dir == nil {
		return play(cfg)
	}
	kept, err := experiment.Keep(s.dir, cells, cfg.Seed)
	if err != nil {
		return nil, err
	}
	cfg.Parts = kept
	results, err := play(cfg)
	if err != nil || s.cells == cellsFixed { // else end writes them, if they are not many
		if failed := s.dir.Flush(); failed != nil {
			return results, failed
		}
	}
	switch {
	case s.shard.Of > 0 && ctx.Err() != nil && errors.Is(err, ctx.Err()):
		return nil, fmt.Errorf("%w: %d build-ups of this share are kept in %s; the same command goes on from there", errInterrupted, kept.Taken+kept.Played, s.where)
	case err != nil:
		return results, err
	case s.shard.Of > 0:
		return nil, &shareDone{kept.Played, kept.Taken}
	}
	if err := kept.Missing(); err != nil {
		return nil, fmt.Errorf("%s: %w", s.where, err)
	}
	return results, nil
}

// shareDone ends a command that has played its share of an experiment. It is no
// failure, but there is no answer.
type shareDone struct{ played, taken int }

func (e *shareDone) Error() string { return "only a share of the build-ups was played" }

// open opens the directory, the first time that something is played.
func (s *session) open(seed uint64) (err error) {
	switch {
	case s.dir != nil:
	case s.merged != nil:
		s.dir = s.merged
	case s.where != "":
		m := thisProgram()
		m.Seed, m.Command, m.Inputs = seed, commandOf(s.cmd, s.args), s.inputs
		s.dir, err = parts.Open(filepath.Clean(s.where), m, s.shard, experiment.OutcomeBytes)
	}
	return err
}

// end writes what is not yet in a part and gives the command's error its last form.
func (s *session) end(err error) error {
	if s.dir == nil || s.merged != nil {
		return err
	}
	if failed := s.dir.Flush(); failed != nil && err == nil {
		return failed
	}
	var done *shareDone
	if errors.As(err, &done) {
		_, err = fmt.Fprintf(s.cmd.OutOrStdout(), "Share %s is whole: %d build-ups played, %d were there. Once all are: playout merge %s\n", s.shard, done.played, done.taken, s.where)
	}
	return err
}
