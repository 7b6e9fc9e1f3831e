package journal

import (
	"crypto/rand"
	"path/filepath"
	"time"
)

// Store is the state folder with all that this package keeps there.
type Store struct {
	folder string
	d      disk
	now    func() time.Time
	gap    time.Duration // between two writings of one journal
	retry  time.Duration // after a failed one
	stale  time.Duration // from which a save's temporary file is a dead one's
}

const (
	// writeGap is how long further changes wait for each other after one went
	// to the disk: well within the second that is promised, and no wearier for
	// the disk than five flushes a second while a lever moves.
	writeGap = 200 * time.Millisecond
	// retryGap is how often a disk that failed is tried again, while there is
	// something to write.
	retryGap = time.Second
	// staleAge is far longer than any save takes.
	staleAge = time.Minute
)

// Open is the store in a folder, which is made when it is first needed.
func Open(folder string) *Store { return open(osDisk{}, folder) }

func open(d disk, folder string) *Store {
	return &Store{folder: folder, d: d, now: time.Now, gap: writeGap, retry: retryGap, stale: staleAge}
}

func (s *Store) journals() string { return filepath.Join(s.folder, "journal") }
func (s *Store) locks() string    { return filepath.Join(s.folder, "locks") }
func (s *Store) previous() string { return filepath.Join(s.folder, "previous") }

// Write starts the journal of one window. tell hears of the first failure of a
// row, as a [*Trouble], and nil once the disk takes the work again; it is
// called on the writer's goroutine. Close must be called.
func (s *Store) Write(tell func(error)) *Writer {
	w := &Writer{
		s:     s,
		tell:  tell,
		log:   &log{d: s.d, folder: s.journals(), id: rand.Text()},
		wake:  make(chan struct{}, 1),
		hurry: make(chan struct{}, 1),
		ended: make(chan struct{}),
	}
	w.moved.L = &w.mu
	go w.run()
	return w
}
