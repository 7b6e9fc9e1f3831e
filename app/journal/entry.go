package journal

import (
	"time"

	"skep/app/savefile"
)

// Base is what unsaved work started from: the file as it was read or last
// saved, or the text of a design that has no file yet.
type Base struct {
	Path   string               // absolute; empty: no file yet
	Print  savefile.Fingerprint // of the file, when OnDisk
	OnDisk bool                 // the file was read or written by us
	Fresh  bool                 // never saved, so unsaved even when unchanged
	Text   string               // as read, comments and all
}

// same is equality but for the fingerprint's time, which does not count.
func (b Base) same(o Base) bool {
	return b.Path == o.Path && b.OnDisk == o.OnDisk && b.Fresh == o.Fresh && b.Text == o.Text && b.Print.Same(o.Print)
}

// Entry is unsaved work to be kept.
type Entry struct {
	Base Base
	Step string // the name of the last change
	// Text gives the whole design as text. It is called on the writer's own
	// goroutine, so it must not look at what the window goes on changing.
	Text func() ([]byte, error)
}

// Work is unsaved work as it was read back.
type Work struct {
	Base Base
	Step string
	Text []byte
	When time.Time // of the last change, by the clock of that moment
}
