package journal

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// mostBytes is the length from which a journal is written anew, with the
// newest work alone.
const mostBytes = 1 << 20

// log is the journal file of one window. It is for one goroutine.
type log struct {
	d      disk
	folder string
	id     string

	held holder // the lock that says we live
	f    file   // nil: the file must be written whole
	size int
	seq  uint64
	run  uint64
	base Base
}

func (l *log) path(ending string) string { return filepath.Join(l.folder, l.id+ending) }

const (
	endJournal = ".journal"
	endNew     = ".new"
	endLock    = ".lock"
)

// put brings work to the disk, flushed.
func (l *log) put(b Base, step string, text []byte, when time.Time) error {
	l.seq++
	work, err := record{l.seq, meta{Kind: kindWork, When: when.UnixMilli(), Step: strings.ToValidUTF8(step, "?")}, text}.encode()
	if err != nil {
		return err
	}
	// A folder that vanished would take an append silently; the lock that lay
	// there must be seen by others again.
	if l.f != nil && l.base.same(b) && l.size+len(work) <= mostBytes && l.d.same(l.path(endJournal), l.f) && l.held.valid() {
		if err := write(l.f, work); err == nil {
			l.size += len(work)
			return nil
		}
	}
	// Whatever went wrong, and if only a signal: the whole again, beside what
	// is there.
	return l.rewrite(b, work, when)
}

func write(f file, data []byte) error {
	n, err := f.Write(data)
	if err == nil && n < len(data) {
		err = io.ErrShortWrite
	}
	if err != nil {
		return err
	}
	return f.Sync()
}

// rewrite makes the journal anew: whole or not at all.
func (l *log) rewrite(b Base, work []byte, when time.Time) error {
	l.drop()
	if err := l.live(); err != nil {
		return err
	}
	m := baseMeta(b)
	m.When, m.Run, m.PID = when.UnixMilli(), l.run, os.Getpid()
	// The base comes first, so its number must be below the work's.
	base, err := record{l.seq - 1, m, []byte(b.Text)}.encode()
	if err != nil {
		return err
	}
	f, err := l.d.create(l.path(endNew))
	if err != nil {
		return err
	}
	whole := append(base, work...)
	if err := errors.Join(write(f, whole), f.Close()); err != nil {
		_ = l.d.remove(l.path(endNew)) // the next attempt empties it anyway
		return err
	}
	if err := l.d.rename(l.path(endNew), l.path(endJournal)); err != nil {
		_ = l.d.remove(l.path(endNew))
		return err
	}
	if err := l.d.syncFolder(l.folder); err != nil {
		return err
	}
	// Not being able to go on only costs a whole writing the next time.
	if f, err := l.d.extend(l.path(endJournal)); err == nil {
		l.f, l.size, l.base = f, len(whole), b
	}
	return nil
}

// live makes sure of the folder and of the lock that says we live: before any
// journal of ours is to be seen.
func (l *log) live() error {
	if err := l.d.makeFolder(l.folder); err != nil {
		return err
	}
	if l.held == nil || !l.held.valid() {
		held, err := l.d.lock(l.path(endLock))
		if err != nil {
			return err
		}
		if l.held != nil {
			l.held.release() // of the folder that is gone
		}
		l.held = held
	}
	if l.run == 0 {
		l.run = 1 + latestRun(l.d, l.folder)
	}
	return nil
}

// latestRun is the highest number among the journals there.
func latestRun(d disk, folder string) (latest uint64) {
	names, _ := d.list(folder) // the number only orders a list
	for _, name := range names {
		if strings.HasSuffix(name, endJournal) {
			if data, err := d.read(filepath.Join(folder, name)); err == nil {
				if r, _, ok := decodeOne(data); ok {
					latest = max(latest, r.meta.Run)
				}
			}
		}
	}
	return latest
}

// drop closes the file: the next put writes it whole.
func (l *log) drop() {
	if l.f != nil {
		_ = l.f.Close() // what counted was flushed
		l.f = nil
	}
}

// clear removes the journal: its work is saved or given up. It tells whether
// there was anything to do, so that the disk was tried.
func (l *log) clear() (tried bool, err error) {
	l.drop()
	if l.held == nil {
		return false, nil // never written
	}
	return true, errors.Join(gone(l.d.remove(l.path(endJournal))), gone(l.d.remove(l.path(endNew))))
}

func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// end gives the lock back: what is left counts as left by the dead.
func (l *log) end() {
	l.drop()
	if l.held != nil {
		l.held.release()
		l.held = nil
	}
}
