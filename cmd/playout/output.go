package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"playout/internal/plain"
)

// prepareOutput checks the file that --output names, before the run, and takes the
// form of the answer from its ending; inputs are the files that were read. "-" is
// standard output, for which the name becomes empty.
func prepareOutput(cmd *cobra.Command, name *string, inputs []string) error {
	switch {
	case *name == "-":
		*name = ""
	case *name != "":
		if err := checkOutput("output", *name, inputs); err != nil {
			return err
		}
		return cmd.Flags().Lookup("format").Value.(*formFlag).fit(*name)
	case cmd.Flags().Changed("output"):
		return usagef("--output names no file; leave it out to print the answer")
	}
	return nil
}

// deliver prints the answer, or puts it into the file if one is named.
func deliver(cmd *cobra.Command, name string, answer []byte) error {
	if name != "" {
		return writeOutput("output", name, answer)
	}
	if _, err := cmd.OutOrStdout().Write(answer); err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}

// checkOutput makes sure, before a long run, that the answer can be put into
// path, and that path is none of the files the scenario was read from, standard
// input included. flag is the one that names it.
func checkOutput(flag, path string, inputs []string) error {
	target, info, err := resolve(path)
	if err != nil {
		return cannotWrite(flag, path, err)
	}
	if info != nil {
		if isInput(info, inputs) {
			return usagef("--%s is %q, from which the scenario is read; name another file", flag, path)
		}
		if !info.Mode().IsRegular() {
			return nil // opening a pipe would wait for its reader
		}
		f, err := os.OpenFile(target, os.O_WRONLY, 0)
		if err != nil {
			return cannotWrite(flag, path, err)
		}
		f.Close()
	}
	f, err := newBeside(target)
	if err != nil {
		return cannotWrite(flag, path, err)
	}
	f.Close()
	return os.Remove(f.Name())
}

// isInput reports whether a file is one of the inputs or standard input.
func isInput(file fs.FileInfo, inputs []string) bool {
	for _, name := range inputs {
		if input, err := os.Stat(name); err == nil && os.SameFile(input, file) {
			return true
		}
	}
	input, err := os.Stdin.Stat()
	return err == nil && input.Mode().IsRegular() && os.SameFile(input, file)
}

// writeOutput puts the answer into path. A regular file holds either the old
// content or the new, never a part: the answer is written beside it and then
// takes its place.
func writeOutput(flag, path string, answer []byte) error {
	target, info, err := resolve(path)
	if err != nil {
		return cannotWrite(flag, path, err)
	}
	if info != nil && !info.Mode().IsRegular() { // a pipe or device
		if err := os.WriteFile(target, answer, 0); err != nil {
			return cannotWrite(flag, path, err)
		}
		return nil
	}
	f, err := newBeside(target)
	if err != nil {
		return cannotWrite(flag, path, err)
	}
	_, err = f.Write(answer)
	if err == nil && info != nil {
		err = f.Chmod(info.Mode().Perm())
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = os.Rename(f.Name(), target)
	}
	if err != nil {
		os.Remove(f.Name())
		return cannotWrite(flag, path, err)
	}
	return nil
}

// resolve follows links, so that the file behind one is replaced and not the
// link. info is nil when there is no file yet.
func resolve(path string) (target string, info fs.FileInfo, err error) {
	info, err = os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if link, err := os.Readlink(path); err == nil { // a link to a file that is yet to come
			if !filepath.IsAbs(link) {
				link = filepath.Join(filepath.Dir(path), link)
			}
			path = link
		}
		return path, nil, nil
	}
	if err != nil {
		return "", nil, err
	}
	if info.IsDir() {
		return "", nil, errors.New("it is a directory")
	}
	if info.Mode().IsRegular() {
		path, err = filepath.EvalSymlinks(path)
	}
	return path, info, err
}

// sameTarget reports whether two names lead to the same file, through links as well.
func sameTarget(a, b string) bool {
	a, aInfo, aErr := resolve(a)
	b, bInfo, bErr := resolve(b)
	if aErr != nil || bErr != nil {
		return false // checkOutput says why
	}
	if aInfo != nil && bInfo != nil {
		return os.SameFile(aInfo, bInfo)
	}
	aDir, aErr := os.Stat(filepath.Dir(a))
	bDir, bErr := os.Stat(filepath.Dir(b))
	return aErr == nil && bErr == nil && os.SameFile(aDir, bDir) && filepath.Base(a) == filepath.Base(b)
}

// newBeside makes a new file in the directory of target, with the permissions
// the user's files usually have.
func newBeside(target string) (*os.File, error) {
	for try := 0; ; try++ {
		name := filepath.Join(filepath.Dir(target), fmt.Sprintf(".playout-%d-%d.tmp", os.Getpid(), try))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
		if !errors.Is(err, fs.ErrExist) || try == 100 {
			return f, err
		}
	}
}

// cannotWrite says why, without the name of a temporary file.
func cannotWrite(flag, path string, err error) error {
	return fmt.Errorf("cannot write --%s %q: %w", flag, path, plain.Cause(err))
}
