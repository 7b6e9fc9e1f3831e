package recovery

import (
	"sync"
	"time"
)

// Writer brings the newest unsaved work to the disk on a goroutine of its own.
// Its methods may be called from any goroutine, and none but Flush and Close
// waits for the disk. While nothing changes it sleeps.
type Writer struct {
	s      *Store
	report func(error)
	file   *file // the goroutine's own
	wake   chan struct{}
	hurry  chan struct{}
	ended  chan struct{}

	mu     sync.Mutex
	moved  sync.Cond // after each attempt, and at the end
	want   *Entry    // what should be on the disk; nil: nothing
	asked  uint64    // counts the wishes
	done   uint64    // the last wish that is on the disk
	tries  uint64
	err    error // of the last attempt
	ending bool
}

// Put asks for work to be kept, in place of what was asked for before.
func (w *Writer) Put(e Entry) { w.ask(&e) }

// Clear asks for the recovery file to go: all is saved, or the person gave it up.
func (w *Writer) Clear() { w.ask(nil) }

func (w *Writer) ask(e *Entry) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.ending || e == nil && w.want == nil {
		return
	}
	w.want = e
	w.asked++
	nudge(w.wake)
}

func nudge(c chan struct{}) {
	select {
	case c <- struct{}{}:
	default:
	}
}

// Flush waits until what was asked for is on the disk, or an attempt failed.
func (w *Writer) Flush() error {
	w.mu.Lock()
	defer w.mu.Unlock()
	wish, tries := w.asked, w.tries
	nudge(w.hurry)
	for w.done < wish && !w.over() && (w.tries == tries || w.err == nil) {
		w.moved.Wait()
	}
	if w.done >= wish {
		return nil
	}
	return w.err
}

func (w *Writer) over() bool {
	select {
	case <-w.ended:
		return true
	default:
		return false
	}
}

// Close ends the writer. A clean exit leaves no recovery file; with leave, what is
// unsaved stays for the next start, as after a crash: for an end that the
// person was not asked about.
func (w *Writer) Close(leave bool) error {
	if !leave {
		w.Clear()
	}
	w.mu.Lock()
	w.ending = true
	w.mu.Unlock()
	nudge(w.wake)
	nudge(w.hurry)
	<-w.ended
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.done < w.asked {
		return w.err
	}
	return nil
}

func (w *Writer) run() {
	defer func() {
		w.file.end()
		close(w.ended)
		w.mu.Lock()
		w.moved.Broadcast()
		w.mu.Unlock()
	}()
	for {
		w.mu.Lock()
		want, asked, ending, idle := w.want, w.asked, w.ending, w.asked == w.done
		w.mu.Unlock()
		switch {
		case !idle:
			pause := w.s.gap
			if !w.attempt(want, asked) {
				pause = w.s.retry
			}
			if ending {
				return
			}
			select {
			case <-time.After(pause): // the monotonic clock: the wall's may jump
			case <-w.hurry:
			}
		case ending:
			return
		default:
			<-w.wake
		}
	}
}

// attempt brings one wish to the disk, and reports when the disk begins to fail
// or to work again.
func (w *Writer) attempt(want *Entry, asked uint64) bool {
	tried, err := w.apply(want)
	w.mu.Lock()
	news := tried && (err == nil) != (w.err == nil)
	if tried {
		w.err = err
	}
	w.tries++
	if err == nil {
		w.done = asked
	}
	w.moved.Broadcast()
	w.mu.Unlock()
	if news && w.report != nil {
		w.report(err)
	}
	return err == nil
}

// apply does what is wished, and tells whether that tried the disk.
func (w *Writer) apply(want *Entry) (tried bool, err error) {
	if want == nil {
		tried, err = w.file.clear()
	} else {
		var text []byte
		if text, err = want.Text(); err == nil {
			err = w.file.put(Work{Base: want.Base, Step: want.Step, Text: text, When: time.Now()})
		}
		tried = true
	}
	if err != nil {
		err = &Trouble{Folder: w.file.folder, Clearing: want == nil, Err: err}
	}
	return tried, err
}
