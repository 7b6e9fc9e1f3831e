package editor

import (
	"bytes"
	"errors"
	"sync"

	"skep/app/recovery"
	"skep/app/savefile"
)

// Keeper sees that nothing of an editor's work is lost: it keeps what is
// unsaved, holds the lock of the open file, and keeps the version before a
// save. Like its editor it is for one goroutine.
type Keeper struct {
	e       *Editor
	store   *recovery.Store
	writer  *recovery.Writer
	trouble func(error)

	path   string           // that the lock is for; the editor's own word for it
	lock   *recovery.Lock   // nil: none is needed, or none could be had
	busy   *recovery.Busy   // another window has the file
	noLock bool             // it was told that locks can't be had
	later  []*recovery.Left // taken back, but the disk would not take them over
	sweeps sync.WaitGroup
}

// NewKeeper keeps an editor's work from now on. It listens to the editor's
// Changed and calls on whatever stands there already. trouble hears, once for
// each row of failures, what can't be protected and why, and nil when it can
// again; it is called on other goroutines too. Close must be called.
func NewKeeper(e *Editor, store *recovery.Store, trouble func(error)) *Keeper {
	if trouble == nil {
		trouble = func(error) {}
	}
	k := &Keeper{e: e, store: store, trouble: trouble, writer: store.Write(trouble)}
	next := e.Changed
	e.Changed = func() {
		k.note()
		if next != nil {
			next()
		}
	}
	k.note()
	return k
}

// note follows the editor: its unsaved work goes to a recovery file, its file is
// locked.
func (k *Keeper) note() {
	if k.e.path != k.path {
		k.turn(k.e.path)
	}
	if !k.e.Touched() {
		k.writer.Clear()
		return
	}
	k.writer.Put(k.e.entry())
}

// turn leaves one file for another.
func (k *Keeper) turn(path string) {
	if path != "" && k.lock.Holds(path) { // by another of its names
		k.path = path
		return
	}
	k.lock.Release()
	k.lock, k.busy, k.path = nil, nil, path
	if path == "" {
		return
	}
	k.claim()
	k.sweeps.Go(func() { k.store.SweepTemporaries(path) })
}

// claim tries to get the lock of the file if it is not held.
func (k *Keeper) claim() {
	if k.path == "" || k.lock.Valid() {
		return
	}
	k.lock.Release()
	lock, err := k.store.Lock(k.path)
	k.lock, k.busy = lock, nil
	if err != nil && !errors.As(err, &k.busy) && !k.noLock {
		k.noLock = true
		k.trouble(err)
	}
}

// Busy is the other window that has the file open; nil when none has.
func (k *Keeper) Busy() *recovery.Busy { return k.busy }

// Save is the editor's Save; the error is a [*recovery.Busy] while another
// window has the file open.
func (k *Keeper) Save() error {
	if k.e.path == "" {
		return ErrNoPath
	}
	if k.claim(); k.busy != nil {
		return k.busy
	}
	return k.keeping(k.e.path, k.e.Save)
}

// SaveOver is the editor's SaveOver; the error is a [*recovery.Busy] while
// another window has that file open.
func (k *Keeper) SaveOver(path string) error {
	save := func() error { return k.e.SaveOver(path) }
	if k.lock.Holds(path) {
		return k.keeping(path, save)
	}
	lock, err := k.store.Lock(path)
	var busy *recovery.Busy
	if errors.As(err, &busy) {
		return busy
	}
	if err != nil && !k.noLock {
		k.noLock = true
		k.trouble(err)
	}
	// The editor tells of its new file while it saves: by then the lock is
	// ours already.
	oldLock, oldBusy, oldPath := k.lock, k.busy, k.path
	k.lock, k.busy, k.path = lock, nil, path
	err = k.keeping(path, save)
	if err != nil && k.e.path != path {
		lock.Release()
		k.lock, k.busy, k.path = oldLock, oldBusy, oldPath
		return err
	}
	oldLock.Release()
	return err
}

// keeping saves, and keeps what the file held before.
func (k *Keeper) keeping(path string, save func() error) error {
	// A program that dies between saving and clearing its recovery file must not leave
	// one that is older than the file. If the disk does not take it, so be it.
	_ = k.writer.Flush()
	k.sweeps.Wait()                     // not while we make a temporary file ourselves
	old, missing := savefile.Read(path) // whatever it is that hinders, saving will say so
	if err := save(); err != nil {
		k.e.replaced(path, err)
		return err
	}
	if missing == nil && !bytes.Equal(old, k.e.doc.Source()) {
		if err := k.store.KeepPrevious(path, old); err != nil {
			k.trouble(err)
		}
	}
	return nil
}

// Previous is a file with what the editor's file held before its last save;
// false when there is none.
func (k *Keeper) Previous() (path string, ok bool) {
	if k.e.path == "" {
		return "", false
	}
	return k.store.Previous(k.e.path)
}

// Left lists the unsaved work of windows that died, the latest first, to be
// offered: TakeBack, Discard or Release each. The error tells of some that
// could not be read; the list is good all the same.
func (k *Keeper) Left() ([]*recovery.Left, error) { return k.store.Left() }

// TakeBack puts left work into the editor, unsaved as it was. What was left is
// removed only once the work is in the editor's own recovery file; if the disk does
// not take it, it stays for another start.
func (k *Keeper) TakeBack(l *recovery.Left) error {
	if err := k.e.Restore(l.Work); err != nil {
		return err
	}
	if k.e.Touched() {
		if err := k.writer.Flush(); err != nil {
			k.later = append(k.later, l) // trouble has heard of it
			return nil
		}
	}
	return l.Discard()
}

// Flush waits until the unsaved work is on the disk.
func (k *Keeper) Flush() error { return k.writer.Flush() }

// Close ends the keeping. asked says that the person knows of what is unsaved
// and lets it go, or that there is nothing: a clean exit leaves no recovery. For
// any other end the work stays, to be offered at the next start.
func (k *Keeper) Close(asked bool) error {
	err := k.writer.Close(!asked)
	k.lock.Release()
	k.lock = nil
	for _, l := range k.later {
		l.Release()
	}
	k.sweeps.Wait()
	return err
}
