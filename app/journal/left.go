package journal

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"skep/app/savefile"
)

// Left is unsaved work that a program left when it died. While it is held here
// no other program offers it; Release or Discard must be called.
type Left struct {
	Work
	// File is the journal itself, for a message.
	File string

	path string // of its files, less their endings
	run  uint64
	d    disk
	held holder
}

// Left lists the unsaved work of programs that are no more, the latest first.
// Work that is whole in its file already is none, and its journal goes. A
// journal that can't be read stays, and the error names it; the rest is listed
// all the same.
func (s *Store) Left() ([]*Left, error) {
	names, err := s.d.list(s.journals())
	if err != nil {
		return nil, fmt.Errorf("can't look for unsaved work in %s: %s", s.journals(), cause(err))
	}
	var all []*Left
	var bad []error
	for _, id := range ids(names) {
		switch l, err := s.left(id); {
		case err != nil:
			bad = append(bad, err)
		case l != nil:
			all = append(all, l)
		}
	}
	slices.SortFunc(all, func(a, b *Left) int {
		return cmp.Or(cmp.Compare(b.run, a.run), strings.Compare(a.File, b.File))
	})
	return all, errors.Join(bad...)
}

// ids are the journals that any of their files speaks of.
func ids(names []string) (all []string) {
	for _, name := range names {
		switch ending := filepath.Ext(name); ending {
		case endJournal, endNew, endLock:
			all = append(all, strings.TrimSuffix(name, ending))
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// left is one journal's work, held; nil when its writer lives or there is
// nothing to take back.
func (s *Store) left(id string) (*Left, error) {
	path := filepath.Join(s.journals(), id)
	held, err := s.d.lock(path + endLock)
	if errors.Is(err, errHeld) {
		return nil, nil
	}
	unread := func(why string) error {
		return fmt.Errorf("%s may hold unsaved work but can't be read: %s; it stays there, a text editor shows what it holds", path+endJournal, why)
	}
	if err != nil {
		return nil, unread(cause(err))
	}
	whole, err := s.d.read(path + endJournal)
	if gone(err) != nil {
		held.release()
		return nil, unread(cause(err))
	}
	missing := err != nil
	// Its writer may have died, or the power failed, before a journal made anew
	// took the old one's place: then that is the newest.
	next, _ := s.d.read(path + endNew)
	l := &Left{File: path + endJournal, d: s.d, held: held, path: path}
	var ok bool
	if l.Work, l.run, ok = newest(whole, next); !ok {
		if missing { // what is there holds nothing whole, and was never promised
			return nil, l.Discard()
		}
		held.release()
		return nil, unread("it is damaged")
	}
	if l.settled() {
		return nil, l.Discard()
	}
	return l, nil
}

// settled tells whether the file holds the very same text: the program died
// between saving and clearing.
func (l *Left) settled() bool {
	if l.Base.Path == "" {
		return false
	}
	src, err := savefile.Read(l.Base.Path)
	return err == nil && bytes.Equal(src, l.Text)
}

// Release lets go of the work and leaves it for the next start.
func (l *Left) Release() {
	if l.held != nil {
		l.held.release()
		l.held = nil
	}
}

// Discard removes the work for good: it is taken back and kept elsewhere, or
// the person does not want it.
func (l *Left) Discard() error {
	err := errors.Join(gone(l.d.remove(l.path+endJournal)), gone(l.d.remove(l.path+endNew)))
	l.Release()
	if err != nil {
		return &Trouble{Folder: filepath.Dir(l.File), Clearing: true, Err: err}
	}
	return nil
}
