package recovery

import (
	"skep/app/savefile"
	"skep/calc/message"
)

// Trouble says that unsaved work can't be kept at present.
type Trouble struct {
	Folder   string
	Clearing bool // only a recovery file that is no longer needed could not be removed
	Err      error
}

func (t *Trouble) Unwrap() error { return t.Err }

func (t *Trouble) Error() string { return t.AsMessage().String() }

// AsMessage is for a person's language.
func (t *Trouble) AsMessage() message.Message {
	if t.Clearing {
		return message.New("can't remove a recovery copy that is no longer needed from {folder}: {why}; the next start may offer it", t.Folder, savefile.Cause(t.Err))
	}
	return message.New("unsaved changes would not survive a crash: can't write to {folder}: {why}; save soon, Skep keeps trying", t.Folder, savefile.Cause(t.Err))
}
