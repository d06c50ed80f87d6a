package parts

import (
	"errors"
	"io/fs"
	"os"
)

// Fault is something wrong with a file or directory.
type Fault struct{ File, What, Mend string }

func (f *Fault) Error() string { return f.File + ": " + f.What + "; " + f.Mend }

// bare is an error without the name of the file it happened with, which may be a
// temporary one.
func bare(err error) error {
	var at *fs.PathError
	var link *os.LinkError
	switch {
	case errors.As(err, &at):
		return at.Err
	case errors.As(err, &link):
		return link.Err
	}
	return err
}

// cannotKeep is the fault of a file that could not be written.
func cannotKeep(path string, err error) error {
	return &Fault{path, "cannot be written: " + bare(err).Error(),
		"nothing half-written is left and earlier parts are whole: make room or permit writing, then run the same command again and it goes on from there"}
}

// unreadable is the fault of a file that could not be read, unless err is one already.
func unreadable(path string, err error) error {
	var f *Fault
	if errors.As(err, &f) {
		return err
	}
	return &Fault{path, "cannot be read: " + bare(err).Error(), "check its permissions"}
}
