package message

import (
	"errors"
	"fmt"
	"strings"
)

// Error is an error that a window can show in a person's language and units. It
// is always a pointer, so that [errors.Is] finds one that is kept in a variable.
type Error struct{ Message }

func (e *Error) Error() string { return e.String() }

// Unwrap are the errors among its values.
func (e *Error) Unwrap() []error { return within(e.Message) }

func within(m Message) (inner []error) {
	for _, v := range m.With {
		switch v := v.(type) {
		case error:
			inner = append(inner, v)
		case Message:
			inner = append(inner, within(v)...)
		}
	}
	return inner
}

// NewError makes an error of a message.
func NewError(text string, with ...any) error { return New(text, with...).Err() }

// Err is the message as an error; nil where there is nothing to say.
func (m Message) Err() error {
	if m.Empty() {
		return nil
	}
	return &Error{m}
}

// Fault is an error that only a fault of the program brings about, such as a number
// beyond the end of a list. What it says of it is for who mends the program, and
// is English in every language.
func Fault(format string, a ...any) error {
	return NewError("this is a fault of Skep, please report it: {detail}", fmt.Errorf(format, a...))
}

// Sayer is an error of another type that can be said in a person's language.
type Sayer interface {
	error
	AsMessage() Message
}

// OfError is what an error says. Where it is neither an [Error] nor a [Sayer],
// what it has before an error that it wraps stays as it is, such as a file's name
// and line; several joined come one after another, and an error that wraps none is a
// text that no language changes.
func OfError(err error) Message {
	switch e := err.(type) {
	case *Error:
		return e.Message
	case Sayer:
		return e.AsMessage()
	}
	if several, ok := err.(interface{ Unwrap() []error }); ok { // errors.Join
		var list []Message
		for _, e := range several.Unwrap() {
			list = append(list, OfError(e))
		}
		return Joined(list...)
	}
	if inner := errors.Unwrap(err); inner != nil {
		if before, found := strings.CutSuffix(err.Error(), inner.Error()); found {
			return After(before, inner)
		}
	}
	return Plain(err.Error())
}
