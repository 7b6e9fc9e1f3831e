package message

import (
	"errors"
	"strings"
)

// Error is an error that a window can show in a person's language and units.
type Error struct{ Message }

func (e Error) Error() string { return e.String() }

// Unwrap are the errors among its values.
func (e Error) Unwrap() (inner []error) {
	for _, v := range e.With {
		if err, ok := v.(error); ok {
			inner = append(inner, err)
		}
	}
	return inner
}

// NewError makes an error of a message.
func NewError(text string, with ...any) error { return Error{New(text, with...)} }

// Sayer is an error of another type that can be said in a person's language.
type Sayer interface {
	error
	AsMessage() Message
}

// OfError is what an error says. Where it is neither an [Error] nor a [Sayer],
// what it has before an error that it wraps stays as it is, such as a file's name
// and line; an error that wraps none is a text that no language changes.
func OfError(err error) Message {
	switch e := err.(type) {
	case Error:
		return e.Message
	case Sayer:
		return e.AsMessage()
	}
	if inner := errors.Unwrap(err); inner != nil {
		if before, found := strings.CutSuffix(err.Error(), inner.Error()); found {
			return Message{Text: "{before}{error}", With: []any{before, inner}}
		}
	}
	return Plain(err.Error())
}
