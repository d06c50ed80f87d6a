package plain

import (
	"errors"
	"io/fs"
	"os"
)

// Cause is an error without the name of the file it happened with, which may be a
// temporary one that says nothing to the user.
func Cause(err error) error {
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
