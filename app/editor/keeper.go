package editor

import (
	"path/filepath"

	"skep/app/recovery"
)

// Keeper sees that nothing of an editor's work is lost: it keeps what is
// unsaved, holds the lock of the open file, and keeps the version before a
// save. Like its editor it is for one goroutine; what it does on the disk is done by
// Jobs, which may run beside it.
type Keeper struct {
	// Beside runs a job and hands its end back to the keeper's goroutine, in the
	// order of the jobs; nil runs it at once.
	Beside func(j Job, then func(error))

	e      *Editor
	store  *recovery.Store
	writer *recovery.Writer
	guard  *guard

	path string         // that the guard was sent to last; the editor's own word for it
	busy *recovery.Busy // another window has the file
}

// Job is something to be done on the disk; what it returns takes up what came of it,
// on the keeper's goroutine. Jobs are done one after the other.
type Job func() (end func() error)

// NewKeeper keeps an editor's work from now on. It listens to the editor's
// Changed and calls on whatever stands there already. trouble hears, once for
// each row of failures, what can't be protected and why, and nil when it can
// again; it is called on other goroutines too. Close must be called.
func NewKeeper(e *Editor, store *recovery.Store, trouble func(error)) *Keeper {
	if trouble == nil {
		trouble = func(error) {}
	}
	k := &Keeper{e: e, store: store, writer: store.Write(trouble)}
	k.guard = &guard{store: store, writer: k.writer, trouble: trouble}
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

// Run does a job, beside the keeper's goroutine or at once.
func (k *Keeper) Run(j Job, then func(error)) {
	if k.Beside == nil {
		then(j()())
		return
	}
	k.Beside(j, then)
}

// now does a job at once.
func now(j Job, err error) error {
	if err != nil {
		return err
	}
	return j()()
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
	k.path, k.busy = path, nil
	k.Run(func() func() error {
		busy := k.guard.turn(path)
		return func() error {
			if k.path == path {
				k.busy = busy
			}
			return nil
		}
	}, func(error) {})
}

// Busy is the other window that has the file open; nil when none has.
func (k *Keeper) Busy() *recovery.Busy { return k.busy }

// Opening reads a file in place of the design, unless that is not wanted any more
// when it has been read. The findings are of the file's text.
func (k *Keeper) Opening(path string, wanted func() bool, opened func(o *Opened, err error)) Job {
	return func() func() error {
		if full, err := filepath.Abs(path); err == nil {
			path = full // from now on nobody asks the disk which folder it is in
		}
		o, err := Read(path)
		var busy *recovery.Busy
		if err == nil {
			busy = k.guard.turn(path)
		}
		return func() error {
			switch {
			case !wanted():
				if err == nil {
					k.turn(k.e.path) // back
				}
				return nil
			case err == nil:
				k.path, k.busy = path, busy
				k.e.Take(o)
			}
			opened(o, err)
			return err
		}
	}
}

// Saving is the editor's Save; the error is a [*recovery.Busy] while another
// window has the file open. gone tells of a file that was not there any more.
func (k *Keeper) Saving(gone *bool) (Job, error) {
	if k.e.path == "" {
		return nil, ErrNoPath
	}
	w, err := k.e.writing(k.e.path, false)
	if err != nil {
		return nil, err
	}
	k.note() // a crash from now on finds the file as it was or as it will be
	return func() func() error {
		busy := k.guard.claim()
		if busy == nil {
			k.guard.keeping(w)
		}
		return func() error {
			if k.path == w.path {
				k.busy = busy
			}
			if busy != nil {
				w.err = busy
			}
			*gone = w.gone && w.err == nil
			return k.e.wrote(w)
		}
	}, nil
}

// Save is Saving at once.
func (k *Keeper) Save() error { return now(k.Saving(new(bool))) }

// SavingOver is the editor's SaveOver; the error is a [*recovery.Busy] while
// another window has that file open.
func (k *Keeper) SavingOver(path string) (Job, error) {
	w, err := k.e.writing(path, true)
	if err != nil {
		return nil, err
	}
	own := path == k.e.path
	k.note()
	return func() func() error {
		busy := k.guard.over(w, own)
		return func() error {
			if busy != nil {
				w.err = busy
			}
			if w.err == nil && w.taken == k.e.taken {
				// The editor tells of its new file: the lock is ours already.
				k.path, k.busy = path, nil
			}
			return k.e.wrote(w)
		}
	}, nil
}

// SaveOver is SavingOver at once.
func (k *Keeper) SaveOver(path string) error { return now(k.SavingOver(path)) }

// Previous is a file with what a file held before its last save; false when there is
// none. It asks the disk.
func (k *Keeper) Previous(path string) (string, bool) {
	if path == "" {
		return "", false
	}
	return k.store.Previous(path)
}

// Left lists the unsaved work of windows that died, the latest first, to be
// offered: TakeBack, Discard or Release each. The error tells of some that
// could not be read; the list is good all the same. It asks the disk.
func (k *Keeper) Left() ([]*recovery.Left, error) { return k.store.Left() }

// TakingBack puts left work into the editor, unsaved as it was. What was left is
// removed only once the work is in the editor's own recovery file, which the job sees
// to; if the disk does not take it, it stays for another start.
func (k *Keeper) TakingBack(l *recovery.Left) (Job, error) {
	if err := k.e.Restore(l.Work); err != nil {
		return nil, err
	}
	touched := k.e.Touched()
	return func() func() error {
		err := k.guard.takenBack(l, touched)
		return func() error { return err }
	}, nil
}

// TakeBack is TakingBack at once.
func (k *Keeper) TakeBack(l *recovery.Left) error { return now(k.TakingBack(l)) }

// Flush waits until the unsaved work is on the disk.
func (k *Keeper) Flush() error { return k.writer.Flush() }

// Close ends the keeping, once all jobs are done. asked says that the person knows of
// what is unsaved and lets it go, or that there is nothing: a clean exit leaves no
// recovery. For any other end the work stays, to be offered at the next start.
func (k *Keeper) Close(asked bool) error {
	err := k.writer.Close(!asked)
	k.guard.close()
	return err
}
