package command

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"skep/app/safetext"
	"skep/app/savefile"
	"skep/app/userfile"
	"skep/calc/design"
	"skep/calc/message"
)

// Everything that Skep says on standard error is said here.
//
// Wording: what is wrong, where, and what to do about it. No capital at the
// beginning, no full stop at the end, no exclamation mark, no blame. A finding
// in a file begins with FILE:LINE so that an editor can jump to it; everything
// else begins with "skep: ".

// Exit codes.
const (
	Done          = 0
	InputWrong    = 1 // a file or a value is wrong
	CommandWrong  = 2 // the command line is wrong
	MachineFailed = 3 // disk, permission, no display
)

// Streams are where a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Folder   string // of a person's own files; empty: they have none
}

// Standard are the streams of the process, and the own files of who runs it. From
// then on a result that nobody reads any more is an error like any other, exit 3,
// and not the signal that would end the process without a word.
func Standard() Streams {
	signal.Ignore(syscall.SIGPIPE)
	return Streams{os.Stdin, os.Stdout, os.Stderr, userfile.Folder()}
}

// fault is an error with the exit code it means.
type fault struct {
	code int
	err  error
}

func (f fault) Error() string { return f.err.Error() }
func (f fault) Unwrap() error { return f.err }

// wrong, misused and broken say whose fault an error is: the input's, the
// command line's, the machine's.
func wrong(err error) error   { return fault{InputWrong, err} }
func misused(err error) error { return fault{CommandWrong, err} }
func broken(err error) error  { return fault{MachineFailed, err} }

// errSaid ends a command whose findings have been said already.
var errSaid = errors.New("said")

// advise writes one line of advice.
func (s Streams) advise(m message.Message) {
	fmt.Fprintf(s.Err, "skep: %s\n", safetext.Text(speaking().Sentence(m)))
}

// finding writes one finding of a file, one line.
func (s Streams) finding(f design.Finding) {
	fmt.Fprintln(s.Err, findingLine(f))
}

// findingLine is a finding in the person's language, on one line.
func findingLine(f design.Finding) string { return safetext.Line(speaking().Sentence(marked(f))) }

// marked is a finding with a mark on what does not stop the design:
// "FILE:LINE: warning: …".
func marked(f design.Finding) message.Message {
	if f.Severity == design.Warning {
		f.Message = message.New("warning: {finding}", f.Message)
	}
	return f.AsMessage()
}

// failure writes the error and returns its exit code.
func (s Streams) failure(err error) int {
	code := InputWrong
	var f fault
	var file *savefile.Error
	switch {
	case errors.As(err, &f):
		code = f.code
	case errors.As(err, &file) && !file.Missing() && !file.Unfit():
		code = MachineFailed
	}
	if !errors.Is(err, errSaid) {
		s.advise(message.OfError(err))
	}
	return code
}
