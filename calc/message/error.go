package message

// Error is an error that a window can show in a person's language and units.
type Error struct{ Message }

func (e Error) Error() string { return e.String() }

// NewError makes an error of a message.
func NewError(text string, with ...any) error { return Error{New(text, with...)} }
