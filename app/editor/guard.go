package editor

import (
	"bytes"
	"errors"
	"sync"

	"skep/app/recovery"
	"skep/app/savefile"
)

// guard is the keeper's half that waits for the disk: the lock of the open file, and
// the version before a save. It is for the keeper's jobs, one after the other.
type guard struct {
	store   *recovery.Store
	writer  *recovery.Writer
	trouble func(error)

	path   string           // that the lock is for
	lock   *recovery.Lock   // nil: none is needed, or none could be had
	noLock bool             // it was told that locks can't be had
	later  []*recovery.Left // taken back, but the disk would not take them over
	sweeps sync.WaitGroup
}

// turn leaves one file for another; what it returns is the other window that has it.
func (g *guard) turn(path string) *recovery.Busy {
	if path != "" && g.lock.Holds(path) { // by another of its names
		g.path = path
		return nil
	}
	g.lock.Release()
	g.lock, g.path = nil, path
	if path == "" {
		return nil
	}
	busy := g.claim()
	g.sweeps.Go(func() { g.store.SweepTemporaries(path) })
	return busy
}

// claim tries to get the lock of the file if it is not held.
func (g *guard) claim() (busy *recovery.Busy) {
	if g.path == "" || g.lock.Valid() {
		return nil
	}
	g.lock.Release()
	g.lock, busy = g.take(g.path)
	return busy
}

// take takes the lock of a file.
func (g *guard) take(path string) (lock *recovery.Lock, busy *recovery.Busy) {
	lock, err := g.store.Lock(path)
	if err != nil && !errors.As(err, &busy) && !g.noLock {
		g.noLock = true
		g.trouble(err)
	}
	return lock, busy
}

// over writes over a file, which becomes the one that is locked. own says that it is
// the open one.
func (g *guard) over(w *writing, own bool) (busy *recovery.Busy) {
	if g.lock.Holds(w.path) {
		g.keeping(w)
		return nil
	}
	lock, busy := g.take(w.path)
	if busy != nil {
		return busy
	}
	g.keeping(w)
	if w.err != nil && !own {
		lock.Release()
		return nil
	}
	g.lock.Release()
	g.lock, g.path = lock, w.path
	return nil
}

// keeping writes, and keeps what the file held before.
func (g *guard) keeping(w *writing) {
	// A program that dies between saving and clearing its recovery file must not leave
	// one that is older than the file. If the disk does not take it, so be it.
	_ = g.writer.Flush()
	g.sweeps.Wait()                       // not while we make a temporary file ourselves
	old, missing := savefile.Read(w.path) // whatever it is that hinders, saving will say so
	w.do()
	if w.err == nil && missing == nil && !bytes.Equal(old, w.doc.Source()) {
		if err := g.store.KeepPrevious(w.path, old); err != nil {
			g.trouble(err)
		}
	}
}

// takenBack removes what was left, once it is in the editor's own recovery file.
func (g *guard) takenBack(l *recovery.Left, touched bool) error {
	if touched {
		if err := g.writer.Flush(); err != nil {
			g.later = append(g.later, l) // trouble has heard of it
			return nil
		}
	}
	return l.Discard()
}

func (g *guard) close() {
	g.lock.Release()
	g.lock = nil
	for _, l := range g.later {
		l.Release()
	}
	g.sweeps.Wait()
}
