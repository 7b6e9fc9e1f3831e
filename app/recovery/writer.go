package recovery

import (
	"crypto/rand"
	"sync"
	"time"

	"skep/app/disk"
)

// Writer brings the newest unsaved work to the disk on a goroutine of its own.
// Its methods may be called from any goroutine, and none but Flush and Close
// waits for the disk.
type Writer struct {
	newest *disk.Newest[*Entry]
	mu     sync.Mutex
	wanted bool // something should be on the disk
}

// Write starts the keeping of one window's work. report hears of the first
// failure of a row, as a [*Trouble], and nil once the disk takes the work again;
// it is called on the writer's goroutine. Close must be called.
func (s *Store) Write(report func(error)) *Writer {
	f := &file{folder: s.unsaved(), id: rand.Text()}
	return &Writer{newest: disk.KeepNewest(s.gap, s.retry, f.bring, report, f.end)}
}

// Put asks for work to be kept, in place of what was asked for before.
func (w *Writer) Put(e Entry) { w.ask(&e) }

// Clear asks for the recovery file to go: all is saved, or the person gave it up.
func (w *Writer) Clear() { w.ask(nil) }

func (w *Writer) ask(e *Entry) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if e == nil && !w.wanted {
		return
	}
	w.wanted = e != nil
	w.newest.Ask(e)
}

// Flush waits until what was asked for is on the disk, or an attempt failed.
func (w *Writer) Flush() error { return w.newest.Flush() }

// Close ends the writer. A clean exit leaves no recovery file; with leave, what is
// unsaved stays for the next start, as after a crash: for an end that the
// person was not asked about.
func (w *Writer) Close(leave bool) error {
	if !leave {
		w.Clear()
	}
	return w.newest.Close()
}

// bring does what is wished, and tells whether that tried the disk; nil is no file.
func (f *file) bring(want *Entry) (tried bool, err error) {
	if want == nil {
		tried, err = f.clear()
	} else {
		var text []byte
		if text, err = want.Text(); err == nil {
			err = f.put(Work{Base: want.Base, Step: want.Step, Language: want.Language, Text: text, When: time.Now()})
		}
		tried = true
	}
	if err != nil {
		err = &Trouble{Folder: f.folder, Clearing: want == nil, Err: err}
	}
	return tried, err
}
