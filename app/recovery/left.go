package recovery

import (
	"bytes"
	"cmp"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"skep/app/savefile"
	"skep/calc/message"
)

// Left is unsaved work that a program left when it died. While it is held here
// no other program offers it; Release or Discard must be called.
type Left struct {
	Work
	// File is the recovery file itself, for a message.
	File string

	held *holder
}

// Left lists the unsaved work of programs that are no more, the latest first.
// Work that is whole in its file already is none, and its recovery file goes. One
// that can't be read stays, and the error names it; the rest is listed all the
// same.
func (s *Store) Left() ([]*Left, error) {
	for _, folder := range []string{s.unsaved(), s.locks()} {
		s.SweepTemporaries(filepath.Join(folder, "any"))
	}
	entries, err := savefile.List(s.unsaved())
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, message.NewError("can't look for unsaved work in {folder}: {why}", s.unsaved(), savefile.Cause(err))
	}
	var ids []string
	for _, e := range entries {
		switch ending := filepath.Ext(e.Name()); ending {
		case endWork, endLock:
			ids = append(ids, strings.TrimSuffix(e.Name(), ending))
		}
	}
	var all []*Left
	var bad []error
	for _, id := range slices.Compact(ids) { // the folder's names come sorted
		switch l, err := s.left(id); {
		case err != nil:
			bad = append(bad, err)
		case l != nil:
			all = append(all, l)
		}
	}
	slices.SortFunc(all, func(a, b *Left) int {
		return cmp.Or(b.When.Compare(a.When), strings.Compare(a.File, b.File))
	})
	return all, errors.Join(bad...)
}

// left is one window's work, held; nil when its program lives or there is
// nothing to take back.
func (s *Store) left(id string) (*Left, error) {
	path := filepath.Join(s.unsaved(), id)
	l := &Left{File: path + endWork}
	unread := func(err error) error {
		return message.NewError("{file} may hold unsaved work but can't be read: {why}; it stays there, a text editor shows what it holds", l.File, savefile.Cause(err))
	}
	var err error
	l.held, err = lock(path + endLock)
	if errors.Is(err, errHeld) {
		return nil, nil
	}
	if err != nil {
		return nil, unread(err)
	}
	data, err := savefile.ReadAtMost(l.File, mostBytes)
	if errors.Is(err, fs.ErrNotExist) {
		l.Release() // only a lock
		return nil, nil
	}
	if err == nil {
		l.Work, err = decode(data)
	}
	if err != nil {
		l.Release()
		return nil, unread(err)
	}
	if l.saved() {
		return nil, l.Discard()
	}
	l.takeUpSave()
	return l, nil
}

// saved tells whether the file holds the very same text: the program died
// between saving and clearing.
func (l *Left) saved() bool {
	if l.Base.Path == "" {
		return false
	}
	src, err := savefile.Read(l.Base.Path)
	return err == nil && bytes.Equal(src, l.Text)
}

// takeUpSave takes up a save that was done when the program died, but not written down:
// what stands in the file is our own hand, and what the work goes on from.
func (l *Left) takeUpSave() {
	if l.Base.Saving == nil {
		return
	}
	src, print, err := savefile.ReadPrint(l.Base.Path)
	if err == nil && print.Same(*l.Base.Saving) {
		l.Base = Base{Path: l.Base.Path, Print: print, OnDisk: true, Text: string(src)}
	}
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
	err := savefile.Remove(l.File)
	l.Release()
	if err != nil {
		return &Trouble{Folder: filepath.Dir(l.File), Clearing: true, Err: err}
	}
	return nil
}
