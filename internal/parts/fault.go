package parts

import (
	"errors"

	"playout/internal/plain"
)

// Fault is something wrong with a file or directory.
type Fault struct{ File, What, Mend string }

func (f *Fault) Error() string { return f.File + ": " + f.What + "; " + f.Mend }

// cannotKeep is the fault of a file that could not be written.
func cannotKeep(path string, err error) error {
	return &Fault{path, "cannot be written: " + plain.Cause(err).Error(),
		"nothing half-written is left and earlier parts are whole: make room or permit writing, then run the same command again and it goes on from there"}
}

// unreadable is the fault of a file that could not be read, unless err is one already.
func unreadable(path string, err error) error {
	var f *Fault
	if errors.As(err, &f) {
		return err
	}
	return &Fault{path, "cannot be read: " + plain.Cause(err).Error(), "check its permissions"}
}
