package main

import (
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"playout/internal/parts"
	"playout/sim"
)

// thisProgram is the part of a manifest that says who plays.
func thisProgram() parts.Manifest {
	return parts.Manifest{Version: build(), Revision: sim.Revision, Arch: runtime.GOARCH}
}

// build is the version for parts. That of a program that is being worked on does not
// say which code it is, so the program itself is named by its contents.
func build() string {
	v := version()
	if v != "devel" && !strings.Contains(v, "+dirty") {
		return v
	}
	path, err := os.Executable()
	if err != nil {
		return v
	}
	f, err := os.Open(path)
	if err != nil {
		return v
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return v
	}
	return fmt.Sprintf("%s (build %x)", v, h.Sum(nil)[:4])
}

// showing are the flags that only say how to work and how to show the answer: the
// experiment is the same without them.
var showing = []string{"workers", "format", "output", "picture", "pictures", "write", "full", "quiet", "parts", "shard"}

// commandOf is the command line in one form whatever the order of the flags.
func commandOf(cmd *cobra.Command, args []string) []string {
	words := strings.Fields(strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()))
	cmd.Flags().Visit(func(f *pflag.Flag) {
		if slices.Contains(showing, f.Name) {
			return
		}
		values := []string{f.Value.String()}
		if list, ok := f.Value.(pflag.SliceValue); ok {
			values = list.GetSlice()
		}
		for _, v := range values {
			if f.Value.Type() == "stringSlice" { // read as a line of CSV: a name may hold a comma
				v = csvCell(v)
			}
			words = append(words, "--"+f.Name+"="+v)
		}
	})
	return slices.Concat(words, []string{"--"}, args)
}

// csvCell is a value as a list of comma-separated values has to name it.
func csvCell(v string) string {
	if strings.ContainsAny(v, ",\"\r\n") {
		return `"` + strings.ReplaceAll(v, `"`, `""`) + `"`
	}
	return v
}

// shardFlag is a flag that takes a share such as 3/8.
type shardFlag parts.Shard

func (f *shardFlag) Set(text string) error {
	s, err := parts.ParseShard(text)
	*f = shardFlag(s)
	return err
}

func (f *shardFlag) String() string { return parts.Shard(*f).String() }

func (f *shardFlag) Type() string { return "i/n" }
