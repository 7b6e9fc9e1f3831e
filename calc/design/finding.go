package design

import (
	"slices"
	"strconv"

	"skep/calc/message"
)

// Severity says whether a finding stops the design from being used.
type Severity int

const (
	Warning Severity = iota // the design can be used; a person should look
	Error                   // the design cannot be used as it stands
)

// String is "warning" or "error".
func (s Severity) String() string {
	if s == Error {
		return "error"
	}
	return "warning"
}

// Finding is one remark on a design or on the file it was read from.
type Finding struct {
	File     string // as given to [Parse]; empty when there is no source
	Line     int    // from 1; 0 when there is no source
	Col      int    // from 1, in characters; 0 when unknown
	Severity Severity
	Key      string          // path as [Design.Set] takes it; empty for the whole file
	Message  message.Message // names key, value and what was expected
}

// String is "FILE:LINE: message", as much of it as is known.
func (f Finding) String() string { return f.AsMessage().String() }

// Error makes a finding usable where an error is wanted.
func (f Finding) Error() string { return f.String() }

// AsMessage is the finding with its place before it, as [Finding.String] has it.
func (f Finding) AsMessage() message.Message {
	switch {
	case f.File != "" && f.Line > 0:
		return message.After(f.File+":"+strconv.Itoa(f.Line)+": ", f.Message)
	case f.File != "":
		return message.After(f.File+": ", f.Message)
	}
	return f.Message
}

// NewError is the first error of some findings that is not among those of before, or
// nil: a step may leave what was wrong already, and mend one thing at a time.
func NewError(now, before []Finding) error {
	for _, f := range now {
		same := func(g Finding) bool { return f.Key == g.Key && f.String() == g.String() }
		if f.Severity == Error && !slices.ContainsFunc(before, same) {
			return f
		}
	}
	return nil
}

// HasErrors tells whether any finding is an error.
func HasErrors(findings []Finding) bool { return FirstError(findings) != nil }

// FirstError is the first finding that is an error, or nil.
func FirstError(findings []Finding) error {
	for _, f := range findings {
		if f.Severity == Error {
			return f
		}
	}
	return nil
}
