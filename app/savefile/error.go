package savefile

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"skep/calc/message"
)

var (
	errLinks  = message.NewError("its symbolic links lead round in a circle")
	errFolder = message.NewError("it is a folder, not a file")
	errSilent = message.NewError("its disk does not answer within {seconds} s", patience.Seconds())
	errDevice = message.NewError("it is a device, a pipe or a socket, not a plain file")
)

// largeError is of a file that is larger than a design can be.
type largeError struct{ most int64 }

func (e largeError) Error() string { return e.AsMessage().String() }

func (e largeError) AsMessage() message.Message {
	return message.New("it is larger than the {most} KiB that are read of such a file", e.most>>10)
}

// Doing is what was tried with a file.
type Doing int

const (
	Reading Doing = iota
	Saving
	Trashing // moving it to the desktop's waste bin
)

// Error says which file could not be read or saved, why, and what to do.
type Error struct {
	Doing Doing
	Path  string
	Err   error
	// Replaced is true in the one case where a save failed after the new
	// content had taken the old one's place: the folder could not be flushed.
	Replaced bool
}

func (e *Error) Unwrap() error { return e.Err }

func (e *Error) Error() string { return e.AsMessage().String() }

// AsMessage says it in a person's language.
func (e *Error) AsMessage() message.Message {
	why, advice := e.reason()
	switch {
	case e.Replaced:
		return message.New("{path} is saved, but the disk did not confirm it ({why}): save again, or a power cut may bring the old version back", e.Path, why)
	case e.Doing == Saving && errors.Is(e.Err, fs.ErrNotExist):
		return message.New("can't save {path}: its folder is not there; make the folder first, or save under another name", e.Path)
	case e.Doing == Saving && advice.Empty():
		return message.New("can't save {path}: {why}; what was there before is untouched", e.Path, why)
	case e.Doing == Saving:
		return message.New("can't save {path}: {why}; what was there before is untouched; {advice}", e.Path, why, advice)
	case e.Doing == Trashing && advice.Empty():
		return message.New("can't move {path} to the waste bin: {why}", e.Path, why)
	case e.Doing == Trashing:
		return message.New("can't move {path} to the waste bin: {why}; {advice}", e.Path, why, advice)
	case advice.Empty():
		return message.New("can't read {path}: {why}", e.Path, why)
	}
	return message.New("can't read {path}: {why}; {advice}", e.Path, why, advice)
}

// Missing tells whether the file is just not there.
func (e *Error) Missing() bool { return e.Doing == Reading && errors.Is(e.Err, fs.ErrNotExist) }

// Unfit tells whether the file was found but can't be a design: a folder, a
// device, or far too large. Everything else but [Error.Missing] is the machine's.
func (e *Error) Unfit() bool {
	var large largeError
	return errors.As(e.Err, &large) || errors.Is(e.Err, errFolder) || errors.Is(e.Err, errDevice)
}

// reason is the cause, and what helps; the advice may be empty.
func (e *Error) reason() (why, advice message.Message) {
	is := func(target error) bool { return errors.Is(e.Err, target) }
	switch {
	case is(syscall.ENOSPC), is(syscall.EDQUOT):
		return Cause(e.Err), message.New("make room or save elsewhere")
	case is(syscall.EROFS):
		return Cause(e.Err), message.New("save elsewhere")
	case is(fs.ErrPermission) && e.Doing == Saving:
		return message.New("no permission to write there"), message.New("save elsewhere or change the permission")
	case is(fs.ErrPermission) && e.Doing == Reading:
		return message.New("no permission to read it"), message.New("change the permission")
	case is(fs.ErrPermission):
		return Cause(e.Err), message.New("change the permission")
	}
	return Cause(e.Err), message.Message{}
}

// causes are what the system says most often of a file, as a person reads it.
var causes = []struct {
	of   error
	text message.Message
}{
	{syscall.ENOSPC, message.New("the disk is full")},
	{syscall.EDQUOT, message.New("the disk is full")},
	{syscall.EROFS, message.New("the disk is read-only")},
	{fs.ErrPermission, message.New("no permission there")},
	{fs.ErrNotExist, message.New("there is no such file")},
	{fs.ErrExist, message.New("there is a file of that name already")},
	{syscall.ENOTDIR, message.New("a part of its path is a file, not a folder")},
	{syscall.EISDIR, message.New("it is a folder, not a file")},
	{syscall.ENAMETOOLONG, message.New("its name is too long")},
	{syscall.ELOOP, message.New("its symbolic links lead round in a circle")},
	{syscall.EIO, message.New("the disk reports an input/output error")},
	{syscall.EBUSY, message.New("another program holds it")},
}

// Cause is the innermost cause of an error with a file, without the system call and
// the temporary file's name, which would tell a person nothing. What is rare stays
// in the system's own words.
func Cause(err error) message.Message {
	var known *message.Error
	var sayer message.Sayer
	switch {
	case errors.As(err, &known):
		return known.Message
	case errors.As(err, &sayer):
		return sayer.AsMessage()
	}
	for _, c := range causes {
		if errors.Is(err, c.of) {
			return c.text
		}
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return message.Plain(path.Err.Error())
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return message.Plain(link.Err.Error())
	}
	return message.OfError(err)
}

// notPlain says what stands where a plain file was wanted.
func notPlain(mode fs.FileMode) error {
	if mode.IsDir() {
		return errFolder
	}
	return errDevice
}
