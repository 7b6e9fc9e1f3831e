package says

// Error is an error that a window can say in a person's words and units.
type Error struct{ Sentence }

func (e Error) Error() string { return e.Sentence.String() }

// Failed makes an error of a sentence.
func Failed(text string, with ...Part) error { return Error{Sentence{text, with}} }
