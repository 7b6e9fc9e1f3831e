package recovery

import (
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"
)

// stateVariable redirects the state folder; the tests' one variable.
const stateVariable = "XDG_STATE_HOME"

// Folder is Skep's place for what it must remember between starts: skep in
// $XDG_STATE_HOME, or where the system has such things. It need not be there
// yet.
func Folder() string {
	// The library reads the variable once, at the program's start; a test sets
	// it later.
	if state := os.Getenv(stateVariable); filepath.IsAbs(state) {
		return filepath.Join(state, "skep")
	}
	return filepath.Join(xdg.StateHome, "skep")
}

// Store is the state folder with all that this package keeps there.
type Store struct {
	folder string
	gap    time.Duration // between two writings of one window's work
	retry  time.Duration // after a failed one
	stale  time.Duration // from which a save's temporary file is a dead one's
}

const (
	// writeGap is how long further changes wait for each other after one went
	// to the disk: well within the second that is promised, and no wearier for
	// the disk than five writings a second while a lever moves.
	writeGap = 200 * time.Millisecond
	// retryGap is how often a disk that failed is tried again, while there is
	// something to write.
	retryGap = time.Second
	// staleAge is far longer than any save takes.
	staleAge = time.Minute
)

// Open is the store in a folder, which is made when it is first needed.
func Open(folder string) *Store {
	return &Store{folder: folder, gap: writeGap, retry: retryGap, stale: staleAge}
}

// Folder is where it keeps all of it.
func (s *Store) Folder() string { return s.folder }

func (s *Store) unsaved() string  { return filepath.Join(s.folder, "unsaved") }
func (s *Store) locks() string    { return filepath.Join(s.folder, "locks") }
func (s *Store) previous() string { return filepath.Join(s.folder, "previous") }
