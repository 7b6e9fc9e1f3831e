package savefile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

var (
	errLarge  = errors.New("so it is no design")
	errLinks  = errors.New("its symbolic links lead round in a circle")
	errFolder = errors.New("is a folder, not a file")
	errSilent = fmt.Errorf("its disk does not answer within %v", patience)
	errDevice = errors.New("is a device, a pipe or a socket, not a plain file")
)

// Error says which file could not be read or saved, why, and what to do.
type Error struct {
	Doing string // "read" or "save"
	Path  string
	Err   error
	// Replaced is true in the one case where a save failed after the new
	// content had taken the old one's place: the folder could not be flushed.
	Replaced bool
}

func (e *Error) Unwrap() error { return e.Err }

func (e *Error) Error() string {
	why, advice := e.reason()
	if e.Replaced {
		return fmt.Sprintf("%s is saved, but the disk did not confirm it (%s): save again, or a power cut may bring the old version back", e.Path, why)
	}
	msg := fmt.Sprintf("can't %s %s: %s", e.Doing, e.Path, why)
	if e.Doing == "save" {
		msg += "; what was there before is untouched"
	}
	if advice != "" {
		msg += "; " + advice
	}
	return msg
}

// Missing tells whether the file is just not there.
func (e *Error) Missing() bool { return e.Doing == "read" && errors.Is(e.Err, fs.ErrNotExist) }

// Unfit tells whether the file was found but can't be a design: a folder, a
// device, or far too large. Everything else but [Error.Missing] is the machine's.
func (e *Error) Unfit() bool {
	return errors.Is(e.Err, errLarge) || errors.Is(e.Err, errFolder) || errors.Is(e.Err, errDevice)
}

// reason puts the commonest causes in plain words and says what helps.
func (e *Error) reason() (why, advice string) {
	is := func(target error) bool { return errors.Is(e.Err, target) }
	switch {
	case is(syscall.ENOSPC), is(syscall.EDQUOT):
		return "the disk is full", "make room or save elsewhere"
	case is(syscall.EROFS):
		return "the disk is read-only", "save elsewhere"
	case is(fs.ErrPermission) && e.Doing == "save":
		return "no permission to write there", "save elsewhere or change the permission"
	case is(fs.ErrPermission) && e.Doing != "read":
		return "no permission there", "change the permission"
	case is(fs.ErrPermission):
		return "no permission to read it", "change the permission"
	case is(fs.ErrNotExist) && e.Doing == "save":
		return "its folder is not there", "make the folder first"
	case is(fs.ErrNotExist):
		return "there is no such file", ""
	}
	return plainCause(e.Err), ""
}

// plainCause is the innermost cause, without the system call and the temporary
// file's name, which would tell a person nothing.
func plainCause(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return err.Error()
}

// notPlain says what stands where a plain file was wanted.
func notPlain(mode fs.FileMode) error {
	if mode.IsDir() {
		return errFolder
	}
	return errDevice
}
